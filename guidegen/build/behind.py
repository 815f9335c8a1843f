"""Whether a site still says what the specs say.

Takes in a project and what a site says of its trucks; gives out a warning that names those of which
it says something else. Refuses nothing: which site is published is for the office to say.
"""

from collections.abc import Mapping

from guidegen.build import rules
from guidegen.build.load import load_fleet
from guidegen.build.project import Project
from guidegen.finding import Findings
from guidegen.site.revision import revision_words

_MOST_NAMED = 5


def check_behind(
    project: Project, editions: Mapping[str, str], revisions: Mapping[str, str], findings: Findings
) -> None:
    """Warn of trucks whose guide or revision is another than in the site.

    Args:
        project: With the specs as they stand.
        editions: Fingerprint of each truck's guide in the site, by number.
        revisions: Of each truck, by number, as the site says it.
        findings: Takes the warning.
    """
    loaded = load_fleet(project, Findings())
    if loaded is None:
        what = "the specs have faults, and the site was built before them"
    else:
        history = loaded.history
        now = {
            number: (guide.edition, revision_words(guide, history.of(number) if history else None))
            for number, guide in loaded.guides.items()
        }
        then = {number: (editions[number], revisions[number]) for number in editions}
        units = sorted(u for u in {*now, *then} if now.get(u) != then.get(u))
        if not units:
            return
        more = len(units) - _MOST_NAMED
        named = ", ".join(units[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
        what = f"the site was built before the last change to {named}"
    findings.add(
        rules.SITE_BEHIND,
        None,
        what=what,
        fix="run `guidegen build` and publish again, unless the old site is what you mean",
        place=project.shown(project.specs),
    )
