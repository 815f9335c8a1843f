// In a quiz: says of the answer that is chosen whether it is right, and where to read it. What is
// right stands in the key at the foot of the page; nothing is kept.
(function () {
  "use strict";

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
})();
