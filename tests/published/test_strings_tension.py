"""Tension, strength and stiffness of strings against published figures (sources in data/strings.json)."""

import numpy as np
import pytest

from geometry.job import String, Strings
from geometry.pitch import frequency
from geometry.strings.string_make import E_STEEL, STEEL, Make, make
from geometry.strings.tension import tension_findings, tensions
from geometry.strings.wire_strength import KSI, tensile_strength
from tests.published.string_cases import case

OUTER = ["E4", "B3", "G3", "D3", "A2", "E2"]


def made(string: String) -> Make:
    found = make(string)
    assert found is not None
    return found


def pull(mass: float, pitch: str, length: float) -> float:
    return float(tensions((String(name="1", pitch=pitch, diameter=1.0, kg_per_m=mass),), 440, np.array([length]))[0])


def test_wave_speed_gives_the_tension_of_a_treble_and_of_a_bass_string() -> None:
    # the textbook's two strings have one wave speed; derived: sqrt(T / mass to the length) of the first
    first, last = case("STR-02")[0], case("STR-03")[0]
    speed = np.sqrt(first["T_N"] / first["mu_kg_per_m"])
    length = speed / (2 * 220) * 1000  # 2 L f is the wave speed
    assert pull(first["mu_kg_per_m"], "220 Hz", length) == pytest.approx(first["T_N"], rel=1e-9)
    assert pull(last["mu_kg_per_m"], "220 Hz", length) == pytest.approx(last["mu_kg_per_m"] * speed**2, rel=1e-9)


@pytest.mark.parametrize("name", ["TENS-NYL-N", "TENS-NYL-H"])
def test_tensions_of_nylon_sets(name: str) -> None:
    inputs, expected, tolerance = case(name)
    strings = tuple(
        String(name=note, pitch=note, material="nylon", diameter=0.7, kg_per_m=mass / 1000)
        for note, mass in zip(inputs["notes"], inputs["mu_mg_per_mm"], strict=True)
    )
    found = tensions(strings, 440, np.full(6, inputs["L_mm"]))
    # half a unit in the last place of mass and tension, from the case, and of the frequency's last digit
    bounds = np.array(expected["values"]) * (np.array(tolerance["rel"]) + 0.0005)
    assert (np.abs(found - expected["values"]) <= bounds).all()


@pytest.mark.parametrize("name", ["PROP-NYL-N", "PROP-NYL-H"])
def test_kappa_stiffness_and_effective_modulus_from_the_stretch_ratio(name: str) -> None:
    inputs, expected, tolerance = case(name)
    for i, ratio in enumerate(inputs["R_measured"]):
        string = String(name="1", material="nylon", diameter=2 * inputs["rho_mm"][i], stretch_ratio=ratio)
        found = made(string)
        kappa = found.kappa(inputs["T_N"][i])
        area = np.pi * inputs["rho_mm"][i] ** 2
        assert kappa == pytest.approx(expected["kappa"][i], abs=tolerance["kappa"])
        assert np.sqrt(kappa) * found.rho / (2 * inputs["L_mm"]) == pytest.approx(
            expected["B0"][i], abs=tolerance["B0"]
        )
        assert kappa * inputs["T_N"][i] / area / 1000 == pytest.approx(expected["E_eff_GPa"][i], rel=tolerance["E_rel"])


@pytest.mark.parametrize("name", ["TENS-NYL-N", "TENS-NYL-H"])
def test_the_estimated_mass_of_nylon_holds_within_its_spread(name: str) -> None:
    rho = case(name.replace("TENS", "PROP"))[0]["rho_mm"]
    for i, measured in enumerate(case(name)[0]["mu_mg_per_mm"]):
        found = made(String(name="1", material="nylon", build="plain" if i < 3 else "wound", diameter=2 * rho[i]))
        assert found.mass * 1000 == pytest.approx(measured, rel=1.96 * found.mass_sd)


@pytest.mark.parametrize("name", ["PROP-NYL-N", "PROP-NYL-H"])
def test_the_estimated_stretch_of_nylon_holds_within_its_spread(name: str) -> None:
    inputs = case(name)[0]
    for i, measured in enumerate(inputs["R_measured"]):
        found = made(
            String(name="1", material="nylon", build="plain" if i < 3 else "wound", diameter=2 * inputs["rho_mm"][i])
        )
        assert found.ratio == pytest.approx(measured, rel=1.96 * found.stretch_sd)


def test_least_strength_of_music_wire_by_its_gauge() -> None:
    inputs, _, tolerance = case("mat-A228-tensile")
    found = [tensile_strength(25.4 * inches) / KSI for inches in inputs["d_in"]]
    assert found == pytest.approx(inputs["min_ksi"], abs=1e-9)
    power_law = [201 / inches**0.145 for inches in inputs["d_in"]]
    assert found == pytest.approx(power_law, rel=tolerance)


def test_strength_beyond_the_table_falls_by_the_handbook_power() -> None:
    # Shigley, chapter 10: strength goes as 1 / d^0.145; held to the table's last strength, 327 ksi at 0.032 in
    for inches in (0.04, 0.06, 0.105):
        assert tensile_strength(25.4 * inches) / KSI == pytest.approx(327 * (0.032 / inches) ** 0.145, rel=1e-9)


def test_stiffness_of_steel() -> None:
    _, expected, tolerance = case("mat-steel-E")
    found = E_STEEL / 1e9
    assert found == pytest.approx(expected["E_GPa"], abs=tolerance["E_GPa"])


@pytest.mark.parametrize("inches", [0.009, 0.012, 0.017])
@pytest.mark.parametrize("pitch", ["E4", "B3", "G3"])
def test_stretch_of_plain_steel_whatever_its_gauge(inches: float, pitch: str) -> None:
    # derived: stress is density x (2 L f)² and kappa is E / stress; the gauge cancels
    string = String(name="1", pitch=pitch, diameter=f"{inches} in")
    tension = float(tensions((string,), 440, np.array([648.0]))[0])
    stress = STEEL * (2 * 0.648 * frequency(pitch, 440)) ** 2
    assert tension / (np.pi / 4 * (0.0254 * inches) ** 2) == pytest.approx(stress, rel=1e-9)
    assert made(string).kappa(tension) == pytest.approx(E_STEEL / stress, rel=1e-9)


def test_a_plain_string_breaks_at_the_pitch_its_strength_allows() -> None:
    # derived: f = sqrt(strength / density) / (2 L), strength by ASTM A228/A228M-18
    def breaks(inches: float, hertz: float) -> bool:
        strings = Strings(list=(String(name="1", pitch=f"{hertz} Hz", diameter=f"{inches} in"),))
        found = tension_findings(strings, np.array([648.0]))
        return any(finding.code == "strings.break" and finding.grade == "stop" for finding in found)

    for inches, ksi in ((0.009, 393), (0.010, 387), (0.012, 377), (0.016, 362)):
        highest = np.sqrt(ksi * KSI * 1e6 / STEEL) / (2 * 0.648)
        assert not breaks(inches, 0.995 * highest)
        assert breaks(inches, 1.005 * highest)


def test_two_thousand_newtons_on_a_core_are_four_fifths_of_its_strength() -> None:
    inputs, _, tolerance = case("wound-core-stress")
    parts = [inputs["stress_MPa"] / tensile_strength(25.4 * inches) for inches in inputs["core_d_in"]]
    assert min(parts) == pytest.approx(0.79, abs=tolerance)
    assert max(parts) == pytest.approx(0.83, abs=tolerance)


def beta(string: String, length: float = 648.0) -> float:
    """Inharmonicity beta = pi² B0² of an open string (Anderson & Beausoleil 2024, appendix A)."""
    found = made(string)
    tension = float(tensions((string,), 440, np.array([length]))[0])
    return float(np.pi**2 * found.kappa(tension) * found.rho**2 / (4 * length**2))


def test_inharmonicity_of_plain_steel_as_measured_on_piano_wire() -> None:
    # Young's K: cents of partial n = K n² d²/(f² l⁴) in cm; the small-number cents are 1731 β n²/2
    inputs, expected, tolerance = case("STIFF-03")
    string = String(name="1", pitch="A3", diameter=1.0)
    modulus = E_STEEL / STEEL * 1e4 / inputs["E_over_rho_cm2_s2"]
    found = 1200 / np.log(2) / 2 * beta(string, 600.0) * 220**2 * 60.0**4 / 0.1**2 / modulus
    assert found == pytest.approx(expected["K"], rel=tolerance["rel"])


def test_stiffness_in_the_two_common_notations_is_the_same() -> None:
    # N. H. Fletcher and T. D. Rossing, The Physics of Musical Instruments, 2nd ed., section 2.18: f_n = n f0
    # sqrt(1 + β n²), β = pi³ E d⁴ / (64 T L²); in the notation used here β is pi² B²
    wire = String(name="1", pitch="A3", diameter=1.0)
    pull = float(tensions((wire,), 440, np.array([620.0]))[0])
    by_hand = np.pi**3 * E_STEEL * 0.001**4 / (64 * pull * 0.62**2)
    assert beta(wire, 620.0) == pytest.approx(by_hand, rel=1e-12)


def test_a_wound_string_bends_with_its_core() -> None:
    # M. Zollner, Physics of the Electric Guitar, 1.2: the core sets the stiffness, the winding adds mass. Derived:
    # turns free to slide bend as a close coil does, p / (pi r) x E I / (2 + nu) with pitch p and coil radius r (S. P.
    # Timoshenko and J. M. Gere, Theory of Elastic Stability, 2nd ed., helical springs; from memory)
    found = made(String(name="6", build="wound", diameter="0.054 in"))
    assert found.core is not None
    outer, core = 0.054 * 25.4, found.core
    wire = (outer - core) / 2
    coil = 110e9 * np.pi / 64 * wire**4 * wire / (np.pi * (outer + core) / 4) / 2.3  # bronze, from memory
    more = np.sqrt(1 + coil / (E_STEEL * np.pi / 64 * core**4)) - 1
    assert found.rho == pytest.approx(core / 2)
    assert 0.02 < more < 0.05
    assert found.rho_sd > 4 * more


# H. Fastl and F. Völk, Inharmonicity of sounds from electric guitars (abstract): an unwound third can be more
# inharmonic than the wound fourth, and the wound fifth and sixth are more so than the first.


def test_a_plain_third_is_more_inharmonic_than_a_wound_fourth() -> None:
    plain_g = beta(String(name="3", pitch="G3", diameter="0.017 in"))
    wound_d = beta(String(name="4", build="wound", pitch="D3", diameter="0.032 in"))
    assert plain_g > wound_d


def test_bass_strings_are_more_inharmonic_than_the_first() -> None:
    first = beta(String(name="1", pitch="E4", diameter="0.012 in"))
    assert beta(String(name="6", build="wound", pitch="E2", diameter="0.053 in")) > first
    assert beta(String(name="5", build="wound", pitch="A2", diameter="0.042 in")) > first
