"""Pitch: a note's name, or a number of hertz, and the frequency it stands for.

Names are letter, sharp or flat, octave (`E4`, `F#3`, `B♭2`), equal tempered from the A above middle C (A4). **Cents**
measure how far apart two frequencies lie: 1200 to the octave.
"""

import math
import re
from functools import lru_cache

_NOTE = re.compile(r"\s*([A-Ga-g])\s*([#♯b♭]?)\s*(-?\d)\s*")
_HERTZ = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*[Hh][Zz]\s*")
_FROM_A = {"c": -9, "d": -7, "e": -5, "f": -4, "g": -2, "a": 0, "b": 2}
LOWEST, HIGHEST = 15.0, 2200.0
"""Hz. No string that is fretted is tuned lower or higher (common practice, no source)."""


class NotAPitch(ValueError):
    """What was typed names no pitch a string is tuned to; the message says so in one sentence."""


@lru_cache(maxsize=512)
def frequency(name: str, a4: float = 440.0) -> float:
    """The frequency (Hz) of a pitch, with A4 at `a4` Hz. Raises `NotAPitch`.

    Equal temperament: 12 steps of 2^(1/12) to the octave, A4 = 440 Hz (ISO 16:1975).
    """
    usual = _hertz(name, 440.0)
    if not LOWEST <= usual <= HIGHEST:
        raise NotAPitch(
            f"“{name}” is {usual:.0f} Hz, which no string is tuned to; look at the octave (A4 is the tuning fork’s A)"
        )
    return _hertz(name, a4)


def _hertz(name: str, a4: float) -> float:
    if found := _NOTE.fullmatch(name):
        letter, sign, octave = found.groups()
        steps = _FROM_A[letter.lower()] + {"": 0, "#": 1, "♯": 1}.get(sign, -1) + 12 * (int(octave) - 4)
        return float(a4 * 2 ** (steps / 12))
    if found := _HERTZ.fullmatch(name):
        return float(found[1].replace(",", "."))
    raise NotAPitch(f"“{name}” is not a pitch; write a note with its octave, like E4, F#3 or Bb2")


def cents(f2: float, f1: float) -> float:
    """How far `f2` lies above `f1`, in cents: 1200 log2(f2 / f1)."""
    return 1200 * math.log2(f2 / f1)
