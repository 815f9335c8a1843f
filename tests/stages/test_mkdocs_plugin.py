"""The site as MkDocs and the plugin make it."""

import filecmp
import re
import shutil
from collections.abc import Iterator, Mapping
from importlib import resources
from io import BytesIO
from pathlib import Path
from urllib.parse import unquote

import pytest
from bs4 import BeautifulSoup
from fontTools.pens.recordingPen import DecomposingRecordingPen  # type: ignore[import-untyped]
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]
from jinja2 import FileSystemLoader
from mkdocs.config import load_config
from mkdocs.exceptions import ConfigurationError, PluginError
from page_soup import attribute, only, soup_in, words
from sample_fleet import FLEET, GUIDES
from sample_publication import SamplePublication, publish_sample
from sample_round import ROUNDS

from guidegen.finding import FaultyInput
from guidegen.mkdocs_plugin import GuidegenPlugin, draw_site
from guidegen.site.templates import PageTemplates


@pytest.fixture(scope="module")
def site(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("sample") / "site"
    publish_sample(project_root, folder)
    return folder


def files(folder: Path) -> list[str]:
    return sorted(
        path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()
    )


def pages(folder: Path) -> dict[str, BeautifulSoup]:
    return {path: soup_in(folder / path) for path in files(folder) if path.endswith(".html")}


def test_a_site_holds_the_units_the_fleets_own_pages_and_what_they_ask_for(site: Path) -> None:
    expected = {"index.html", "safety.html", "proof.html", "offline.html"}
    expected |= {"sw.js", "app.webmanifest"}
    for guide in GUIDES:
        names = ["index.html", "data.html", "search.html", "search-data.js"]
        names += ["round.html"] if guide.edition in ROUNDS else []
        names += [f"{chapter.id}.html" for chapter in guide.chapters]
        # One truck stands for each edition as the one that a driver may know.
        known = [number for number in ("E-04", "H-2", "T-17") if number != guide.number]
        names += ["differences.html", *(f"from-{number}.html" for number in known)]
        expected |= {f"{guide.number}/{name}" for name in names}
    found = files(site)
    assert {path for path in found if not path.startswith("assets/")} == expected
    assert [path for path in found if path.startswith("assets/")] == [
        "assets/fonts/AtkinsonHyperlegible-Bold.woff2",
        "assets/fonts/AtkinsonHyperlegible-Regular.woff2",
        "assets/fonts/LICENSE.txt",
        "assets/images/app-192.png",
        "assets/images/app-512.png",
        "assets/images/app-maskable-512.png",
        "assets/images/favicon.svg",
        "assets/javascripts/guidegen.js",
        "assets/javascripts/pack-store.js",
        "assets/javascripts/search.js",
        "assets/javascripts/theme.js",
        "assets/javascripts/vendor/LICENSE-minisearch.txt",
        "assets/javascripts/vendor/minisearch.min.js",
        "assets/stylesheets/guidegen.css",
    ]


def test_the_licenses_of_what_the_site_carries_travel_with_it(site: Path) -> None:
    for path, owner in (
        ("assets/javascripts/vendor/LICENSE-minisearch.txt", "Luca Ongaro"),
        ("assets/fonts/LICENSE.txt", "SIL OPEN FONT LICENSE"),
    ):
        assert owner in (site / path).read_text(encoding="utf-8")


def test_no_slot_and_no_token_is_left_over(site: Path) -> None:
    ours = [path for path in files(site) if path.endswith(".html") or "search-data" in path]
    assert len(ours) > 15
    for path in ours:
        text = (site / path).read_text(encoding="utf-8")
        assert not re.search("guidegen.{0,3}slot|@@|[\ue000-\uf8ff]", text, re.IGNORECASE), path


def test_every_address_on_a_page_is_relative_and_there(site: Path) -> None:
    checked = 0
    found = pages(site)
    for path, soup in found.items():
        for tag in soup.select("[href], [src]"):
            address = str(tag.attrs.get("href", tag.attrs.get("src")))
            if address.startswith("tel:"):
                continue
            assert not re.match(r"[a-z]+:|/", address), (path, address)
            target, _, anchor = unquote(address).partition("#")
            file = (site / path).parent / target if target else site / path
            assert file.is_file(), (path, address)
            if anchor:
                page = found[file.resolve().relative_to(site.resolve()).as_posix()]
                assert page.find(id=anchor) is not None, (path, address)
            checked += 1
    assert checked > 100


def test_no_page_and_no_own_file_names_an_address_outside(site: Path) -> None:
    own = [path for path in files(site) if path.endswith(".html") or "guidegen" in path]
    assert len(own) > 15
    for path in own:
        text = (site / path).read_text(encoding="utf-8")
        outside = re.findall(r"(?:https?:)?//[a-z0-9.-]+\.[a-z]+[^\s\"'<]*", text)
        # The name of the SVG language is no address that is asked for.
        assert set(outside) <= {"http://www.w3.org/2000/svg"}, path


def test_only_a_search_page_loads_what_a_search_needs(site: Path) -> None:
    for path, soup in pages(site).items():
        scripts = [attribute(script, "src") for script in soup.select("script")]
        of_search = [each for each in scripts if "search" in each]
        if path.endswith("/search.html"):
            assert of_search == [
                "search-data.js",
                "../assets/javascripts/vendor/minisearch.min.js",
                "../assets/javascripts/search.js",
            ]
        else:
            assert of_search == [], path


def test_no_page_holds_a_script_or_a_style(site: Path) -> None:
    for path, soup in pages(site).items():
        assert soup.select("style, [style], script:not([src])") == [], path
        names = {name for tag in soup.select("*") for name in tag.attrs}
        assert not [name for name in names if name.startswith("on")], path


def test_a_page_waits_for_one_stylesheet_and_one_small_script(site: Path) -> None:
    for path, soup in pages(site).items():
        assert len(soup.select("link[rel=stylesheet]")) == 1, path
        waiting = [attribute(each, "src") for each in soup.select("script:not([defer])")]
        assert [each.rpartition("/")[2] for each in waiting] == ["theme.js"], path
    assert (site / "assets/javascripts/theme.js").stat().st_size < 2000


def test_the_fonts_are_those_of_the_package_with_every_letter(site: Path) -> None:
    for weight in ("Regular", "Bold"):
        name = f"AtkinsonHyperlegible-{weight}"
        package = resources.files("fontpkg_atkinson_hyperlegible").joinpath("files", f"{name}.ttf")
        theirs = TTFont(BytesIO(package.read_bytes()))
        ours = TTFont(site / "assets" / "fonts" / f"{name}.woff2")
        assert set(ours.getBestCmap()) == set(theirs.getBestCmap())
        for letter in theirs.getBestCmap():
            assert drawn(ours, letter) == drawn(theirs, letter), chr(letter)


def drawn(font: TTFont, letter: int) -> tuple[int, list[object]]:
    """How wide a letter is, and its shape."""
    glyph = font.getGlyphSet()[font.getBestCmap()[letter]]
    pen = DecomposingRecordingPen(font.getGlyphSet())
    glyph.draw(pen)
    return glyph.width, pen.value


def test_the_frame_says_the_number_and_nothing_else_of_the_truck(site: Path) -> None:
    for guide in GUIDES:
        soup = soup_in(site / guide.number / "data.html")
        assert only(soup, "title").get_text().startswith(f"{guide.number} · Data · ")
        only(soup, "[data-guide]").decompose()
        number = only(soup, "[data-fact]")
        assert words(only(soup, "[data-issue]")) == guide.edition[:8]
        assert words(number) == guide.number
        assert attribute(number, "data-fact") == "identity.number"
        for name in ("identity.vin", "identity.plate", "identity.make"):
            if name in guide.facts:
                assert str(guide.facts[name].value) not in soup.get_text()


def test_whom_to_call_stands_at_the_foot_of_every_page(site: Path) -> None:
    for path, soup in pages(site).items():
        foot = words(only(soup, "footer"))
        for contact in FLEET.contacts:
            assert contact.role in foot, path
            assert contact.phone in foot, path


def test_two_builds_give_the_same_bytes(site: Path, project_root: Path, tmp_path: Path) -> None:
    publish_sample(project_root, tmp_path / "site")
    assert files(tmp_path / "site") == files(site)
    _, differing, unread = filecmp.cmpfiles(site, tmp_path / "site", files(site), shallow=False)
    assert (differing, unread) == ([], [])


def test_a_build_takes_the_old_sites_place_and_leaves_nothing_beside_it(
    project_root: Path, tmp_path: Path
) -> None:
    site = tmp_path / "site"
    (site / "T-99").mkdir(parents=True)
    (site / "T-99" / "index.html").write_text("sold", encoding="utf-8")
    publish_sample(project_root, site)
    assert not (site / "T-99").exists()
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_build_says_nothing_when_all_is_well(
    project_root: Path, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    publish_sample(project_root, tmp_path / "site")
    assert capfd.readouterr() == ("", "")


class BreakingPublication(SamplePublication):
    """Fails when half of its pages are written."""

    def pages(self, frames: Mapping[str, str]) -> Iterator[tuple[str, bytes]]:
        yield next(super().pages(frames))
        raise ValueError("a template broke")


def test_a_build_that_breaks_leaves_the_old_site_as_it_was(
    project_root: Path, tmp_path: Path
) -> None:
    templates = project_root / "site_templates"
    site = tmp_path / "site"
    publish_sample(project_root, site)
    before = files(site)
    publication = BreakingPublication(
        PageTemplates.load(FileSystemLoader(templates / "pages")), templates / "theme"
    )
    with pytest.raises(ValueError, match="a template broke"):
        draw_site(project_root / "mkdocs.yml", publication, site)
    assert files(site) == before
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


@pytest.fixture
def own_pages(project_root: Path, tmp_path: Path) -> Path:
    """A project with pages of its own, as `guidegen init` lays it out; return its settings."""
    shutil.copytree(project_root / "site_templates" / "docs", tmp_path / "docs")
    settings = (project_root / "mkdocs.yml").read_text(encoding="utf-8")
    settings = settings.replace("docs_dir: site_templates/docs", "docs_dir: docs")
    (tmp_path / "mkdocs.yml").write_text(settings, encoding="utf-8")
    return tmp_path / "mkdocs.yml"


def publication_of(project_root: Path) -> SamplePublication:
    templates = project_root / "site_templates"
    return SamplePublication(
        PageTemplates.load(FileSystemLoader(templates / "pages")), templates / "theme"
    )


def test_a_project_may_keep_its_own_pages_and_gets_the_same_theme(
    own_pages: Path, project_root: Path
) -> None:
    site = own_pages.parent / "site"
    (own_pages.parent / "docs" / "safety.md").write_text("# House rules\n", encoding="utf-8")
    draw_site(own_pages, publication_of(project_root), site)
    safety = soup_in(site / "safety.html")
    assert words(only(safety, "h1")) == "House rules"
    assert only(safety, ".gg-bar__name").get_text() == "Bluff County Haulage"


@pytest.mark.parametrize("index", ["# All trucks\n", "# All\n\n@@guidegen-slot-truck@@\n", None])
def test_an_index_page_without_a_place_for_the_trucks_is_a_finding(
    index: str | None, own_pages: Path, project_root: Path
) -> None:
    page = own_pages.parent / "docs" / "index.md"
    page.unlink()
    if index is not None:
        page.write_text(index, encoding="utf-8")
    else:
        settings = own_pages.read_text(encoding="utf-8").replace("  - index.md\n", "")
        own_pages.write_text(settings, encoding="utf-8")
    with pytest.raises(FaultyInput) as caught:
        draw_site(own_pages, publication_of(project_root), own_pages.parent / "site")
    (finding,) = caught.value.findings
    assert finding.rule.name == "frame-without-slot"
    assert "trucks" in finding.what
    assert "@@guidegen-slot-trucks@@" in finding.fix
    assert not (own_pages.parent / "site").exists()


def test_settings_without_the_plugin_are_refused(own_pages: Path, project_root: Path) -> None:
    settings = own_pages.read_text(encoding="utf-8").replace("  - guidegen\n", "  - search\n")
    own_pages.write_text(settings, encoding="utf-8")
    with pytest.raises(ConfigurationError, match="add `guidegen` to `plugins`"):
        draw_site(own_pages, publication_of(project_root), own_pages.parent / "site")


def test_a_dirty_build_is_refused(project_root: Path) -> None:
    plugin = load_config(config_file=str(project_root / "mkdocs.yml")).plugins["guidegen"]
    assert isinstance(plugin, GuidegenPlugin)
    with pytest.raises(PluginError, match="--dirty"):
        plugin.on_startup(command="serve", dirty=True)


def test_settings_ask_for_no_font_from_outside_and_for_no_site_address(project_root: Path) -> None:
    config = load_config(config_file=str(project_root / "mkdocs.yml"))
    assert config.theme["font"] is False
    assert config.strict
    assert not config.use_directory_urls
    assert not config.site_url
