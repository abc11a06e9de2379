"""The small fit of frets that decides between one scale and two: its leader is the one that is worst for how well the
others check it.
"""

import math

import numpy as np
import pytest

from geometry.survey.rows import one_scale
from geometry.survey.rows.one_scale import SHOWN, Fit, _solve, _ties
from geometry.survey.rows.row import Row


def read(name: str, value: float, sigma: float = 1.0, part: float = 1.0) -> Row:
    return Row(name, "none", (), value, sigma, extras=(("scale.left", part),))


def test_of_three_readings_alike_the_odd_one_leads_by_its_own_standard_deviations() -> None:
    # derived: the mean is 1; the odd one is 2 off, and with three readings each is checked by two thirds
    fit = _solve([read("a", 0.0), read("b", 0.0), read("c", 3.0)])
    assert fit.x[0] == pytest.approx(1.0)
    assert fit.squares == pytest.approx(6.0)
    assert fit.worst_at == 2
    assert fit.worst == pytest.approx(2 / math.sqrt(2 / 3))


def test_a_reading_that_decides_much_itself_counts_for_more_than_it_is_off() -> None:
    """derived: readings of x, x and 3x of 0, 1 and 4.2 give x = 13.6 / 11 = 1.23636; they are off by 1.236, 0.236 and
    0.491, and checked by 10/11, 10/11 and 2/11: 1.297, 0.248 and 1.151 of their standard deviations.
    """
    fit = _solve([read("a", 0.0), read("b", 1.0), read("c", 4.2, part=3.0)])
    assert fit.worst_at == 0
    assert fit.worst == pytest.approx((13.6 / 11) / math.sqrt(10 / 11))
    # and with 0.3 less of the first the third leads, though it is off by less
    fit = _solve([read("a", 0.5), read("b", 1.0), read("c", 4.6, part=3.0)])
    off = [0.5 - 15.3 / 11, 1.0 - 15.3 / 11, 4.6 - 3 * 15.3 / 11]
    assert abs(off[2]) < abs(off[0])
    share = [abs(one) / math.sqrt(free / 11) for one, free in zip(off, (10, 10, 2), strict=True)]
    assert fit.worst_at == share.index(max(share))
    assert fit.worst == pytest.approx(max(share))
    assert fit.worst_at == 2


def test_what_was_not_read_never_leads() -> None:
    fit = _solve([read("a", 0.0), read("b", 0.0), read("", 3.0)])
    assert fit.worst_at in (0, 1)


@pytest.mark.parametrize(
    ("sides", "held"),
    [
        (("left", "right"), [({"left": 1.0, "right": -1.0}, 2.0)]),
        (
            ("left", "right", "centre"),
            [({"left": 1.0, "right": -1.0}, 2.0), ({"centre": 1.0, "left": -0.5, "right": -0.5}, 1.0)],
        ),
        (("left", "centre"), [({"centre": 1.0, "left": -1.0}, 1.0)]),
        (("right", "centre"), [({"centre": 1.0, "right": -1.0}, 1.0)]),
        (("left",), []),
        (("centre",), []),
    ],
)
def test_the_outer_strings_hold_each_other_and_the_centre(
    sides: tuple[str, ...], held: list[tuple[dict[str, float], float]]
) -> None:
    """derived: the centre line lies midway, so that it stands half as far from one side as the other side does"""
    rows = _ties("scale", sides, 2.0)
    signs = [dict((name.removeprefix("scale."), part) for name, part in row.extras) for row in rows]
    for found, (extras, sd), row in zip(signs, held, rows, strict=True):
        turned = {side: -part for side, part in found.items()}
        assert extras in (found, turned)
        assert (row.sigma, row.value) == (sd, 0.0)


@pytest.mark.parametrize(
    ("better", "leans"), [(SHOWN**2 - 0.1, True), (SHOWN**2 + 0.1, False), (0.0, True), (-5.0, True)]
)
def test_a_nut_that_is_askew_explains_frets_that_lean_where_it_does_so_clearly_better(
    monkeypatch: pytest.MonkeyPatch, better: float, leans: bool
) -> None:
    """derived: by as much as the slant itself must show; three frets a side, none of them beyond belief"""
    rows = tuple(
        Row(f"{side}{at}", "none", (), 100.0 * at, 0.2, extras=((f"scale.{side}", 0.1 * at),))
        for side in ("left", "right")
        for at in (1, 2, 3, 4)
    )
    leaning = Fit((), np.zeros(0), np.zeros((0, 0)), 50.0, 1.0, 0)
    askew = leaning._replace(squares=50.0 - better)
    monkeypatch.setattr(one_scale, "_leaning", lambda _rows, _known: leaning)
    monkeypatch.setattr(one_scale, "_slant", lambda _fit: 2 * SHOWN)
    monkeypatch.setattr(one_scale, "_given", lambda _rows, _known: [])
    monkeypatch.setattr(one_scale, "_solve", lambda _rows: askew)
    assert one_scale._show_slant(rows, (), ()) is leans
