// On the fleet page: a filter over the list of trucks. Without it the whole list stands.
(function () {
  "use strict";

  function startFinder(form) {
    var input = form.querySelector("input");
    var count = form.querySelector("[data-find-count]");
    var yards = Array.from(document.querySelectorAll("[data-yard]"), function (yard) {
      return { element: yard, trucks: Array.from(yard.querySelectorAll("[data-find]")) };
    });
    var total = document.querySelectorAll("[data-find]").length;

    function filter() {
      var words = input.value.toLowerCase().split(/\s+/).filter(Boolean);
      var shown = 0;
      yards.forEach(function (yard) {
        var inYard = 0;
        yard.trucks.forEach(function (truck) {
          var found = words.every(function (word) {
            return truck.dataset.find.includes(word);
          });
          truck.hidden = !found;
          inYard += found ? 1 : 0;
        });
        yard.element.hidden = inYard === 0;
        shown += inYard;
      });
      count.textContent = shown + " of " + total + " trucks";
    }

    // Enter goes to the truck if only one is left.
    form.addEventListener("submit", function (event) {
      event.preventDefault();
      var left = document.querySelectorAll("[data-find]:not([hidden]) a");
      if (left.length === 1) {
        left[0].click();
      }
    });
    input.addEventListener("input", filter);
    form.hidden = false;
    filter();
  }

  document.querySelectorAll("[data-find-form]").forEach(startFinder);
})();
