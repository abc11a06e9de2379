"""Sets of strings to start a job from, by material and gauge. Treble to bass.

They are round figures of our own and no maker's. The **rule**: the first and the last of a set's plain strings and
of its wound ones are round figures; the strings between them grow by equal ratios, rounded to a whole thousandth of an
inch (steel) or to 0.05 mm (all else). A string tuned out of order, the high one of a ukulele, has a round figure too.
The thinner of an octave pair pulls as nearly as a thousandth lets it what the first string of all does. Which strings
are wound is common practice, no source. Mass and stretch are left open: they are estimated from the make and marked so.
"""

import msgspec

from geometry.job.stringing import Material, String


class UsualSet(msgspec.Struct, frozen=True, kw_only=True):
    """A set: what a person calls it, and its strings from treble to bass."""

    says: str
    strings: tuple[String, ...]

    @property
    def count(self) -> int:
        """How many strings."""
        return len(self.strings)


def _steel(pitches: str, gauges: str, material: Material = "steel") -> tuple[String, ...]:
    """Gauges in thousandths of an inch, a `w` behind one that is wound."""
    return tuple(
        String(
            name=str(index),
            course=index,
            pitch=pitch,
            material=material,
            build="wound" if gauge.endswith("w") else "plain",
            diameter=f"{int(gauge.rstrip('w')) / 1000:.3f} in",
        )
        for index, (pitch, gauge) in enumerate(zip(pitches.split(), gauges.split(), strict=True), 1)
    )


def _soft(pitches: str, diameters: str, material: Material) -> tuple[String, ...]:
    """Diameters in mm, a `w` behind one that is wound."""
    return tuple(
        String(
            name=str(index),
            course=index,
            pitch=pitch,
            material=material,
            build="wound" if size.endswith("w") else "plain",
            diameter=float(size.rstrip("w")),
        )
        for index, (pitch, size) in enumerate(zip(pitches.split(), diameters.split(), strict=True), 1)
    )


def _pairs(pitches: str, gauges: str) -> tuple[String, ...]:
    """Pairs, two strings a course, the thicker of an octave pair first."""
    single = _steel(pitches, gauges)
    return tuple(
        msgspec.structs.replace(string, name=f"{1 + index // 2}{'ab'[index % 2]}", course=1 + index // 2)
        for index, string in enumerate(single)
    )


SIX = "E4 B3 G3 D3 A2 E2"
SETS: dict[str, UsualSet] = {
    "steel 10-46": UsualSet(says="six strings, steel 10-46", strings=_steel(SIX, "10 14 22w 28w 36w 46w")),
    "steel 11-50": UsualSet(says="six strings, steel 11-50", strings=_steel(SIX, "11 15 22w 29w 38w 50w")),
    "steel 12-54": UsualSet(says="six strings, steel 12-54", strings=_steel(SIX, "12 16 24w 31w 41w 54w")),
    "steel 13-58": UsualSet(says="six strings, steel 13-58", strings=_steel(SIX, "13 17 26w 34w 44w 58w")),
    "silk and steel 11-46": UsualSet(
        says="six strings, silk and steel 11-46", strings=_steel(SIX, "11 15 22w 28w 36w 46w", "silk and steel")
    ),
    "steel twelve 10-46": UsualSet(
        says="twelve strings, steel 10-46",
        strings=_pairs("E4 E4 B3 B3 G3 G4 D3 D4 A2 A3 E2 E3", "10 10 14 14 22w 8 28w 11 36w 15 46w 21w"),
    ),
    "nylon 0.70-1.10": UsualSet(
        says="six strings, nylon 0.70-1.10", strings=_soft(SIX, "0.70 0.85 1.00 0.75w 0.90w 1.10w", "nylon")
    ),
    "nylon 0.75-1.15": UsualSet(
        says="six strings, nylon 0.75-1.15", strings=_soft(SIX, "0.75 0.90 1.05 0.80w 0.95w 1.15w", "nylon")
    ),
    "fluorocarbon 0.55-1.10": UsualSet(
        says="six strings, fluorocarbon trebles 0.55-1.10",
        strings=_soft(SIX, "0.55 0.70 0.85 0.75w 0.90w 1.10w", "fluorocarbon"),
    ),
    "gut 0.60-1.10": UsualSet(
        says="six strings, gut trebles 0.60-1.10", strings=_soft(SIX, "0.60 0.75 1.00 0.75w 0.90w 1.10w", "gut")
    ),
    "ukulele nylon 0.60-0.90": UsualSet(
        says="ukulele, high G, nylon 0.60-0.90", strings=_soft("A4 E4 C4 G4", "0.60 0.75 0.90 0.65", "nylon")
    ),
    "baritone ukulele nylon 0.65-0.90": UsualSet(
        says="baritone ukulele, nylon 0.65-0.90", strings=_soft("E4 B3 G3 D3", "0.70 0.90 0.65w 0.85w", "nylon")
    ),
    "tenor steel 10-32": UsualSet(
        says="four strings, tenor in fifths, steel 10-32", strings=_steel("A4 D4 G3 C3", "10 14 22w 32w")
    ),
    "mandolin steel 11-40": UsualSet(
        says="mandolin, steel 11-40",
        strings=_pairs("E5 E5 A4 A4 D4 D4 G3 G3", "11 11 16 16 26w 26w 40w 40w"),
    ),
}
"""By a name that tells material, thinnest and thickest; no job file holds it."""
