"""Which templates the work needs that were not printed with the job sheet."""

from collections.abc import Collection, Iterable, Mapping

from export.cautions import BaseStep, Step
from export.templates.glued.bridge import BRIDGE, CLEARING
from geometry import words
from geometry.job import Held

TAPED: Mapping[Held, Mapping[str, str]] = {
    "glue": {"placement": "Placement template", "full-length": "Placement, full length"},
    "strings": {"bridge-place": "Bridge’s place"},
    "screws": {"saddle-bases": "Saddle bases"},
}
"""What is taped on the top, title by name; where there are several, any of them will do."""

NEEDED: Mapping[Step | BaseStep, Mapping[str, str]] = {
    "clear": {"clearing": CLEARING},
    "dowels": {"bridge": BRIDGE},
    "tie holes": {"tie-block": "Tie block"},
    "tail": {"tailpiece": "Tailpiece"},
}
"""What else a step of the work is done by, title by name."""


def told(steps: Iterable[Step | BaseStep], held: Held, printed: Collection[str]) -> str:
    """What to have ready besides what is `printed` (templates by name); "" where nothing lacks."""
    lacking = []
    for step in dict.fromkeys(steps):
        needed = TAPED[held] if step == "tape" else NEEDED.get(step, {})
        if needed and not set(needed) & set(printed):
            lacking.append(f"“{next(iter(needed.values()))}”")
    return f" Needed below, but not printed with this sheet: {words.joined(lacking)}." if lacking else ""
