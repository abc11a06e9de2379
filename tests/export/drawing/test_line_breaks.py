"""Lines end between words; a figure keeps its ± and its unit, a sheet its name and count."""

from export.drawing.line_breaks import KEPT, unbroken
from tests.in_one import in_one


@in_one(
    ("said", "kept"),
    [
        ("It is 12.4 ±0.3 mm off.", "It is 12.4_±0.3_mm off."),
        ("25 11/32 in long", "25_11/32_in long"),
        ("±1.2 mm; 3 frets", "±1.2_mm; 3 frets"),
        ("6.1 cents, 72 N and 40 in all", "6.1_cents, 72_N and 40_in all"),
        ("178 ±154 mm², to be finished", "178_±154_mm², to be finished"),
        ("file 2C5E-2C · sheet A2, 2 of 12 · A4", "file_2C5E-2C_· sheet_A2,_2_of_12_· A4"),
        ("the file 12 of them", "the file 12 of them"),
        ("file 2C5E-2C · sheet T, 2 of 2 · A4", "file_2C5E-2C_· sheet_T,_2_of_2_· A4"),
        ("on sheet T. A sheet of paper", "on sheet_T. A sheet of paper"),
        ("708 N ±8 % (72 kg, 159 lb)", "708_N ±8_% (72_kg, 159_lb)"),
        ("130 ±236 mm² of it", "130_±236_mm² of it"),
        ("nothing of all that", "nothing of all that"),
        ("bass from headstock 6; below", "bass from headstock_6; below"),
        ("true at fret 12. Fret 7, frets", "true at fret_12. Fret_7, frets"),
        ("outer strings, bass ; treble", "outer strings, bass_; treble"),
        ("3.5 ; 3.5 mm", "3.5_; 3.5_mm"),
        ("brings the ± down to ±0.2", "brings the_± down to ±0.2"),
        ("has no ±.", "has no_±."),
        ("at fret 12, ± 0.3 mm (± 8 %)", "at fret_12, ±_0.3_mm (±_8_%)"),
        ("string 3 in its slot", "string 3_in its slot"),
    ],
)
def test_what_stays_on_one_line(said: str, kept: str) -> None:
    """“3 in” is kept though it is no length here: that costs nothing."""
    assert unbroken(said) == kept.replace("_", KEPT)
    assert unbroken(said).replace(KEPT, " ") == said
