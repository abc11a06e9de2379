"""Sets of strings to start a job from, by material and gauge. Treble to bass.

They are round figures of our own and no maker's. The **rule**: the first and the last of a set's plain strings and
of its wound ones are round figures; the strings between them grow by equal ratios, rounded to a whole thousandth of an
inch (steel) or to 0.05 mm (all else). A string tuned out of order, the high one of a ukulele or one that begins at a
fret, has a round figure too.
The thinner of an octave pair pulls as nearly as a thousandth lets it what the first string of all does. Which strings
are wound is common practice, no source. Mass and stretch are left open: they are estimated from the make and marked so.
"""

import msgspec

from geometry.job.stringing import Material, String


class UsualSet(msgspec.Struct, frozen=True, kw_only=True):
    """A set: what a person calls it, and its strings from treble to bass; `slanted` for a board with slanted frets."""

    says: str
    strings: tuple[String, ...]
    slanted: bool = False

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


def _pairs(single: tuple[String, ...]) -> tuple[String, ...]:
    """Pairs, two strings a course, the thicker of an octave pair first."""
    return _in_courses(single, (2,) * (len(single) // 2))


def _in_courses(single: tuple[String, ...], sizes: tuple[int, ...]) -> tuple[String, ...]:
    """The strings in courses of so many each."""
    of = [(course, "ab"[at] if size > 1 else "") for course, size in enumerate(sizes, 1) for at in range(size)]
    return tuple(
        msgspec.structs.replace(string, name=f"{course}{letter}", course=course)
        for string, (course, letter) in zip(single, of, strict=True)
    )


def _changed(strings: tuple[String, ...], which: tuple[str, ...], **fields: int | bool) -> tuple[String, ...]:
    """The strings of these names changed."""
    return tuple(msgspec.structs.replace(one, **fields) if one.name in which else one for one in strings)


TIED = ("nylon", "gut", "fluorocarbon")
"""Strings that are tied to the bridge, as a rule; others are held by pins (common practice, no source)."""
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
        strings=_pairs(_steel("E4 E4 B3 B3 G3 G4 D3 D4 A2 A3 E2 E3", "10 10 14 14 22w 8 28w 11 36w 15 46w 21w")),
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
        strings=_pairs(_steel("E5 E5 A4 A4 D4 D4 G3 G3", "11 11 16 16 26w 26w 40w 40w")),
    ),
    "short fifth steel 10-24": UsualSet(
        says="five strings, a short fifth from fret 5, steel 10-24",
        strings=_changed(_steel("D4 B3 G3 D3 G4", "10 13 16 24w 10"), ("5",), starts_at=5),
    ),
    "three courses steel 12-26": UsualSet(
        says="four strings in three courses, steel 12-26",
        strings=_in_courses(_steel("C4 C4 G3 C3", "12 12 16 26w"), (2, 1, 1)),
    ),
    "octave courses steel 11-40": UsualSet(
        says="eight strings in four courses, the low ones in octaves, steel 11-40",
        strings=_pairs(_steel("D4 D4 A3 A3 D3 D4 G2 G3", "11 11 15 15 24w 11 40w 16")),
    ),
    "five courses nylon 0.50-0.80": UsualSet(
        says="ten strings in five courses, nylon 0.50-0.80",
        strings=_pairs(
            _soft("E4 E4 B3 B3 G3 G3 D3 D4 A2 A3", "0.50 0.50 0.65 0.65 0.80 0.80 0.60w 0.55 0.80w 0.75", "nylon")
        ),
    ),
    "slanted frets steel 10-52": UsualSet(
        says="six strings on slanted frets, steel 10-52",
        strings=_steel(SIX, "10 13 17 26w 37w 52w"),
        slanted=True,
    ),
    "drones steel 10-22": UsualSet(
        says="four strings, a pair and two drones, steel 10-22",
        strings=_changed(_in_courses(_steel("D4 D4 A3 D3", "10 10 14 22w"), (2, 1, 1)), ("2", "3"), fretted=False),
    ),
}
"""By a name that tells material, thinnest and thickest; no job file holds it."""
