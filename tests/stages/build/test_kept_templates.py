"""A template is compiled once for each source and program, and never taken from a damaged file."""

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

import pytest
from jinja2 import DictLoader, Environment, FileSystemLoader

from guidegen.build.kept_templates import KeptTemplates
from guidegen.build.store import Store
from guidegen.site.templates import PageTemplates

PAGE = "<h1>{{ view.title }}</h1>{% for each in view.steps %}<p>{{ each }}</p>{% endfor %}"
VIEW = {"title": "Drain <the> tanks", "steps": ["Open.", "Wait."]}
DRAWN = "<h1>Drain &lt;the&gt; tanks</h1><p>Open.</p><p>Wait.</p>"


@pytest.fixture
def compiled(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Takes the name of each template that Jinja compiles."""
    names: list[str] = []
    plainly: Callable[..., object] = Environment.compile

    def compile_and_tell(*given: object) -> object:
        names.append(str(given[2]))
        return plainly(*given)

    monkeypatch.setattr(Environment, "compile", compile_and_tell)
    return names


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "store", "program")


def drawn(store: Store, page: str = PAGE) -> str:
    loader = DictLoader({"page": page})
    environment = Environment(loader=loader, autoescape=True, bytecode_cache=KeptTemplates(store))
    return environment.get_template("page").render(view=VIEW)


def test_a_template_that_was_compiled_is_not_compiled_again(
    store: Store, compiled: list[str]
) -> None:
    assert [drawn(store), drawn(store)] == [DRAWN, DRAWN]
    assert compiled == ["page"]


def test_another_source_is_compiled_and_drawn(store: Store, compiled: list[str]) -> None:
    drawn(store)

    assert drawn(store, PAGE.replace("h1", "h2")) == DRAWN.replace("h1", "h2")
    assert compiled == ["page", "page"]


def test_another_program_finds_nothing(store: Store, compiled: list[str]) -> None:
    drawn(store)

    assert drawn(Store(store.folder, "program of tomorrow")) == DRAWN
    assert compiled == ["page", "page"]


def broken(whole: bytes) -> Iterator[bytes]:
    yield from (b"", whole[:-1], whole[: len(whole) // 2], b"\0" * len(whole))
    for place in range(0, len(whole), 97):
        yield whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :]


def test_a_damaged_file_has_it_compiled_anew(store: Store, compiled: list[str]) -> None:
    drawn(store)
    assert store.folder is not None
    (path,) = (path for path in store.folder.rglob("*") if path.is_file())

    for raw in broken(path.read_bytes()):
        compiled.clear()
        path.write_bytes(raw)
        assert drawn(store) == DRAWN
        assert compiled == ["page"]


@pytest.mark.parametrize("kept", [b"", b"no code of Jinja", "a text", None, 7])
def test_what_is_no_code_has_it_compiled_anew(
    kept: object, store: Store, compiled: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn(store)
    monkeypatch.setattr(Store, "get", lambda *_: kept)

    assert drawn(store) == DRAWN
    assert compiled == ["page", "page"]


def test_without_a_store_it_is_compiled_each_time(compiled: list[str]) -> None:
    nowhere = Store(None, "program")

    assert [drawn(nowhere), drawn(nowhere)] == [DRAWN, DRAWN]
    assert compiled == ["page", "page"]


def test_all_templates_of_pages_are_kept(
    store: Store, compiled: list[str], project_root: Path
) -> None:
    def load() -> Mapping[str, object]:
        loader = FileSystemLoader(project_root / "site_templates" / "pages")
        templates = PageTemplates.load(loader, KeptTemplates(store))
        return {name: getattr(templates, name) for name in PageTemplates.__slots__}

    first = load()
    assert len(compiled) >= len(first)
    compiled.clear()

    assert load().keys() == first.keys()
    assert not compiled
