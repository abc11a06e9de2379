"""What is said of braces and plate, on both sides of nothing and of the ±."""

import msgspec
import pytest

from geometry.job import Bridge, Job, Saddle
from geometry.layout import Consequences, Gap
from geometry.old_work.inside.under_told import findings, through
from tests.geometry.old_work.everything import OLD, PLACES, laid
from tests.geometry.old_work.everything import told as consequences

FOUND: Consequences = consequences(laid(PLACES, OLD))


def said(*gaps: tuple[str, str, float, float], job: Job | None = None) -> list[tuple[str, str, str]]:
    """Code, grade and text of what is found of gaps: new, old, mm and ±."""
    whole = [Gap(new=n, old=o, mm=far, pm95=pm95, new_xy=(0.0, 0.0), old_xy=(0.0, 0.0)) for n, o, far, pm95 in gaps]
    found = msgspec.structs.replace(FOUND, gaps=tuple(whole))
    return [(one.code, one.grade, one.text) for one in findings(job or Job(), found)]


@pytest.mark.parametrize(
    ("far", "grade", "says"),
    [
        (-1.2, "stop", "The new pin hole of string 3 runs 1.2 ±0.4 mm into the brace “main”."),
        (0.0, "stop", "The new pin hole of string 3 runs 0.0 ±0.4 mm into the brace “main”."),
        (0.01, "look", "too little to be sure"),
        (0.39, "look", "The new pin hole of string 3 clears the brace “main” by 0.4 ±0.4 mm"),
        (0.4, "good", "The new pin holes clear the braces by 0.4 ±0.4 mm or more."),
    ],
)
def test_a_pin_hole_at_a_brace(far: float, grade: str, says: str) -> None:
    ((code, found, text),) = said(("pin:3", "brace:main", far, 0.4), ("pin:1", "brace:main", 9.0, 0.4))
    assert (code, found) == ("brace.pin", grade)
    assert says in text


@pytest.mark.parametrize(
    ("far", "grade", "says"),
    [
        (-1.2, "stop", "The new pin hole of string 3 reaches 1.2 mm past the plate’s edge"),
        (0.0, "stop", "reaches 0.0 mm past the plate’s edge"),
        (0.39, "look", "lies 0.4 ±0.4 mm inside the plate’s edge: too little to be sure"),
        (0.4, "good", "All new pin holes go through the plate, 0.4 ±0.4 mm inside its edge or more."),
    ],
)
def test_a_pin_hole_at_the_plates_edge(far: float, grade: str, says: str) -> None:
    ((code, found, text),) = said(
        ("pin:3", "plate", far, 0.4), ("pin:1", "plate", 9.0, 0.4), ("slot", "plate", -9.0, 0.1)
    )
    assert (code, found) == ("plate.pin", grade)
    assert says in text


def test_the_one_that_is_least_sure_is_told() -> None:
    """derived: 1.0 ± 0.9 may be 0.1, and 0.8 ± 0.2 no less than 0.6"""
    for old, code in (("brace:main", "brace.pin"), ("plate", "plate.pin")):
        ((found, grade, text),) = said(("pin:3", old, 1.0, 0.9), ("pin:4", old, 0.8, 0.2))
        assert (found, grade) == (code, "good")
        assert "1.0 ±0.9 mm" in text


def with_slot(deep: float | None, *thick: float | None) -> Job:
    thickness = None if not thick else thick[0] if len(thick) == 1 else (thick[0], thick[1])
    return Job(saddle=Saddle(slot_depth=deep), bridge=Bridge(thickness=thickness))


@pytest.mark.parametrize(
    ("job", "wanted"),
    [
        (Job(), None),
        (with_slot(None, 9.0), None),
        (with_slot(5.0), None),
        (with_slot(9.0, 9.0), True),
        (with_slot(8.99, 9.0), False),
        (with_slot(8.0, 9.0, 8.0), True),
        (with_slot(8.0, None, 8.5), False),
    ],
)
def test_whether_the_slot_goes_through(job: Job, wanted: bool | None) -> None:
    assert through(job) is wanted


THROUGH, WITHIN, UNKNOWN = with_slot(9.0, 9.0), with_slot(5.0, 9.0), Job()


@pytest.mark.parametrize(
    ("job", "far", "grade", "says"),
    [
        (THROUGH, -1.0, "stop", "goes through the bridge and runs into the brace “main”"),
        (THROUGH, 0.0, "stop", "goes through the bridge and runs into the brace “main”"),
        (THROUGH, 0.1, "look", "comes too near to be sure to the brace “main”"),
        (THROUGH, 0.4, "", ""),
        (WITHIN, -1.0, "", ""),
        (UNKNOWN, -1.0, "look", "The slot lies over the brace “main”: it must not go through the bridge."),
        (UNKNOWN, 0.0, "look", "The slot lies over"),
        (UNKNOWN, 0.39, "look", "comes too near"),
        (UNKNOWN, 0.4, "", ""),
    ],
)
def test_a_slot_over_a_brace(job: Job, far: float, grade: str, says: str) -> None:
    found = said(("slot", "brace:main", far, 0.4), ("slot", "brace:other", 9.0, 0.4), job=job)
    assert [(code, of) for code, of, _ in found] == ([("brace.slot", grade)] if grade else [])
    assert says in "".join(text for _, _, text in found)
