// On a page opened by the code on a card: say whether that card is out of date, and if it is, what
// has changed since. All that it says stands in the page: it only picks the revisions that came
// after the one in hand. The page reads the same without it.
(function () {
  "use strict";

  var DIGITS = 8;

  function show(selector) {
    var notice = document.querySelector(selector);
    if (notice) {
      notice.hidden = false;
    }
    return notice;
  }

  // Newest first, as the page lists them. Where a guide went back to what it was before, two
  // revisions have the same digits, and the newer one says what is true of the card.
  function revisions() {
    return Array.from(document.querySelectorAll("[data-revision][data-digits]"));
  }

  // Copies of the revisions, without the marks by which the page itself is read.
  function listSince(list, newer) {
    newer.forEach(function (entry) {
      var copy = entry.cloneNode(true);
      [copy].concat(Array.from(copy.querySelectorAll("*"))).forEach(function (element) {
        Object.keys(element.dataset).forEach(function (name) {
          delete element.dataset[name];
        });
      });
      list.append(copy);
    });
    list.closest("[data-card-since]").hidden = false;
  }

  // The code on a card holds the first digits of the edition that it was printed from.
  function judgeCard(printed) {
    var guide = document.querySelector("[data-guide]");
    if (!printed || !guide) {
      return;
    }
    if (guide.dataset.edition.slice(0, DIGITS) === printed) {
      show("[data-card-current]");
      return;
    }
    var told = revisions();
    var place = told.findIndex(function (entry) {
      return entry.dataset.digits === printed;
    });
    if (told.length && place < 0) {
      show("[data-card-unknown]");
      return;
    }
    var notice = show("[data-card-stale]");
    if (place > 0) {
      listSince(notice.querySelector("[data-card-changes]"), told.slice(0, place));
    }
  }

  judgeCard(new URLSearchParams(location.search).get("r"));
})();
