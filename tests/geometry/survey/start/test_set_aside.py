"""When a reading is grossly out, on both sides of each limit: one length, read several times."""

import msgspec
import numpy as np
import pytest

from geometry.survey.adjust.adjustment import Adjusted, adjust
from geometry.survey.adjust.datum import Straightedge
from geometry.survey.adjust.network import Network, network_of
from geometry.survey.rows.row import Row
from geometry.survey.start.set_aside import ASIDE, robust_fit, set_aside, suspicious

BASE = Straightedge("a", "b")
LONG = 400.0


def read(*readings: tuple[float, float]) -> Network:
    """A length of 400 read so often, each reading out by so much and of such a sigma."""
    return network_of(
        [Row(f"r{i}", "distance", ("a", "b"), LONG + off, sigma) for i, (off, sigma) in enumerate(readings)]
    )


def fitted(net: Network) -> Adjusted:
    return adjust(net, BASE, {"a": (0.0, 0.0), "b": (LONG, 0.0)})


def aside(net: Network) -> tuple[int, ...]:
    return set_aside(net, np.array([0.0, 0.0, LONG, 0.0]), BASE)[0]


@pytest.mark.parametrize(("error", "found"), [(7.45, False), (7.55, True), (-7.45, False), (-7.55, True)])
def test_half_of_a_gross_error_makes_one_look(error: float, found: bool) -> None:
    # common practice, no source: 15 mm; derived: of four alike readings each has a redundancy of 3/4, so that of an
    # error three quarters are left over, against 0.5 × 15 × 3/4
    assert suspicious(fitted(read((error, 0.3), *[(0.0, 0.3)] * 3))) == found


@pytest.mark.parametrize(("sigma", "found"), [(2.0, True), (2.3, False)])
def test_what_is_believable_makes_nobody_look(sigma: float, found: bool) -> None:
    # derived: an error of 8 leaves 6 over, which is 6 / (sigma √¾) standard deviations, against 3.29: 2.105
    assert suspicious(fitted(read((8.0, sigma), *[(0.0, sigma)] * 3))) == found


@pytest.mark.parametrize(("error", "found"), [(14.8, False), (15.2, True)])
def test_of_a_reading_with_little_redundancy_less_need_be_left(error: float, found: bool) -> None:
    # derived: beside ten of sigma 6 one of sigma 6 / √90 has a redundancy of 10 / 100; of an error of 15 it keeps 1.5,
    # which is 0.5 × 15 × 0.2, and at the others 13.5 is left over: 2.3 standard deviations, which are believed
    assert suspicious(fitted(read((error, 6.0 / 90**0.5), *[(0.0, 6.0)] * 10))) == found


@pytest.mark.parametrize(("redundancy", "found"), [(0.0195, False), (0.0205, True)])
def test_what_next_to_nothing_checks_makes_nobody_look(redundancy: float, found: bool) -> None:
    # derived as above: ten readings of sigma 40 and one that weighs (1 − r) / r × 10 as much; its error of 85 leaves
    # 1.7 over, more than 1.5, and 83 at the others, 2.1 standard deviations
    weight = 10 * (1 - redundancy) / redundancy
    assert suspicious(fitted(read((85.0, 40.0 / weight**0.5), *[(0.0, 40.0)] * 10))) == found


def test_a_fit_that_did_not_come_to_rest_is_suspicious() -> None:
    done = fitted(read(*[(0.0, 0.3)] * 4))
    assert not suspicious(done)
    assert suspicious(msgspec.structs.replace(done, resting=False))


@pytest.mark.parametrize(("error", "found"), [(14.9, ()), (15.1, (2,)), (-14.9, ()), (-15.1, (2,))])
def test_a_reading_fifteen_out_is_set_aside(error: float, found: tuple[int, ...]) -> None:
    # common practice, no source: 15 mm; derived: what the others, of sigma 0.3, give way is 0.04 × 0.3² × 2² / 15
    assert aside(read(*[(0.0, 0.3)] * 2, (error, 0.3), *[(0.0, 0.3)] * 4)) == found


@pytest.mark.parametrize(("error", "found"), [(26.0, ()), (27.0, (0,))])
def test_a_coarse_reading_is_set_aside_from_twice_what_is_believable(error: float, found: tuple[int, ...]) -> None:
    # derived: 2 × 3.2905 × 4 is 26.3; sixty others hold the length, and give way by 27 / 11 / 60, 0.04 mm
    assert aside(read((error, 4.0), *[(0.0, 4.0)] * 60)) == found


def test_what_is_set_aside_keeps_next_to_no_say() -> None:
    net = read((100.0, 0.3), *[(0.0, 0.3)] * 5)
    rows, lighter = set_aside(net, np.array([0.0, 0.0, LONG, 0.0]), BASE)
    assert rows == (0,)
    assert lighter.sigma.tolist() == pytest.approx([0.3 * ASIDE, *[0.3] * 5])
    # derived: an error of 100 weighs 1e-8 of each of five others
    assert fitted(lighter).place("b")[0] == pytest.approx(LONG, abs=1e-6)


def test_of_two_readings_neither_is_set_aside() -> None:
    assert aside(read((0.0, 0.3), (100.0, 0.3))) == ()


def test_what_is_known_beforehand_is_not_set_aside() -> None:
    rows = [Row(f"r{i}", "distance", ("a", "b"), LONG, 0.3) for i in range(3)]
    net = network_of([*rows, Row("", "distance", ("a", "b"), LONG + 50, 0.3)])
    assert aside(net) == ()


def test_most_readings_outvote_the_slips() -> None:
    # derived: by A. L. Cauchy's law an error of 100 at sigma 0.3 pulls with 2² × 0.3² / 100, against three that hold
    # with 1 each: twice 0.0036 / 3
    net = read((100.0, 0.3), (100.0, 0.3), *[(0.0, 0.3)] * 3)
    x = robust_fit(net, np.array([0.0, 0.0, LONG, 0.0]))
    assert abs(complex(x[2], x[3]) - complex(x[0], x[1])) == pytest.approx(LONG + 2 * 0.0036 / 3, abs=2e-4)


@pytest.mark.parametrize("values", [[640.0, 641.0, 64.0], [6400.0, 640.0, 641.0]])
def test_an_unknown_begins_at_the_middle_one_of_its_readings(values: list[float]) -> None:
    """A fit begun at nought would trust the shortest reading, begun at the mean the longest."""
    rows = [Row(f"r{i}", "none", (), value / 2, 0.3, extras=(("scale", 0.5),)) for i, value in enumerate(values)]
    net = network_of([Row("d", "distance", ("a", "b"), LONG, 0.3), *rows])
    x = robust_fit(net, np.array([0.0, 0.0, LONG, 0.0, 0.0]))
    assert x[4] == pytest.approx(640.5, abs=0.6)
