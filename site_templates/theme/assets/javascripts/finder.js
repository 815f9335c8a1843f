// Finds a truck by part of its number, plate, make or yard, as the driver types.
// In a small fleet all trucks stand on the page, and those that do not match are hidden. In a large
// one the trucks are loaded as a table, and the best matches are shown as rows. Without this script
// the lists stay as they are.
(function () {
  "use strict";

  var MOST_SHOWN = 40;

  function squash(text) {
    return text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");
  }

  function wordsOf(text) {
    return text.toLowerCase().split(/\s+/).filter(Boolean);
  }

  // 0 is the truck itself, larger is farther off, -1 is no match.
  function rank(truck, asked, words) {
    if (asked) {
      if (truck.key === asked) {
        return 0;
      }
      if (truck.digits === asked) {
        return 1;
      }
      if (truck.key.startsWith(asked)) {
        return 2;
      }
      if (truck.key.includes(asked)) {
        return 3;
      }
      if (truck.plateKey.includes(asked)) {
        return 4;
      }
    }
    return words.every(function (word) {
      return truck.text.includes(word);
    })
      ? 5
      : -1;
  }

  // Trucks are sorted by number, and stay so among equals.
  function best(trucks, typed) {
    var asked = squash(typed);
    var words = wordsOf(typed);
    var shelves = [[], [], [], [], [], []];
    trucks.forEach(function (truck) {
      var place = rank(truck, asked, words);
      if (place >= 0) {
        shelves[place].push(truck);
      }
    });
    return [].concat.apply([], shelves);
  }

  function truckOf(table, row) {
    var name = table.names[row[2]];
    var body = table.bodies[row[3]];
    var yard = table.yards[row[4]];
    return {
      number: row[0],
      plate: row[1],
      name: name,
      what: [body, row[1]].filter(Boolean).join(" \u00b7 "),
      yard: yard,
      key: squash(row[0]),
      digits: row[0].replace(/\D/g, "").replace(/^0+/, ""),
      plateKey: squash(row[1]),
      text: [row[0], row[1], name, body, yard].join(" ").toLowerCase(),
    };
  }

  function element(name, text, into) {
    var made = document.createElement(name);
    made.textContent = text;
    into.append(made);
    return made;
  }

  function rowOf(truck) {
    var item = document.createElement("li");
    var link = element("a", "", item);
    var about = document.createElement("span");
    link.className = "gg-row";
    link.href = encodeURIComponent(truck.number) + "/index.html";
    element("b", truck.number, link);
    element("span", truck.name, about);
    about.append(document.createElement("br"));
    element("span", [truck.what, truck.yard].filter(Boolean).join(" \u00b7 "), about);
    link.append(about);
    return item;
  }

  function startTable(form, trucks) {
    var input = form.querySelector("input");
    var count = form.querySelector("[data-find-count]");
    var results = document.querySelector("[data-find-results]");
    var list = element("ul", "", results);

    function show() {
      var isAsked = squash(input.value) !== "";
      var found = isAsked ? best(trucks, input.value) : [];
      var shown = found.slice(0, MOST_SHOWN);
      list.replaceChildren.apply(list, shown.map(rowOf));
      results.hidden = !isAsked;
      document.querySelectorAll("[data-yard]").forEach(function (yard) {
        yard.hidden = isAsked;
      });
      count.textContent = isAsked
        ? found.length + " of " + trucks.length + " trucks" +
          (found.length > shown.length ? ", the first " + shown.length + " shown" : "")
        : trucks.length + " trucks";
    }

    form.addEventListener("submit", function (event) {
      var found = best(trucks, input.value);
      event.preventDefault();
      if (found.length && (found.length === 1 || rank(found[0], squash(input.value), []) < 2)) {
        list.querySelector("a").click();
      }
    });
    input.addEventListener("input", show);
    form.hidden = false;
    show();
  }

  function startList(form) {
    var input = form.querySelector("input");
    var count = form.querySelector("[data-find-count]");
    var yards = Array.from(document.querySelectorAll("[data-yard]"), function (yard) {
      return { element: yard, trucks: Array.from(yard.querySelectorAll("[data-find]")) };
    });
    var total = document.querySelectorAll("[data-find]").length;

    function isFound(truck, words) {
      var number = squash(truck.dataset.unit);
      return words.every(function (word) {
        var key = squash(word);
        return truck.dataset.find.includes(word) || (key && number.includes(key));
      });
    }

    function filter() {
      var words = wordsOf(input.value);
      var shown = 0;
      yards.forEach(function (yard) {
        var inYard = 0;
        yard.trucks.forEach(function (truck) {
          var found = isFound(truck, words);
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

  // Where the table cannot be loaded, as in a folder without a server, the yards' pages remain.
  function load(form) {
    fetch(form.dataset.findList)
      .then(function (answer) {
        return answer.ok ? answer.json() : Promise.reject(answer.status);
      })
      .then(function (table) {
        startTable(
          form,
          table.trucks.map(function (row) {
            return truckOf(table, row);
          })
        );
      })
      .catch(function () {
        form.hidden = true;
      });
  }

  document.querySelectorAll("[data-find-form]").forEach(function (form) {
    if (form.dataset.findList) {
      load(form);
    } else {
      startList(form);
    }
  });
})();
