"""A new job from the command line."""

from pathlib import Path

import pytest

from app.cli import command_line
from app.edit.bridge import bridge_entries
from app.edit.start import first_questions
from app.edit.start.new_job import NotBegun, begin
from app.file import job_file
from app.file.settings import Settings, ToolsAtHand
from geometry.job import Held, Job, Tail
from geometry.job.job import Hand
from geometry.strings.usual_sets import SETS
from geometry.units import Unit
from tests.in_one import in_one


def test_it_is_written_and_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "mine.job.json"
    assert command_line.run(["new", str(path), "--hand", "left", "--strings", "4", "--unit", "in"]) == 0
    assert capsys.readouterr().out == f"{path}\n"
    job = job_file.read(path)
    assert (job.hand, job.unit) == ("left", "in")
    assert job.strings is not None
    assert [string.name for string in job.strings.list] == ["1", "2", "3", "4"]


def test_a_bare_name_gets_the_ending(tmp_path: Path) -> None:
    assert command_line.run(["new", str(tmp_path / "mine")]) == 0
    assert [path.name for path in tmp_path.iterdir()] == ["mine.job.json"]


def test_a_job_that_is_there_is_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "mine.job.json"
    path.write_text("precious")
    assert command_line.run(["new", str(path)]) == 2
    assert capsys.readouterr().err == f"offsquare: {path} is there already; choose another name.\n"
    assert path.read_text() == "precious"


def test_a_usual_set_brings_its_strings() -> None:
    strings = begin(string_set="steel 12-54").strings
    assert strings is not None
    assert [string.diameter for string in strings.list][:2] == ["0.012 in", "0.016 in"]


@pytest.mark.parametrize("count", [0, 13])
def test_too_few_and_too_many_strings(count: int) -> None:
    with pytest.raises(NotBegun, match=f"a job has 1 to 12 strings, not {count}"):
        begin(strings=count)


def test_a_set_there_is_not() -> None:
    with pytest.raises(NotBegun, match="there is no set of strings “piano wire”; there are: steel 10-46"):
        begin(string_set="piano wire")


def test_a_list_that_asks_for_the_tail_begins_it() -> None:
    assert begin(measuring="neck and bridge", held="strings").tail == Tail()
    assert begin(measuring="neck and bridge", held="strings", strings_on=False).tail is None
    assert begin(measuring="bridge only", held="strings").tail is None
    assert begin(measuring="neck and bridge").tail is None


@pytest.mark.parametrize("measuring", ["bridge only", "neck and bridge", "whole top with old work"])
def test_a_measuring_list_brings_its_readings(measuring: str) -> None:
    job = begin(measuring=measuring)
    assert len(job.readings) >= 10
    assert not any(reading.parts for reading in job.readings)
    assert job_file.decode(job_file.encode(job)) == job


def test_without_being_asked_the_usual_list_is_begun(tmp_path: Path) -> None:
    assert command_line.run(["new", str(tmp_path / "mine"), "--unit", "cm"]) == 0
    job = job_file.read(tmp_path / "mine.job.json")
    assert job == begin(measuring="neck and bridge", unit="cm")


def test_in_inches_all_is_read_with_a_rule_of_64ths_unless_told_otherwise(tmp_path: Path) -> None:
    def read_with(name: str, *told: str) -> set[str | None]:
        assert command_line.run(["new", str(tmp_path / name), "--unit", "in", *told]) == 0
        return {reading.with_ for reading in job_file.read(tmp_path / f"{name}.job.json").readings}

    assert read_with("plain") - {None} == {"rule 1/64"}
    assert read_with("told", "--rule", "1/32", "--caliper", "0.1") - {None} == {"tape 1/32", "caliper 0.1"}


@pytest.mark.parametrize(("unit", "paper"), [("mm", "A4"), ("cm", "A4"), ("in", "Letter")])
def test_the_paper_follows_the_unit_until_one_is_chosen(unit: Unit, paper: str) -> None:
    job = begin(unit=unit)
    assert job.sheets.paper == paper
    assert first_questions.on_paper(job, Settings().paper) == job
    assert first_questions.on_paper(job, "Legal").sheets.paper == "Legal"


def test_strings_that_are_tied_have_no_pin_holes_to_read() -> None:
    kinds = {
        reading.kind for reading in begin(string_set="nylon 0.70-1.10", measuring="whole top with old work").readings
    }
    assert "rims" not in kinds


def test_a_list_there_is_not(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command_line.run(["new", str(tmp_path / "mine"), "--list", "everything"]) == 2
    said = "there is no measuring list “everything”; there are: bridge only, neck and bridge, whole top with old work"
    assert capsys.readouterr().err == f"offsquare: {said}.\n"
    assert list(tmp_path.iterdir()) == []


def test_a_job_just_begun_can_be_worked_out(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command_line.run(["new", str(tmp_path / "mine")]) == 0
    capsys.readouterr()
    assert command_line.run(["work-out", str(tmp_path / "mine.job.json")]) == 0
    said = capsys.readouterr().out
    waiting = sum(bool(reading.with_) for reading in begin(measuring="neck and bridge").readings)
    assert f"none taken, {waiting} still to be measured, 2 questions not answered." in said


@in_one("hand", ["left", "right"])
@in_one("string_set", SETS)
def test_the_window_and_the_command_line_begin_the_same_job(hand: Hand, string_set: str) -> None:
    in_window = first_questions.begin(
        hand=hand,
        string_set=string_set,
        measuring="whole top with old work",
        at_hand=ToolsAtHand(unit="in", rule="rule 1/64"),
    )
    assert in_window == begin(hand=hand, string_set=string_set, measuring="whole top with old work", unit="in")


def has_pins(job: Job) -> bool:
    return job.bridge is not None and job.bridge.pins is not None


@in_one("string_set", SETS)
def test_pin_holes_are_read_where_the_bridge_is_begun_with_pins(string_set: str) -> None:
    job = begin(string_set=string_set, measuring="whole top with old work")
    assert has_pins(bridge_entries.begin(job)) == any(reading.kind == "rims" for reading in job.readings)


def test_strings_that_are_not_known_yet_may_have_pins() -> None:
    job = begin(strings=5, measuring="whole top with old work")
    assert any(reading.kind == "rims" for reading in job.readings)
    assert has_pins(bridge_entries.begin(job))


def test_with_the_strings_off_other_heights_are_asked_for(tmp_path: Path) -> None:
    assert command_line.run(["new", str(tmp_path / "off"), "--strings", "5", "--strings-off"]) == 0
    job = job_file.read(tmp_path / "off.job.json")
    assert {reading.at for reading in job.readings if reading.kind == "height"} == {"board end", "saddle"}
    assert job.strings is not None
    assert len(job.strings.list) == 5
    in_window = first_questions.begin(hand="right", string_set="5", measuring="neck and bridge", strings_on=False)
    assert in_window == job


def test_a_new_jobs_file_says_what_is_asked(tmp_path: Path) -> None:
    assert command_line.run(["new", str(tmp_path / "mine")]) == 0
    text = (tmp_path / "mine.job.json").read_text(encoding="utf-8")
    assert text.count('"asked": true') == 2
    assert sum(reading.asked for reading in job_file.decode(text.encode()).readings) == 2


@pytest.mark.parametrize("held", ["glue", "strings", "screws"])
@pytest.mark.parametrize("strings_on", [True, False])
@pytest.mark.parametrize("string_set", ["steel 12-54", "nylon 0.70-1.10", "4", "8"])
def test_the_start_card_tells_the_list_that_is_made(held: Held, strings_on: bool, string_set: str) -> None:
    """Its count, and each thing that only some lists ask for: none that this one does not."""
    for name, _ in first_questions.list_choices():
        told = first_questions.about_list(name, strings_on, held, string_set)
        job = first_questions.begin(
            hand="right", string_set=string_set, measuring=name, strings_on=strings_on, held=held
        )
        assert told.endswith(f" {len(job.readings)} readings.")
        points = {point.partition(".")[0] for point in job.points}
        for kind, says in (("pin", "pin holes"), ("foot", "stands today"), ("tail", "strings end"), ("mark", "marks")):
            asked = kind in points
            if name != "whole top with old work" or kind in ("pin", "mark") or not asked:
                assert (says in told) == asked, (name, told)


def test_a_tied_bridge_has_no_pin_holes_to_measure() -> None:
    """derived: 64 readings of six strings with pins, less three from corners of the footprint to each outer pin."""
    told = first_questions.about_list("whole top with old work", string_set="nylon 0.70-1.10")
    assert told == "Also the seam and the old footprint. 58 readings."
