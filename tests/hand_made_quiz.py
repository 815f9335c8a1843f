"""A quiz of four questions for the trucks with air brakes of the site written by hand."""

from sample_fleet import fact

from guidegen.differences.standing import Rank, Reason, Standing
from guidegen.guide.model import Guide, Step, Text
from guidegen.training.model import (
    DATA,
    Question,
    QuestionKind,
    Quiz,
    Said,
    Term,
    TermKind,
    TruckValue,
    Where,
)

_STANDING = Standing(Rank.BRAKES, Reason.STOPPING)
_WARNING = "brakes.air.low_air_warning"


def quiz_of(guide: Guide) -> Quiz:
    """Return the quiz of the edition of *guide*, as ``T-17/quiz.html`` has it."""
    procedures = {each.id: each for chapter in guide.chapters for each in chapter.procedures}
    blocks = [block for each in procedures.values() for block in each.blocks]
    steps = {block.id: block.text for block in blocks if isinstance(block, Step)}
    air, oil = procedures["air-build-up"], procedures["oil-check"]
    return Quiz(
        guide.edition,
        (
            _question(
                QuestionKind.VALUE,
                _WARNING,
                (Term(TermKind.SECTION, "brakes.air"), Term(TermKind.FACT, _WARNING)),
                (
                    TruckValue(fact(_WARNING, "60 psi")),
                    TruckValue(guide.facts[_WARNING]),
                    TruckValue(fact(_WARNING, "70 psi")),
                ),
                (1, Where("air-brakes", air.id, "air-build-up.cautions.caution-1.avoid")),
            ),
            _question(
                QuestionKind.STEP_AFTER,
                "air-build-up.steps.step-1",
                (air.title, steps["air-build-up.steps.step-1"]),
                tuple(
                    steps[f"{name}"]
                    for name in (
                        "air-build-up.steps.step-3",
                        "oil-check.steps.step-1",
                        "air-build-up.steps.step-2",
                    )
                ),
                (2, Where("air-brakes", air.id, "air-build-up.steps.step-2")),
            ),
            _question(
                QuestionKind.BEGIN_STATE,
                oil.id,
                (oil.title,),
                tuple(
                    Term(TermKind.STATE, f"engine.{state}")
                    for state in ("off_warm", "off_cold", "idling")
                ),
                (0, Where("before-the-day", oil.id, oil.id)),
            ),
            _question(
                QuestionKind.NOT_FITTED,
                "high_voltage",
                (),
                tuple(
                    Term(TermKind.SECTION, name)
                    for name in ("engine_brake", "high_voltage", "block_heater")
                ),
                (1, Where(DATA, "", "high_voltage")),
            ),
        ),
    )


def _question(
    kind: QuestionKind,
    subject: str,
    about: tuple[Text | Term, ...],
    answers: tuple[Said, ...],
    key: tuple[int, Where],
) -> Question:
    right, where = key
    return Question(
        kind=kind,
        subject=subject,
        about=about,
        answers=answers,
        right=right,
        where=where,
        standing=_STANDING,
        asks=frozenset({subject}),
    )
