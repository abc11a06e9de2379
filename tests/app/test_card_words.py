"""What the Strings, Bridge and start cards put into a job, and what they say."""

import math

import pytest

from app.edit import placed_turn
from app.edit.bridge import bridge_entries
from app.edit.edits import add_reading, move_placed, replace
from app.edit.old_work import old_entries, old_told, taking_up
from app.edit.start import first_questions
from app.edit.strings import spread_entries, string_entries
from app.file import job_file, samples
from app.say import look_again
from geometry.advice import advise
from geometry.job import Action, Job, NotAJob, Reading, Spread
from geometry.work_out import work_out


def sample(name: str) -> Job:
    path = samples.find(name)
    assert path is not None
    return job_file.read(path)


def test_a_usual_set_replaces_the_strings_and_what_was_typed_for_others() -> None:
    job = string_entries.take_set(sample("tie-bridge"), "ukulele nylon 0.60-0.90")
    assert job.strings is not None
    assert [s.pitch for s in job.strings.list] == ["A4", "E4", "C4", "G4"]
    assert job.strings.compensation == "worked out"


@pytest.mark.parametrize(
    ("typed", "kept"),
    [("12", "0.012 in"), ("0.3", 0.3), ("0.012 in", "0.012 in"), ("", None), ("2", 2)],
    ids=["a gauge", "mm", "inches", "nothing", "too thick for a gauge"],
)
def test_a_diameter_is_typed_as_the_trade_does(typed: str, kept: object) -> None:
    assert string_entries.diameter(typed, "mm") == kept


def test_to_say_that_compensation_is_typed_makes_no_number_surer() -> None:
    """Until something is typed for a string its own stays worked out, with its ±."""
    job = sample("leaning-neck")
    typed = string_entries.typed_compensation(job)
    assert typed.strings is not None
    assert typed.strings.compensation == (None,) * 6
    before, after = work_out(job), work_out(typed)
    assert before.saddle is not None
    assert after.saddle is not None
    assert after.saddle.pm95 == before.saddle.pm95
    assert after.strings == before.strings
    first = string_entries.put_compensation(typed, 0, "2.4")
    assert first.strings is not None
    assert first.strings.compensation == (2.4, *(None,) * 5)
    assert string_entries.put_compensation(first, 0, " ") == typed


def test_one_more_string_brings_no_compensation_that_is_known() -> None:
    typed = string_entries.put_compensation(string_entries.typed_compensation(sample("leaning-neck")), 5, "4")
    more = string_entries.add_string(typed)
    assert more.strings is not None
    assert more.strings.compensation == (None, None, None, None, None, 4.0, None)


def test_worked_out_compensation_is_not_typed() -> None:
    with pytest.raises(NotAJob, match="The compensation is worked out"):
        string_entries.put_compensation(replace(sample("leaning-neck"), strings=string_entries.block(Job())), 0, "2")


def test_a_spread_is_put_shared_out_and_taken_away() -> None:
    put, get = spread_entries.spread_put("nut"), spread_entries.spread_of("nut")
    job = put(Job(), "36 mm")
    assert job.strings is not None
    assert job.strings.nut == Spread(spread="36 mm", spacing="centres")
    job = spread_entries.spacing_put("nut")(job, "gaps")
    assert spread_entries.spacing_of("nut")(job) == "gaps"
    assert get(put(job, None)) is None


def test_one_height_that_is_typed_leaves_the_others_to_be_assumed() -> None:
    job = spread_entries.action_put("fret12", 0)(Job(), 2.4)
    assert string_entries.block(job).action == Action(fret1=(None, None), fret12=(2.4, None))
    job = spread_entries.action_put("fret12", 1)(job, 2.0)
    assert [spread_entries.action_of("fret12", side)(job) for side in (0, 1)] == [2.4, 2.0]
    for side in (0, 1):
        job = spread_entries.action_put("fret12", side)(job, None)
    assert string_entries.block(job).action is None


def test_a_bridge_is_begun_by_the_strings() -> None:
    steel, nylon = (
        bridge_entries.begin(Job(strings=string_entries.take_set(Job(), key).strings))
        for key in ("steel 12-54", "gut 0.60-1.10")
    )
    assert steel.bridge is not None
    assert nylon.bridge is not None
    assert (steel.bridge.pins is not None, nylon.bridge.pins) == (True, None)
    assert nylon.bridge.outline == "straight"


def test_the_old_works_points_are_taken_up_once() -> None:
    job = Job()
    for at, name in enumerate(("old.1", "old.2", "old.3", "old.4", "pin.1", "metal.1")):
        job = add_reading(job, Reading(id=f"a{at}", kind="at", of=(name,), value=(600.0 + at, 10.0 * at)))
    taken = taking_up.take_up(job)
    assert [old_told.known(taken, kind, None) for kind in ("footprint", "pins", "metal", "plate")] == [
        "4 corners",
        "1 hole read",
        "1 spot",
        "",
    ]
    assert taking_up.take_up(taken) == taken
    get, put = old_entries.old_field("metal.1")
    assert get(put(taken, 8.0)) == 8.0


def test_a_cut_slot_is_put_and_taken_away() -> None:
    job = bridge_entries.slot_put("left")(Job(), 9.0)
    assert [bridge_entries.slot_of(side)(job) for side in ("left", "right")] == [9.0, 9.0]
    assert not bridge_entries.has_slot(bridge_entries.slot_put("left")(job, None))


@pytest.mark.parametrize(("name", "_said"), first_questions.list_choices())
def test_a_new_job_has_its_list_to_fill(name: str, _said: str) -> None:
    job = first_questions.begin(hand="left", string_set="steel 12-54", measuring=name)  # type: ignore[arg-type]
    assert job.hand == "left"
    assert len(job.readings) >= 10
    assert all(r.value is None for r in job.readings)
    assert "readings" in first_questions.about_list(name)  # type: ignore[arg-type]


def test_six_light_steel_strings_are_offered_first() -> None:
    assert first_questions.string_choices()[0] == ("steel 12-54", "Six strings, steel 12-54")


def test_the_misread_reading_is_named_in_words_with_the_size_of_its_error() -> None:
    job = sample("one-slip")
    head, body, *_ = look_again.look_again(job, work_out(job))
    assert head == "Look again: old footprint 2, off bass edge"
    assert body.startswith("Reads 3.2 mm more than the others allow: they say 42.3 ±0.6 mm bass.")


def test_nothing_is_said_where_all_is_well() -> None:
    job = sample("leaning-neck")
    assert look_again.look_again(job, work_out(job)) == look_again.LookAgain()


def test_the_next_reading_says_what_it_is_good_for() -> None:
    job = sample("leaning-neck")
    found = advise(job, work_out(job))
    assert found.advice
    said = look_again.next_reading(job, found.advice[0])
    assert said.endswith(".")
    assert "would show" in said or "becomes" in said


def test_the_turn_of_placed_points_is_found() -> None:
    """Derived: points placed in a frame that is turned by 30 degrees against the neck's."""
    job = sample("leaning-neck")
    layout = work_out(job)
    turn = math.radians(30)
    for at, name in enumerate(("nut.left", "end.left", "end.right")):
        p = complex(layout.points[name].x, layout.points[name].y) * complex(math.cos(turn), -math.sin(turn))
        job = add_reading(job, Reading(id=f"a{at}", kind="at", of=(name,), value=(p.real + 5, p.imag - 7)))
    assert placed_turn.placed_turn(job, layout) == pytest.approx(turn, abs=1e-9)


def test_fewer_than_two_placed_points_have_no_turn() -> None:
    assert placed_turn.placed_turn(sample("leaning-neck"), work_out(sample("leaning-neck"))) == 0.0
    assert placed_turn.placed_turn(Job(), None) == 0.0


def test_what_is_not_held_is_said_once_the_list_is_through() -> None:
    job = sample("leaning-neck")
    loose = replace(job, readings=tuple(r for r in job.readings if "seam.3" not in r.of or r.kind == "off"))
    head, body, *_ = look_again.look_again(loose, work_out(loose))
    assert head == "Not settled yet"
    assert "seam" in body


def test_a_step_of_a_point_on_a_sheet_inside_comes_mirrored() -> None:
    job = sample("bolted-left")
    layout = work_out(job)
    before = layout.points["brace.1.a"]
    step = placed_turn.step_on_sheet(job, layout, "brace.1.a", (3.0, 2.0))
    after = work_out(move_placed(job, "brace.1.a", step)).points["brace.1.a"]
    # derived: the sheet's turn is solved for, so that the point goes by what the hand moved it, but for rounding
    assert after.x - before.x == pytest.approx(3.0, abs=0.05)
    assert after.y - before.y == pytest.approx(2.0, abs=0.05)
