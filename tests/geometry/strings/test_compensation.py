"""Compensation: limits, what is typed and what is worked out, and the ± it carries."""

import dataclasses
import math

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.job import Action, Heights, String, Strings
from geometry.strings.causes_of_doubt import common_names
from geometry.strings.compensation import FretPlaces, compensate, residual_cents, strings_as_played
from geometry.strings.stretch import Array
from geometry.strings.string_make import make
from geometry.strings.usual_compensation import PM95
from geometry.strings.usual_sets import SETS
from tests.published.string_cases import equal_frets

STEEL = Strings(list=SETS["steel 12-54"].strings, height=Heights(nut=0.45, saddle=3.2))
FRETS = equal_frets(645.0, 6, 20)


def saddles(strings: Strings, places: FretPlaces = FRETS, bass: str = "right") -> list[float]:
    return [one.saddle for one in compensate(strings_as_played(strings, bass, places))]  # type: ignore[arg-type]  # left or right


def replaced(strings: Strings = STEEL, **fields: object) -> Strings:
    return msgspec.structs.replace(strings, **fields)


def limp(ratio: float = 50.0) -> tuple[String, ...]:
    """As near to a string without stiffness as can be made: the thinnest that a job holds."""
    return (String(name="1", pitch="E4", diameter=0.1, kg_per_m=4e-4, stretch_ratio=ratio),)


def test_a_limp_string_lying_on_the_frets_needs_no_compensation() -> None:
    # derived: no height, no lengthening; what stays is the stiffness of the thinnest string there can be, X0 B0 = 0.043
    # mm for R = 1
    flat = Strings(list=limp(1.0), height=Heights(nut=0, saddle=0))
    (found,) = compensate(strings_as_played(flat, "right", equal_frets(650.0, 1)))
    assert found.saddle == pytest.approx(np.sqrt(3) * 0.05 / 2, abs=1e-3)
    assert max(map(abs, found.cents.values())) < 0.01


def test_stiffness_alone_wants_half_the_radius_times_the_root_of_kappa() -> None:
    # derived: X0 B0 = sqrt(kappa) rho/2 to first order (Anderson & Beausoleil 2024); the B² term adds a little
    one = String(name="1", pitch="E4", material="nylon", diameter=0.8, stretch_ratio=25)
    flat = Strings(list=(one,), height=Heights(nut=0, saddle=0))
    assert saddles(flat, equal_frets(650.0, 1)) == pytest.approx([np.sqrt(51) * 0.4 / 2], rel=0.03)


def test_stretch_alone_wants_more_the_higher_the_strings_lie() -> None:
    # derived: kappa c²/(4 X0) is the c² term of the closed form; doubling c makes it four times as much
    low, high = (
        saddles(Strings(list=limp(), height=Heights(nut=0, saddle=c)), equal_frets(650.0, 1))[0] for c in (2.0, 4.0)
    )
    stiff = np.sqrt(101) * 0.05 / 2
    assert (high - stiff) / (low - stiff) == pytest.approx(4.0, rel=0.05)
    assert high - stiff == pytest.approx(101 * 16 / (4 * 650), rel=0.05)


def test_nothing_typed_and_nothing_known_is_common_practice() -> None:
    strings = Strings(list=tuple(String(name=str(i)) for i in range(1, 7)))
    found = compensate(strings_as_played(strings, "right", FRETS))
    assert [one.saddle for one in found] == pytest.approx([1.5, 2.1, 2.7, 3.3, 3.9, 4.5])
    assert {one.source for one in found} == {"common practice"}
    assert {one.pm95 for one in found} == {PM95["steel"]}
    assert {one.tension_n for one in found} == {None}
    assert [one.cents for one in found] == [{}] * 6


def test_a_string_of_unknown_make_among_known_ones_is_the_only_guess() -> None:
    strings = replaced(list=(*STEEL.list[:5], String(name="6")))
    found = compensate(strings_as_played(strings, "right", FRETS))
    assert [one.source for one in found] == ["worked out"] * 5 + ["common practice"]
    assert [one.saddle for one in found[:5]] == pytest.approx(saddles(STEEL)[:5])


def test_typed_compensation_is_kept_and_its_cents_are_told() -> None:
    found = compensate(strings_as_played(replaced(compensation=(1, "2 mm", 3.0, 4.0, 5.0, "0.2 in")), "right", FRETS))
    assert [one.saddle for one in found] == pytest.approx([1, 2, 3, 4, 5, 5.08])
    assert {(one.source, one.pm95) for one in found} == {("typed", 0.0)}
    stays = residual_cents(strings_as_played(STEEL, "right", FRETS), np.array([1, 2, 3, 4, 5, 5.08]))
    assert [one.cents[12] for one in found] == pytest.approx(stays[:, 11].tolist())


def test_of_some_typed_the_others_are_worked_out() -> None:
    """Each as if all were as it is."""
    free = compensate(strings_as_played(STEEL, "right", FRETS))
    typed = compensate(strings_as_played(replaced(compensation=(1, 2, 3, 4, 5, 6)), "right", FRETS))
    some = compensate(strings_as_played(replaced(compensation=(1, None, 3, None, None, 6)), "right", FRETS))
    assert some == (typed[0], free[1], typed[2], free[3], free[4], typed[5])
    none = compensate(strings_as_played(replaced(compensation=(None,) * 6), "right", FRETS))
    assert none == free


def test_a_longer_string_is_flatter_at_the_twelfth() -> None:
    # derived: 1200 log2((X0 + d)/(X0/2 + d)) - 1200 falls by 1.731 x 1000/645 = 2.68 cents a mm
    stays = residual_cents(strings_as_played(STEEL, "right", FRETS), np.array([[2.0] * 6, [3.0] * 6]))
    assert stays.shape == (2, 6, 20)
    assert stays[1, :, 11] - stays[0, :, 11] == pytest.approx([-2.68] * 6, abs=0.08)


def test_strings_of_unknown_make_have_no_cents() -> None:
    strings = replaced(list=(*STEEL.list[:5], String(name="6")))
    stays = residual_cents(strings_as_played(strings, "right", FRETS), np.zeros(6))
    assert np.isnan(stays[5]).all()
    assert not np.isnan(stays[:5]).any()


def test_before_is_what_no_compensation_would_cost() -> None:
    found = compensate(strings_as_played(STEEL, "right", FRETS))
    none = residual_cents(strings_as_played(STEEL, "right", FRETS), np.zeros(6))
    assert [one.cents_before[12] for one in found] == pytest.approx(none[:, 11].tolist())
    assert all(one.cents_before[12] > 3 for one in found)


def test_a_nut_that_is_compensated_as_well_leaves_less() -> None:
    # derived: a second free place can only lower the least squares
    def rms(strings: Strings) -> list[float]:
        found = compensate(strings_as_played(strings, "right", FRETS))
        return [float(np.sqrt(np.mean([one.cents[n] ** 2 for n in range(1, 13)]))) for one in found]

    plain, both = rms(STEEL), rms(replaced(nut_compensation="worked out"))
    assert all(b < a for a, b in zip(plain, both, strict=True))


def test_a_typed_nut_is_kept_while_the_saddle_is_worked_out() -> None:
    found = compensate(strings_as_played(replaced(nut_compensation=-0.5), "right", FRETS))
    assert [one.nut for one in found] == [-0.5] * 6
    assert [one.source for one in found] == ["worked out"] * 6
    assert [one.saddle for one in found] != pytest.approx(saddles(STEEL), abs=0.1)


def test_a_typed_saddle_may_have_its_nut_worked_out() -> None:
    found = compensate(
        strings_as_played(replaced(compensation=(2.0,) * 6, nut_compensation="worked out"), "right", FRETS)
    )
    assert {one.saddle for one in found} == {2.0}
    assert all(abs(one.nut) > 0.01 for one in found)


def test_weight_on_one_fret_brings_that_fret_in_tune() -> None:
    for fret in (5, 12, 20):
        found = compensate(strings_as_played(replaced(weights={fret: 2.0}), "right", FRETS))
        assert [one.cents[fret] for one in found] == pytest.approx([0.0] * 6, abs=1e-5)


def test_weight_on_one_fret_with_saddle_and_nut_free_still_has_an_answer() -> None:
    found = compensate(strings_as_played(replaced(weights={12: 1.0}, nut_compensation="worked out"), "right", FRETS))
    assert [one.cents[12] for one in found] == pytest.approx([0.0] * 6, abs=1e-3)


def test_weights_of_frets_that_are_not_there_leave_common_practice() -> None:
    found = compensate(strings_as_played(replaced(weights={30: 1.0}), "right", FRETS))
    assert {one.source for one in found} == {"common practice"}


@pytest.mark.parametrize("frets", [1, 7, 12, 24])
def test_any_number_of_frets_will_do(frets: int) -> None:
    found = compensate(strings_as_played(STEEL, "right", equal_frets(645.0, 6, frets)))
    assert all(len(one.cents) == frets for one in found)


def test_a_fret_out_of_place_shows_in_its_cents_and_no_others() -> None:
    # derived: fret 7 lies 0.5 mm too near the saddle: 1200/ln 2 x 0.5/430.5 = 2.0 cents sharp
    moved = FRETS.frets.copy()
    moved[:, 6] += 0.5
    there = residual_cents(
        strings_as_played(STEEL, "right", FretPlaces(nominal=FRETS.nominal, frets=moved)), np.full(6, 2.0)
    )
    here = residual_cents(strings_as_played(STEEL, "right", FRETS), np.full(6, 2.0))
    assert (there - here)[:, 6] == pytest.approx([2.02] * 6, abs=0.03)
    assert np.delete(there - here, 6, axis=1) == pytest.approx(np.zeros((6, 19)), abs=1e-12)


def test_pressing_behind_the_fret_sharpens_the_low_frets_most() -> None:
    here = residual_cents(strings_as_played(STEEL, "right", FRETS), np.full(6, 2.0))
    there = residual_cents(strings_as_played(replaced(press_behind=10), "right", FRETS), np.full(6, 2.0))
    more = (there - here)[0]
    assert more[0] > more[4] > 0


def test_a_finger_stays_in_front_of_the_fret_behind_it() -> None:
    # 25 mm behind the twentieth fret would lie behind the sixteenth: it is held to its own fret
    stays = residual_cents(strings_as_played(replaced(press_behind=25), "right", FRETS), np.full(6, 2.0))
    assert np.isfinite(stays).all()
    assert np.abs(np.diff(stays[:, 12:], axis=1)).max() < 3


def test_a_hollow_neck_sharpens_the_middle_frets() -> None:
    here = residual_cents(strings_as_played(STEEL, "right", FRETS), np.full(6, 2.0))
    there = residual_cents(strings_as_played(replaced(relief=0.3), "right", FRETS), np.full(6, 2.0))
    assert ((there - here)[:, 6] > 0.05).all()
    assert (there - here)[:, 18] == pytest.approx(np.zeros(6), abs=1e-9)


def test_a_zero_fret_wants_less_than_a_nut() -> None:
    at_nut = compensate(strings_as_played(STEEL, "right", FRETS))
    at_fret = compensate(strings_as_played(STEEL, "right", FRETS, zero_fret=True))
    assert all(a.saddle > b.saddle for a, b in zip(at_nut, at_fret, strict=True))


def test_measured_action_stands_before_the_jobs_heights() -> None:
    high = Action(fret1=(0.8, 0.8), fret12=(4.0, 4.0))
    assert all(
        there.saddle > here.saddle
        for there, here in zip(
            compensate(strings_as_played(STEEL, "right", FRETS, high)),
            compensate(strings_as_played(STEEL, "right", FRETS)),
            strict=True,
        )
    )


def test_the_second_string_of_an_octave_pair_has_a_place_of_its_own() -> None:
    found = compensate(
        strings_as_played(Strings(list=SETS["steel twelve 10-46"].strings), "right", equal_frets(645.0, 12, 20))
    )
    low_e, octave = found[10], found[11]
    assert low_e.saddle - octave.saddle > 1.0


def test_what_is_not_known_is_named() -> None:
    bare = Strings(list=SETS["steel 12-54"].strings)
    found = compensate(strings_as_played(bare, "right", FRETS))
    assert found[0].estimated == ("heights",)
    assert found[5].estimated == ("core", "mass", "stretch ratio", "heights")
    assert compensate(strings_as_played(STEEL, "right", FRETS))[0].estimated == ()


def test_the_spread_is_wider_the_less_is_known() -> None:
    bare = Strings(list=SETS["steel 12-54"].strings)
    for more, less in zip(
        compensate(strings_as_played(bare, "right", FRETS)),
        compensate(strings_as_played(STEEL, "right", FRETS)),
        strict=True,
    ):
        assert more.pm95 > less.pm95 > 0


@pytest.mark.parametrize("name", ["nylon 0.70-1.10", "steel 12-54"])
@pytest.mark.parametrize("nut", [0.0, "worked out"])
def test_the_spread_against_five_hundred_invented_strings(name: str, nut: object) -> None:
    # Monte Carlo over stretch, core, thickness and mass as estimated, over the two heights as typed, and over how many
    # of the ends are clamped
    rng = np.random.default_rng(4)
    strings = replaced(Strings(list=SETS[name].strings[-1:], height=Heights(nut=0.6, saddle=3.4)), nut_compensation=nut)
    places = equal_frets(650.0, 1)
    (said,) = compensate(strings_as_played(strings, "right", places))
    one = make(strings.list[0])
    assert one is not None
    assert said.tension_n is not None
    found = []
    for _ in range(500):
        stretch_sd = math.hypot(one.stretch_sd, one.set_sd)
        mass, core, stretch, rho = (
            1 + sd * rng.standard_normal() for sd in (one.mass_sd, one.core_sd, stretch_sd, one.rho_sd)
        )
        clamped = 1 + one.ends_sd * rng.standard_normal()
        kappa = one.kappa(said.tension_n) * stretch * core**2 / (mass if one.ratio is None else 1.0)
        drawn = Drawn(kappa=kappa, rho=one.rho * core * max(rho, 0.4), clamped=clamped)  # no radius is nothing
        heights = Heights(nut=0.6 + 0.1 * rng.standard_normal(), saddle=3.4 + 0.2 * rng.standard_normal())
        found.append(drawn.saddle(replaced(strings, height=heights)))
    # derived: the standard deviation of 500 is good to 3.2 %, thrice that
    assert said.pm95 == pytest.approx(1.96 * float(np.std(found)), rel=0.1)


@dataclasses.dataclass(frozen=True)
class Drawn:
    """An invented string of given kappa and bending radius, as a job would hold it."""

    kappa: float
    rho: float
    clamped: float

    def saddle(self, strings: Strings) -> float:
        string = String(
            name="1", pitch="E4", material="nylon", diameter=2 * self.rho, stretch_ratio=(self.kappa - 1) / 2
        )
        ready = strings_as_played(replaced(strings, list=(string,)), "right", equal_frets(650.0, 1))
        held = msgspec.structs.replace(ready.setup, clamped=self.clamped)
        return compensate(msgspec.structs.replace(ready, setup=held))[0].saddle


@given(
    fret1=st.tuples(st.floats(0.3, 1.0), st.floats(0.3, 1.0)),
    fret12=st.tuples(st.floats(1.2, 4.0), st.floats(1.2, 4.0)),
    name=st.sampled_from(["steel 12-54", "nylon 0.70-1.10", "silk and steel 11-46"]),
)
@settings(max_examples=25, deadline=None)
def test_mirroring_the_instrument_changes_nothing(
    fret1: tuple[float, float], fret12: tuple[float, float], name: str
) -> None:
    strings = Strings(list=SETS[name].strings)
    here = replaced(strings, action=Action(fret1=fret1, fret12=fret12))
    there = replaced(strings, action=Action(fret1=fret1[::-1], fret12=fret12[::-1]))
    assert saddles(here, bass="right") == pytest.approx(saddles(there, bass="left"), abs=1e-9)


@given(st.floats(0.2, 1.2), st.floats(1.0, 6.0))
@settings(max_examples=25, deadline=None)
def test_inches_and_millimetres_give_the_same_place(low: float, rise: float) -> None:
    in_inches = replaced(height=Heights(nut=f"{low / 25.4:.9f} in", saddle=f"{rise / 25.4:.9f} in"))
    assert saddles(replaced(height=Heights(nut=low, saddle=rise))) == pytest.approx(saddles(in_inches), abs=1e-6)


def test_a_scale_twice_as_long_with_all_twice_as_large_wants_twice_as_much() -> None:
    # derived: every term of the equation is a ratio of lengths; the step its slope is taken over is not
    def one(factor: float) -> Array:
        string = String(name="1", pitch="E3", material="nylon", diameter=0.7 * factor, stretch_ratio=30)
        strings = Strings(list=(string,), height=Heights(nut=0.5 * factor, saddle=2.0 * factor))
        return np.array(saddles(strings, equal_frets(400.0 * factor, 1)))

    assert one(2.0) == pytest.approx(2 * one(1.0), rel=1e-5)


def test_a_stretch_that_is_taken_from_the_material_is_shared_by_its_strings_alone() -> None:
    names = common_names(STEEL)
    alike = [name.split(".")[1:] for name in names if name.startswith("stretch.")]
    assert ["steel", "wound"] in alike
    for string, one in zip(STEEL.list, compensate(strings_as_played(STEEL, "right", FRETS)), strict=True):
        parts = one.common[len(names) - len(alike) :]
        assert [part != 0.0 for part in parts] == [[string.material, string.build] == group for group in alike]


def test_what_is_worked_out_was_not_heard() -> None:
    assert [one.heard for one in compensate(strings_as_played(STEEL, "right", FRETS))] == [0.0] * 6


@pytest.mark.parametrize(("wanted", "behind"), [(0.0, (0, 0, 0)), (10.0, (10, 10, 10)), (25.0, (22.5, 25, 21.0))])
def test_the_finger_stands_behind_the_fret_as_far_as_there_is_room(wanted: float, behind: tuple[float, ...]) -> None:
    # derived: three quarters of 30, 34 and 28 mm, from the nut to the first fret and from fret to fret
    places = FretPlaces(nominal=np.array([645.0]), frets=np.array([[30.0, 64.0, 92.0]]))
    ready = strings_as_played(replaced(list=limp(), press_behind=wanted), "right", places)
    assert ready.setup.behind[0] == pytest.approx(behind)
