"""The groups of a list of readings, and readings moved within them."""

import pytest

from app.edit.measure.reading_groups import counted, group_of, grouped, in_groups, list_in_groups, moved
from app.edit.start.new_job import begin
from geometry.advice.measuring_lists import measuring_list
from geometry.job import Job, Point, Reading

WHOLE = measuring_list("whole top with old work", "left", 6).readings
TEN = tuple(Reading(id=f"r{n}", kind="fret", fret=n, on="left") for n in range(1, 6))
FRETS = Job(readings=TEN)


@pytest.mark.parametrize(
    ("reading", "group"),
    [
        (Reading(id="a", kind="distance", of=("nut.left", "end.right")), "Board"),
        (Reading(id="a", kind="fret", fret=3, on="left"), "Frets"),
        (Reading(id="a", kind="height", at="fret 1", on="left"), "Heights"),
        (Reading(id="a", kind="along", of=("seam.1",), from_=("nut.left", "end.left")), "Seam"),
        (Reading(id="a", kind="distance", of=("old.1", "seam.1")), "Old work"),
        (Reading(id="a", kind="distance", of=("heel", "nut.left")), "Other"),
    ],
)
def test_a_reading_falls_into_one(reading: Reading, group: str) -> None:
    assert group_of(reading) == group


def test_a_list_begins_group_by_group_and_is_numbered_so() -> None:
    readings = begin(measuring="whole top with old work").readings
    assert readings == in_groups(readings)
    assert [r.id for r in readings] == [f"r{n}" for n in range(1, len(readings) + 1)]
    assert list(grouped(readings)) == ["Board", "Frets", "Heights", "Seam", "Old work"]


def test_no_reading_is_lost_or_made() -> None:
    def plain(readings: tuple[Reading, ...]) -> list[str]:
        return sorted(f"{r.kind} {r.of} {r.from_} {r.fret} {r.at} {r.on} {r.side}" for r in readings)

    assert plain(list_in_groups(WHOLE)) == plain(WHOLE)


def test_what_groups_part_is_no_longer_one_laying() -> None:
    layings: dict[str, set[str]] = {}
    for reading in list_in_groups(WHOLE):
        if reading.laid:
            layings.setdefault(reading.laid, set()).add(group_of(reading))
    assert all(len(groups) == 1 for groups in layings.values())
    assert {"edge left", "edge left, seam", "edge left, old work"} <= set(layings)


def test_what_is_struck_out_is_not_counted() -> None:
    taken = Reading(id="a", kind="fret", fret=1, on="left", value=36.0)
    struck = Reading(id="b", kind="fret", fret=2, on="left", value=70.0, struck=True)
    assert counted((taken, struck, TEN[2])) == (1, 2)


@pytest.mark.parametrize(
    ("ids", "step", "order"),
    [
        (["r3"], -1, "r1 r3 r2 r4 r5"),
        (["r3"], 1, "r1 r2 r4 r3 r5"),
        (["r2", "r3"], 1, "r1 r4 r2 r3 r5"),
        (["r2", "r3"], -1, "r2 r3 r1 r4 r5"),
        (["r2", "r5"], 1, "r1 r3 r2 r4 r5"),
        (["r1"], -1, "r1 r2 r3 r4 r5"),
    ],
)
def test_readings_move_together(ids: list[str], step: int, order: str) -> None:
    assert " ".join(r.id for r in moved(FRETS, ids, step).readings) == order


def test_they_stay_within_their_group() -> None:
    board = Reading(id="b", kind="distance", of=("nut.left", "nut.right"))
    points = {"nut.left": Point(), "nut.right": Point()}
    job = Job(points=points, readings=(TEN[0], board, TEN[1]))
    assert [r.id for r in moved(job, ["r2"], -1).readings] == ["r2", "b", "r1"]
