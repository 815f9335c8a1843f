from guidegen.build.rules import NO_UNITS
from guidegen.finding import Finding
from guidegen.serving.bar import Bar, digest_of, with_bar

PAGE = b"<!doctype html><title>A</title><body><main>A</main></body></html>"


def found(what: str) -> Finding:
    return Finding(NO_UNITS, None, what, "mend it", place="specs/units/A.yml")


def test_the_bar_stands_at_the_end_of_the_body() -> None:
    page = with_bar(PAGE, Bar("Preview."), 7).decode()

    assert page.index("</main>") < page.index("Preview.") < page.index("</body>")
    assert f'data-page="{digest_of(PAGE)}"' in page
    assert 'data-version="7"' in page


def test_a_page_without_a_body_has_the_bar_too() -> None:
    assert b"Preview." in with_bar(b"<p>A", Bar("Preview."), 1)


def test_a_bar_that_says_nothing_is_hidden() -> None:
    assert b" hidden></div>" in with_bar(PAGE, Bar(), 1)


def test_what_was_found_is_text_and_never_markup() -> None:
    html = Bar("Held.", (found("`<script>` is no value"),)).html

    assert "<script>" not in html
    assert "specs/units/A.yml: `&lt;script&gt;` is no value; mend it" in html


def test_many_findings_are_counted() -> None:
    html = Bar("Held.", tuple(found(f"fault {count}") for count in range(8))).html

    assert html.count("<li>") == 6
    assert "and 3 more" in html
