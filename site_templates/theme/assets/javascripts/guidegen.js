// Four small aids; every page reads the same without them.
// 1. On the fleet page: a filter over the list of trucks.
// 2. In the results of a search: show all procedures of a chapter, not only the best.
// 3. On a page opened by the code on a card: say whether that card is out of date.
// 4. In a copy opened from a folder: say that search cannot work there, instead of a dead box.
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

  function sayNoSearch() {
    document.querySelectorAll("[data-search-button], [data-md-component=search]").forEach(
      function (element) {
        element.hidden = true;
      }
    );
    document.querySelectorAll("[data-no-search]").forEach(function (element) {
      element.hidden = false;
    });
  }

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

  function showAllResults(list) {
    new MutationObserver(function () {
      list.querySelectorAll("details").forEach(function (more) {
        more.open = true;
      });
    }).observe(list, { childList: true, subtree: true });
  }

  document.querySelectorAll("[data-find-form]").forEach(startFinder);
  document.querySelectorAll(".md-search-result__list").forEach(showAllResults);
  judgeCard(new URLSearchParams(location.search).get("r"));
  if (location.protocol === "file:") {
    sayNoSearch();
  }
})();
