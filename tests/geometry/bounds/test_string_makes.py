"""How the strings of a set pull beside each other, by pulls given (common practice, no source: docs/numbers.md)."""

from typing import Literal

import msgspec
import pytest

from geometry.bounds.string_makes import findings
from geometry.job import Bridge, Job, Point, String, Strings
from geometry.job.stringing import Material
from tests.export.conftest import strings as six


def said(*pulls: float | None) -> list[tuple[str, str]]:
    plans = [msgspec.structs.replace(plan, tension_n=pull) for plan, pull in zip(six(), pulls, strict=False)]
    strings = tuple(String(name=plan.name, material="nylon") for plan in plans)
    found = findings(Job(strings=Strings(list=strings)), plans)
    return [(one.code, one.where) for one in found if one.code == "strings.uneven"]


@pytest.mark.parametrize(
    ("pulls", "named"),
    [
        ((100.0, 100.0, 164.9), ""),
        ((100.0, 100.0, 165.1), "3"),
        ((100.0, 60.7, 100.0), ""),
        ((100.0, 60.5, 100.0), "2"),
        ((60.5, 100.0, 100.0, 170.0), "4"),
        ((55.0, 100.0, 100.0, 170.0), "1"),
        ((50.0, 200.0), ""),  # of two neither is the middle one
        ((100.0, None, 300.0), ""),
        ((100.0, 0.0, 100.0), "2"),
    ],
)
def test_one_string_against_the_middle_one(pulls: tuple[float | None, ...], named: str) -> None:
    assert said(*pulls) == ([("strings.uneven", f"string:{named}")] if named else [])


PAIR = (String(name="1", pitch="E4", course=1), String(name="2", pitch="E4", course=1))


@pytest.mark.parametrize(
    ("strings", "said"),
    [
        ((String(name="1", pitch="E4"), String(name="2", pitch="E4")), ["strings.alike"]),
        ((String(name="1", pitch="E4"), String(name="2", pitch="D#4")), []),
        # a thousandth of the pitch (common practice, no source): 1.7 cents
        ((String(name="1", pitch="200.19 Hz"), String(name="2", pitch="200 Hz")), ["strings.alike"]),
        ((String(name="1", pitch="200.22 Hz"), String(name="2", pitch="200 Hz")), []),
        ((String(name="1", pitch="199.78 Hz"), String(name="2", pitch="200 Hz")), []),
        ((String(name="1", pitch="E4"), String(name="2", pitch="B3"), String(name="3", pitch="E4")), []),
        (PAIR, []),
    ],
)
def test_neighbours_of_one_pitch_that_are_no_pair(strings: tuple[String, ...], said: list[str]) -> None:
    found = findings(Job(strings=Strings(list=strings)), ())
    assert [one.code for one in found if one.code == "strings.alike"] == said


@pytest.mark.parametrize(
    ("materials", "says"),
    [
        (("steel", "nylon"), "String 2 is without steel, unlike the others"),
        (("steel", "nylon", "steel"), "String 2 is without steel, unlike the others"),
        (("nylon", "steel", "nylon"), "String 2 is of steel, unlike the others"),
        (("nylon", "silk and steel", "nylon"), "String 2 is of steel, unlike the others"),
        (("steel", "nylon", "nylon", "silk and steel"), "Strings 2 and 3 are without steel, unlike the others"),
        (("steel", "silk and steel"), ""),
        (("nylon", "gut"), ""),
    ],
)
def test_the_fewer_of_steel_and_other_strings_are_named(materials: tuple[Material, ...], says: str) -> None:
    strings = tuple(String(name=f"{at}", material=material) for at, material in enumerate(materials, 1))
    found = [one.text for one in findings(Job(strings=Strings(list=strings)), ()) if one.code == "strings.mixed"]
    assert [text.partition(":")[0] for text in found] == ([says] if says else [])


@pytest.mark.parametrize(("hole", "told"), [(5, False), (6, False), (7, True), (24, True), (25, False), (30, False)])
def test_from_which_number_on_an_old_hole_tells_of_a_lacking_string(hole: int, told: bool) -> None:
    """Six strings; no bridge has more than 24 pin holes (common practice, no source)."""
    strings = tuple(String(name=f"{at}", material="nylon") for at in range(1, 7))
    job = Job(strings=Strings(list=strings), bridge=Bridge(), points={f"pin.{hole}": Point()})
    assert told == any(one.code == "strings.count" for one in findings(job, ()))


@pytest.mark.parametrize(
    ("core", "odd"), [(None, False), (0.313, False), (0.437, False), (0.439, True), (0.224, False), (0.222, True)]
)
def test_a_core_that_is_another_strings(core: float | None, odd: bool) -> None:
    """Derived: 0.18 mm + 0.206 × 0.645 mm is 0.31287 mm; 1.4 times that 0.43802, and the part 0.22348."""
    strings = (String(name="4", pitch="D3", build="wound", diameter=0.645, core=core),)
    plans = [msgspec.structs.replace(six()[3], name="4", tension_n=130.0)]
    found = [one for one in findings(Job(strings=Strings(list=strings)), plans) if one.code == "strings.make"]
    assert len(found) == odd
    assert all(one.text.startswith("The core of string 4 is 0.") for one in found)


@pytest.mark.parametrize("material", ["silk and steel", "nylon"])
def test_a_core_of_which_no_usual_size_is_known_well(material: Material) -> None:
    strings = (String(name="4", pitch="D3", material=material, build="wound", diameter=0.645, core=0.6),)
    plans = [msgspec.structs.replace(six()[3], name="4", tension_n=80.0)]
    assert "strings.make" not in [one.code for one in findings(Job(strings=Strings(list=strings)), plans)]


@pytest.mark.parametrize(
    ("fretted", "says"),
    [
        ("yyyyyy", ""),
        ("yyyynn", ""),  # drones at one side
        ("nyyyyn", ""),
        ("yyn", ""),
        ("yny", "String 2 is called a drone"),
        ("ynnyn", "Strings 2 and 3 are called drones"),
        ("nnn", ""),
    ],
)
def test_a_drone_between_strings_that_are_fretted(fretted: str, says: str) -> None:
    strings = tuple(String(name=f"{at}", fretted=one == "y") for at, one in enumerate(fretted, 1))
    found = [one.text for one in findings(Job(strings=Strings(list=strings)), ()) if one.code == "strings.drone"]
    assert [text.partition(",")[0] for text in found] == ([says] if says else [])


@pytest.mark.parametrize(
    ("build", "size", "says"),
    [
        ("plain", 0.51, ""),
        ("plain", 0.53, "String 3 is of plain silk and steel, 0.53 mm thick"),
        ("wound", 0.43, ""),
        ("wound", 0.41, "String 3 is wound, and only 0.41 mm thick"),
    ],
)
def test_silk_and_steel_is_made_as_steel_is(build: Literal["plain", "wound"], size: float, says: str) -> None:
    strings = (String(name="3", pitch="G3", material="silk and steel", build=build, diameter=size),)
    plans = [msgspec.structs.replace(six()[2], name="3", tension_n=90.0)]
    found = [one.text for one in findings(Job(strings=Strings(list=strings)), plans) if one.code == "strings.make"]
    assert [text.partition(";")[0].removesuffix(".")[: len(says)] for text in found] == ([says] if says else [])


@pytest.mark.parametrize(
    ("materials", "pull", "bound"),
    [
        (("steel", "steel", "silk and steel"), 36.1, ""),
        (("steel", "steel", "silk and steel"), 35.9, "in few sets of steel is that under 36 N"),
        (("steel", "steel", "steel"), 400.0, ""),  # it breaks, and that is told
        (("nylon", "gut", "nylon"), 22.1, ""),
        (("nylon", "gut", "nylon"), 21.9, "in few sets without steel is that under 22 N"),
        (("nylon", "gut", "nylon"), 129.9, ""),
        (("nylon", "gut", "nylon"), 130.1, "in few sets without steel is that over 130 N"),
        (("steel", "nylon", "nylon"), 20.0, ""),  # mixed, and that is told
        (("nylon",), 10.0, ""),  # of one alone its pull is told
    ],
)
def test_a_set_that_pulls_as_if_of_another_octave(materials: tuple[Material, ...], pull: float, bound: str) -> None:
    """The middle one counts: the first pulls half as hard, the last twice."""
    pulls = (pull / 2, pull, 2 * pull) if len(materials) > 1 else (pull,)
    plans = [msgspec.structs.replace(plan, tension_n=n) for plan, n in zip(six(), pulls, strict=False)]
    strings = tuple(String(name=plan.name, material=made) for plan, made in zip(plans, materials, strict=True))
    found = [one.text for one in findings(Job(strings=Strings(list=strings)), plans) if one.code == "strings.set"]
    assert len(found) == bool(bound)
    assert all(bound in text for text in found)
