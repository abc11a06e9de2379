"""What a string is made of, known and estimated."""

import math

import pytest

from geometry.job import String
from geometry.strings.string_make import Make, make, usual_core
from tests.in_one import in_one


def made(**fields: object) -> Make:
    found = make(String(name="1", **fields))  # type: ignore[arg-type]  # the fields of String, spelled by each test
    assert found is not None
    return found


def test_a_plain_steel_string_weighs_what_its_wire_weighs() -> None:
    # derived: 7850 kg/m³ over pi/4 (0.3048 mm)²
    assert made(diameter="0.012 in").mass == pytest.approx(7850 * math.pi / 4 * 0.3048e-3**2)


def test_a_wound_string_is_core_and_close_turns_of_round_wire() -> None:
    # derived: winding wire 0.4445 mm thick laid turn to turn round a 0.457 mm core: pi² (D² - d²)/16 of bronze
    found = made(build="wound", diameter="0.053 in", core="0.018 in")
    outer, core = 1.3462e-3, 0.4572e-3
    wire, turn = (outer - core) / 2, math.pi * (outer + core) / 2
    winding = 8700 * math.pi / 4 * wire**2 * turn / wire
    assert found.mass == pytest.approx(7850 * math.pi / 4 * core**2 + winding)


def test_a_known_mass_and_stretch_ratio_stand_before_any_estimate() -> None:
    found = made(material="nylon", diameter=0.71, kg_per_m=3.74e-4, stretch_ratio=23.6)
    assert (found.mass, found.kappa(68.6)) == pytest.approx((3.74e-4, 48.2))
    assert found.estimated == ()


def test_what_was_estimated_is_named() -> None:
    assert made(build="wound", diameter="0.053 in").estimated == ("core", "mass", "stretch ratio")
    assert made(build="wound", diameter="0.053 in", core="0.018 in").estimated == ("mass", "stretch ratio")
    assert made(diameter="0.012 in").estimated == ()
    assert made(material="gut", diameter=0.7).estimated == ("mass", "stretch ratio")


def test_a_plain_string_of_known_mass_gets_its_diameter_from_it() -> None:
    heavy = made(diameter="0.012 in").mass
    found = made(kg_per_m=heavy)
    assert found.rho == pytest.approx(0.1524)
    assert "diameter" in found.estimated


@pytest.mark.parametrize("fields", [{}, {"build": "wound", "kg_per_m": 5e-3}])
def test_a_string_without_diameter_or_mass_has_no_make(fields: dict[str, object]) -> None:
    assert make(String(name="1", **fields)) is None  # type: ignore[arg-type]  # as above


def test_the_stretch_of_steel_falls_as_the_pull_rises_and_that_of_nylon_does_not() -> None:
    steel, nylon = made(diameter="0.012 in"), made(material="nylon", diameter=0.71)
    assert steel.kappa(100.0) == pytest.approx(2 * steel.kappa(200.0))
    assert nylon.kappa(100.0) == nylon.kappa(200.0)


@pytest.mark.parametrize(("outer", "core"), [(0.024, 0.012), (0.053, 0.018)])
def test_usual_cores_of_wound_steel(outer: float, core: float) -> None:
    # common practice, from memory
    string = String(name="1", build="wound", diameter=f"{outer} in")
    assert usual_core(string, outer * 25.4) == pytest.approx(core * 25.4, rel=0.02)


@in_one("diameter", [0.15, 0.3, 0.7, 1.4, 3.5])
@in_one("material", ["steel", "silk and steel", "nylon", "gut", "fluorocarbon"])
def test_an_estimated_core_is_thinner_than_the_string(diameter: float, material: str) -> None:
    found = made(build="wound", material=material, diameter=diameter)
    assert found.core is not None
    assert 0 < found.core < diameter
    assert found.mass > 0


def test_an_estimated_core_carries_more_spread_than_a_measured_one() -> None:
    assert made(build="wound", diameter=1.3).core_sd > made(build="wound", diameter=1.3, core=0.45).core_sd


@pytest.mark.parametrize(
    ("material", "outer", "core"),
    [
        ("steel", 0.2, 0.16),  # thinner than 0.303 mm it is four fifths
        ("steel", 1.0, 0.386),
        ("silk and steel", 0.25, 0.15),  # thinner than 0.385 mm it is three fifths
        ("silk and steel", 1.0, 0.28),
        ("nylon", 0.5, 0.33),  # thinner than 0.735 mm it is 0.66 of it
        ("gut", 1.0, 0.485),
        ("fluorocarbon", 1.0, 0.485),
    ],
)
def test_usual_cores_by_their_formulas(material: str, outer: float, core: float) -> None:
    """derived: the lesser of each formula's two; the formulas themselves from memory, and as said there"""
    string = String(name="1", build="wound", material=material)  # type: ignore[arg-type]  # one of its names
    assert usual_core(string, outer) == pytest.approx(core)
    assert usual_core(String(name="1", build="wound", core=0.4), outer) == 0.4
