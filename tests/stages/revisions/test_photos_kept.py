"""Photos in what a release keeps, and in what is told of it later."""

import json
from dataclasses import replace

from hand_made_site import PHOTOS, T_17
from sample_fleet import SPAN

from guidegen.finding import Findings
from guidegen.guide.fingerprint import fingerprint
from guidegen.guide.model import Guide
from guidegen.guide.show_photos import photos_in, with_pictures
from guidegen.photos.model import Photo
from guidegen.revisions.model import Revision
from guidegen.revisions.origins import restored
from guidegen.revisions.retell import retell, retold_as_page, retold_as_text
from guidegen.revisions.snapshot import Snapshot, digest_of, read_snapshot, snapshot_bytes
from guidegen.revisions.tell import tell_changes


def with_edition(guide: Guide) -> Guide:
    return replace(guide, edition=fingerprint(guide.facts, guide.sections, guide.chapters))


def showing(*photos: Photo) -> Guide:
    """Return the guide of T-17 with *photos* at its tires."""
    chapters = tuple(
        replace(
            chapter,
            procedures=tuple(
                replace(each, photos=photos) if each.id == "tire-check" else each
                for each in chapter.procedures
            ),
        )
        for chapter in T_17.chapters
    )
    return with_edition(replace(T_17, chapters=chapters))


GUIDE = showing(*PHOTOS)


def kept(guide: Guide) -> Snapshot:
    raw = snapshot_bytes(guide)
    found = read_snapshot("x.json", raw, (guide.edition, digest_of(raw)), Findings())
    assert found is not None
    return found


def test_an_edition_is_another_with_each_change_of_a_photo() -> None:
    one, two = PHOTOS
    others = [
        showing(),
        showing(one),
        showing(two, one),
        *(
            showing(replace(one, **changed), two)
            for changed in (
                {"alt": "Another"},
                {"caption": ""},
                {"step": "step-1"},
                {"sha256": "0" * 64},
                {"width": 63},
            )
        ),
    ]
    assert len({GUIDE.edition, *(each.edition for each in others)}) == len(others) + 1
    moved = replace(SPAN, line=9)
    assert showing(replace(one, span=moved), two).edition == GUIDE.edition


def test_photos_are_kept_in_words_and_put_back_with_their_pictures() -> None:
    raw = snapshot_bytes(GUIDE)
    again = restored(kept(GUIDE).guide, json.loads(raw)["origins"], GUIDE)
    assert again is not None
    assert not any(photo.raw for photo in photos_in(again))
    pictures = {photo.sha256: photo.raw for photo in PHOTOS}

    whole = with_pictures(again, lambda photo: pictures.get(photo.sha256))

    assert whole is not None
    assert [(p.says, p.raw) for p in photos_in(whole)] == [(p.says, p.raw) for p in PHOTOS]
    assert with_edition(whole).edition == GUIDE.edition


def test_a_guide_without_one_of_its_pictures_is_not_put_together() -> None:
    only = PHOTOS[0]
    assert with_pictures(GUIDE, lambda photo: only.raw if photo == only else None) is None


def test_a_changed_photo_is_told_of() -> None:
    title = "Check the tires at 110 psi"
    told = (f"Changed: procedure “{title}” (photos)",)
    for other in (showing(), showing(PHOTOS[0]), showing(replace(PHOTOS[0], alt="x"), PHOTOS[1])):
        assert tell_changes(kept(GUIDE), Snapshot.of(other)) == told
        assert tell_changes(kept(other), Snapshot.of(GUIDE)) == told


def test_what_was_on_a_photo_is_told_again() -> None:
    revision = Revision("T-17", 1, "2026-11-30", "R. Aldous", GUIDE.edition, "0" * 64, ())
    told = retell(revision, json.loads(snapshot_bytes(GUIDE)))
    assert "Photo: All six wheels from the left & from the rear." in retold_as_text(told)
    assert "the left &amp; from the rear." in retold_as_page(told)
    assert "hand hole. / The valve of the inner tire" in retold_as_text(told)
