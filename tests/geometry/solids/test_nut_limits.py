"""Each bound of the nut's findings at the bound itself and just within, of blanks made by hand (bounds: common
practice, no source). Lengths are such as binary numbers hold without rounding.
"""

import math

import pytest
from msgspec.structs import replace

from geometry.job import Job, Nut
from geometry.layout import Layout, NutBlank, NutSlot
from geometry.solids import nut_told
from tests.export.conftest import layout

NUT = Nut(height=8.0, bed=5.0, fret_height=1.0)
SMALL = 2**-10
"""mm."""


def slot(name: str = "1", along: float = 20.0, **changes: object) -> NutSlot:
    given: dict[str, object] = {"string": name, "along": (along, 0.1), "width": 1.0}
    return NutSlot(**given | changes)  # type: ignore[arg-type]  # the fields of a slot


def blank(*slots: NutSlot, **changes: object) -> NutBlank:
    given: dict[str, object] = {"length": (44.0, 0.2), "turn": 0.0, "thickness": 5.0, "back_angle": 0.0}
    return NutBlank(slots=slots, **given | {"face": ((0.0, 5.0),)} | changes)  # type: ignore[arg-type]  # the fields


def told(made: NutBlank, nut: Nut = NUT, known: Layout | None = None) -> dict[str, str]:
    seen = replace(layout(), findings=()) if known is None else known
    return {found.code: found.grade for found in nut_told.findings(Job(nut=nut), nut, made, seen)}


@pytest.mark.parametrize(
    ("edge", "grade"),
    [(1.5, None), (1.5 - SMALL, "look"), (SMALL, "look"), (0.0, "stop"), (-1.0, "stop"), (None, None)],
)
def test_wood_to_the_nuts_end(edge: float | None, grade: str | None) -> None:
    assert told(blank(slot("1", edge=edge), slot("2", 10.0, edge=9.0))).get("nut.edge") == grade
    assert told(blank(slot("1", edge=9.0), slot("2", 10.0, edge=edge))).get("nut.edge") == grade


@pytest.mark.parametrize(
    ("apart", "grade"), [(1.8, None), (1.8 - SMALL, "look"), (1.0 + SMALL, "look"), (1.0, "stop"), (0.5, "stop")]
)
def test_wood_between_slots(apart: float, grade: str | None) -> None:
    """derived: slots of 1 mm, so that of 1.8 mm from middle to middle 0.8 stay; whichever of them comes first"""
    near, far = slot("1", 0.0), slot("2", apart)
    for slots in ((near, far), (far, near), (slot("3", 20.0), far, near), (near, far, slot("3", 20.0))):
        assert told(blank(*slots)).get("nut.wall") == grade
    half = slot("1", 0.5, width=None), slot("2", apart)  # of unknown width it counts as a line
    assert told(blank(*half)).get("nut.wall") == told(blank(*half[::-1])).get("nut.wall") == grade


@pytest.mark.parametrize(
    ("over_bed", "grade"), [(1.5, None), (1.5 - SMALL, "look"), (SMALL, "look"), (0.0, "stop"), (-1.0, "stop")]
)
def test_what_stays_under_a_slot(over_bed: float, grade: str | None) -> None:
    made = blank(slot("1", over_bed=(over_bed, 0.1)), slot("2", 10.0, over_bed=(6.0, 0.1)), slot("3", 5.0))
    assert told(made).get("nut.through") == grade


def test_a_slot_falls_away_to_the_back() -> None:
    """derived: by the nut's thickness at 45 degrees"""
    falls = math.tan(math.pi / 4) * 5.0
    well, thin = (blank(slot(over_bed=(falls + 1.5 + way, 0.1)), back_angle=math.pi / 4) for way in (SMALL, -SMALL))
    assert "nut.through" not in told(well)
    assert told(thin)["nut.through"] == "look"


@pytest.mark.parametrize(("deep", "grade"), [(0.25, None), (0.25 - SMALL, "look"), (SMALL, "look"), (0.0, "stop")])
def test_half_of_its_string_is_deep_enough(deep: float, grade: str | None) -> None:
    """derived: strings of 0.5 mm; a slot whose string's diameter is not known needs no depth"""
    known = layout()
    strings = tuple(replace(string, diameter=0.5 if string.name != "6" else None) for string in known.strings)
    made = blank(slot("1", deep=(deep, 0.1)), slot("2", 10.0, deep=(2.0, 0.1)), slot("6", 5.0, deep=(0.0, 0.1)))
    found = told(made, known=replace(known, strings=strings, findings=()))
    assert found.get("nut.low") == grade


@pytest.mark.parametrize(("over", "said"), [(1.0, False), (0.9375, True), (0.953125, False)])
def test_a_slot_under_the_fret_tops(over: float, said: bool) -> None:
    """derived: frets 1 mm high; 1/16 mm under them is more than 0.05 mm, 3/64 mm less"""
    made = blank(slot("1", over_board=(over, 0.1)), slot("2", 10.0, over_board=(1.5, 0.1)))
    assert ("nut.sunk" in told(made)) is said
    assert "nut.sunk" not in told(replace(made, zero_fret=True))
    assert "nut.sunk" not in told(made, replace(NUT, fret_height=None))


def test_a_zero_fret_leaves_no_height_over_fret_1_to_ask_for() -> None:
    made = blank(slot(over_board=(1.0, 0.1)), zero_fret=True)
    for wanted, said in (((None, None), False), ((0.4, None), True), ((None, 0.4), True)):
        assert ("nut.over_fret1" in told(made, replace(NUT, over_fret1=wanted))) is said
        assert "nut.over_fret1" not in told(replace(made, zero_fret=False), replace(NUT, over_fret1=wanted))


@pytest.mark.parametrize(("margin", "said"), [(19.5, False), (19.5 + SMALL, True)])
def test_margins_leave_room_for_the_least_spread(margin: float, said: bool) -> None:
    """derived: of 44 mm twice 19.5 leave the 5 mm of the least spread"""
    nut = replace(NUT, margins=(margin, margin))
    assert ("nut.margins" in told(blank(slot("1"), slot("2", 10.0)), nut)) is said
    assert "nut.margins" not in told(blank(slot("1")), nut)


def test_what_the_slots_wait_for() -> None:
    bare = replace(NUT, fret_height=None)
    assert told(blank(slot(), face=()), bare) == {"nut.waits": "look"}
    assert told(blank(slot(), face=()), NUT) == {"nut.waits": "look"}
    assert told(blank(slot(), face=()), replace(NUT, height=None)) == told(blank(slot()), NUT) == {}


def test_how_the_outer_slots_bottoms_lie() -> None:
    made = blank(*(slot(name, 20.0 - at, over_board=(1.0 + at, 0.1)) for at, name in enumerate("123")), slot("4", 2.0))
    (found,) = nut_told._bottoms(Job(), made)
    assert found.values == {"over_board.1": 1.0, "over_board.2": 2.0, "over_board.3": 3.0}
    assert "1.0 ±0.1 mm under string 1 and 3.0 ±0.1 mm under string 3." in found.text
    (guides,) = nut_told._bottoms(Job(), replace(made, zero_fret=True))
    assert "they only guide" in guides.text
    assert list(nut_told._bottoms(Job(), blank(slot()))) == []
