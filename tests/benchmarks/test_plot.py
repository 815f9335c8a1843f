from xml.etree import ElementTree as ET

from fleets.plot import Series, draw_plot


def test_a_plot_names_each_series_and_marks_each_point() -> None:
    series = [Series(f"way {number}", ((10, 1 + number), (100, 9))) for number in range(9)]
    # Read by the standard library's XML reader; our own text, so nothing in it can harm.
    root = ET.fromstring(draw_plot("Seconds", "s", series))  # noqa: S314 -- own text
    texts = [each.text for each in root.iter("{http://www.w3.org/2000/svg}text")]
    assert [text for text in texts if text and text.startswith("way")] == [
        each.name for each in series
    ]
    marks = [each for each in root.iter() if each.get("class", "").startswith("s")]
    assert len(marks) == 9 * 3
    assert len({(mark.get("class"), mark.get("d")) for mark in marks}) == 9
