"""The usual figures, straight from treble to bass: common practice, no source; those of docs/numbers.md, by hand."""

import pytest

from geometry.job import String, Strings
from geometry.job.stringing import Material
from geometry.strings.usual_compensation import usual, usual_pm95


def strings(courses: int, material: Material = "steel", each: int = 1) -> Strings:
    listed = [
        String(name=f"{course}{'ab'[n] if each > 1 else ''}", course=course if each > 1 else None, material=material)
        for course in range(1, courses + 1)
        for n in range(each)
    ]
    return Strings(list=tuple(listed))


@pytest.mark.parametrize(("courses", "bass"), [(3, 3.0), (4, 3.0), (5, 4.5), (6, 4.5)])
@pytest.mark.parametrize("each", [1, 2])
def test_up_to_four_courses_of_steel_the_bass_stands_three_millimetres_back(
    courses: int, each: int, bass: float
) -> None:
    found = usual(strings(courses, each=each))
    assert (found[0], found[-1]) == (1.5, bass)


def test_between_treble_and_bass_they_lie_on_a_straight_line() -> None:
    assert usual(strings(6)).tolist() == pytest.approx([1.5, 2.1, 2.7, 3.3, 3.9, 4.5])


@pytest.mark.parametrize(
    ("material", "ends", "pm95"), [("nylon", (1.5, 2.0), 2.0), ("gut", (1.0, 1.5), 2.5), ("steel", (1.5, 3.0), 4.0)]
)
def test_each_material_has_its_own(material: Material, ends: tuple[float, float], pm95: float) -> None:
    found = strings(4, material)
    assert (usual(found)[0], usual(found)[-1]) == ends
    assert usual_pm95(found).tolist() == [pm95] * 4
