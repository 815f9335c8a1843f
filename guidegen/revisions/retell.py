"""A revision as it was released, told again in full.

Takes in a revision and the content of the file that keeps its edition; gives out all that the guide
said as plain values, as text and as one page. Refuses to look at the truck as it is today: what is
told is what was recorded, and what was not is called so.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from html import escape
from typing import Any

from guidegen.procedures.words import CHAPTERS, STATES, STATIONS
from guidegen.revisions.model import Revision
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.profile import FACTS

Plain = Any
"""Whatever JSON holds."""

NOT_IN_FORCE = "This is what was released then. It need not be the guide that is in force."
_NUMBER = "identity.number"

_STYLE = """
body { font: 18px/1.5 system-ui, sans-serif; margin: 2rem auto; max-width: 50rem; padding: 0 1rem;
  color: #1b1b1b; background: #fff; }
.caution, .then { border: 3px solid #1b1b1b; padding: .4rem .8rem; margin: .8rem 0; }
table { border-collapse: collapse; } td { border: 1px solid #757575; padding: .2rem .6rem; }
"""


def retell(revision: Revision, content: Plain) -> Mapping[str, Plain]:
    """Return all that *revision* said, as plain values.

    Args:
        revision: As the record has it.
        content: Of the file that keeps its edition, whose hash fits the record.
    """
    words = _Words(revision.unit, content["facts"])
    return {
        "unit": revision.unit,
        "revision": revision.number,
        "date": revision.date,
        "by": revision.by,
        "edition": revision.edition,
        "program": revision.program,
        "facts": [
            {"name": name, "label": label, "value": full, "source": source}
            for name, (label, _, full, source, _) in content["facts"].items()
        ],
        "equipment": [
            {"name": name, "label": _label(name), "state": state}
            for name, state in content["sections"].items()
        ],
        "chapters": [
            {
                "id": id_,
                "title": CHAPTERS.get(id_, id_),
                "procedures": [words.procedure(each) for each in procedures],
            }
            for id_, *procedures in content["chapters"]
        ],
    }


@dataclass(frozen=True, slots=True)
class _Words:
    unit: str
    facts: Mapping[str, Plain]

    def procedure(self, plain: Plain) -> Mapping[str, Plain]:
        lamp = plain["lamp"]
        return {
            "id": plain["id"],
            "title": self.text(plain["title"]),
            "place": STATIONS.get(plain["station"], plain["station"]),
            "state": [STATES.get(aspect, {}).get(is_, is_) for aspect, is_ in plain["state"]],
            "blocks": [self.block(each) for each in plain["blocks"]],
            "expect": [self.text(each) for each in plain["expect"]],
            "if_not": [self.text(each) for each in plain["if_not"]],
            **({"lamp": {"id": lamp[0], "color": lamp[1], "act": lamp[2]}} if lamp else {}),
            **({"figure": plain["figure"]} if plain["figure"] else {}),
            **({"photos": [_photo(each) for each in plain["photos"]]} if "photos" in plain else {}),
        }

    def block(self, plain: Plain) -> Mapping[str, Plain]:
        if "step" in plain:
            timed = {"timer": self.timer(plain["timer"])} if "timer" in plain else {}
            return {"step": plain["number"], "text": self.text(plain["step"]), **timed}
        hazard, consequence, avoid = map(self.text, plain["texts"])
        return {
            "caution": plain["signal"],
            "hazard": hazard,
            "consequence": consequence,
            "avoid": avoid,
        }

    def timer(self, plain: Plain) -> str:
        """Return what is timed and against what, in one line."""
        parts = [plain["kind"].replace("_", " ")]
        if plain["time"]:
            parts.append(self.value(plain["time"]))
        if plain["reading"]:
            parts.append(f"then read the {plain['reading'].replace('_', ' ')}")
        for bound, fact, rig in plain["limits"]:
            of = f" ({rig.replace('_', ' ')})" if rig else ""
            parts.append(f"{bound.replace('_', ' ')} {self.value(fact)}{of}")
        return ", ".join(parts)

    def text(self, plain: Plain) -> str:
        _, *parts = plain
        said = (each if isinstance(each, str) else self.value(each["fact"]) for each in parts)
        return " ".join("".join(said).split())

    def value(self, name: str) -> str:
        if name in self.facts:
            return str(self.facts[name][2])
        if name == _NUMBER:
            return self.unit
        # Number, VIN, plate and yard are the truck's own and not the edition's.
        label = FACTS[name].label if name in FACTS else name
        return f"[{label}: not kept in the record]"


def _photo(plain: Plain) -> Mapping[str, Plain]:
    _, step, alt, caption, _, _, sha256 = plain
    return {"step": step, "alt": alt, "caption": caption, "sha256": sha256}


def retold_as_text(told: Mapping[str, Plain]) -> str:
    """Return what `retell` gives as text for a terminal."""
    lines = [_heading(told), NOT_IN_FORCE]
    for chapter in told["chapters"]:
        lines += ["", chapter["title"].upper()]
        for procedure in chapter["procedures"]:
            stance = ", ".join(filter(None, [procedure["place"], *procedure["state"]]))
            lines += ["", procedure["title"], f"  ({stance})"]
            lines += [f"  {line}" for _, line in _lines(procedure)]
    lines += ["", "DATA", ""]
    lines += [f"{each['label']}: {each['value']} [{each['source']}]" for each in told["facts"]]
    lines += ["", "EQUIPMENT", ""]
    lines += [f"{each['label']}: {each['state']}" for each in told["equipment"]]
    return "\n".join(lines) + "\n"


def retold_as_page(told: Mapping[str, Plain]) -> str:
    """Return what `retell` gives as one page of HTML that loads nothing."""
    return "\n".join(_page(told)) + "\n"


def _page(told: Mapping[str, Plain]) -> Iterator[str]:
    title = escape(_heading(told))
    yield '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{title}</title>\n<style>{_STYLE}</style>\n</head>\n<body>"
    yield f'<h1>{title}</h1>\n<p class="then">{NOT_IN_FORCE}</p>'
    for chapter in told["chapters"]:
        yield f"<h2>{escape(chapter['title'])}</h2>"
        for procedure in chapter["procedures"]:
            stance = ", ".join(filter(None, [procedure["place"], *procedure["state"]]))
            yield f"<h3>{escape(procedure['title'])}</h3>\n<p><i>{escape(stance)}</i></p>"
            for kind, line in _lines(procedure):
                yield f'<p class="{kind}">{escape(line)}</p>'
    yield "<h2>Data</h2>\n<table>"
    for each in told["facts"]:
        cells = (each["label"], each["value"], each["source"])
        yield "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in cells) + "</tr>"
    yield "</table>\n<h2>Equipment</h2>\n<table>"
    for each in told["equipment"]:
        yield f"<tr><td>{escape(each['label'])}</td><td>{escape(each['state'])}</td></tr>"
    yield "</table>\n</body>\n</html>"


def _lines(procedure: Mapping[str, Plain]) -> Iterator[tuple[str, str]]:
    """Yield the kind and the words of each line of *procedure*, in the order of the guide."""
    if "lamp" in procedure:
        lamp = procedure["lamp"]
        yield "lamp", f"Lamp: {lamp['color']}, {lamp['act'].replace('_', ' ')}"
    for photo in procedure.get("photos", ()):
        below = f" / {photo['caption']}" if photo["caption"] else ""
        yield "photo", f"Photo: {photo['alt']}{below}"
    for block in procedure["blocks"]:
        if "step" in block:
            yield "step", f"{block['step']}. {block['text']}"
            if "timer" in block:
                yield "timer", f"   Timer: {block['timer']}"
        else:
            told = " ".join(block[part] for part in ("hazard", "consequence", "avoid"))
            yield "caution", f"{block['caution'].upper()}: {told}"
    yield from (("expect", f"Right: {line}") for line in procedure["expect"])
    yield from (("if-not", f"If not: {line}") for line in procedure["if_not"])


def _heading(told: Mapping[str, Plain]) -> str:
    return (
        f"{told['unit']}: revision {told['revision']} of {told['date']}, approved by {told['by']}"
    )


def _label(name: str) -> str:
    return EQUIPMENT_SECTIONS[name].label if name in EQUIPMENT_SECTIONS else name
