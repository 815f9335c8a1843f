// Goes on to the truck. If it cannot be loaded, the files are still packed, and the page says so.
(function () {
  "use strict";
  location.replace(document.querySelector("[data-open]").href);
})();
