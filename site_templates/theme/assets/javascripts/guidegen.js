// On a page opened by the code on a card: says whether that card is out of date.
(function () {
  "use strict";

  // The code on a card holds the first digits of the edition that it was printed from.
  function judgeCard(printed) {
    var guide = document.querySelector("[data-guide]");
    if (!printed || !guide) {
      return;
    }
    var isCurrent = guide.dataset.edition.startsWith(printed);
    var notice = document.querySelector(isCurrent ? "[data-card-current]" : "[data-card-stale]");
    notice.hidden = false;
  }

  judgeCard(new URLSearchParams(location.search).get("r"));
})();
