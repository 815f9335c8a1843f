"""Numbers in what drivers read: procedures, lamps, pages and fixed words.

Takes in the library's texts; gives out each text that holds a number, with the references of its
procedure. Refuses to leave a text out: titles, cautions, steps, outcomes and captions alike.
"""

import ast
import inspect
import re
from collections.abc import Iterable, Iterator, Mapping
from types import ModuleType

from guidegen.build.number_list.find import FoundNumber, Weight, heaviest, numbers_in
from guidegen.build.number_list.model import Ground, NumberEntry, ground_of_words
from guidegen.build.number_list.source_lines import code_place
from guidegen.procedures.model import ProcedureTemplate, TextTemplate, Words
from guidegen.procedures.style.references import NO_SOURCE
from guidegen.procedures.style.texts import texts_of

_TAGS = re.compile(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}|<[^>]*>", re.DOTALL)
_SHORT = 4
"""Letters of number words that any sentence may hold: one, two, both."""

_OURS = "words of guidegen's own pages"


def procedure_numbers(
    library: Iterable[ProcedureTemplate],
) -> Iterator[tuple[Weight, NumberEntry]]:
    """Yield each text of *library* that holds a number, with the weight of its gravest one."""
    for template in library:
        for text in texts_of(template):
            words = "".join(p.text if isinstance(p, Words) else "\ufffc" for p in text.parts)
            found = numbers_in(words)
            if found:
                yield heaviest(found), _entry(template, text, found)


def page_numbers(files: Iterable[tuple[str, str]]) -> Iterator[NumberEntry]:
    """Yield each line of pages, in Markdown or Jinja, that shows a number; tags are no text."""
    for path, text in files:
        shown = _TAGS.sub(lambda found: re.sub(r"[^\n]", " ", found.group()), text)
        for number, line in enumerate(shown.split("\n"), start=1):
            yield from entry_of_ours(f"{path}:{number}", " ".join(line.split()))


def caption_numbers(modules: Iterable[ModuleType]) -> Iterator[NumberEntry]:
    """Yield each part of a figure's caption, written in the code that draws it, with a number."""
    for module in modules:
        for node in ast.walk(ast.parse(inspect.getsource(module))):
            for text in _said(node):
                yield from entry_of_ours(code_place(module, text.lineno), str(text.value))


def fixed_numbers(words: Mapping[str, str], module: ModuleType) -> Iterator[NumberEntry]:
    """Yield each of the fixed *words* of *module* that holds a number."""
    source = inspect.getsource(module).split("\n")
    for text in words.values():
        if text.isdigit():
            continue  # of a scale, which has an entry of its own
        lines = (at for at, line in enumerate(source, start=1) if f'"{text[:40]}' in line)
        yield from entry_of_ours(code_place(module, next(lines, 1)), text)


def scale_numbers(words: Mapping[str, str], module: ModuleType) -> Iterator[NumberEntry]:
    """Yield one entry for the numbers among *words*: those of the scales of drawn gauges."""
    numbers = tuple(text for text in words.values() if text.isdigit())
    lines = inspect.getsource(module).split("\n")
    at = next(at for at, line in enumerate(lines, start=1) if line.startswith("FIGURE_WORDS"))
    says = "Scales of drawn gauges"
    source = "scales as gauges carry them; common practice, no source"
    yield NumberEntry(code_place(module, at), numbers, says, source, Ground.PRACTICE)


def _said(node: ast.AST) -> Iterator[ast.Constant]:
    """Yield the words that a call adds to a caption."""
    is_call = isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
    if not is_call or ast.unparse(node).partition("(")[0] != "sketch.say":
        return
    for part in ast.walk(node):
        # A part that begins with this sign is the value of a fact.
        is_text = isinstance(part, ast.Constant) and isinstance(part.value, str)
        if isinstance(part, ast.Constant) and is_text and not str(part.value).startswith("@"):
            yield part


def entry_of_ours(place: str, text: str) -> Iterator[NumberEntry]:
    """Yield an entry for a text of guidegen's own pages if it holds a number."""
    found = numbers_in(text)
    if found:
        numbers = tuple(each.text for each in found)
        yield NumberEntry(place, numbers, text.strip(), _OURS, Ground.HOUSE)


def _entry(
    template: ProcedureTemplate, text: TextTemplate, found: tuple[FoundNumber, ...]
) -> NumberEntry:
    numbers = tuple(each.text for each in found)
    references = _references_for(template.references, numbers)
    parts = (p.text if isinstance(p, Words) else f"{{{p.fact}}}" for p in text.parts)
    return NumberEntry(
        f"{text.span.file.path}:{text.span.line}",
        numbers,
        " ".join("".join(parts).split()),
        " · ".join(references),
        _ground(references),
    )


def _references_for(references: tuple[str, ...], numbers: tuple[str, ...]) -> tuple[str, ...]:
    """Return those that say one of *numbers* themselves; all if none does."""
    telling = [number for number in numbers if len(number) > _SHORT and number != "once"]
    own = tuple(
        reference
        for reference in references
        if any(re.search(rf"\b{re.escape(each)}\b", reference, re.IGNORECASE) for each in telling)
    )
    return own or references


def _ground(references: tuple[str, ...]) -> Ground:
    grounds = {ground_of_words(each) for each in references}
    without = [each for each in references if any(no in each.lower() for no in NO_SOURCE)]
    if len(grounds) == 1:
        return grounds.pop()
    return Ground.PARTLY if len(without) < len(references) else Ground.PRACTICE
