"""Where the points of the measuring lists lie, roughly, until they are measured."""

from geometry.job.job import Hand

ABOUT = {
    "nut": (0.0, 21.5),
    "fret12": (0.5, 26.0),
    "end": (0.67, 28.0),
    "seam.1": (0.9, 0.0),
    "seam.2": (1.15, 0.0),
    "old.1": (0.98, 76.0),
    "old.2": (0.98, -76.0),
    "old.3": (1.02, -76.0),
    "old.4": (1.02, 76.0),
    "pin": (1.015, 26.0),
    "foot": (0.99, 45.0),
    "tail": (1.13, 18.0),
    "body.1": (1.2, 45.0),
    "body.2": (1.2, -45.0),
    "mark.1": (0.99, 46.0),
    "mark.2": (0.99, -46.0),
    "mark.3": (1.01, -46.0),
    "mark.4": (1.01, 46.0),
    "hole.1": (0.965, 33.0),
    "hole.2": (0.965, -33.0),
    "hole.3": (1.015, -33.0),
    "hole.4": (1.015, 33.0),
}
"""x in scales and y in mm of points by name or family, y of a pair on the left (common practice, no source). The seam
is read behind the sound hole, and behind the bridge.
"""


def about(name: str, hand: Hand, scale: float) -> tuple[float, float]:
    """Where a point of the lists lies, roughly, in the neck frame (mm)."""
    family, _, which = name.partition(".")
    x, y = ABOUT[name] if name in ABOUT else ABOUT[family]
    if family == "pin":
        return round(x * scale, 1), y if (which == "1") == (hand == "right") else -y
    return round(x * scale, 1), -y if which == "right" else y
