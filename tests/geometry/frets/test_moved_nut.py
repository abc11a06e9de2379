"""A nut that was moved, and one that no readings of frets can mean."""

import math

import pytest
from msgspec.structs import replace

from geometry.frets.fret_lines import MOVED
from geometry.work_out import lay_out, work_out
from tests.geometry.frets.test_fret_lines import codes, laid_out, read_on
from tests.geometry.made import BOARD, job, scales, surveyed


@pytest.mark.parametrize(("shift", "heard"), [(0.55, "0.7 cents sharp"), (-0.55, "0.7 cents flat")])
def test_open_strings_out_by_less_than_a_cent(shift: float, heard: str) -> None:
    # derived: 1200 log2(1400 / 1399.45) = 0.68
    extras = scales(1400.0, 1400.0) | {"shift.left": shift, "shift.right": shift}
    found = lay_out(job(BOARD, "right"), surveyed(BOARD, extras, 0.02)).findings
    (moved,) = (f for f in found if f.code == "nut.moved")
    assert heard in moved.text


@pytest.mark.parametrize("counted", [(1, 12), (7, 12), (1, 3, 5, 7, 9, 12)])
def test_frets_that_put_the_nut_where_none_stands_are_to_be_counted_again(counted: tuple[int, ...]) -> None:
    """All but the first counted one too high: fret 2 is read for 3, 4 for 5, and so on."""
    true = {n: n if n == 1 else n - 1 for n in counted}
    base = read_on("left", counted)
    wrong = tuple(
        replace(one, value=640.0 * (1 - 2 ** (-true[one.fret or 1] / 12))) if one.kind == "fret" else one
        for one in base.readings
    )
    assert any(
        f.grade in ("stop", "look") and "ount" in f.text for f in work_out(replace(base, readings=wrong)).findings
    )


@pytest.mark.parametrize(
    ("shift", "says"),
    # derived: the nominal place of 632 less the shift; 1200 log2(632/631) = 2.74 and 1200 log2(632/633) = −2.74 cents
    [
        (
            1.0,
            "nut stands 1.0 ±0.2 mm too near: the saddle follows the frets, and the open strings are 2.7 cents sharp",
        ),
        (
            -1.0,
            "the nut stands 1.0 ±0.2 mm too far: the saddle follows the frets, and the open strings are 2.7 cents flat",
        ),
    ],
)
def test_a_nut_that_was_moved_says_which_way_and_what_the_open_strings_do(shift: float, says: str) -> None:
    layout = laid_out(BOARD, scales(632.0, 632.0) | {"shift.left": shift, "shift.right": shift})
    (found,) = (f for f in layout.findings if f.code == "nut.moved")
    assert says in found.text
    # derived: a rule that lacks its first millimetre reads all from its end by that much too much, so that the frets
    # seem to lie farther from the nut
    assert ("end is not worn" in found.text) == (shift < 0)


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize(
    ("sd", "least"),
    # derived: 0.3 mm where the frets tell it better than that (common practice, no source), else 3.29 standard
    # deviations of a shift that is the mean of two sides, each known to `sd`
    [(0.02, MOVED), (0.4, 3.2905 * 0.4 / math.sqrt(2))],
)
def test_from_what_shift_on_a_nut_was_moved(sd: float, least: float, way: int) -> None:
    def told(shift: float) -> bool:
        extras = scales(632.0, 632.0) | {"shift.left": way * shift, "shift.right": way * shift}
        return "nut.moved" in codes(lay_out(job(BOARD, "right"), surveyed(BOARD, extras, sd)))

    assert (told(0.99 * least), told(1.01 * least)) == (False, True)


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize(("shift", "code", "grade"), [(4.9, "nut.moved", "look"), (5.1, "nut.miscounted", "stop")])
def test_a_nut_farther_than_any_is_moved_asks_to_count_the_frets(shift: float, code: str, grade: str, way: int) -> None:
    """On both sides of 5 mm (common practice, no source)."""
    layout = laid_out(BOARD, scales(632.0, 632.0) | {"shift.left": way * shift, "shift.right": way * shift})
    (found,) = (f for f in layout.findings if f.code.startswith("nut.") and f.where == "nut")
    assert (found.code, found.grade) == (code, grade)
    assert ("count the frets again" in found.text) == (grade == "stop")
