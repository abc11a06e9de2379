"""What comes first with sheets, however the bridge is held: that they are true, all of one file, and all there."""

from collections.abc import Collection, Iterable, Mapping

from export.cautions import BaseStep, Step
from export.templates.glued.bridge import BRIDGE, CLEARING
from geometry import words
from geometry.job import Held

TAPED: Mapping[Held, Mapping[str, str]] = {
    "glue": {"placement": "Placement template", "full-length": "Placement, full length"},
    "strings": {"bridge-place": "Bridge’s place", "placement": "Placement template"},  # one page
    "screws": {"saddle-bases": "Saddle bases"},
}
"""What is taped on the top, title by name; where there are several, any of them will do."""

NEEDED: Mapping[Step | BaseStep, Mapping[str, str]] = {
    "clear": {"clearing": CLEARING},
    "dowels": {"bridge": BRIDGE},
    "tie holes": {"tie-block": "Tie block"},
    "saddle": {"saddle-blank": "Saddle blank"},
    "nut": {"nut-blank": "Nut blank"},
    "tail": {"tailpiece": "Tailpiece"},
    "crown": {"crown": "Crown"},
    "base back": {"saddle-bases-back": "Saddle bases, back"},
}
"""What else a step of the work is done by, title by name."""

SCALES = "Lay a rule on both scales of every template"


def said(then: Iterable[Step | BaseStep], held: Held, printed: Collection[str], file: str) -> str:
    """To read each sheet's scales, to see that it is of the same file (a fingerprint; empty: not known), and what else
    to have ready: templates that the steps that follow need and that are not `printed` (by name).

    Derived: a sheet that was printed before a reading was changed agrees with itself in every scale and distance.
    """
    scales = f"{SCALES}; all must be of file {file}." if file else f"{SCALES} that was printed."
    lacking = []
    for step in dict.fromkeys(then):
        needed = TAPED[held] if step == "tape" else NEEDED.get(step, {})
        if needed and not set(needed) & set(printed):
            lacking.append(f"“{next(iter(needed.values()))}”")
    return f"{scales} Needed below, but not printed with this sheet: {words.joined(lacking)}." if lacking else scales
