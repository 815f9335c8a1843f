import json

from bs4 import BeautifulSoup
from hand_made_site import Site, hand_made_site

from guidegen.proof.model import FleetVerdict
from guidegen.proof.prove import prove_fleet
from guidegen.proof.report import ICON, STYLE, STYLE_NAME, report_html, report_json
from guidegen.proof.unchecked import UNCHECKED


def verdict_of(site: Site) -> FleetVerdict:
    return prove_fleet(
        site.guides,
        site.read,
        site.files,
        held_back=site.held_back,
        offer=site.offer,
        rounds=site.rounds,
        quizzes=site.quizzes,
    )


SITE = hand_made_site()
SOUND = verdict_of(SITE)
BROKEN = verdict_of(
    SITE.changed(
        "T-17/air-brakes.html",
        SITE.files["T-17/air-brakes.html"].replace(b"It can kill you.", b"<It & can> kill you."),
    )
)


def test_the_json_report_says_what_was_proved_and_what_was_not_looked_at() -> None:
    report = json.loads(report_json(SOUND))

    assert report["proved"] is True
    assert report["failures"] == []
    assert report["unchecked"] == list(UNCHECKED)
    assert report["totals"]["cautions"] == sum(unit["cautions"] for unit in report["units"]) == 10
    assert [unit["unit"] for unit in report["units"]] == ["T-17", "T-18", "E-04"]


def test_the_json_report_gives_each_failure_with_its_places() -> None:
    report = json.loads(report_json(BROKEN))

    assert report["proved"] is False
    assert [unit["failures"] > 0 for unit in report["units"]] == [True, False, False]
    failure = report["failures"][0]
    assert failure["page"] == "T-17/air-brakes.html"
    assert set(failure) == {"rule", "unit", "page", "mark", "place", "what", "why", "fix"}
    assert all(
        failure["place"] == "specs/units/sample.yml:1:1" for failure in report["failures"][1:]
    )


def test_the_page_for_the_office_shows_failures_and_what_was_not_checked() -> None:
    soup = BeautifulSoup(report_html(BROKEN), "html.parser")
    words = " ".join(soup.get_text().split())

    assert "Not proved: 2 failures. Nothing may be published." in words
    assert "text-not-read-back" in words
    assert "specs/units/sample.yml:1:1" in words
    assert all(statement in words for statement in UNCHECKED)


def test_the_page_for_the_office_shows_the_counts_of_each_unit() -> None:
    soup = BeautifulSoup(report_html(SOUND), "html.parser")
    rows = [[cell.get_text() for cell in row.find_all("td")] for row in soup.find_all("tr")]

    assert "Every guide says what it must say. No failures." in soup.get_text()
    assert [row[0] for row in rows if row] == ["T-17", "T-18", "E-04", "all"]
    assert rows[-1][-1] == "0"


def test_the_page_for_the_office_needs_its_stylesheet_the_icon_and_no_other_file() -> None:
    soup = BeautifulSoup(report_html(BROKEN), "html.parser")

    icon, link = soup.select("[src], [href], script, style, [style], link")
    assert (icon["rel"], icon["href"]) == (["icon"], ICON)
    assert link["href"] == STYLE_NAME
    assert "url(" not in STYLE


def test_one_verdict_gives_one_report() -> None:
    assert report_html(verdict_of(SITE)) == report_html(SOUND)
    assert report_json(verdict_of(SITE)) == report_json(SOUND)
