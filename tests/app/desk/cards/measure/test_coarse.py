"""Readings that agree worse than they were said to be read: told of, and stated so by a button."""

import pytest
from msgspec.structs import replace

from app.say.figures import key_figures
from geometry.job import Job, Point, Reading
from geometry.work_out import work_out
from tests.app.desk.conftest import OpenDesk


def coarse() -> Job:
    """Invented: a board's six lengths read four times over, by turns half a millimetre long and short, and said to be
    within 0.35 mm. Derived: that is a standard deviation of 0.2, and they scatter by more than twice as much.
    """
    corners = {"nut.left": 22j, "nut.right": -22j, "end.left": 440 + 28j, "end.right": 440 - 28j}
    names = list(corners)
    pairs = [(a, b) for i, a in enumerate(names) for b in names[i + 1 :]]
    readings = tuple(
        Reading(
            id=f"{a}{b}{n}",
            kind="distance",
            of=(a, b),
            value=round(abs(corners[a] - corners[b]), 2) + (0.55, -0.55, 0.5, -0.5)[n],
            within=0.35,
        )
        for a, b in pairs
        for n in range(4)
    )
    return Job(points={name: Point() for name in corners}, readings=readings)


def test_the_card_offers_to_say_that_all_were_read_more_coarsely(open_desk: OpenDesk) -> None:
    desk = open_desk(coarse())
    layout = desk.document.layout
    assert layout is not None
    assert layout.survey.verdict == "coarse"
    notes = desk.measure.notes
    assert "more coarsely" in notes.look_again.head.text()
    assert notes.coarse_button.isVisibleTo(notes)
    notes.coarse_button.click()
    after = desk.document.layout
    assert after is not None
    assert after.survey.verdict == "clean"
    assert {r.times for r in desk.document.job.readings} == {round(layout.survey.wider, 2)}
    assert not notes.coarse_button.isVisibleTo(notes)
    desk.document.stack.undo()
    assert desk.document.job == coarse()


def test_the_strip_says_by_how_much() -> None:
    job = coarse()
    cell = key_figures.key_figures(job, work_out(job))[-1]
    assert (cell.title, cell.mark) == ("Readings", "look")
    assert "times worse than said" in cell.rest


def test_a_coarser_statement_makes_no_result_surer() -> None:
    before = work_out(coarse())
    told = replace(coarse(), readings=tuple(replace(r, times=before.survey.wider) for r in coarse().readings))
    after = work_out(told)
    for name, place in before.points.items():
        assert after.points[name].sx == pytest.approx(place.sx, rel=1e-3)
        assert after.points[name].sy == pytest.approx(place.sy, rel=1e-3)
