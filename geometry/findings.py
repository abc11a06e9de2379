"""A **finding** is one thing worked out that the person should know: `stop`, `look` or `good`."""

from typing import Literal

import msgspec

Grade = Literal["stop", "look", "good"]


class Finding(msgspec.Struct, frozen=True, kw_only=True):
    """One finding. `code` names its sort and never changes; `text` is one or two plain sentences.

    `values` are the numbers behind the text (mm, degrees or cents, as the key says); `where` names what it
    is about as a mark's `of` does: `"reading:r9"`, `"point:seam.1"`, `"field:bridge.width"`, `"saddle"`;
    `"add:fret12.left"` what is to be read of points and is not in the list yet, `"take:{…}"` one reading to be added,
    as the job file holds it. A `look` that
    is `large` stands on every sheet and beside every file: whoever holds only these must read it. `briefly`: what of
    it is said where there is hardly any room, if not all.
    """

    grade: Grade
    code: str
    text: str
    values: dict[str, float] = {}
    where: str = ""
    large: bool = False
    briefly: str | None = None


UNSURE = frozenset(
    {
        "strings.wound",
        "strings.ends",
        "strings.estimated",
        "strings.unknown",
        "heights.assumed",
        "heights.wait",
        "nut.waits",
        "proof.unsure",
        "board.unlooked",
        "frets.unchecked",
        "frets.count_usual",
        "saddle.unchecked",
        "margin.unchecked",
        "old.unchecked",
        "survey.unchecked",
        "go.waits",
    }
)
"""The looks that call nothing wrong: a usual value stands in for a measured one, what was read waits for another
reading, nothing checks it, or what is to be done to the wood waits until more is known."""


ASKS_NOTHING = frozenset({"strings.wound", "strings.ends", "strings.estimated"})
"""The looks that only say how far something is known: there is nothing to do that could be ticked off."""


STATED = frozenset({"frets.slanted"})
"""The goods that only state what was declared: nothing was found well, so they wear no tick."""
BEGUN = frozenset({"proof.begun"})
"""The goods that say what is still to be read before anything is found: they wait, so they wear no tick either."""


ASKED = frozenset({"strings.missing", "bridge.missing"})
"""The looks that only ask for what was not given yet: they wait too, and call nothing wrong."""


def is_unsure(finding: Finding) -> bool:
    """Whether it only says that something is estimated or unchecked."""
    return finding.grade == "look" and finding.code in UNSURE


def look(code: str, text: str, where: str, *, briefly: str | None = None, **values: float) -> Finding:
    """A finding that asks to look."""
    return Finding(grade="look", code=code, text=text, values=values, where=where, briefly=briefly)
