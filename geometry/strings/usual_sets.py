"""The usual sets of strings, by material and gauge, to start a job from. Treble to bass.

Diameters are what strings of such names commonly measure (common practice, from memory). Mass and stretch are left
open: they are estimated from the make and marked so. A set names no maker, for none is meant.
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
    "steel extra light": UsualSet(
        says="six strings, steel, extra light 10-47", strings=_steel(SIX, "10 14 23w 30w 39w 47w")
    ),
    "steel custom light": UsualSet(
        says="six strings, steel, custom light 11-52", strings=_steel(SIX, "11 15 22w 32w 42w 52w")
    ),
    "steel light": UsualSet(says="six strings, steel, light 12-53", strings=_steel(SIX, "12 16 24w 32w 42w 53w")),
    "steel medium": UsualSet(says="six strings, steel, medium 13-56", strings=_steel(SIX, "13 17 26w 35w 45w 56w")),
    "silk and steel": UsualSet(
        says="six strings, silk and steel 11-47", strings=_steel(SIX, "11 14 23w 28w 38w 47w", "silk and steel")
    ),
    "steel twelve light": UsualSet(
        says="twelve strings, steel, light 10-47",
        strings=_pairs("E4 E4 B3 B3 G3 G4 D3 D4 A2 A3 E2 E3", "10 10 14 14 23w 8 30w 12 39w 18 47w 27w"),
    ),
    "nylon normal": UsualSet(
        says="six strings, nylon, normal tension",
        strings=_soft(SIX, "0.71 0.82 1.02 0.74w 0.89w 1.09w", "nylon"),
    ),
    "nylon hard": UsualSet(
        says="six strings, nylon, hard tension",
        strings=_soft(SIX, "0.72 0.83 1.04 0.76w 0.91w 1.12w", "nylon"),
    ),
    "fluorocarbon": UsualSet(
        says="six strings, fluorocarbon trebles",
        strings=_soft(SIX, "0.57 0.66 0.84 0.74w 0.89w 1.09w", "fluorocarbon"),
    ),
    "gut": UsualSet(says="six strings, gut trebles", strings=_soft(SIX, "0.64 0.80 0.98 0.74w 0.89w 1.09w", "gut")),
    "ukulele": UsualSet(says="ukulele, high G, nylon", strings=_soft("A4 E4 C4 G4", "0.56 0.70 0.84 0.60", "nylon")),
    "baritone ukulele": UsualSet(
        says="baritone ukulele, nylon", strings=_soft("E4 B3 G3 D3", "0.66 0.81 0.76w 0.86w", "nylon")
    ),
    "tenor": UsualSet(says="four strings, tenor in fifths, steel", strings=_steel("A4 D4 G3 C3", "9 13 22w 32w")),
    "mandolin": UsualSet(
        says="mandolin, steel, light 10-38",
        strings=_pairs("E5 E5 A4 A4 D4 D4 G3 G3", "10 10 14 14 24w 24w 38w 38w"),
    ),
}
"""By a name that never changes."""
