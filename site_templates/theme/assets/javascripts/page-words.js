// What the scripts of the round and of timers share: the words that they show, which the page brings
// in a template, and elements made of them. Words only ever become text, never markup.
(function () {
  "use strict";

  var tablet = (window.guidegen = window.guidegen || {});
  var found = {};
  document.querySelectorAll("template[data-script-words]").forEach(function (template) {
    template.content.querySelectorAll("[data-script-word]").forEach(function (word) {
      found[word.dataset.scriptWord] = word.textContent;
    });
  });

  // The words of a key, each name in braces filled in.
  tablet.words = function (key, values) {
    var text = found[key] || "";
    return text.replace(/\{([a-z]+)\}/g, function (whole, name) {
      return values && name in values ? String(values[name]) : whole;
    });
  };

  tablet.hasWords = function (key) {
    return key in found;
  };

  tablet.make = function (tag, className, text) {
    var element = document.createElement(tag);
    element.className = className;
    if (text) {
      element.textContent = text;
    }
    return element;
  };

  tablet.button = function (className, text, act) {
    var button = tablet.make("button", className, text);
    button.type = "button";
    button.addEventListener("click", act);
    return button;
  };

  // Everything that a script adds to a page stands in an element that says so.
  tablet.madeByScript = function (element) {
    element.setAttribute("data-by-script", "");
    return element;
  };

  tablet.when = function (time) {
    var format = { dateStyle: "medium", timeStyle: "short" };
    return new Intl.DateTimeFormat(document.documentElement.lang || "en", format).format(
      new Date(time)
    );
  };
})();
