"""What commands print with ``--format json``.

Takes in nothing; gives out, for each command, the keys of the one object that it prints, in words.
Refuses nothing: the reference refuses a command that has the option and stands here with no words.
"""

from collections.abc import Mapping
from types import MappingProxyType

FINDINGS = "findings"
"""Key that every object has."""

_UNIT = "Number of the truck."
_FILES = "Paths of the files that were written."
_PROOF: Mapping[str, str] = MappingProxyType(
    {
        "site": "Folder of the site.",
        "published": "Whether the site stands where it is read: true or false.",
        "units": "How many trucks have a guide.",
        "pages": "Files of trucks that were read back.",
        "procedures": "Read back from them, as all that follows.",
        "steps": "Of procedures.",
        "cautions": "Before their steps.",
        "values": "Amounts and words that are on record.",
        "labels": "Fixed words.",
        "differences": "From trucks that drivers know.",
        "stops": "Of inspection rounds.",
        "questions": "Of quizzes.",
        "lamps": "Of lamp finders.",
        "packed": "Files that packs list.",
        "revisions": "On start pages; only where anything was released.",
        "sides": "Of printed cards; only where the site has cards.",
        "failures": "How many things the proof found wrong; each is a finding.",
    }
)

RESULTS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "booklet": {
            "unit": _UNIT,
            "pages": "How many; 0 if it was not printed.",
            "file": "Path of the PDF, or null.",
        },
        "build": _PROOF,
        "cards": {
            "cards": "How many.",
            "sides": "How many.",
            "files": _FILES,
            "recorded": "With `--record`: whether they were put on record, true or false.",
        },
        "check": {
            "units": "How many trucks have a file.",
            "ready": "How many of them have a guide.",
        },
        "compare": {
            "known": "Number of the truck that the driver knows.",
            "given": "Number of the truck that the driver is given.",
            "differences": "The gravest first: kind, id, what it is, rank and both trucks' values.",
        },
        "coverage": {
            "list": "Id of the list of the law.",
            "name": "What it is called.",
            "source": "Where it stands.",
            "edition": "Of which day.",
            "no_list": "Why there is no list, if there is none.",
            "units": "For each truck: each item of the list with what meets it, and how many gaps.",
        },
        "doctor": {
            "examined": "Each thing that was looked at: name, health (`good`, `look at it` or "
            "`mend it`), found, fix."
        },
        "explain": {
            "unit": _UNIT,
            "procedure": "Id of the procedure.",
            "applies": "Whether it is in the guide: true, false, or null if that is not on record.",
            "reasons": "Each condition in words, whether it holds, and the values that it asks "
            "for, each with its place and source.",
        },
        "history": {
            "unit": _UNIT,
            "revisions": "The newest first: number, date, who approved, what changed, hashes.",
        },
        "init": {
            "folder": "Where the fleet was started.",
            "started": "Whether it was: true or false.",
            "workbook": "Path of the empty workbook, or null.",
        },
        "missing": {
            "units": "For each truck its gaps: name, grade, who asks, what to look up and where.",
            "held_back": "Numbers of the trucks that gaps hold back.",
            "not_read": "Numbers of the trucks whose files have faults.",
            "close_first": "Gaps in the order in which closing them frees most trucks.",
            "check_again": "What was recorded too long ago.",
            "files": _FILES,
        },
        "numbers": {"sections": "Of the list, each with its entries: place, numbers, source."},
        "pack": {"files": "Each zip file with its path and its size in bytes."},
        "prove": _PROOF,
        "publish": {
            "switched": "Whether readers see another version now: true or false.",
            "version": "Number of the version that they see.",
            "published": "When it was, where the office is.",
            "released": "Date of the last release that is in it.",
            "digest": "SHA-256 of its list of files.",
            "before": "Number of the version that they saw before, or null.",
            "versions": "With `--list`, and alone: each version that is kept.",
        },
        "quiz": {
            "unit": _UNIT,
            "edition": "Fingerprint of the guide.",
            "questions": "Each with its answers, the right one, and where to read it. No PDF is "
            "written.",
        },
        "reference": {"files": _FILES},
        "release": {
            "released": "Whether anything was: true or false; false in a dry run.",
            "revisions": "Each new revision: truck, number, date, who approved, what changed.",
        },
        "replaced": {
            "replaced": "What the fleet has in the place of the library's: each procedure with "
            "its file, and what is gone or other than in the library.",
            "own": "Procedures of the fleet that replace none: `procedure`, `title`, `place`.",
            "files": _FILES,
        },
        "reprint": {
            "cards": "Printed cards that are out of date, the worst first: yard, unit, card, "
            "title, kind, what to do, what changed, and which card hangs in the cab.",
            "older": "Cards that say the same as those of today, and are of an older revision.",
            "current": "How many cards are as they would be printed now.",
            "unrecorded": "Numbers of trucks of which no card is on record.",
            "unjudged": "Numbers of trucks that have no guide now, so that nothing can be said.",
            "file": "With `--out`: path of the PDF, or null.",
            "left_out": "With `--out`: cards that are not in it and are still to print: unit, "
            "card, why, and what to do.",
            "recorded": "With `--record`: whether it was put on record, true or false.",
        },
        "round": {
            "unit": _UNIT,
            "changes": "How many changes of the truck's state it takes.",
            "meters": "How far it is to walk.",
            "premises": "What is taken for granted.",
            "stops": "In order, each with its check, place, state and reasons.",
        },
        "rules": {
            "rules": "Each rule that has a page, or the one that is named: name, severity, why, "
            "and the page in Markdown.",
            "files": "With `--out`, and alone: paths of the pages.",
        },
        "schema": {"files": _FILES},
        "show": {
            "unit": _UNIT,
            "revision": "Its number.",
            "date": "Of the release.",
            "by": "Who approved it.",
            "edition": "Fingerprint of the guide.",
            "program": "Version and digest of the program that made it.",
            "facts": "All values that the guide held, each with its source.",
            "equipment": "What the truck had, had not, and what was not on record.",
            "chapters": "All procedures in words.",
            "files": "With `--out`, beside unit and revision alone: what was written.",
            "pages_as_published": "With `--out`: pages that came out byte for byte as they were.",
            "pages_other_now": "With `--out`: pages that would come out otherwise today.",
        },
        "signoff": {
            "unit": _UNIT,
            "edition": "Fingerprint of the guide.",
            "knows": "Number of the truck that the driver knows, or empty.",
            "knows_edition": "Fingerprint of that truck's guide, or empty.",
            "chapters": "Each with the procedures to sign for. No PDF is written.",
            "differences": "As of `compare`.",
        },
        "workbook export": {
            "written": "Whether the workbook was: true or false.",
            "file": "Its path.",
            "trucks": "How many are in it.",
        },
        "workbook import": {
            "written": "Whether the specs were changed: true or false; false in a dry run.",
            "changes": "Each with what it changes (`kind` and `of`: a truck or a model), name, "
            "before and after (null: not on record), place in the workbook, and spec file.",
            "new": "Trucks and models that get a file: `kind`, `of` and `file`.",
            "newer": "Spec files that changed since the export.",
        },
    }
)
"""By command; not all keys are there if a run comes to no result."""

WITHOUT: Mapping[str, str] = MappingProxyType(
    {
        "completion": "what it prints is read by a shell",
        "serve": "it runs until it is stopped, and comes to no result",
    }
)
"""Commands that cannot print JSON, and why."""
