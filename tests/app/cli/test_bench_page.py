"""The page for the bench: lined up, in the job's unit, never finer than it is."""

import json
import re
from functools import cache
from itertools import groupby

import msgspec
import pytest

from app.cli import bench_page, layout_json, text_table
from app.edit import edits
from app.edit.bridge import kept_places
from app.file import job_file
from app.say import look_again
from export.templates.written import job_tables
from geometry.findings import Finding
from geometry.go_or_wait import verdicts
from geometry.job import Job, Nut
from geometry.layout import Fit
from geometry.proof import prove
from geometry.units import mm
from geometry.work_out import work_out
from tests.export.sample_pages import laid as worked
from tests.geometry.proof.proof_read import read
from tests.short_list import short_list


@cache
def page(name: str) -> str:
    return bench_page.page(*worked(name))


def test_the_head_names_job_hand_and_file() -> None:
    job, layout = worked("turned-left")
    head = bench_page.page(job, layout).splitlines()[:2]
    assert head == ["Turned left", f"left-handed · 6 strings · file {job_file.fingerprint(job)}"]


@pytest.mark.parametrize("name", ["leaning-neck", "turned-left"])
def test_no_line_is_wider_than_the_page_and_none_ends_in_spaces(name: str) -> None:
    for line in page(name).splitlines():
        assert len(line) <= text_table.WIDTH
        assert line == line.rstrip()


def test_columns_are_lined_up() -> None:
    rows = [line for line in page("leaning-neck").splitlines() if re.match(r"  String \d", line)]
    assert len(rows) == 6
    assert len({len(row) for row in rows}) == 1


def test_an_inch_job_speaks_in_inches() -> None:
    said = page("turned-left")
    assert "Check before the glue, in" in said
    assert re.search(r"fret 12 to slot front, bass edge +12 \d+/\d+   ±\d+/\d+$", said, re.MULTILINE)


def test_a_suspect_is_compared_with_what_the_others_say() -> None:
    job, layout = worked("one-slip")
    found = next(line for line in bench_page.page(job, layout).splitlines() if "  r37  " in line)
    off = float(found.split()[-1])
    assert off == pytest.approx(3.0, abs=0.8)  # derived: 3 mm were added; the rest is the other readings' own doubt
    assert "Old footprint 2, off bass edge" in found


def test_a_group_is_told_in_the_order_in_which_it_is_to_be_read_again() -> None:
    job = short_list(r5="17 45/64")
    said = bench_page.page(job, work_out(job))
    rows = re.findall(r"^  (r\d+)  ", said, re.MULTILINE)
    assert rows == ["r3", "r4", "r5", "r6", "r1", "r2"]
    assert "“nut to board end, bass edge”, “nut to board end, treble edge”" in " ".join(said.split())


@pytest.mark.parametrize("job", [short_list(), worked("leaning-neck")[0]], ids=["64ths", "mm"])
def test_what_to_measure_next_is_said_as_in_the_window_and_why(job: Job) -> None:
    layout = work_out(job)
    (said,) = re.findall(r"^Measure next: .*(?:\n  \S.*)*", bench_page.page(job, layout), re.MULTILINE)
    in_window, reading, named = look_again.measure_next(job, layout)
    assert reading is not None
    assert " ".join(said.split()) == f"Measure next: {in_window}"
    assert in_window.startswith(f"{named}: ")
    assert re.search(r": (the saddle’s ±|it would show a slip )", in_window)


def test_nothing_is_to_be_measured_next_while_the_list_waits_or_readings_do_not_agree() -> None:
    waits, accused = edits.set_value(short_list(), "r18", ""), short_list(r5="17 45/64")
    for job in (waits, accused):
        assert "Measure next" not in bench_page.page(job, work_out(job))


@pytest.mark.parametrize("name", ["turned-left", "small-four", "slanted-separate"])
def test_what_is_checked_before_the_glue_is_what_the_job_sheet_asks_for(name: str) -> None:
    job, layout = worked(name)
    said = bench_page.page(job, layout)
    rows = job_tables.proof_rows(job, prove(job, "clamped"))
    assert rows
    (table,) = re.findall(r"^Check before [^\n]*good within\n((?:  [^\n]+\n)+)", said, re.MULTILINE)
    assert [re.split(r" {3,}", line.strip()) for line in table.splitlines()] == [
        [f"{from_} to {to}", distance.removesuffix(f" {job.unit}"), band] for from_, to, distance, band, *_ in rows
    ]
    assert all(len(line) <= text_table.WIDTH for line in said.splitlines())
    (others,) = re.findall(r"^Other distances[^\n]*\n((?:  [^\n]+\n)+)", said, re.MULTILINE)
    told = tuple(f"{from_} to {to} " for from_, to, *_ in rows)
    assert not any(line.strip().startswith(told) for line in others.splitlines())


def test_a_stop_comes_first() -> None:
    job, layout = worked("leaning-neck")
    stop = Finding(grade="stop", code="x", text="This would spoil it.")
    said = bench_page.page(job, msgspec.structs.replace(layout, findings=(*layout.findings, stop)))
    assert said.split("Findings\n")[1].startswith("  STOP   This would spoil it.")


def test_a_job_with_nothing_read_is_still_a_page() -> None:
    job = Job()
    said = bench_page.page(job, work_out(job))
    assert said.startswith("A job without a title\nright-handed · no strings yet · file ")
    assert "Readings: none taken." in said


def test_what_was_struck_and_what_waits_is_counted() -> None:
    job, layout = worked("one-slip")
    first, second, *rest = job.readings
    changed = (
        msgspec.structs.replace(first, struck=True),
        msgspec.structs.replace(second, value=None),
        *rest,
    )
    job = msgspec.structs.replace(job, readings=changed)
    assert f"Readings: {len(rest)} taken, 1 struck out, 1 still to be measured." in bench_page.page(job, layout)


NAMED = {
    "points": {"x", "y", "sx", "sy", "sxy", "checked"},
    "readings": {"id", "value", "adjusted", "residual", "redundancy", "w"},
    "survey": {"verdict", "suspects", "groups", "dof", "vtpv", "loose"},
    "frets": {"spacing", "scale", "nut_shift", "nominal"},
    "strings": {"name", "tension_n", "length", "compensation", "nut_compensation", "break_point", "cents"},
    "saddle": {"front", "slant", "longer", "pm95", "cents95", "checked"},
    "bridge": {"outline", "corners", "pins"},
    "checks": {"from", "to", "distance", "pm95"},
    "findings": {"grade", "code", "text", "values", "where"},
}


@pytest.mark.parametrize("block", NAMED)
def test_the_report_has_the_promised_names(block: str) -> None:
    found = layout_json.tree(*worked("leaning-neck"))[block]
    one = found[0] if isinstance(found, list) else found["nut.left"] if block == "points" else found
    assert set(one) >= NAMED[block]


def test_the_report_has_a_neck() -> None:
    assert layout_json.tree(*worked("leaning-neck"))["neck"] is not None


def test_nominal_places_and_the_slots_front_are_as_promised() -> None:
    tree = layout_json.tree(*worked("leaning-neck"))
    assert set(tree["frets"]["nominal"]) >= {"left", "right"}
    left, right = tree["saddle"]["front"]
    assert left[1] > right[1]


def test_loose_points_are_listed_by_name() -> None:
    job = job_file.decode(
        b'{"offsquare": 1, "points": {"a": {}, "b": {}, "c": {}}, "readings": ['
        b'{"id": "r1", "kind": "distance", "of": ["a", "b"], "value": 100},'
        b'{"id": "r2", "kind": "distance", "of": ["a", "c"], "value": 50}]}'
    )
    survey = layout_json.tree(job, work_out(job))["survey"]
    assert survey["verdict"] == "loose"
    assert survey["loose"] == ["c"]
    assert set(survey["held_by"]) == {"c"}
    assert survey["why"].startswith("“c” is not fixed by the readings yet. ")


def test_what_no_reading_checks_has_no_w() -> None:
    job, layout = worked("leaning-neck")
    lone = Fit(id="r1", value=1, adjusted=1, residual=0, sigma=0.1, redundancy=0, w=None, believable=float("nan"))
    tree = json.loads(layout_json.as_json(job, msgspec.structs.replace(layout, readings=(lone,))))
    assert tree["readings"][0]["w"] is None
    assert tree["readings"][0]["believable"] is None


def test_the_margins_stand_with_their_plus_minus_bass_and_treble() -> None:
    job, layout = worked("leaning-neck")
    assert layout.margins is not None
    rows = re.findall(
        r"^  at (?:the )?(nut|fret 12|board end) +([\d.]+) +±([\d.]+) +([\d.]+) +±([\d.]+)$",
        page("leaning-neck"),
        re.MULTILINE,
    )
    assert [row[0] for row in rows] == ["nut", "fret 12", "board end"]
    shown = {
        (place, hand): mm for place, bass, _, treble, _ in rows for hand, mm in (("bass", bass), ("treble", treble))
    }
    for margin in layout.margins.at:
        assert float(shown[margin.place, job.bass_or_treble(margin.side)]) == pytest.approx(margin.mm, abs=0.051)
    assert "outer bass string" not in page("leaning-neck")  # once is enough


def test_the_bridges_place_is_told_along_and_across() -> None:
    said = " ".join(page("leaning-neck").split())
    assert re.search(
        r"where it belongs to ±[\d.]+ and ±[\d.]+ at its corners; ±[\d.]+ and ±[\d.]+ at the pin holes\.", said
    )


def test_the_report_has_margins_and_places_with_their_plus_minus() -> None:
    job, layout = worked("leaning-neck")
    tree = layout_json.tree(job, layout)
    assert {"place", "side", "mm", "pm95"} <= set(tree["margins"]["at"][0])
    assert (len(tree["bridge"]["corners_pm95"]), len(tree["bridge"]["pins_pm95"])) == (4, 6)
    assert "margin.fret12.bass" in {check["code"] for check in tree["checks"]}


def test_kept_placements_stand_beside_the_present_one() -> None:
    """The page in a job's unit, within its width; the data in mm, with codes and sides. derived: 2 mm is 5.04/64 in."""
    job, layout = worked("turned-left")
    kept = kept_places.keep(job, layout, "2026-03-14")
    strings = msgspec.structs.replace(kept.strings, shift=2.0) if kept.strings else None
    moved = msgspec.structs.replace(kept, strings=strings)
    now = work_out(moved)
    lines = bench_page.page(moved, now).splitlines()
    assert any(
        line.startswith("Beside the placement “Placement 1”, kept 2026-03-14. Lengths in inches") for line in lines
    )
    assert any(re.fullmatch(r"  Slot front, bass end +5/64 in to bass", line) for line in lines)
    assert any(re.fullmatch(r" +kept +difference", line.rstrip()) for line in lines)
    assert max(map(len, lines)) <= text_table.WIDTH
    (found,) = json.loads(layout_json.as_json(moved, now))["placements"]
    across = {one["code"]: one["across"] for one in found["differences"]}
    assert across["slot.left"] == pytest.approx(2.0, abs=1e-3)
    assert (found["name"], found["when"]) == ("Placement 1", "2026-03-14")


def test_where_none_is_kept_nothing_is_compared() -> None:
    job, layout = worked("turned-left")
    assert "Beside" not in bench_page.page(job, layout)
    assert json.loads(layout_json.as_json(job, layout))["placements"] == []


def test_saddle_and_nut_stand_under_each_string() -> None:
    job, layout = worked("leaning-neck")
    assert job.bridge is not None
    thick = msgspec.structs.replace(job.bridge, thickness=9.5)
    made = msgspec.structs.replace(job, nut=Nut(fret_height=1.0, bed=5.0), bridge=thick)
    told = bench_page.page(made, work_out(made))
    # derived: 12.5 over the top at treble, as read, less 9.5 of bridge
    assert re.search(r"String 1 .*12\.50 ±0\.5 +3\.00 ±0\.6", told)
    assert "Nut, mm" in told
    assert all(len(line) <= text_table.WIDTH for line in told.splitlines())
    assert "Nut, mm" not in bench_page.page(job, layout)


def test_what_may_be_done_now_stands_before_all_figures() -> None:
    job, layout = worked("leaning-neck")
    said = bench_page.page(job, layout)
    (glue,) = (step for step in verdicts(job, layout) if step.what == "glue")
    assert glue.go
    assert said.index("Go or wait\n") < said.index("\n  Glue the bridge: ") < said.index("Readings: ")
    assert "Go or wait" not in bench_page.page(Job(), work_out(Job()))


def test_the_proof_stands_on_the_page() -> None:
    """derived: read without error from a bridge that lies 3 mm too far from the nut, turned"""
    job = read(worked("leaning-neck")[0], 3 + 0j, 1.0)
    said = bench_page.page(job, work_out(job))
    assert "  Don’t glue the bridge yet: by the distances read before the glue" in said
    table = said.split("Read before the glue, 2026-11-28, mm\n")[1].split("\n\n")[0].splitlines()
    assert len(table) == 1 + len(job.proof[0].readings)
    assert sum("not good: " in row for row in table) > 1
    assert "Not good: likeliest the tape slipped. The bridge stands 3.0 " in said
    assert all(len(line) <= text_table.WIDTH for line in said.splitlines())


def test_what_is_only_unchecked_is_graded_as_in_the_window() -> None:
    """The window has another sign for it than for what is to be looked at again; what waits wears no tick."""
    job, layout = worked("turned-left")
    begun = Finding(grade="good", code="proof.begun", text="Read 3 distances.")
    stated = Finding(grade="good", code="frets.slanted", text="The frets are slanted.")
    said = bench_page.page(job, msgspec.structs.replace(layout, findings=(*layout.findings, stated, begun)))
    told = [line[2:9].strip() for line in said.split("Findings\n")[1].splitlines()]
    assert [grade for grade, _ in groupby(filter(None, told))] == ["look", "unsure", "begun", "good"]
    assert "  unsure Nobody has checked whether the edges are straight" in said
    assert "         The frets are slanted." in said


def test_of_a_hole_read_by_both_rims_its_middle_and_its_width_are_told_apart_one_below_the_other() -> None:
    job, _ = worked("redrilled-left")
    rims = next(one for one in job.readings if one.kind == "rims")
    near, far = rims.parts
    wrong = msgspec.structs.replace(rims, value=(mm(near) + 6.0, mm(far) + 6.0))
    readings = tuple(wrong if one is rims else one for one in job.readings)
    job = msgspec.structs.replace(job, readings=readings)
    said = bench_page.page(job, work_out(job))
    again = said.split("Look at these again")[1].split("\n\n")[0].splitlines()
    assert sum(f"{rims.id} " in line and "to the middle" in line for line in again) == 1
    assert sum(f"{rims.id} " in line and "how wide" in line for line in again) == 1
    assert "nominal" not in said.split("Frets")[0]


def test_ids_of_different_length_leave_the_names_in_one_column() -> None:
    job = short_list()
    first, *others = job.readings
    long = msgspec.structs.replace(first, id="r1234", value=mm(first.parts[0]) + 9.0)
    slipped = msgspec.structs.replace(others[0], value=mm(others[0].parts[0]) + 9.0)
    job = msgspec.structs.replace(job, readings=(long, slipped, *others[1:]))
    said = bench_page.page(job, work_out(job)).split("Look at these again")[1].split("\n\n")[0]
    ids = [line for line in said.splitlines() if re.match(r" +r\d", line)]
    assert len(ids) > 1
    assert len({re.match(r" +r\d+ +", line).end() for line in ids}) == 1  # type: ignore[union-attr]
