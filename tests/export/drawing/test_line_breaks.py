"""Lines end between words; a figure keeps its ± and its unit."""

import pytest

from export.drawing.line_breaks import KEPT, unbroken


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("It is 12.4 ±0.3 mm off.", "It is 12.4_±0.3_mm off."),
        ("25 11/32 in long", "25_11/32_in long"),
        ("±1.2 mm; 3 frets", "±1.2_mm; 3 frets"),
        ("6.1 cents, 72 N and 40 in all", "6.1_cents, 72_N and 40_in all"),
        ("708 N ±8 % (72 kg, 159 lb)", "708_N ±8_% (72_kg, 159_lb)"),
        ("130 ±236 mm² of it", "130_±236_mm² of it"),
        ("nothing of all that", "nothing of all that"),
        ("string 3 in its slot", "string 3_in its slot"),
    ],
)
def test_what_stays_on_one_line(said: str, kept: str) -> None:
    """“3 in” is kept though it is no length here: that costs nothing."""
    assert unbroken(said) == kept.replace("_", KEPT)
    assert unbroken(said).replace(KEPT, " ") == said
