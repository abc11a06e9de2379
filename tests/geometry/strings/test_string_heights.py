"""From action as measured to the heights the equation wants."""

import numpy as np
import pytest

from geometry.job import Action, Heights, String, Strings
from geometry.job.stringing import HIGHEST_ACTION
from geometry.spacing import one_fraction
from geometry.strings.string_heights import (
    heights_spread,
    known_heights,
    missing_heights,
    nut_and_saddle_heights,
    sag,
    usual_action,
)

NOMINAL = np.full(3, 650.0)
THREE = tuple(String(name=name) for name in "123")


def test_action_is_the_height_of_a_straight_string_over_two_frets() -> None:
    # derived: b = 0.5, c = 3.6 is 0.5 + 3.6 x 0.05613 over fret 1 and 0.5 + 1.8 over fret 12
    action = Action(fret1=(0.5 + 3.6 * one_fraction("equal", 1),) * 2, fret12=(2.3, 2.3))
    low, rise = nut_and_saddle_heights(Strings(list=THREE, action=action), False, NOMINAL)
    assert low == pytest.approx([0.5] * 3)
    assert rise == pytest.approx([3.6] * 3)


def test_the_treble_string_takes_the_side_away_from_the_bass() -> None:
    action = Action(fret1=(0.5, 0.5), fret12=(2.0, 3.0))
    strings = Strings(list=THREE, action=action)
    low, rise = nut_and_saddle_heights(strings, False, NOMINAL)  # bass at the right
    assert (low + rise / 2).tolist() == pytest.approx([2.0, 2.5, 3.0])
    low, rise = nut_and_saddle_heights(strings, True, NOMINAL)  # bass at the left
    assert (low + rise / 2).tolist() == pytest.approx([3.0, 2.5, 2.0])


def test_a_hollow_neck_holds_the_frets_away_from_the_string() -> None:
    action = Action(fret1=(0.5, 0.5), fret12=(2.3, 2.3))
    flat = nut_and_saddle_heights(Strings(list=THREE, action=action), False, NOMINAL)
    hollow = nut_and_saddle_heights(Strings(list=THREE, action=action, relief=0.3), False, NOMINAL)
    # derived: fret 12 lies 0.8906 of the way from fret 1 to fret 14, so 4 x 0.3 x 0.8906 x 0.1094 deep
    over_12 = [low + rise / 2 for low, rise in (flat, hollow)]
    assert over_12[0] - over_12[1] == pytest.approx([0.117] * 3, abs=0.0005)


def test_relief_is_deepest_midway_and_nothing_at_frets_1_and_14() -> None:
    frets = [one_fraction("equal", fret) for fret in (1, 14, 19)]
    places = 650 * np.array([[frets[0], (frets[0] + frets[1]) / 2, *frets[1:]]])
    assert sag(places, np.array([[650.0]]), 0.3)[0] == pytest.approx([0.0, 0.3, 0.0, 0.0])


def test_measured_action_stands_before_typed_heights() -> None:
    strings = Strings(list=THREE, height=Heights(nut=1.0, saddle=4.0))
    assert nut_and_saddle_heights(strings, False, NOMINAL)[1] == pytest.approx([4.0] * 3)
    low, rise = nut_and_saddle_heights(strings, False, NOMINAL, Action(fret1=(0.5, 0.5), fret12=(2.0, 2.0)))
    assert low + rise / 2 == pytest.approx([2.0] * 3)


def test_on_a_zero_fret_the_string_lies_in_the_frets_plane() -> None:
    strings = Strings(list=THREE, action=Action(fret1=(0.2, 0.2), fret12=(2.0, 2.0)))
    low, rise = nut_and_saddle_heights(strings, False, NOMINAL, zero_fret=True)
    assert low.tolist() == [0.0] * 3
    assert rise == pytest.approx([4.0] * 3)


def test_one_string_lies_midway() -> None:
    strings = Strings(list=THREE[:1], action=Action(fret1=(0.5, 0.5), fret12=(2.0, 3.0)))
    low, rise = nut_and_saddle_heights(strings, False, NOMINAL[:1])
    assert low + rise / 2 == pytest.approx([2.5])


def test_usual_heights_are_lower_for_steel_and_for_short_scales() -> None:
    steel = Strings(list=THREE)
    nylon = Strings(list=tuple(String(name=name, material="nylon") for name in "123"))
    assert usual_action(steel, False, NOMINAL) == Action(fret1=(0.5, 0.5), fret12=(1.8, 2.4))
    assert usual_action(nylon, True, NOMINAL) == Action(fret1=(0.8, 0.8), fret12=(4.0, 3.0))
    assert usual_action(nylon, True, NOMINAL / 2) == Action(fret1=(0.4, 0.4), fret12=(2.0, 1.5))


def test_on_a_zero_fret_only_the_action_at_the_twelfth_is_uncertain() -> None:
    # derived: b is 0; c is twice the action at fret 12, of which 0.1 is not known (common practice, no source)
    action = Action(fret1=(0.4, 0.4), fret12=(2.0, 2.0))
    moves = heights_spread(Strings(list=THREE, action=action), False, NOMINAL, zero_fret=True)
    assert np.sqrt((moves**2).sum(axis=0)) == pytest.approx(np.array([[0.0] * 3, [0.2] * 3]))


def test_the_spread_of_measured_heights_is_that_of_moving_each_action() -> None:
    def at(near: float, far: float) -> tuple[float, float]:
        action = Action(fret1=(near, near), fret12=(far, far))
        low, rise = nut_and_saddle_heights(Strings(list=THREE, action=action), False, NOMINAL)
        return float(low[0]), float(rise[0])

    here = at(0.6, 2.2)
    moved = [np.subtract(at(*there), here) for there in ((0.7, 2.2), (0.6, 2.3))]
    asked = Strings(list=THREE, action=Action(fret1=(0.6, 0.6), fret12=(2.2, 2.2)))
    assert heights_spread(asked, False, NOMINAL) == pytest.approx(np.repeat(np.array(moved)[..., None], 3, axis=2))


def test_each_height_is_read_typed_or_as_usual_by_itself() -> None:
    # usual for steel at 650 mm: 0.5, and 1.8 at treble and 2.4 at bass (common practice, no source); bass at the right
    typed = Strings(list=THREE, action=Action(fret1=(0.7, None), fret12=(None, 2.9)))
    read = Action(fret12=(None, 3.1))
    found = known_heights(typed, False, NOMINAL, read)
    assert found.over.tolist() == [[0.7, 0.5], [1.8, 3.1]]
    # derived: 0.1 where read or typed; 0.3 and 0.8 where assumed (common practice, no source)
    assert found.sd.tolist() == [[0.1, 0.3], [0.8, 0.1]]
    assert found.missing == (("fret 1", "right"), ("fret 12", "left"))


def test_on_a_zero_fret_nobody_misses_the_height_over_fret_1() -> None:
    half = Strings(list=THREE, action=Action(fret12=(2.0, 2.0)))
    assert missing_heights(half, None, zero_fret=True) == ()
    assert len(missing_heights(half, None)) == 2


def test_heights_typed_over_the_frets_plane_fill_what_was_not_read() -> None:
    # derived: 0.5 + 3.6 x 0.05613 over fret 1, 0.5 + 1.8 over fret 12; hypot(0.1, 0.2/2) is not known of it
    both = Strings(list=THREE, height=Heights(nut=0.5, saddle=3.6))
    found = known_heights(both, False, NOMINAL, Action(fret12=(2.0, None)))
    assert found.over[1].tolist() == pytest.approx([2.0, 2.3])
    assert found.over[0].tolist() == pytest.approx([0.5 + 3.6 * one_fraction("equal", 1)] * 2)
    assert found.sd[1, 1] == pytest.approx(0.1 * 2**0.5)
    assert found.missing == ()


def test_a_string_of_many_metres_has_no_action_that_a_job_could_not_hold() -> None:
    """Readings that contradict each other may make one; the usual action stays within what a job holds."""
    usual = usual_action(Strings(list=THREE), True, np.full(3, 20_000.0))
    assert usual.fret1 == (HIGHEST_ACTION["fret 1"],) * 2
    assert usual.fret12 == (HIGHEST_ACTION["fret 12"],) * 2


@pytest.mark.parametrize(("zero_fret", "nut"), [(False, 0.1), (True, 0.0)])
def test_heights_as_typed_are_as_sure_as_a_hand_types_them(zero_fret: bool, nut: float) -> None:
    # common practice, no source: 0.1 mm at the nut, which on a zero fret is none, and 0.2 mm of rise; two causes
    strings = Strings(list=THREE, height=Heights(nut=1.0, saddle=4.0))
    found = heights_spread(strings, False, NOMINAL, zero_fret=zero_fret)
    assert found.shape == (2, 2, 3)
    for string in range(3):
        assert found[:, :, string].tolist() == [[nut, 0.0], [0.0, 0.2]]
