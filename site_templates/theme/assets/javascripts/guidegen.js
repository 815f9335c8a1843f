// Four small aids; every page reads the same without them.
// 1. On the fleet page: a filter over the list of trucks.
// 2. In the results of a search: show all procedures of a chapter, not only the best.
// 3. In a copy opened from a folder: say that search cannot work there, instead of a dead box.
// 4. In a quiz: say of the answer that is chosen whether it is right, and where to read it. What is
//    right stands in the key at the foot of the page; nothing is kept.
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

  function showAllResults(list) {
    new MutationObserver(function () {
      list.querySelectorAll("details").forEach(function (more) {
        more.open = true;
      });
    }).observe(list, { childList: true, subtree: true });
  }

  function startQuestion(question) {
    var key = Array.from(document.querySelectorAll("[data-key]")).find(function (row) {
      return row.dataset.key === question.dataset.question;
    });
    var right = document.querySelector(".gg-key [data-label=right_answer]");
    var verdict = document.createElement("p");
    if (!key || !right) {
      return;
    }
    verdict.className = "gg-verdict";
    verdict.setAttribute("role", "status");
    question.append(verdict);

    function tell(isRight) {
      var word = document.createElement("b");
      var link = key.querySelector("a").cloneNode(true);
      word.textContent = isRight ? right.textContent : "Not " + right.textContent.toLowerCase();
      verdict.replaceChildren(word, link);
    }

    question.querySelectorAll("[data-answer]").forEach(function (answer) {
      var button = document.createElement("button");
      button.type = "button";
      button.className = "gg-answer__button";
      button.append.apply(button, Array.from(answer.childNodes));
      answer.append(button);
      button.addEventListener("click", function () {
        var isRight = answer.dataset.answer === key.querySelector("[data-letter]").dataset.letter;
        question.querySelectorAll(".gg-answer__button").forEach(function (other) {
          other.className = "gg-answer__button";
          other.setAttribute("aria-pressed", String(other === button));
        });
        button.classList.add("gg-answer__button--" + (isRight ? "right" : "wrong"));
        tell(isRight);
      });
    });
  }

  document.querySelectorAll("[data-question]").forEach(startQuestion);
  document.querySelectorAll("[data-find-form]").forEach(startFinder);
  document.querySelectorAll(".md-search-result__list").forEach(showAllResults);
  if (location.protocol === "file:") {
    sayNoSearch();
  }
})();
