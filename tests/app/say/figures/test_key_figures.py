"""The figures of the strip, and the signs of the steps."""

import math

import pytest
from msgspec.structs import replace

from app.cli import bench_page
from app.file import job_file, samples
from app.say import look_again
from app.say.figures import key_figures, progress
from export.drawing.marks import Text
from export.plan import PlanView, compose
from export.templates import parts
from export.templates.written import job_results
from geometry import go_or_wait, units
from geometry.advice import Advice
from geometry.findings import Finding
from geometry.job import Job, Nut, OldMetal, Point, Reading
from geometry.job.seating import Moved
from geometry.layout import Layout
from geometry.old_work import move_told
from geometry.saddle.slot_leaning import told_slant
from geometry.work_out import work_out
from tests.export.sample_pages import laid


def figures(name: str) -> dict[str, key_figures.KeyFigure]:
    path = samples.find(name)
    assert path is not None
    job = job_file.read(path)
    return {figure.title: figure for figure in key_figures.key_figures(job, work_out(job))}


def signs(name: str) -> dict[progress.Step, progress.Progress]:
    path = samples.find(name)
    assert path is not None
    job = job_file.read(path)
    return progress.steps(job, work_out(job))


def test_before_anything_is_worked_out_there_is_nothing() -> None:
    assert key_figures.key_figures(Job(), None) == ()


def test_an_empty_job_says_what_it_waits_for() -> None:
    found = {figure.title: figure for figure in key_figures.key_figures(Job(), work_out(Job()))}
    assert found["Fret 12 to slot front, bass edge"].rest == "waits for the board’s readings"
    assert (found["Readings"].value, found["Readings"].rest) == ("none", "taken yet")


def test_both_sides_carry_their_plus_or_minus_in_mm_and_cents() -> None:
    found = figures("leaning-neck")
    for hand in ("bass", "treble"):
        rest = found[f"Fret 12 to slot front, {hand} edge"].rest
        assert rest.startswith("±")
        assert rest.endswith(" cents")


@pytest.mark.parametrize("name", ["leaning-neck", "five-pairs", "small-four", "tie-bridge"])
def test_strip_card_and_sheet_tell_the_same_cents(name: str) -> None:
    """Of one side's tune there is one figure: in the strip, at the slot's verdict, in the job sheet and the report."""
    path = samples.find(name)
    assert path is not None
    job = job_file.read(path)
    layout = work_out(job)
    found, told = figures(name), {}
    for hand in ("bass", "treble"):
        told[hand] = (
            found[f"Fret 12 to slot front, {hand} edge"].rest.rpartition(" · string ")[2].removesuffix(" cents")
        )
        (row,) = (row for row in job_results.results(job, layout) if row[0] == f"Saddle’s place, {hand} end")
        assert f"; {told[hand]} cents at fret 12" in row[3]
        assert f"({told[hand]} cents) at {hand}" in " ".join(bench_page.page(job, layout).split())
    slot = next(step for step in go_or_wait.verdicts(job, layout) if step.what == "slot")
    side = job.bass_or_treble(slot.side) if slot.side else "bass"
    assert slot.cents is not None
    assert f"{slot.cents:.1f}" == told[side]


def test_inches_are_shown_as_64ths() -> None:
    assert "/" in figures("turned-left")["Fret 12 to slot front, bass edge"].value


@pytest.mark.parametrize("name", ["leaning-neck", "turned-left", "small-four"])
def test_what_the_two_distances_make_at_the_edges_is_said_where_it_is_another_figure(name: str) -> None:
    """The board's edges are farther apart than the strings: one figure less the other is not the slant."""
    found = figures(name)
    bass, treble = (units.parse(found[f"Fret 12 to slot front, {hand} edge"].value) for hand in ("bass", "treble"))
    slant = found[key_figures.SLANT]
    apart = f"; {units.show(abs(bass - treble), 'mm')} at the edges"  # derived: from what is shown
    if name == "leaning-neck":
        assert slant.rest.endswith(apart)
    else:
        assert "at the edges" not in slant.rest


def test_the_slip_is_counted_and_can_be_gone_to() -> None:
    found = figures("one-slip")["Readings"]
    assert (found.value, found.rest, found.mark) == ("1", "to look at again", "look")
    assert found.where.startswith("reading:r")


def test_the_old_slot_kept_leans_the_wrong_way_and_stops() -> None:
    found = figures("turned-left-old-slot")[key_figures.SLANT]
    assert found.mark == "stop"
    assert found.rest.startswith("in, the wrong way, treble longer; strings want ")
    assert found.rest.endswith(", bass longer")
    now = figures("turned-left-old-slot")["Go or wait"]
    assert (now.value, now.rest, now.mark) == ("Glue: stop", "· Saddle: stop", "stop")


def test_the_slant_is_that_of_the_slot_that_goes_along_with_a_turned_bridge() -> None:
    """derived: a turn of 1° to the bass takes the tangent of 1° times what lies between the outer strings; every sheet
    and the plan tell the same of it.
    """
    job = replace(laid("turned-left")[0], unit="mm")
    assert job.bridge is not None
    turned = replace(job, bridge=replace(job.bridge, moved=Moved(turn=1.0, slot="goes along")))
    stays = replace(job, bridge=replace(job.bridge, moved=Moved(turn=1.0)))
    layout, free = work_out(turned), work_out(stays)
    assert layout.saddle is not None
    apart = layout.saddle.at_strings[0][1] - layout.saddle.at_strings[1][1]
    own = layout.saddle.slant - apart * math.tan(math.radians(1.0))
    found = next(f for f in key_figures.key_figures(turned, layout) if f.title == key_figures.SLANT)
    assert float(found.value) == pytest.approx(abs(own), abs=0.06)
    assert f"; strings want {layout.saddle.slant:.1f} ±" in found.rest
    assert found.mark == "look"
    (row,) = (row for row in job_results.results(turned, layout) if row[0] == "Slant of the slot")
    assert row[1] == f"{found.value} mm"
    said = [mark.shape.text for mark in parts.sides(turned, layout, 600.0) if isinstance(mark.shape, Text)]
    assert f"saddle {found.value} mm farther" in said
    drawn = compose(turned, layout, PlanView(scale=8.0))
    labels = [mark.shape.text for mark in drawn.marks if isinstance(mark.shape, Text) and mark.of == "saddle"]
    assert any(f"{found.value} mm farther at" in label for label in labels)
    assert f", and of the slot {found.value} mm, " in " ".join(bench_page.page(turned, layout).split())
    found = next(f for f in key_figures.key_figures(stays, free) if f.title == key_figures.SLANT)
    assert found.value == f"{layout.saddle.slant:.1f}"
    assert "strings want" not in found.rest
    assert not [row for row in job_results.results(stays, free) if row[0] == "Slant of the slot"]


def test_a_slot_that_is_turned_square_is_longer_on_neither_side() -> None:
    job, free = laid("bolted-left")
    assert job.bridge is not None
    assert free.saddle is not None
    apart = free.saddle.at_strings[0][1] - free.saddle.at_strings[1][1]
    square = math.degrees(math.atan2(free.saddle.slant, apart))  # derived: the turn that takes all of the slant
    made = replace(job, bridge=replace(job.bridge, moved=Moved(turn=round(square, 2), slot="goes along")))
    found = next(f for f in key_figures.key_figures(made, work_out(made)) if f.title == key_figures.SLANT)
    assert found.value == "0.0"
    assert found.rest.startswith(f"mm, neither side longer; strings want {told_slant(free.saddle, 'mm'):.1f} ±")
    (row,) = (row for row in job_results.results(made, work_out(made)) if row[0] == "Slant of the slot")
    assert row[3].startswith("square to the neck, ")


def test_the_slant_turned_over_is_as_sure_as_what_it_rests_on() -> None:
    assert figures("turned-left")[key_figures.SLANT].mark == "unsure"  # its wound strings are estimated


def test_a_slant_opposite_to_the_hand_or_of_leaning_frets_wears_no_tick() -> None:
    job, layout = laid("turned-left")
    sure = replace(layout, findings=())
    assert layout.saddle is not None
    assert layout.frets is not None

    def mark(changed: Layout) -> str:
        return next(f.mark for f in key_figures.key_figures(job, changed) if f.title == key_figures.SLANT)

    assert mark(sure) == "good"
    assert mark(replace(sure, saddle=replace(layout.saddle, longer="treble"))) == "look"
    assert mark(replace(sure, frets=replace(layout.frets, slant=-2.5))) == "look"


def test_the_next_reading_names_the_side_and_promises_nothing_while_the_saddle_waits() -> None:
    job, layout = laid("leaning-neck")
    assert layout.saddle is not None
    gain = Advice(reading=job.readings[0], side=job.bass, saddle_before=2.3, saddle_after=1.9)
    assert "the saddle’s ±2.3 at bass becomes ±1.9" in look_again.next_reading(job, gain, layout)
    waiting = replace(layout, saddle=replace(layout.saddle, waits_for=("r1",)))
    assert "becomes" not in look_again.next_reading(job, gain, waiting)


@pytest.mark.parametrize(
    ("name", "mark", "rest"),
    # as the findings have it: where the metal of the second lies nothing checks, and a slip would bring it too near
    [("one-slip", "good", "clear of slot and pins"), ("small-four", "unsure", "clear, if it lies there")],
)
def test_metal_is_counted_and_no_surer_than_what_was_read(name: str, mark: str, rest: str) -> None:
    found = figures(name)["Metal"]
    assert (found.value, found.mark, found.rest) == ("1", mark, rest)


@pytest.mark.parametrize(
    ("keep", "grade", "rest"), [(12.0, "look", "near a cut or hole"), (12.5, "stop", "in the way of a cut or hole")]
)
def test_metal_has_the_grade_of_its_finding_and_of_its_line_on_the_card(keep: float, grade: str, rest: str) -> None:
    """The slot clears metal 1 by 12.3 ±0.5 mm, as the sample's job sheet has it."""
    path = samples.find("bolted-left")
    assert path is not None
    job = job_file.read(path)
    assert job.old is not None
    job = replace(job, old=replace(job.old, metal=job.old.metal | {"metal.1": OldMetal(keep_out=keep)}))
    layout = work_out(job)
    (cell,) = (one for one in key_figures.key_figures(job, layout) if one.title == "Metal")
    (found,) = (one for one in layout.findings if one.where == "metal:metal.1" and one.code.startswith("metal."))
    (line,) = (
        one for one in move_told.told(job, layout) if one.text.startswith("The slot clears the middle of metal 1")
    )
    assert (cell.mark, found.grade, line.grade) == (grade, grade, grade)
    assert cell.rest == rest


def test_signs_of_a_finished_job() -> None:
    path = samples.find("tie-bridge")
    assert path is not None
    job = job_file.read(path)
    assert job.strings is not None
    # a stretch that is only usual for nylon is worth more than a millimetre at the bass: an estimate, until measured
    assert signs("tie-bridge")["Strings"] == "estimated or unchecked"
    measured = replace(job.strings, list=tuple(replace(s, stretch_ratio=25.0) for s in job.strings.list))
    finished = replace(job, strings=measured)
    found = progress.steps(finished, work_out(finished))
    assert (found["Measure"], found["Strings"]) == ("done", "done")
    assert found["Sheets"] == "done"  # filing its thin saddle takes up nothing, but 1.9 cents nobody hears


def test_measure_has_no_tick_while_nobody_looked_along_the_edges() -> None:
    """What the page of the command line tells in its findings, the step's sign tells too."""
    job, layout = laid("tie-bridge")
    assert progress.steps(job, layout)["Measure"] == "done"
    unlooked = Finding(grade="look", code="board.unlooked", text="Nobody has checked", where="step:measure")
    seen = replace(layout, findings=(*layout.findings, unlooked))
    assert progress.steps(job, seen)["Measure"] == "estimated or unchecked"


@pytest.mark.parametrize(
    ("name", "step", "expected"),
    [
        ("one-slip", "Measure", "look again"),
        ("one-slip", "Old work", "look again"),
        ("one-slip", "Sheets", "look again"),
        ("turned-left-old-slot", "Bridge", "stop"),
        ("turned-left-old-slot", "Sheets", "stop"),
    ],
)
def test_signs_of_what_is_wrong(name: str, step: progress.Step, expected: str) -> None:
    assert signs(name)[step] == expected


def test_what_is_still_to_be_given_is_under_way_and_no_fault() -> None:
    path = samples.find("leaning-neck")
    assert path is not None
    job = job_file.read(path)
    assert job.strings is not None
    waiting = replace(job, bridge=None, strings=replace(job.strings, saddle=None))
    found = progress.steps(waiting, work_out(waiting))
    assert (found["Strings"], found["Bridge"]) == ("under way", "under way")


def test_an_empty_job_has_empty_signs() -> None:
    assert set(progress.steps(Job(), None).values()) == {"empty"}


def small() -> Job:
    """A neck read just as often as it must be, and once more along one side: nothing checks what holds its end."""
    edges = [("nut.left", "nut.right"), ("end.left", "end.right"), ("nut.left", "end.left"), ("nut.right", "end.right")]
    values = (43.0, 56.0, 440.0, 440.0)
    read = [
        Reading(id=f"r{n}", kind="distance", of=of, value=v)
        for n, (of, v) in enumerate(zip(edges, values, strict=True))
    ]
    diagonal = Reading(id="d", kind="distance", of=("nut.left", "end.right"), value=442.7)
    points = {name: Point() for name in ("nut.left", "nut.right", "end.left", "end.right")}
    return Job(points=points, readings=(*read, diagonal))


def test_readings_that_nothing_checks_are_counted_as_such_and_wear_no_tick() -> None:
    job = small()
    layout = work_out(job)
    found = key_figures.key_figures(job, layout)[-1]
    assert (found.value, found.rest, found.mark) == ("5", "taken, none checked by others", "unsure")
    assert progress.steps(job, layout)["Measure"] == "under way"
    assert "once the cards Strings and Bridge say where the saddle lies" in progress.measure_waits(job, layout)


def test_what_measuring_waits_for_is_said() -> None:
    """The list begun; all of it taken with no strings told; and with all told, where it waits no more."""
    job, layout = laid("turned-left")
    first = job.readings[0]
    begun = replace(job, readings=(replace(first, value=None), *job.readings[1:]))
    assert progress.measure_waits(begun, work_out(begun)) == "1 reading still to be taken"
    bare = replace(job, strings=None, saddle=None, bridge=None)
    found = work_out(bare)
    assert progress.steps(bare, found)["Measure"] == "under way"
    assert progress.measure_waits(bare, found).startswith("all are taken, but some are checked by no other")
    assert progress.steps(job, layout)["Measure"] != "under way"
    assert progress.measure_waits(job, layout) == ""


def test_those_checked_by_others_are_counted() -> None:
    path = samples.find("turned-left")
    assert path is not None
    job = job_file.read(path)
    found = figures("turned-left")["Readings"]
    # derived: nothing but another height could check a height; of the two of seam and slot along the edge, and of the
    # pin holes' rims, others tell so little that 3 mm would not show
    heights = sum(r.kind == "height" for r in job.readings)
    told = [fit for fit in work_out(job).readings if fit.smallest_error is not None]
    hardly = {fit.id for fit in told if fit.redundancy < 0.1 and (fit.smallest_error or 0.0) > 3.0}
    assert (heights, len(hardly)) == (8, 6)
    assert (found.value, found.rest) == ("57", "taken, 43 checked by others")
    assert found.mark == "good"


def test_no_tick_while_what_decides_the_saddle_is_unchecked() -> None:
    job, layout = laid("turned-left")
    assert layout.saddle is not None
    doubtful = replace(layout, saddle=replace(layout.saddle, checked=False))
    assert key_figures.key_figures(job, doubtful)[-1].mark == "unsure"
    assert progress.steps(job, doubtful)["Measure"] == "under way"
    assert "would not show: read that once more" in progress.measure_waits(job, doubtful)


def test_what_is_only_estimated_has_another_sign_than_what_is_wrong() -> None:
    assert signs("one-slip")["Strings"] == "estimated or unchecked"
    assert signs("one-slip")["Measure"] == "look again"
    assert signs("turned-left-old-slot")["Bridge"] == "stop"


def test_a_figure_that_rests_on_an_estimate_says_so() -> None:
    assert figures("leaning-neck")["Fret 12 to slot front, bass edge"].mark == "unsure"


def test_a_nut_that_does_not_fit_is_seen_at_the_step_of_the_strings() -> None:
    path = samples.find("leaning-neck")
    assert path is not None
    job = replace(job_file.read(path), nut=Nut(height=5.0, bed=5.0, fret_height=1.0))
    assert progress.steps(job, work_out(job))["Strings"] == "stop"
    waits = replace(job, nut=Nut())
    assert progress.steps(waits, work_out(waits))["Strings"] == "estimated or unchecked"


@pytest.mark.parametrize("read", [True, False])
def test_a_declared_slant_that_the_readings_bear_out_is_no_fault(read: bool) -> None:
    """With its frets read, and with both scales and the square fret declared alone."""
    path = samples.find("slanted-separate")
    assert path is not None
    job = job_file.read(path)
    taken = tuple(r for r in job.readings if read or (r.kind != "fret" and not any("fret12" in of for of in r.of)))
    bare = replace(job, readings=taken)
    (found,) = (f for f in key_figures.key_figures(bare, work_out(bare)) if f.title == key_figures.SLANT)
    assert found.mark in ("good", "unsure")
    assert "wrong" not in found.rest


def test_no_scar_wears_no_tick_where_the_old_footprint_may_show() -> None:
    job, layout = laid("leaning-neck")
    bare = replace(layout, old=replace(layout.old, scar_widths={}))
    doubt = Finding(grade="look", code="scar.may_show", text="It may show.", where="scar")
    for findings, mark in (((), "good"), ((doubt,), "look")):
        shown = key_figures.key_figures(job, replace(bare, findings=findings))
        (scar,) = (figure for figure in shown if figure.title == "Scar")
        assert (scar.value, scar.mark) == ("none", mark)
