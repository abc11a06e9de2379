"""Pitches and fret ratios against ISO 16:1975 (A4 is 440 Hz) and what follows from it."""

import math

import pytest

from geometry.pitch import cents, frequency
from geometry.spacing import one_fraction

A4 = 440.0
"""Hz: ISO 16:1975, Acoustics, standard tuning frequency."""


@pytest.mark.parametrize(
    ("pitch", "semitones"), [("C2", -33), ("E2", -29), ("A2", -24), ("D3", -19), ("G3", -14), ("B3", -10), ("C6", 15)]
)
def test_equal_tempered_frequencies(pitch: str, semitones: int) -> None:
    # derived: twelve equal steps to the octave, counted from A4
    assert frequency(pitch, A4) == pytest.approx(A4 * 2 ** (semitones / 12), rel=1e-12)


def test_one_hertz_in_cents() -> None:
    # derived: 1200 log2(221/220)
    assert cents(221.0, 220.0) == pytest.approx(7.8514, abs=1e-4)


def test_equal_tempered_divisor() -> None:
    # derived: 1 / (1 - 2^(-1/12))
    assert 1 / one_fraction("equal", 1) == pytest.approx(17.817153745, abs=1e-9)


def test_rule_of_eighteen_in_cents_a_fret() -> None:
    # derived: 1200 log2(18/17)
    length = 1 - one_fraction("eighteen", 1)
    assert cents(1.0, length) == pytest.approx(1200 * math.log2(18 / 17), rel=1e-12)
    assert cents(1.0, length) == pytest.approx(98.9546, abs=1e-4)
