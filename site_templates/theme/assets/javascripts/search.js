// The search box of one truck, over that truck's own texts. Forgives misspellings and finds the
// beginnings of words. Without it the list of all there is stands below, by the alphabet.
(function () {
  "use strict";

  var MOST = 30;
  var AROUND = 60;
  var form = document.querySelector("[data-search-form]");
  var data = window.guideSearch;
  if (!form || !data || !window.MiniSearch) {
    return;
  }
  var input = form.querySelector("input");
  var count = form.querySelector("[data-search-count]");
  var list = form.querySelector("[data-search-results]");
  var all = document.querySelector(".gg-index");

  var chapters = {};
  var entries = data.docs.filter(function (entry) {
    var isPage = entry.location.indexOf("#") < 0;
    if (isPage) {
      chapters[entry.location] = entry.title;
    }
    return !isPage;
  });
  var byLocation = {};
  entries.forEach(function (entry) {
    entry.chapter = chapters[entry.location.split("#")[0]] || "";
    byLocation[entry.location] = entry;
  });
  var index = new window.MiniSearch({
    idField: "location",
    fields: ["title", "chapter", "text"],
    // Accents on letters are no obstacle in a glove.
    processTerm: function (term) {
      return term.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
    },
    searchOptions: {
      boost: { title: 4, chapter: 2 },
      prefix: true,
      // One slip in four letters, two in eight; short words and numbers must be right.
      fuzzy: function (term) {
        return /\d/.test(term) || term.length < 4 ? false : 0.25;
      },
      maxFuzzy: 2,
    },
  });
  index.addAll(entries);

  // All words first; if no text holds all of them, those that hold some.
  function find(words) {
    var found = index.search(words, { combineWith: "AND" });
    return found.length ? found : index.search(words);
  }

  // Puts *text* into *element*, the words that were found in it marked.
  function fill(element, text, terms) {
    var escaped = terms.map(function (term) {
      return term.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    });
    var pattern = new RegExp("(" + escaped.join("|") + ")", "gi");
    text.split(pattern).forEach(function (part, place) {
      var isFound = place % 2 === 1;
      var node = isFound ? document.createElement("mark") : document.createTextNode(part);
      if (isFound) {
        node.textContent = part;
      }
      element.append(node);
    });
  }

  // The stretch of *text* around the first word that was found.
  function stretch(text, terms) {
    var lower = text.toLowerCase();
    var places = terms
      .map(function (term) {
        return lower.indexOf(term.toLowerCase());
      })
      .filter(function (place) {
        return place >= 0;
      });
    var first = places.length ? Math.min.apply(null, places) : 0;
    var start = first > AROUND ? text.indexOf(" ", first - AROUND) + 1 : 0;
    var end = text.indexOf(" ", first + 2 * AROUND);
    return (start > 0 ? "… " : "") + (end > 0 ? text.slice(start, end) + " …" : text.slice(start));
  }

  function row(result) {
    var entry = byLocation[result.id];
    var item = document.createElement("li");
    var link = document.createElement("a");
    var parts = { b: entry.title, small: entry.chapter, span: stretch(entry.text, result.terms) };
    link.className = "gg-row gg-found__row";
    link.href = entry.location;
    Object.keys(parts).forEach(function (tag) {
      var element = document.createElement(tag);
      fill(element, parts[tag], result.terms);
      link.append(element);
    });
    item.append(link);
    return item;
  }

  function show() {
    var words = input.value.trim();
    var found = words ? find(words) : [];
    list.replaceChildren.apply(list, found.slice(0, MOST).map(row));
    all.hidden = words !== "" && found.length > 0;
    if (!words) {
      count.textContent = "";
    } else if (found.length) {
      count.textContent = found.length + (found.length === 1 ? " procedure" : " procedures");
    } else {
      count.textContent = "Nothing found. All procedures of this truck stand below.";
    }
  }

  form.addEventListener("submit", function (event) {
    event.preventDefault();
    input.blur();
  });
  input.addEventListener("input", show);
  form.hidden = false;
  show();
})();
