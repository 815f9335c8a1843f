import pytest
from selectolax.lexbor import LexborHTMLParser
from wcag_contrast_ratio import rgb as outside_contrast  # type: ignore[import-untyped]

from guidegen.proof.contrast import contrast, read_color
from guidegen.proof.css import read_declarations, read_sheet
from guidegen.proof.hiding import Effect, find_added_words, find_hiding
from guidegen.proof.ink import Definition, Palette, find_lost_ink
from guidegen.proof.selectors import widen_selectors
from guidegen.proof.styles import read_styles
from guidegen.proof.visibility import Sight, look_at

PAGE = """
<!doctype html><html class="js"><body data-theme="day">
<header><p class="menu">Menu</p></header>
<main class="main"><article id="sheet"><div class="guide" data-guide="T-17">
<section class="part"><h2 class="title">Title</h2>
<ol class="steps"><li class="step first" data-step="a">One <b class="value">2</b></li>
<li class="step" data-step="b">Two</li></ol></section></div></article></main></body></html>
"""


def effects(declarations: str) -> set[Effect]:
    found = read_declarations(declarations)
    return {each.effect for each in (*find_hiding(found), *find_lost_ink(found, Palette()))}


def look(css: str, page: str = PAGE) -> Sight:
    parsed = LexborHTMLParser(page)
    container = parsed.css_first("[data-guide]")
    assert container is not None
    return look_at(parsed, container, read_styles({"site.css": css}))


def is_hidden(css: str, page: str = PAGE) -> bool:
    sight = look(css, page)
    return bool(sight.of_page) or any(
        effect is Effect.HIDES for found in sight.of_elements.values() for effect, _ in found
    )


@pytest.mark.parametrize(
    "declarations",
    [
        *("display: none", "DISPLAY:NONE", "display: none !important", "display: var(--x)"),
        *("visibility: hidden", "visibility: collapse", "content-visibility: hidden"),
        *("opacity: 0", "opacity: 0.2", "opacity: 5%", "opacity: calc(1 - 1)"),
        *("font-size: 0", "font-size: 0px", "font-size: 2px", "font-size: .01em", "font: 0/0 x"),
        *("font-size: 1%", "line-height: 0", "line-height: .1", "zoom: 0", "scale: 0 1"),
        *("width: 0", "height: 1px", "max-height: 0", "max-width: 0px", "inline-size: 0"),
        *("overflow: hidden; max-height: 2em", "height: 20px; overflow-y: clip"),
        *("clip: rect(1px 1px 1px 1px)", "clip-path: circle(0)", "mask-image: url(x.svg)"),
        *("left: -9999px", "right: 100vw", "inset: 0 auto 0 -500px", "margin-left: -50rem"),
        *("text-indent: -9999px", "padding-left: 9999px", "translate: -100%", "word-spacing: 90em"),
        *("transform: scale(0)", "transform: translateX(-100vw)", "transform: rotateY(90deg)"),
        *("transform: matrix(0,0,0,0,0,0)", "transform: scale3d(1, 0, 1)", "rotate: 180deg"),
        *("filter: blur(9px)", "filter: opacity(0)", "mix-blend-mode: difference", "z-index: -1"),
        *("color: transparent", "color: #fff", "color: hsl(0 0% 100%)", "color: oklch(100% 0 0)"),
        *("color: #0001", "color: rgba(0,0,0,.05)", "-webkit-text-fill-color: white"),
        *("color: #c00; background: #c00", "background-color: #111", "background: black url(x)"),
        *("-webkit-text-security: square", "-webkit-line-clamp: 1", "text-overflow: ellipsis"),
        *("letter-spacing: -1em", "text-decoration: underline line-through", 'content: "x"'),
        *("direction: rtl", "unicode-bidi: bidi-override", "all: unset"),
    ],
)
def test_what_hides_is_known(declarations: str) -> None:
    assert Effect.HIDES in effects(declarations)


@pytest.mark.parametrize(
    "declarations",
    [
        *("display: block", "display: flex; flex-direction: column", "visibility: visible"),
        *("opacity: 1", "opacity: .87", "font-size: .64rem", "font: 700 1rem/1.5 sans-serif"),
        *("line-height: 1.3", "min-width: 0", "width: 100%", "max-width: 60rem", "height: auto"),
        *("margin: 0 auto", "margin: -.5rem 0 0", "padding: 0", "left: 0", "text-indent: -1.2em"),
        *("transform: none", "transform: translateY(2px)", "transform: scale(1.02)", "scale: 1"),
        *("clip: auto", "clip-path: none", "mask: none", "filter: none", "z-index: 4"),
        *("color: #15181b", "color: inherit", "color: #fff; background: #005387"),
        *("background: #f9a900", "background: none", "color: currentcolor", "color: var(--x)"),
        *("letter-spacing: -.01em", "text-decoration: underline", "content: none"),
        *("text-overflow: clip", "overflow: hidden", "overflow-x: auto; max-width: 100%"),
        *("border: 1px solid #fff", "list-style: none", "direction: ltr", "mix-blend-mode: normal"),
        *("content-visibility: auto", "display: grid"),
    ],
)
def test_what_does_not_hide_is_let_through(declarations: str) -> None:
    assert effects(declarations) == set()


@pytest.mark.parametrize(
    "declarations",
    [
        *("order: -1", "flex-direction: row-reverse", "flex-flow: column-reverse wrap"),
        *("flex-wrap: wrap-reverse", "grid-row: 2", "position: absolute", "position: fixed"),
    ],
)
def test_what_shows_texts_in_another_order_is_known(declarations: str) -> None:
    assert effects(declarations) == {Effect.REORDERS}


def test_letters_that_are_shown_otherwise_are_known() -> None:
    assert effects("text-transform: uppercase") == {Effect.CHANGES}
    assert effects("text-transform: none") == set()


@pytest.mark.parametrize(
    ("declarations", "adds"),
    [
        ('content: "not "', True),
        ('content: "12"', True),
        ('content: "\\6e o"', True),
        ("content: attr(title)", True),
        ("content: var(--x)", True),
        ('content: ""', False),
        ('content: "\\2022  "', False),
        ('content: "\\e900"', False),
        ("content: attr(data-number)", False),
        ("content: counter(step)", False),
        ("content: none", False),
    ],
)
def test_words_that_a_pseudo_element_prints_are_known(declarations: str, *, adds: bool) -> None:
    assert bool(list(find_added_words(read_declarations(declarations)))) is adds


@pytest.mark.parametrize(
    ("ink", "ground"),
    [("#595959", "#fff"), ("#777777", "#ffffff"), ("#00f", "#fff"), ("red", "#ff0")],
)
def test_contrast_is_that_of_an_outside_judge(ink: str, ground: str) -> None:
    colors = [read_color(each) for each in (ink, ground)]
    assert all(colors)
    first, second = (color[:3] for color in colors if color)

    # The judge is the package wcag-contrast-ratio, which uses the threshold of the older WCAG
    # text; for these colors the two agree.
    assert contrast((*first, 1.0), (*second, 1.0)) == pytest.approx(
        outside_contrast(first, second), abs=1e-3
    )


@pytest.mark.parametrize("text", ["#12345", "nonsense", "var(--x)", "currentcolor", "inherit", ""])
def test_what_is_no_color_has_no_contrast(text: str) -> None:
    assert read_color(text) is None


def test_custom_properties_are_followed_through_each_other() -> None:
    palette = Palette.of(
        [
            Definition("--ink", "var(--paper)"),
            Definition("--paper", "#fff"),
            Definition("--round", "var(--round)"),
        ]
    )

    assert list(find_lost_ink(read_declarations("color: var(--ink)"), palette)) != []
    assert list(find_lost_ink(read_declarations("color: var(--other, white)"), palette)) != []
    assert list(find_lost_ink(read_declarations("color: var(--round)"), palette)) == []
    assert list(find_lost_ink(read_declarations("color: var(--none)"), palette)) == []


@pytest.mark.parametrize(
    "selector",
    [
        *(".step", "li", "#sheet .step", "[data-step]", '[data-step="b"]', "ol > li + li"),
        *("main", "html", "body", "*", "article > *", "LI", ":root", ".guide"),
        *("li:hover", "li:not(:focus)", "main:focus-within li", "li:nth-child(2)", ".js li:active"),
        *(
            "#menu:checked ~ main, .no li, .step",
            "section:has(.value)",
            ":is(li, p)",
            ":where(ol) li",
        ),
        *("html:not(.no-js) .step", 'body[data-theme="dark"] li', "li::first-line"),
        *("main /* here */ li", "li:lang(en)", "li:first-letter", ".part:target li"),
    ],
)
def test_a_rule_counts_whenever_it_could_match(selector: str) -> None:
    assert is_hidden(f"{selector} {{ display: none }}")


@pytest.mark.parametrize(
    "selector",
    [
        *(".menu", "header p", "li.menu", "article ~ p", "p > li", ".no-js .step", "li::before"),
        *("li:after", "li::marker", "#other li", "[hidden]", "ol:empty", "li:not(li)", "h2 + p"),
    ],
)
def test_a_rule_that_cannot_match_does_not_count(selector: str) -> None:
    assert not is_hidden(f"{selector} {{ display: none }}")


@pytest.mark.parametrize(
    "around",
    [
        *("@media print", "@media (max-width: 1px)", "@supports not (display: grid)", "@layer a.b"),
        *("@container (width > 0)", "@scope (.main)", "@starting-style", ".main"),
    ],
)
def test_a_rule_counts_whatever_stands_around_it(around: str) -> None:
    assert is_hidden(f"{around} {{ .step {{ display: none }} }}")


def test_an_animation_that_hides_counts_where_it_is_used() -> None:
    frames = "@keyframes out { 50% { opacity: .1 } }"

    assert is_hidden(f"{frames} .step {{ animation: out 1s }}")
    assert not is_hidden(f"{frames} .menu {{ animation: out 1s }}")
    assert not is_hidden("@keyframes in { to { opacity: 1 } } .step { animation: in 1s }")


def test_colors_are_those_that_win_around_the_body() -> None:
    sheet = (
        ":root { --ink: #fff } body { --ink: #111 } .main { color: var(--ink) }"
        "[data-theme] { --ink: #222 }"
    )

    assert not is_hidden(sheet)
    assert is_hidden(sheet + "#sheet { --ink: #eee }")
    assert is_hidden(sheet + '[data-theme="dark"] { --ink: #111 }')
    assert is_hidden(sheet + '[data-theme="night-red"] { --ink: #111 }')
    assert is_hidden(sheet + "@media print { :root[class] .main { --ink: #eee } }")
    assert not is_hidden(sheet + '[data-theme="night-red"] { --ink: #ff4b3a }')


def test_each_theme_is_held_to_its_own_colors() -> None:
    sheet = ".main { color: var(--ink); background-color: var(--ground) } "
    sheet += ":root { --ink: #111; --ground: #fff } "
    dark = '[data-theme="dark"] { --ink: #fff; --ground: #000 } '
    red = '[data-theme="night-red"] { --ink: %s; --ground: #000 }'

    assert not is_hidden(sheet + dark + red % "#ff4b3a")
    assert is_hidden(sheet + dark + red % "#300")
    # The colors of one theme do not make up for those of another.
    assert is_hidden(sheet + dark + '[data-theme="night-red"] { --ground: #000 }')


def test_a_color_that_is_set_within_the_body_counts() -> None:
    sheet = ":root { --ink: #111 } .step { color: var(--ink) }"

    assert not is_hidden(sheet)
    assert is_hidden(sheet + ".value { --ink: #fff }")


@pytest.mark.parametrize(
    "change",
    [
        ("<main ", "<main hidden "),
        ("<body ", '<body style="visibility:hidden" '),
        ("<article ", '<article aria-hidden="true" '),
        ("<article ", "<article inert "),
        ('<li class="step" ', '<li hidden class="step" '),
        ('<b class="value"', '<b class="value" style="font-size:0"'),
        ("<section ", "<section popover "),
    ],
)
def test_an_element_that_hides_itself_hides_what_stands_in_it(change: tuple[str, str]) -> None:
    assert change[0] in PAGE
    assert is_hidden("", PAGE.replace(*change, 1))


def test_what_hides_names_selector_declaration_file_and_line() -> None:
    (reason,) = look("p { color: red }\n\n.main { display: none }").of_page

    assert reason == "`.main { display: none }` in site.css:3"


def test_selectors_are_widened_and_never_narrowed() -> None:
    (rule,) = read_sheet("a:hover > b.c:not(:focus)::before, #x [d=e] , .f g {}x{color:red}").rules[
        -1:
    ]
    assert [each.text for each in widen_selectors(rule.prelude)] == ["x"]

    (rule,) = read_sheet("a:hover > b.c:not(:focus)::before, #x [d=e] , .f:is(g) {color:red}").rules
    widened = list(widen_selectors(rule.prelude))

    assert [each.text for each in widened] == ["a > b.c", "#x [d=e]", ".f:is(g)"]
    assert [each.keys for each in widened] == [{"b", ".c"}, {"[d"}, {".f"}]
    assert [each.pseudo_element for each in widened] == ["before", "", ""]


def test_every_address_of_a_stylesheet_is_found() -> None:
    sheet = read_sheet(
        '@import "a.css"; @import url(b.css) print; @font-face { src: url("c.woff2"), local(x) }'
        "p { background: image-set('d.png' 1x) } @media print { q { cursor: url(e.cur), auto } }"
    )

    assert sorted(sheet.addresses) == ["a.css", "b.css", "c.woff2", "d.png", "e.cur"]
