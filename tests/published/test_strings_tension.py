"""Tension, strength and stiffness of strings against published figures (sources in data/strings.json)."""

import numpy as np
import pytest

from geometry.job import String, Strings
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


def test_wave_speed_gives_the_tension_of_a_treble_string() -> None:
    inputs, expected, tolerance = case("STR-02")
    length = expected["v_m_per_s"] / (2 * 220) * 1000  # 2 L f is the wave speed
    found = pull(inputs["mu_kg_per_m"], "220 Hz", length)
    assert found == pytest.approx(inputs["T_N"], rel=2 * tolerance["rel"])


def test_wave_speed_gives_the_tension_of_a_bass_string() -> None:
    inputs, expected, tolerance = case("STR-03")
    length = inputs["v_m_per_s"] / (2 * 220) * 1000
    assert pull(inputs["mu_kg_per_m"], "220 Hz", length) == pytest.approx(expected["T_N"], rel=tolerance["rel"])


def test_fundamental_of_a_piece_of_string() -> None:
    inputs, expected, tolerance = case("STR-04")
    mass, length = inputs["m_kg"] / inputs["Ltot_m"], inputs["L_m"] * 1000
    low, high = (pull(mass, f"{expected['f_Hz'] + off} Hz", length) for off in (-tolerance["Hz"], tolerance["Hz"]))
    assert low < inputs["T_N"] < high


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


def test_strength_beyond_the_table_follows_the_handbook_power() -> None:
    inputs, expected, _ = case("mat-A228-powerlaw")
    # the power law lies 1.1-2.0 % above the table's least strength
    assert tensile_strength(25.4 * inputs["d_in"]) / KSI == pytest.approx(0.985 * expected["Sut_kpsi"], rel=0.006)


def test_stiffness_of_steel() -> None:
    _, expected, tolerance = case("mat-steel-E")
    found = E_STEEL / 1e9
    assert found == pytest.approx(expected["E_GPa"], abs=tolerance["E_GPa"])


@pytest.mark.parametrize("inches", [0.009, 0.012, 0.017])
def test_stretch_of_plain_steel_whatever_its_gauge(inches: float) -> None:
    inputs, expected, tolerance = case("plain-R-predicted")
    for note in inputs["f_Hz"]:
        string = String(name="1", pitch=note, diameter=f"{inches} in")
        tension = float(tensions((string,), 440, np.array([1000 * inputs["L_m"]]))[0])
        found = made(string)
        stress = tension / (np.pi / 4 * (25.4 * inches) ** 2)
        assert stress == pytest.approx(expected["stress_MPa"][note], rel=tolerance)
        assert found.kappa(tension) == pytest.approx(expected["kappa"][note], rel=tolerance)
        assert (found.kappa(tension) - 1) / 2 == pytest.approx(expected["R"][note], rel=tolerance)


def test_a_plain_string_breaks_at_the_pitch_its_strength_allows() -> None:
    inputs, expected, tolerance = case("plain-break-pitch")

    def breaks(inches: float, hertz: float) -> bool:
        strings = Strings(list=(String(name="1", pitch=f"{hertz} Hz", diameter=f"{inches} in"),))
        found = tension_findings(strings, np.array([1000 * inputs["L_m"]]))
        return any(finding.code == "strings.break" and finding.grade == "stop" for finding in found)

    for inches, hertz in zip(inputs["d_in"], expected["f_Hz"], strict=True):
        assert not breaks(inches, hertz - tolerance)
        assert breaks(inches, hertz + tolerance)


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


@pytest.mark.parametrize(("index", "gauge"), [(4, "0.016 in"), (5, "0.012 in")])
def test_measured_inharmonicity_of_plain_strings_of_a_steel_strung_guitar(index: int, gauge: str) -> None:
    # the gauges are the nearest common ones to the measured figures, not stated by the source
    _, expected, tolerance = case("beta-acoustic-18")
    found = beta(String(name="1", pitch=["E2", "A2", "D3", "G3", "B3", "E4"][index], diameter=gauge))
    assert found == pytest.approx(expected["beta_median"]["0"][index], rel=tolerance)


@pytest.mark.parametrize(
    ("index", "pitch", "gauge"),
    [(0, "E2", "0.053 in"), (1, "A2", "0.042 in"), (2, "D3", "0.032 in"), (3, "G3", "0.024 in")],
)
def test_measured_inharmonicity_of_wound_strings(index: int, pitch: str, gauge: str) -> None:
    # no independent check: the one factor WINDING_BENDS was set by these four figures, with gauges assumed 12-53;
    # what this holds is that one factor serves all four within the measurement's 15 % and the spread claimed
    _, expected, tolerance = case("beta-acoustic-18")
    string = String(name="1", build="wound", pitch=pitch, diameter=gauge)
    found = made(string)
    spread = float(np.hypot(4 * found.core_sd, 2 * found.rho_sd))
    bound = 1.96 * float(np.hypot(spread, tolerance / 1.96))
    assert beta(string) == pytest.approx(expected["beta_median"]["0"][index], rel=bound)


def test_measured_inharmonicity_gives_back_common_gauges() -> None:
    inputs, expected, tolerance = case("beta-plain-diameter")
    medians = case("beta-acoustic-18")[1]["beta_median"]["0"]
    for name, pitch, measured in (("B", "B3", medians[4]), ("e", "E4", medians[5])):
        one = beta(String(name="1", pitch=pitch, diameter="0.010 in"), 1000 * inputs["L_m"])
        inches = 0.010 * np.sqrt(measured / one)  # beta goes with the diameter squared at one pitch
        assert inches == pytest.approx(expected["d_in_nearest_common_gauge"][name], rel=tolerance)


def test_a_plain_third_is_more_inharmonic_than_a_wound_fourth() -> None:
    plain_g = beta(String(name="3", pitch="G3", diameter="0.017 in"))
    wound_d = beta(String(name="4", build="wound", pitch="D3", diameter="0.032 in"))
    assert plain_g > wound_d


def test_bass_strings_are_more_inharmonic_than_the_first() -> None:
    first = beta(String(name="1", pitch="E4", diameter="0.012 in"))
    assert beta(String(name="6", build="wound", pitch="E2", diameter="0.053 in")) > first
    assert beta(String(name="5", build="wound", pitch="A2", diameter="0.042 in")) > first
