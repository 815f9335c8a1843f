"""The index of a booklet."""

from sample_fleet import TRUCKS

from guidegen.paper.keywords import Entry, entries_of, keywords_of
from guidegen.paper.matter import Matter


def entry(words: str) -> Entry:
    return Entry(words, words, words.lower().replace(" ", "-"))


def test_a_title_stands_under_each_of_its_main_words() -> None:
    title = entry("Check the brakes for air leaks")

    index = keywords_of([title])

    assert [(key.word, key.entries) for key in index] == [
        ("air", (title,)),
        ("brakes", (title,)),
        ("leaks", (title,)),
    ]


def test_plurals_stand_with_their_singular_and_titles_from_a_to_z() -> None:
    titles = [entry("Set the brakes"), entry("Battery charging"), entry("Know each brake")]

    index = keywords_of([*titles, entry("Look at the batteries")])

    found = {key.word: [each.words for each in key.entries] for key in index}
    assert found == {
        "battery": ["Battery charging", "Look at the batteries"],
        "brake": ["Know each brake", "Set the brakes"],
        "charging": ["Battery charging"],
    }


def test_a_title_of_small_words_alone_still_stands_in_the_index() -> None:
    (key,) = keywords_of([entry("Stop and look")])

    assert key.word == "stop"


def test_every_procedure_and_every_value_of_a_guide_stands_in_the_index() -> None:
    matter = Matter(TRUCKS[0])
    listed = set(entries_of(matter))

    placed = {each for key in keywords_of(listed) for each in key.entries}

    procedures = sum(len(chapter.procedures) for chapter in TRUCKS[0].chapters)
    assert len(listed) == procedures + len(TRUCKS[0].facts)
    assert placed == listed


def test_keywords_stand_in_one_order_whatever_the_order_of_titles() -> None:
    titles = [entry(words) for words in ("Fuel tanks", "ABS lamp", "Air tanks", "Fuel gauge")]

    assert keywords_of(titles) == keywords_of(titles[::-1])
    assert [key.word for key in keywords_of(titles)] == [
        "ABS",
        "air",
        "fuel",
        "gauge",
        "lamp",
        "tanks",
    ]
