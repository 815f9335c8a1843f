"""Boxes are set on a drawn card, and nothing else of it changes."""

import io
import subprocess
import time
from decimal import Decimal
from pathlib import Path

import pikepdf
import pytest
from pikepdf import Name
from sample_cards import sample_card

from guidegen.paper.boxes import set_boxes

BLEED = Decimal(3)


def shown_by(tool: str, *options: str, pdf: bytes, folder: Path) -> str:
    path = folder / "card.pdf"
    path.write_bytes(pdf)
    ran = subprocess.run([tool, *options, path], check=True, capture_output=True, text=True)
    return ran.stdout


def boxes_of(pdf: bytes, folder: Path) -> dict[str, list[float]]:
    lines = shown_by("pdfinfo", "-box", pdf=pdf, folder=folder).splitlines()
    split = (line.split(":") for line in lines if "Box:" in line)
    return {name: [float(edge) for edge in edges.split()] for name, edges in split}


def test_the_trim_box_of_a_pocket_card_is_the_size_of_an_id_1_card(tmp_path: Path) -> None:
    card = sample_card("pocket", "pocket", 2)
    boxes = boxes_of(set_boxes(card.pdf, BLEED), tmp_path)
    left, bottom, right, top = boxes["TrimBox"]
    # ISO/IEC 7810, ID-1: 85.60 by 53.98 mm, which is 242.65 by 153.01 points.
    assert right - left == pytest.approx(242.65, abs=0.011)
    assert top - bottom == pytest.approx(153.01, abs=0.011)
    assert boxes["CropBox"] == boxes["TrimBox"]
    assert boxes["BleedBox"] == boxes["MediaBox"]
    # 3 mm.
    assert [left, bottom] == pytest.approx([8.504, 8.504], abs=0.006)


@pytest.mark.parametrize(
    ("size", "width", "height"),
    [
        # ISO 216: 210 by 297, 148 by 210 and 105 by 148 mm; a point is 25.4/72 mm.
        ("a4", 595.276, 841.890),
        ("a5", 419.528, 595.276),
        ("a6", 297.638, 419.528),
        # ANSI/ASME Y14.1, size A: 8.5 by 11 in.
        ("letter", 612, 792),
    ],
)
def test_the_trim_box_has_the_size_of_the_standard(size: str, width: float, height: float) -> None:
    boxed = set_boxes(sample_card(size, size, 1).pdf, BLEED)
    with pikepdf.open(io.BytesIO(boxed)) as pdf:
        left, bottom, right, top = (float(edge) for edge in pdf.pages[0].trimbox.as_list())
    assert [right - left, top - bottom] == pytest.approx([width, height], abs=0.001)


def test_the_same_card_gives_the_same_bytes_and_boxes_can_be_set_again() -> None:
    card = sample_card("twice", "4x6", 3)
    boxed = set_boxes(card.pdf, BLEED)
    # An id that is made from the clock differs from one second to the next only.
    time.sleep(1.1)
    assert set_boxes(card.pdf, BLEED) == boxed
    assert set_boxes(boxed, BLEED) == boxed


def test_the_metadata_and_what_readers_for_the_blind_need_stay_as_drawn(tmp_path: Path) -> None:
    card = sample_card("kept", "a6", 2)
    boxed = set_boxes(card.pdf, BLEED)
    for option in ("-meta", "-struct-text", "-custom"):
        drawn = shown_by("pdfinfo", option, pdf=card.pdf, folder=tmp_path)
        assert drawn == shown_by("pdfinfo", option, pdf=boxed, folder=tmp_path)
    said = shown_by("pdfinfo", "-meta", pdf=boxed, folder=tmp_path)
    # ISO 19005-2 and ISO 14289-1 name these.
    for claim in (
        "<pdfaid:part>2<",
        "<pdfaid:conformance>A<",
        "<pdfuaid:part>1<",
    ):
        assert claim in said
    structure = shown_by("pdfinfo", "-struct-text", pdf=boxed, folder=tmp_path)
    assert "kept side 2" in structure
    with pikepdf.open(io.BytesIO(card.pdf)) as before, pikepdf.open(io.BytesIO(boxed)) as after:
        assert before.Root.keys() == after.Root.keys()
        assert before.Root.Lang == after.Root.Lang
        assert before.Root.MarkInfo == after.Root.MarkInfo
        assert before.docinfo == after.docinfo
        assert before.Root.Metadata.read_bytes() in boxed
        profiles = [
            pdf.Root.OutputIntents[0][Name.DestOutputProfile].read_bytes()
            for pdf in (before, after)
        ]
        assert profiles[0] == profiles[1]
        assert before.trailer.ID[0] == after.trailer.ID[0]
        for page, boxed_page in zip(before.pages, after.pages, strict=True):
            assert (
                page.obj[Name.Contents].read_bytes() == boxed_page.obj[Name.Contents].read_bytes()
            )
            assert set(boxed_page.obj.keys()) - set(page.obj.keys()) == {
                "/TrimBox",
                "/BleedBox",
                "/CropBox",
            }


def test_streams_end_with_a_line_of_their_own_as_archives_ask() -> None:
    # ISO 19005-2, 6.1.7.1: an end-of-line marker stands before `endstream`, beyond the length.
    with pikepdf.open(io.BytesIO(sample_card("archive", "a6", 1).pdf)) as pdf:
        said = pdf.Root.Metadata.read_bytes() + b"\n"
        pdf.Root.Metadata.write(said)
        drawn = io.BytesIO()
        pdf.save(drawn, fix_metadata_version=False)
    assert said + b"\nendstream" in set_boxes(drawn.getvalue(), BLEED)


def test_a_page_smaller_than_its_bleed_is_refused() -> None:
    with pytest.raises(ValueError, match="page 1 has no room for a bleed of 30 mm"):
        set_boxes(sample_card("small", "pocket", 1).pdf, Decimal(30))
