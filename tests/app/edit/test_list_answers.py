"""Answers to a list's questions: yes, or off by so much and to which side; unanswered, they take no part."""

import pytest

from app.cli import bench_page
from app.edit import edits, list_answers
from app.edit.start.new_job import begin
from app.say import how_to
from app.say.figures import key_figures, progress
from export.templates.written import job_tables
from geometry.job import Job, NotAJob, Reading
from geometry.job.job import Hand
from geometry.units import NotALength, Unit, mm
from geometry.work_out import work_out
from tests.in_one import in_one

LINE = Reading(id="r1", kind="inline", of=("fret12.left",), from_=("nut.left", "end.left"), asked=True)
SAME = Reading(id="r2", kind="same", of=("nut.left", "end.left", "nut.right", "end.right"), asked=True)
SQUARE = Reading(id="r3", kind="square", of=("nut.left", "nut.right", "nut.left", "end.left"), asked=True)


def job(*readings: Reading, hand: Hand = "right") -> Job:
    made = Job(hand=hand)
    for reading in readings or (LINE, SAME, SQUARE):
        made = edits.add_reading(made, reading)
    return made


def answer(text: str, which: str = "r1", *, of: Job | None = None) -> Reading:
    return edits.find(edits.set_value(of or job(), which, text), which)


@pytest.mark.parametrize("measuring", ["bridge only", "neck and bridge", "whole top with old work"])
def test_a_fresh_list_counts_nothing_as_taken(measuring: str) -> None:
    fresh = begin(measuring=measuring)
    assert sum(reading.taken for reading in fresh.readings) == 0
    assert progress.steps(fresh, work_out(fresh))["Measure"] == "empty"


def test_the_page_tells_taken_from_waiting_from_not_answered() -> None:
    fresh = begin(measuring="neck and bridge")
    page = bench_page.page(fresh, work_out(fresh))
    assert "Readings: none taken, 31 still to be measured, 2 questions not answered." in page


def test_the_job_sheet_says_not_answered() -> None:
    made = job()
    rows = job_tables.readings(made, work_out(made))
    assert [row[2] for row in rows] == ["not answered"] * 3


def test_the_strip_says_what_waits() -> None:
    made = job(LINE)
    figure = key_figures.key_figures(made, work_out(made))[-1]
    assert (figure.value, figure.rest, figure.where) == ("1", "still to be answered", "reading:r1")


@in_one("text", ["yes", "Y", "0", " 0,0 ", "✓", "0 bass"])
@in_one("hand", ["right", "left"])
def test_yes_is_in_line(text: str, hand: Hand) -> None:
    found = answer(text, of=job(hand=hand))
    assert found == edits.replace(LINE, asked=False)
    assert found.taken


@pytest.mark.parametrize(
    ("text", "hand", "side", "value"),
    [
        ("0.8 bass", "right", "right", 0.8),
        ("0.8 bass", "left", "left", 0.8),
        ("0.8 left", "left", "left", 0.8),
        ("0,8t", "right", "left", "0,8 mm"),
        ("1/32 in treble", "right", "left", "1/32 in"),
        ('1/32" b', "right", "right", '1/32"'),
        ("1/32 treble", "right", "left", "1/32 mm"),
    ],
)
def test_off_by_so_much_is_a_reading_of_its_own(text: str, hand: Hand, side: str, value: object) -> None:
    found = answer(text, of=job(hand=hand))
    assert (found.kind, found.side, found.value, found.asked) == ("off", side, value, False)
    assert (found.id, found.of, found.from_, found.with_) == (LINE.id, LINE.of, LINE.from_, None)


def test_a_bare_fraction_is_in_the_jobs_unit() -> None:
    made = edits.set_unit(job(), "in")
    assert answer("1/32 treble", of=made).value == "1/32 in"


@pytest.mark.parametrize(("unit", "like"), [("mm", "0.8"), ("cm", "0.08"), ("in", "1/32")])
def test_what_may_be_typed_is_in_the_jobs_unit_and_means_the_same(unit: Unit, like: str) -> None:
    assert list_answers.takes("inline", unit) == f"yes, or {like} bass"
    found = answer(f"{like} bass", of=edits.set_unit(job(), unit))
    (value,) = found.parts
    assert mm(value) == pytest.approx(0.8, abs=0.01)  # derived: 25.4 / 32 is 0.794
    with pytest.raises(NotAJob, match=rf"like {like} {unit} bass"):
        answer("no", of=edits.set_unit(job(), unit))


@pytest.mark.parametrize(
    ("unit", "text", "says"),
    [
        ("in", "0.8 bass", r"^0\.8 in is more than the 13/64 in .* this job is in inches$"),
        ("mm", "20 treble", r"^20 mm is more than the 5\.0 mm .* this job is in millimetres$"),
        ("cm", "0.8 bass", r"^0\.8 cm is more than the 0\.50 cm"),
        ("in", "20 mm bass", r"^20 mm is more"),
    ],
)
def test_more_than_a_point_can_lie_off_is_refused_and_names_the_unit(unit: Unit, text: str, says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        answer(text, of=edits.set_unit(job(), unit))


@pytest.mark.parametrize("text", ["0.8", "no", "-", "-0.8"])
def test_half_an_answer_is_asked_for_its_other_half(text: str) -> None:
    with pytest.raises(NotAJob, match=r"like 0\.8 mm bass"):
        answer(text)


@pytest.mark.parametrize("text", ["maybe", "0.8 sideways", "bass"])
def test_what_is_no_answer_is_refused(text: str) -> None:
    with pytest.raises(NotALength):
        answer(text)


def test_an_answer_can_be_mended_and_taken_back() -> None:
    off = edits.set_value(job(), "r1", "0.8 bass")
    assert answer("0.6", of=off).side == "right"
    assert answer("0.6 treble", of=off).side == "left"
    assert answer("yes", of=off) == edits.replace(LINE, asked=False)
    assert answer("", of=edits.set_value(job(), "r1", "yes")) == LINE


@pytest.mark.parametrize("which", ["r2", "r3"])
def test_the_same_and_square_take_yes_or_no(which: str) -> None:
    assert answer("yes", which).taken
    no = answer("no", which)
    assert (no.taken, no.struck, no.why) == (False, True, "does not hold")
    assert answer("0.8", which).why == "off by 0.8 mm"
    assert edits.find(edits.bring_back(edits.set_value(job(), which, "no"), which), which).asked


@pytest.mark.parametrize("reading", [LINE, SAME, SQUARE], ids=lambda reading: reading.kind)
def test_the_hand_is_asked_and_not_told(reading: Reading) -> None:
    assert "?" in how_to.take(reading, "right", "mm")
    assert "?" not in how_to.take(edits.replace(reading, asked=False), "right", "mm")
    assert list_answers.question(reading).endswith("?")
    assert list_answers.question(edits.replace(reading, asked=False)) == ""


def test_only_a_condition_can_be_asked() -> None:
    with pytest.raises(NotAJob, match="is no question"):
        Reading(id="r9", kind="distance", of=("a", "b"), asked=True)


@pytest.mark.parametrize(
    ("typed", "before", "whole"),
    [
        ("bass", "31/64", "31/64 bass"),
        (" b", "31/64", "31/64 b"),
        ("treble", "31/64 bass", "31/64 treble"),  # the other side than the one that stands there
        ("left", "1.2 mm", "1.2 mm left"),
        ("31/64 bass", "1/2", "31/64 bass"),
        ("bass", "", "bass"),
        ("bass", "in line?", "bass"),  # nothing stands there yet
        ("yes", "31/64", "yes"),
        ("", "31/64", ""),
        ("1/2", "31/64 bass", "1/2"),
    ],
)
def test_a_side_by_itself_belongs_to_the_length_that_stands_there(typed: str, before: str, whole: str) -> None:
    assert list_answers.with_its_length(typed, before, "left") == whole
