"""Other trucks' numbers, VINs, plates and files."""

import itertools
from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Plant, elements, pages_of

_FOREIGN = frozenset({"foreign-identity"})


def other_trucks_named(site: Site, unit: str) -> Iterator[Plant]:
    """Another truck's number, VIN or plate in text, attributes, comments, scripts, in disguise."""
    other = next(guide for guide in site.guides if guide.number != unit)
    number, vin = other.number, str(other.facts["identity.vin"].value)
    plates = [
        str(guide.facts["identity.plate"].value)
        for guide in site.guides
        if guide.number != unit and "identity.plate" in guide.facts
    ]
    disguised = (
        *(number, number.lower(), vin, vin.lower(), *plates[:1]),
        f"&#{ord(number[0])};{number[1:]}",
        number.replace("-", "\u2011"),
        number.replace("-", "%2D"),
        number.replace("-", "-\u200b"),
        "&shy;".join((vin[:5], vin[5:])),
        vin.replace(vin[0], f"\\u{ord(vin[0]):04x}", 1),
        f"unit-{number.lower()}-page",
    )
    pages = list(pages_of(site, unit).items())
    for place, name in enumerate(disguised):
        path, page = pages[place % len(pages)]
        body = elements(page, "data-guide")[0]
        for what, changed in (
            ("in a comment", page.replace("</body>", f"<!-- {name} --></body>", 1)),
            (
                "in a script",
                page.replace("</body>", f'<script>var x = "{name}"</script></body>', 1),
            ),
            ("in the head", page.replace("</head>", f'<meta name="x" content="{name}"></head>', 1)),
            (
                "in the body",
                page[: body.inner_end] + f'<p class="{name}">' + page[body.inner_end :],
            ),
        ):
            yield Plant(f"{name} {what}", path, changed.encode(), _FOREIGN, unit)


def own_name_changed(site: Site, unit: str) -> Iterator[Plant]:
    """The unit's own number, VIN, plate or yard replaced by another truck's."""
    own = site.guide(unit)
    other = next(guide for guide in site.guides if guide.number != unit)
    rules = frozenset({"identity-differs", "title-differs"})
    for path, page in pages_of(site, unit).items():
        changed = page.replace(f"<title>{unit}", f"<title>{other.number}").encode()
        yield Plant("another number in the title", path, changed, rules, unit)
        changed = page.replace("<title>", "<title>Guide ").encode()
        yield Plant("words before the number in the title", path, changed, rules, unit)
        changed = page.replace(f'data-guide="{unit}"', f'data-guide="{other.number}"').encode()
        yield Plant("another number on the body", path, changed, rules, unit)
        for name in ("number", "vin", "plate", "yard"):
            fact = f"identity.{name}"
            for value in elements(page, "data-fact", fact):
                if fact in own.facts and fact in other.facts and fact != "identity.yard":
                    changed = value.with_inner(str(other.facts[fact].value)).encode()
                    yield Plant(f"another {name}", path, changed, rules, unit)
                changed = value.with_inner("Back Lot 9").encode()
                yield Plant(f"an unknown {name}", path, changed, rules, unit)


def files_of_other_trucks(site: Site, unit: str) -> Iterator[Plant]:
    """Another truck's file, or another chapter's, under the unit's name."""
    others = {guide.number for guide in site.guides} - {unit}
    rules = frozenset({"foreign-identity", "identity-differs", "search-entry-missing"})
    own = site.of_unit(unit)
    for other in sorted(others):
        for path, raw in sorted(site.of_unit(other).items()):
            mine = path.replace(other, unit, 1)
            # Cards are proved from their own files, with faults of their own; a photo of both
            # trucks is the same.
            if mine in own and not path.endswith((".pdf", ".jpg")):
                yield Plant(f"{path} as {mine}", mine, raw, rules, unit)
    chapters = [path for path in sorted(own) if b'data-step="' in own[path]]
    for one, two in itertools.pairwise(chapters):
        what = f"{one} as {two}"
        yield Plant(what, two, own[one], frozenset({"identity-differs"}), unit)


def frames_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Words around the body of one page only; a title that names another chapter."""
    rules = frozenset({"frame-differs", "unclaimed-mark"})
    for path, page in list(pages_of(site, unit).items())[:3]:
        for what, changed in (
            ("in the foot", page.replace("</footer>", "<p>Use 120 psi.</p></footer>", 1)),
            ("before the body", page.replace("<main", "<p>Old guide</p><main", 1)),
            (
                "described",
                page.replace("</head>", '<meta name="description" content="x"></head>', 1),
            ),
            ("in the title", page.replace("</title>", " at 120 psi</title>", 1)),
            ("attribute on the frame", page.replace("<main", '<main title="120 psi"', 1)),
        ):
            yield Plant(f"words {what}", path, changed.encode(), rules, unit)
        marked = page.replace("</footer>", '<p data-label="data">Data</p></footer>', 1)
        yield Plant("a mark in the foot", path, marked.encode(), rules, unit)
