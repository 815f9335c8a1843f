"""The fixed words of quizzes and sign-off sheets.

Takes in nothing; gives out questions and labels by key.
Refuses to name a truck: what a question is about is quoted after it.
"""

from types import MappingProxyType

from guidegen.procedures.words import LAMP_ACTS, STATES
from guidegen.specs.profile import FACTS, HOLDER_LABELS
from guidegen.training.model import QuestionKind, Term, TermKind

STEMS = MappingProxyType(
    {
        QuestionKind.VALUE.value: "What does the guide of this truck give for this value?",
        QuestionKind.STEP_AFTER.value: "Which step comes right after this one?",
        QuestionKind.STEP_BEFORE.value: "Which step comes right before this one?",
        QuestionKind.LAMP_ACT.value: "This lamp comes on. What does it ask of you?",
        QuestionKind.STOP_LAMP.value: "Which of these lamps asks you to stop now?",
        QuestionKind.BEGIN_STATE.value: "How is the truck when you begin this work?",
        QuestionKind.COLD_WORK.value: "Which of these do you do in this state?",
        QuestionKind.HAZARD.value: "Which hazard does the guide warn of right before this step?",
        QuestionKind.FITTED.value: "Which of these does this truck have?",
        QuestionKind.NOT_FITTED.value: "Which of these does this truck not have?",
    }
)
"""What each kind of question asks."""

SIGNOFF_WORDS = MappingProxyType(
    {
        "signoff": "Sign-off sheet",
        "signoff_knows": "Sign-off sheet for a driver who knows",
        "no_license": (
            "This sheet is no license and no certificate. It records what a trainer saw."
        ),
        "shows": "The driver does the work and shows",
        "lamp_shows": "The driver says what the lamp means and what it asks",
        "cautions": "Cautions",
        "done": "Done",
        "more": "Needs more training",
        "initials": "Initials",
        "driver": "Driver",
        "trainer": "Trainer",
        "date": "Date",
        "signature": "Signature",
        "other_here": "What is other than on the truck you are signed off on",
        "other_shows": "The driver shows or says how it is on this truck",
        "not_on": "not on",
        "all_cautions": "Before any work, the driver reads its cautions aloud.",
        "by_hand": "Filled in by hand. guidegen keeps no names.",
    }
)
"""Fixed words of a sign-off sheet, by key."""


def term_words(term: Term) -> str:
    """Return *term* in words.

    Raises:
        KeyError: If its list has no such key.
    """
    match term.kind:
        case TermKind.SECTION:
            return HOLDER_LABELS[term.key]
        case TermKind.FACT:
            return FACTS[term.key].label
        case TermKind.LAMP_ACT:
            return LAMP_ACTS[term.key]
        case TermKind.STATE:
            aspect, _, state = term.key.partition(".")
            return STATES[aspect][state]
