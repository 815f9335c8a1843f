"""Inspection rounds with a stop, a place, a state or a number that is not the truck's."""

import re
from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Element, Plant, elements, elements_of, exchanged, moved, some

from guidegen.procedures.words import LABELS, STATIONS
from guidegen.round.acts import ACTS
from guidegen.round.reasons import PREMISES

_SHAPE = re.compile(r"<(?:rect|polyline|polygon|circle)\b[^>]*/>")
_PLACE = re.compile(r' x="([0-9.]+)" y="([0-9.]+)"')
_NUMBERS = re.compile(r"[0-9][0-9, \u2013]*")

DIFFERS = frozenset({"stop-differs"})
FIGURE = frozenset({"figure-differs"})
_HIDING = (
    *('style="display:none"', 'style="opacity:0"', 'visibility="hidden"', 'opacity="0"'),
    *('display="none"', 'transform="scale(0.01)"', 'style="fill:none"', "hidden"),
    *('clip-path="url(#a)"', 'filter="url(#b)"', 'class="unseen"'),
)
UNCLAIMED = frozenset({"unclaimed-text", "unclaimed-mark"})


def stops_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """A stop gone, twice, or made up."""
    for path, stops in _rounds(site, unit):
        for stop in some(stops, 4):
            missing = frozenset({"stop-missing"})
            page = stop.with_outer("").encode()
            yield Plant(f"no stop {stop.key}", path, page, missing, unit)
            too_many = frozenset({"stop-too-many"})
            page = stop.with_outer(stop.outer * 2).encode()
            yield Plant(f"stop {stop.key} twice", path, page, too_many, unit)
            other = stop.outer.replace(f'data-stop="{stop.key}"', 'data-stop="99"', 1)
            page = stop.with_outer(stop.outer + other).encode()
            yield Plant(f"stop {stop.key} again as stop 99", path, page, too_many, unit)
            bare = stop.with_outer(stop.inner).encode()
            rules = missing | UNCLAIMED
            yield Plant(f"stop {stop.key} without its element", path, bare, rules, unit)


def stops_exchanged(site: Site, unit: str) -> Iterator[Plant]:
    """Two stops as wholes at each other's places, or one with what is in the other."""
    for path, stops in _rounds(site, unit):
        order = frozenset({"stop-out-of-order"})
        page = moved(stops[0], stops[-1].end).encode()
        yield Plant("the first stop last", path, page, order, unit)
        page = moved(stops[-1], stops[0].start).encode()
        yield Plant("the last stop first", path, page, order, unit)
        page = moved(stops[1], stops[0].start).encode()
        yield Plant("the second stop before the first", path, page, order, unit)
        page = exchanged(stops[0], stops[-1]).encode()
        yield Plant("two stops with each other's content", path, page, DIFFERS, unit)
        whole = stops[1].page
        # A list entry ends where the next begins, but for a section between them.
        inside = f"<section>{stops[1].outer}</section>{whole[stops[0].inner_end : stops[0].end]}"
        inside = whole[: stops[0].inner_end] + inside + whole[stops[1].end :]
        yield Plant("a stop in another", path, inside.encode(), DIFFERS, unit)


def stops_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Another station, state, act or reason, by mark and words; one gone; one too many."""
    others = {
        "data-station": ("right_rear", STATIONS["right_rear"]),
        "data-state": ("truck.moving", "truck moving"),
        "data-act": ("neutral", ACTS["neutral"]),
        "data-why": ("1.any_time", "At any time, and here it costs the least walk."),
    }
    unknown = DIFFERS | {"unclaimed-mark", "label-misplaced"}
    for path, stops in _rounds(site, unit):
        for mark, (key, words) in others.items():
            for text in some(_inside(stops, elements(stops[0].page, mark)), 4):
                what = f"{mark} {text.key}"
                outer = text.outer.replace(f'"{text.key}"', f'"{key}"', 1)
                outer = outer.replace(text.inner, words)
                page = text.with_outer(outer).encode()
                yield Plant(f"{what} to {key}", path, page, unknown, unit)
                page = text.with_inner(words).encode()
                read = frozenset({"label-not-read-back"})
                yield Plant(f"{what} with other words", path, page, read, unit)
                page = text.with_outer("").encode()
                yield Plant(f"no {what}", path, page, unknown, unit)
                page = text.with_outer(text.outer * 2).encode()
                yield Plant(f"{what} twice", path, page, DIFFERS, unit)
        acts = _inside(stops, elements(stops[0].page, "data-act"))
        if acts:
            stop = next(each for each in stops if each.start < acts[0].start < each.end)
            page = moved(acts[0], stop.inner_end).encode()
            order = frozenset({"text-out-of-order"})
            yield Plant("an act after its stop", path, page, order, unit)


def stops_led_elsewhere(site: Site, unit: str) -> Iterator[Plant]:
    """Titles that lead to another procedure or nowhere, and of other procedures or trucks."""
    astray = frozenset({"link-to-other-place", "contents-differ"})
    for path, stops in _rounds(site, unit):
        titles = _inside(stops, elements(stops[0].page, "data-procedure-link"))
        for one, other in zip(titles, (*titles[1:], titles[0]), strict=True):
            href, another = (_href(each) for each in (one, other))
            if href == another:
                continue
            what = f"the title {one.key} to {another}"
            page = one.with_outer(one.outer.replace(href, another, 1)).encode()
            yield Plant(what, path, page, astray, unit)
            chapter = one.outer.replace(href, href.partition("#")[0], 1)
            page = one.with_outer(chapter).encode()
            yield Plant(f"the title {one.key} to its chapter", path, page, astray, unit)
            dead = one.outer.replace(f' href="{href}"', "", 1)
            page = one.with_outer(dead).encode()
            yield Plant(f"the title {one.key} nowhere", path, page, astray, unit)
            page = one.with_outer(other.outer).encode()
            yield Plant(f"{other.key} in place of {one.key}", path, page, DIFFERS, unit)
        foreign = (
            titles[0]
            .outer.replace(titles[0].key, "pedal-check")
            .replace(titles[0].inner, "Check the brake pedal")
        )
        rules = frozenset({"step-that-does-not-apply"})
        page = titles[0].with_outer(foreign).encode()
        yield Plant("another truck's stop", path, page, rules, unit)


def waiting_cautions_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Signal words that wait at a stop: gone, twice, milder, as others, without symbol or label."""
    signal, alert = "signal-word-differs", "alert-symbol-differs"
    for path, stops in _rounds(site, unit):
        page = stops[0].page
        for one in some(_inside(stops, elements(page, "data-waiting")), 4):
            raw = one.with_outer("").encode()
            rules = frozenset({signal, alert})
            yield Plant(f"no {one.key}", path, raw, rules, unit)
            raw = one.with_outer(one.outer * 2).encode()
            yield Plant(f"{one.key} twice", path, raw, rules, unit)
            milder = "CAUTION" if one.key != "CAUTION" else "NOTICE"
            raw = one.with_outer(one.outer.replace(one.key, milder)).encode()
            yield Plant(f"{one.key} as {milder}", path, raw, rules, unit)
            drawn = one.outer.replace(f'data-signal="{one.key}"', f'data-signal="{milder}"')
            raw = one.with_outer(drawn).encode()
            yield Plant(f"{one.key} drawn as {milder}", path, raw, frozenset({signal}), unit)
            if "<svg" in one.outer:
                bare = re.sub(r"<svg.*?</svg>", "", one.outer, flags=re.DOTALL)
                raw = one.with_outer(bare).encode()
                yield Plant(f"{one.key} without symbol", path, raw, frozenset({alert}), unit)
            far = moved(one, stops[0].start).encode()
            yield Plant(f"{one.key} before the stops", path, far, rules | UNCLAIMED, unit)
        for label in some(_inside(stops, elements(page, "data-label", "read_first"))):
            raw = label.with_outer("").encode()
            rules = frozenset({"label-misplaced"})
            yield Plant("signal words without their label", path, raw, rules, unit)


def round_labels_changed(site: Site, unit: str) -> Iterator[Plant]:
    """What stands around the stops gone or after them; a premise that is another truck's."""
    missing = frozenset({"text-missing"})
    for path, stops in _rounds(site, unit):
        page, end = stops[0].page, stops[-1].end
        body = page.index("data-guide=")
        for key in ("park_first", "handbook_first", "open_each", "round"):
            for label in elements(page, "data-label", key):
                if body < label.start < page.rindex("data-guide-nav"):
                    raw = label.with_outer("").encode()
                    yield Plant(f"no {key}", path, raw, missing, unit)
                    raw = moved(label, end).encode()
                    yield Plant(f"{key} after the stops", path, raw, missing, unit)
        for premise in elements(page, "data-premise"):
            raw = premise.with_outer("").encode()
            yield Plant(f"no premise {premise.key}", path, raw, missing, unit)
            raw = moved(premise, end).encode()
            yield Plant(f"premise {premise.key} last", path, raw, missing, unit)
            more = f'{premise.outer}<p data-premise="length">{PREMISES["length"]}</p>'
            raw = premise.with_outer(more).encode()
            yield Plant("a premise of another truck", path, raw, missing, unit)


def stop_headings_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Headings in a stop gone, exchanged or over nothing; words and values of nobody."""
    misplaced = frozenset({"label-misplaced"})
    additions = (
        ('<p data-label="if_not">If not</p>', misplaced),
        ("<p>Skip it in rain.</p>", UNCLAIMED),
        (f'<p data-fact="identity.number">{unit}</p>', DIFFERS),
        ('<p data-chapter="air-brakes">Air brakes</p>', DIFFERS | {"step-that-does-not-apply"}),
        ('<p data-station="rear">behind the truck</p>', DIFFERS),
    )
    for path, stops in _rounds(site, unit):
        page = stops[0].page
        for stop in some(stops):
            labels = _inside([stop], elements(page, "data-label"))
            for label in labels:
                raw = label.with_outer("").encode()
                yield Plant(f"no label {label.key}", path, raw, misplaced, unit)
            first, last = labels[0], labels[-1]
            outer = last.outer.replace(last.key, first.key).replace(last.inner, first.inner)
            raw = last.with_outer(outer).encode()
            yield Plant(f"{last.key} as {first.key}", path, raw, misplaced, unit)
            for addition, rules in additions:
                raw = (page[: stop.inner_end] + addition + page[stop.inner_end :]).encode()
                yield Plant(f"a stop with {addition}", path, raw, rules, unit)


def plans_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Numbers of the plan changed, dropped, twice, and at each other's places."""
    read = FIGURE | {"label-not-read-back"}
    for path, _ in _rounds(site, unit):
        plan = _plan(site, path)
        writing = _inside([plan], elements(plan.page, "data-plan"))
        numbers = [each for each in writing if _NUMBERS.fullmatch(each.inner)]
        for line in some(numbers, 4):
            first = re.search(r"[0-9]", line.inner)
            assert first is not None
            digit = str((int(first[0]) + 1) % 10)
            inner = line.inner[: first.start()] + digit + line.inner[first.end() :]
            page = line.with_inner(inner).encode()
            yield Plant(f"{line.inner} to {inner} in the plan", path, page, read, unit)
            page = line.with_outer("").encode()
            yield Plant(f"no {line.inner} in the plan", path, page, FIGURE, unit)
            page = line.with_outer(line.outer * 2).encode()
            yield Plant(f"{line.inner} twice in the plan", path, page, FIGURE, unit)
        one, two = numbers[0], numbers[-1]
        page = exchanged(one, two).encode()
        yield Plant("the numbers of two places exchanged", path, page, read, unit)
        first_place, last_place = (_PLACE.search(each.outer) for each in (one, two))
        assert first_place is not None
        assert last_place is not None
        page_text = two.with_outer(two.outer.replace(last_place[0], first_place[0], 1))
        turned = one.outer.replace(first_place[0], last_place[0], 1)
        page = (page_text[: one.start] + turned + page_text[one.end :]).encode()
        yield Plant("numbers at each other's places", path, page, FIGURE, unit)


def plans_redrawn(site: Site, unit: str) -> Iterator[Plant]:
    """Shapes dropped and covered, words of nobody, other words for those who do not see it."""
    for path, _ in _rounds(site, unit):
        plan = _plan(site, path)
        for words in _inside([plan], elements(plan.page, "data-plan-words")):
            page = words.with_outer("").encode()
            yield Plant(f"no {words.key} of the plan", path, page, FIGURE, unit)
            page = words.with_inner(words.inner.replace("t", "d", 1)).encode()
            yield Plant(
                f"another {words.key} of the plan",
                path,
                page,
                FIGURE | {"label-not-read-back"},
                unit,
            )
        shapes = list(_SHAPE.finditer(plan.page, plan.start, plan.end))
        for shape in (shapes[0], shapes[len(shapes) // 2], shapes[-1]):
            cut = plan.page[: shape.start()] + plan.page[shape.end() :]
            yield Plant(f"no {shape[0]}", path, cut.encode(), FIGURE, unit)
        cover = '<rect x="0" y="0" width="900" height="900" fill="currentColor"/>'
        page = (plan.page[: plan.inner_end] + cover + plan.page[plan.inner_end :]).encode()
        yield Plant("a shape over the plan", path, page, FIGURE, unit)
        for extra in ("<title>Plan</title>", '<text x="9" y="9">12</text>', "12", "<desc>a</desc>"):
            page = (plan.page[: plan.inner_end] + extra + plan.page[plan.inner_end :]).encode()
            rules = FIGURE | UNCLAIMED | {"element-not-readable"}
            yield Plant(f"the plan with {extra}", path, page, rules, unit)
        page = plan.with_outer("").encode()
        yield Plant("no plan", path, page, frozenset({"figure-missing"}), unit)
        yield Plant("two plans", path, plan.with_outer(plan.outer * 2).encode(), FIGURE, unit)


def plans_hidden(site: Site, unit: str) -> Iterator[Plant]:
    """The plan, a stop or a part of either hidden by attributes and stylesheets."""
    for path, stops in _rounds(site, unit):
        plan = _plan(site, path)
        hidden = frozenset({"figure-hidden", "figure-differs"})
        for attribute in ("hidden", 'style="display:none"', 'style="opacity:0"', 'display="none"'):
            page = plan.with_attribute(attribute).encode()
            yield Plant(f"the plan with {attribute}", path, page, hidden, unit)
        writing = _inside([plan], elements(plan.page, "data-plan"))
        for place, attribute in enumerate(_HIDING):
            page = writing[place % len(writing)].with_attribute(attribute).encode()
            yield Plant(f"writing of the plan with {attribute}", path, page, hidden, unit)
        bare = writing[-1].outer.replace('fill="currentColor"', 'fill="none"')
        page = writing[-1].with_outer(bare).encode()
        yield Plant("writing of the plan without ink", path, page, hidden, unit)
        page = writing[-1].with_outer(f"<g>{writing[-1].outer}</g>").encode()
        yield Plant("writing of the plan in a group", path, page, FIGURE, unit)
        for stop in some(stops):
            for attribute in ("hidden", 'style="display:none"', 'aria-hidden="true"'):
                page = stop.with_attribute(attribute).encode()
                rules = frozenset({"text-hidden"})
                yield Plant(f"stop {stop.key} with {attribute}", path, page, rules, unit)
        sheet = next(each for each in sorted(site.files) if each.endswith(".css"))
        css = site.files[sheet].decode()
        for extra, rule in (
            ("[data-stop] { display: none }", "text-hidden"),
            ("[data-act] { visibility: hidden }", "text-hidden"),
            ("[data-waiting] { opacity: 0 }", "text-hidden"),
            ("[data-stop] { order: 2 }", "text-out-of-order"),
            ("[data-plan] { display: none }", "figure-hidden"),
            ("svg polyline { stroke: transparent }", "figure-hidden"),
            ("svg rect { display: none }", "figure-hidden"),
        ):
            raw = f"{css}\n{extra}\n".encode()
            yield Plant(extra, sheet, raw, frozenset({rule}), unit)


def ways_to_rounds_changed(site: Site, unit: str) -> Iterator[Plant]:
    """No way to the round on the start page or in the navigation; a way where there is no round."""
    start = f"{unit}/index.html"
    page = site.files[start].decode()
    contents = frozenset({"contents-differ"})
    ways = elements(page, "data-label", "round")
    for way in ways:
        raw = way.with_outer("").encode()
        yield Plant("no way to the round", start, raw, contents, unit)
        dead = re.sub(r' href="[^"]*"', "", way.outer, count=1)
        raw = way.with_outer(dead).encode()
        yield Plant("a dead way to the round", start, raw, contents, unit)
        elsewhere = way.outer.replace("round.html", "data.html", 1)
        raw = way.with_outer(elsewhere).encode()
        rules = frozenset({"link-to-other-place"})
        yield Plant("a way to another page", start, raw, rules, unit)
    if not ways:
        label = elements(page, "data-label", "data")[-1]
        made_up = label.outer.replace("data.html", "round.html").replace('"data"', '"round"')
        made_up = made_up.replace(LABELS["data"], LABELS["round"])
        raw = label.with_outer(label.outer + made_up).encode()
        yield Plant("a way to a round that there is not", start, raw, contents, unit)


def rounds_of_other_trucks(site: Site, unit: str) -> Iterator[Plant]:
    """The page of another truck's round in place of the own, or where there must be none."""
    own = f"{unit}/round.html"
    for guide in site.guides:
        other = site.files.get(f"{guide.number}/round.html")
        if guide.number == unit or other is None:
            continue
        what = f"the round of {guide.number}"
        if own in site.files:
            raw = other.replace(guide.number.encode(), unit.encode())
            if raw != site.files[own]:
                rules = frozenset({"identity-differs", "stop-differs", "foreign-identity"})
                yield Plant(what, own, raw, rules, unit)
            yield Plant(what, own, other, frozenset({"identity-differs"}), unit)
        else:
            raw = other.replace(guide.number.encode(), unit.encode())
            yield Plant(what, own, raw, frozenset({"page-too-many"}), unit)
    if own in site.files:
        yield Plant("no round", own, None, frozenset({"page-missing"}), unit)


def _rounds(site: Site, unit: str) -> Iterator[tuple[str, list[Element]]]:
    """Yield the page of the unit's round with its stops, if it has one."""
    path = f"{unit}/round.html"
    if path in site.files:
        yield path, elements(site.files[path].decode(), "data-stop")


def _plan(site: Site, path: str) -> Element:
    page = site.files[path].decode()
    (figure,) = elements(page, "data-figure", "round-plan")
    return _inside([figure], elements_of(page, "svg"))[0]


def _inside(outer: list[Element], found: list[Element]) -> list[Element]:
    return [e for e in found if any(each.start < e.start < each.end for each in outer)]


def _href(link: Element) -> str:
    found = re.search(r'href="([^"]*)"', link.outer)
    assert found is not None
    return found[1]
