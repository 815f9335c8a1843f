"""What the proof does not see.

Takes in what is known of the fleet; gives out statements that every output of the proof shows.
Refuses to be left out: a proof that does not say where it ends is taken for more than it is.
"""

from guidegen.proof.foreign import Identities

_STATEMENTS = """
Whether spec files and procedures are right: the proof holds pages against the guide made of them.
What a browser draws. The proof reads files and stylesheets; beyond the declarations that it
 refuses it sees no fonts without glyphs, no overlapping or cut-off boxes, and no boxes that grid
 or float put in another order.
What scripts do to a page once it runs: they can hide, move or change anything. The words that they
 are given to show, and the kinds, limits and seconds of timers, are held against the guide; that a
 script judges by them is tested in a browser, and not proved.
Contrast above the least that is seen at all. A color of text is held against the ground that its
 own rule declares, else against a white page, and in dark themes against a dark one.
The colors by which signal panels tell DANGER from CAUTION, and what classes stand for.
Pictures: that their files are there is checked, what they show is not.
Words around the body of a page. They must be alike for all trucks and may not name any truck, but
 nothing states what they should say; with a single truck there is nothing to compare them with.
Whether header and navigation can be seen: themes fold them away on small screens.
Whether the alert symbol looks like one: a drawing that can be seen stands where it must.
Factors of the measures: the proof reckons on its own, and with the same table of factors.
Pages of the site that belong to no truck, but for their links and addresses.
What scripts make of packs: that a list states the files as they are is checked, what a tablet
 keeps and shows by it is not.
Under which yard the fleet page lists a truck.
Lists and paper forms for the office: of its pages each word and number is held against the specs,
 but not whether another order of closing gaps would free more trucks.
Addresses in script files, and those that a script puts together when it runs.
Whether the gravest difference between two trucks comes first: sheets are held against one table
 of what can hurt first, which their makers use too; and whether procedures of one title are alike.
Whether an inspection round is the shortest, and whether its places are where the plan has them:
 the page is held against the round that was planned, and the plan is not to scale.
Whether what a quiz asks is worth asking, and whether a hazard or step that it calls a wrong answer
 could be right at the truck: answers are held against the guide, and the fleet's other values
 against the quiz that was written.
Whether a revision changed more than its record says: start pages are held against the words of the
 record. Its seals show any byte that was changed, but not whole lines cut off at its end.
What a proof of paper leaves out, of the cards: it reads them back from their files, and says so
 itself. Whatever commands print (cards, sheets of several cards, booklets, quizzes, sign-off
 sheets) is no part of what is published, and this proof has not seen it.
"""

UNCHECKED = tuple(_STATEMENTS.strip().replace("\n ", " ").splitlines())
"""In the words of the report, the same for every fleet."""


def unchecked_of(identities: Identities) -> tuple[str, ...]:
    """Return what is not checked for a fleet with *identities*."""
    if not identities.untold:
        return UNCHECKED
    untold = ", ".join(identities.untold)
    statement = (
        f"Whether pages of other trucks mention {untold} in passing: without letters and digits "
        "both, three at least, these cannot be told from amounts and words. In links and in the "
        "places where a truck is named they are checked."
    )
    return (*UNCHECKED, statement)
