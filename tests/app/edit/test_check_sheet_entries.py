"""What is read on a check sheet, as it is typed: its unit is that in which it fits a square."""

import pytest

from app.edit import check_sheet_entries
from export import correction
from geometry import units


@pytest.mark.parametrize(
    ("line", "text", "read"),
    [
        ("across", "179.1", 179.1),
        ("up", "17.91", 179.1),  # cm
        ("up", "7 3/32", 180.18125),  # derived: 180 mm are 7.087 in
        ("across", "6 1/32", 153.19375),
        ("rising", "8 1/2", 215.9),
        ("falling", "10 1/64", 254.396875),
        ("across", "6", 152.4),
        ("across", "6 mm", 6.0),
        ("across", "8 1/2", 8.5),  # no side is so long in any unit
    ],
)
def test_a_bare_number_is_in_the_unit_in_which_it_fits_a_square(line: str, text: str, read: float) -> None:
    assert check_sheet_entries.typed(line, text) == pytest.approx(read)


def test_no_number_fits_a_square_in_two_units() -> None:
    # derived: LEAST to MOST of both squares' lines, in each unit
    for line, long in correction.SIDES_LONG.items():
        for side in (correction.OUTER, correction.INNER):
            for unit in units.MM_PER.values():
                ends = [share * side * long / unit for share in (correction.LEAST, correction.MOST)]
                fits = [
                    u
                    for u in units.MM_PER.values()
                    for s in (correction.OUTER, correction.INNER)
                    if ends[0] <= correction.MOST * s * long / u and correction.LEAST * s * long / u <= ends[1]
                ]
                assert fits == [unit], line
