"""The page for the owner: read back from the PDF, and held to what was worked out."""

import datetime
from pathlib import Path

import pytest
from msgspec.structs import replace

from export.drawing.flatten import Box
from export.drawing.marks import Text
from export.errors import ExportError
from export.paper.flow import Flow
from export.paper.furniture import marks_box
from export.paper.lay_sheets import Stamp
from export.templates import sheets
from export.templates.saddle_place import proof_table
from export.templates.to_be_read_first import stops_of
from export.templates.written import before_after
from geometry.job import Job
from geometry.old_work.move_told import told
from geometry.proof.moved import moved_by
from geometry.survey import survey
from geometry.units import shows
from geometry.work_out import work_out
from tests.geometry.any_job.mirror_image import mirrored
from tests.geometry.go_or_wait.test_what_if import sample
from tests.geometry.proof.proof_read import read

STAMP = Stamp(date=datetime.date(2026, 11, 28), fingerprint="4F2A-91", templates=("before-and-after",))
SAMPLES = ("leaning-neck", "one-slip", "small-four", "tie-bridge", "turned-left", "turned-left-old-slot")


def words_of(job: Job) -> str:
    found = sheets(job, work_out(job), STAMP)
    texts = [mark.shape.text for page in found for mark in page.drawing.marks if hasattr(mark.shape, "text")]
    return "\n".join(texts)


def test_it_tells_the_whole_story_as_built() -> None:
    job = sample("leaning-neck")
    clamped, built = read(job), read(job, 1.2 + 0j, stage="built")
    said = words_of(replace(job, proof=(*clamped.proof, *built.proof)))
    for head in ("As it was", "As built", "Measured", "Moved by", "In tune to"):
        assert head in said.splitlines(), head
    assert "Read before the glue, 2026-11-28" in said
    assert "Read as built, 2026-11-28" in said
    assert "file the ridge 1.1 mm forward, 0.3 cents stay" in said  # as far as the saddle’s thickness goes


def test_before_anything_is_read_it_says_so() -> None:
    said = words_of(sample("leaning-neck"))
    assert "As it is to be" in said
    assert "not read as built yet" in said
    assert "Read before the glue" not in said


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_sample_has_it_on_two_pages_at_most(name: str, paper: str) -> None:
    job = sample(name)
    assert 1 <= len(sheets(job, work_out(job), replace(STAMP, paper=paper))) <= 2


@pytest.mark.parametrize("name", ["five-pairs", "floating-five"])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_stands_on_one_page_with_ten_strings_or_a_bridge_that_floats(name: str, paper: str) -> None:
    """The samples with the most rows: on Letter a few of them stood alone on a second page."""
    job = sample(name)
    assert len(sheets(job, work_out(job), replace(STAMP, paper=paper))) == 1


@pytest.mark.parametrize("typed", ["22.8 cm", "228 mm", "9 in", '9"'])
def test_a_proof_is_told_in_the_unit_that_it_was_typed_in(typed: str) -> None:
    job = read(sample("leaning-neck"))
    (proof,) = job.proof
    first, *others = proof.readings
    job = replace(job, proof=(replace(proof, readings=(replace(first, value=typed), *others)),))
    told = [line for line in words_of(job).splitlines() if line.startswith(typed.removesuffix(" mm"))]
    assert len(told) == 1
    assert told[0].startswith(f"{typed}, ")


def test_as_it_was_shows_nothing_that_is_new() -> None:
    """New posts, plates, plugs and markers are drawn once, on the picture of how it is to be."""
    for name, new in (("redrilled-left", ("post:", "tuner plate", "markers")), ("slotted-neck-screw", ("post:",))):
        job = sample(name)
        page = sheets(job, work_out(job), STAMP)[0].drawing.marks
        low = {m.shape.text: m.shape.at[1] for m in page if isinstance(m.shape, Text)}["As it is to be"]
        found = [(mark.of, marks_box([mark]).y0 > low) for mark in page if mark.of.startswith(new)]
        assert found, name
        assert not any(above for _, above in found), name
        old = [mark for mark in page if mark.of == "headstock" and marks_box([mark]).y0 > low]
        assert old, name


def test_how_many_readings_no_other_checks_is_told() -> None:
    """As the figure at the foot of the window says it: 57 taken, 43 checked by others."""
    job = sample("redrilled-left")
    layout = work_out(job)
    taken, unchecked = sum(r.taken for r in job.readings), sum(not fit.checked for fit in layout.readings)
    assert 0 < unchecked < taken
    said = f"All {taken} readings agree; {taken - unchecked} checked by others"
    assert said in " ".join(words_of(job).splitlines())


def test_a_stop_stands_on_it() -> None:
    """What forbids the work is not kept from the owner; no other sample has any."""
    wrong = sample("turned-left-old-slot")
    (reason,) = stops_of(work_out(wrong))
    assert f"STOP. {reason}" in " ".join(words_of(wrong).splitlines())
    assert "STOP" not in words_of(sample("turned-left"))


def test_it_says_of_what_it_tells_the_way() -> None:
    """Job sheet and this page tell of two places, which a belly moves apart: each says of which."""
    said = words_of(sample("bolted-left")).splitlines()
    assert "Its front’s middle, along the neck" in said
    moves = " ".join(line.text for line in told(sample("bolted-left"), work_out(sample("bolted-left"))))
    assert "The front edge moves" in moves


def test_without_a_bridge_it_says_what_it_needs() -> None:
    job = replace(sample("leaning-neck"), bridge=None)
    with pytest.raises(ExportError, match="it needs the neck, the strings and a bridge"):
        before_after.pages(job, work_out(job), STAMP)


def test_moved_by_is_from_the_old_front_to_the_new() -> None:
    """derived: the old footprint's side nearest the nut against the new corners, both as the layout has them"""
    job = sample("leaning-neck")
    layout, found = work_out(job), moved_by(job, survey(job))
    assert found is not None
    assert layout.bridge is not None
    corners = [complex(*at) for at in layout.old.outline]
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    a, b = min(sides, key=lambda side: (side[0] + side[1]).real)
    new = (complex(*layout.bridge.corners[0]) + complex(*layout.bridge.corners[1])) / 2
    gone = new - (a + b) / 2
    assert (found.along, found.across) == pytest.approx((gone.real, gone.imag), abs=1e-9)
    assert layout.consequences is not None
    moves = layout.consequences.moves
    assert moves is not None
    ends = (moves.left, moves.right)  # as the job sheet tells it: the middle is between its ends, and known as they are
    assert found.along == pytest.approx(sum(end.value for end in ends) / 2, abs=0.05)
    assert 0.3 < found.along_pm95 < max(end.pm95 for end in ends)


def test_moved_by_mirrors() -> None:
    job = sample("leaning-neck")
    one, other = moved_by(job, survey(job)), moved_by(mirrored(job), survey(mirrored(job)))
    assert one is not None
    assert other is not None
    assert (other.along, -other.across, -other.turn) == pytest.approx((one.along, one.across, one.turn), abs=1e-6)
    assert (other.along_pm95, other.turn_pm95) == pytest.approx((one.along_pm95, one.turn_pm95), abs=1e-6)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_placement_sheet_has_the_distances_with_their_bands(name: str, tmp_path: Path) -> None:
    job = sample(name)
    layout = work_out(job)
    (table,) = proof_table(job, layout)
    assert 4 <= len(table.rows) <= 6
    pages = sheets(job, layout, replace(STAMP, templates=("placement",)))
    texts = {mark.shape.text for page in pages for mark in page.drawing.marks if hasattr(mark.shape, "text")}
    assert {cell for row in table.rows for cell in row} <= texts
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("name", SAMPLES)
def test_both_drawings_are_as_high_as_one_of_the_ways_or_as_wide_as_the_page_and_in_its_middle(name: str) -> None:
    job = sample(name)
    marks = sheets(job, work_out(job), STAMP)[0].drawing.marks
    at = {mark.shape.text: mark.shape.at[1] for mark in marks if isinstance(mark.shape, Text)}
    for above, below in (("As it was", "As it is to be"), ("As it is to be", "Measured")):
        boxes = [marks_box([mark]) for mark in marks if not isinstance(mark.shape, Text)]
        drawn = [box for box in boxes if box.y1 < at[above] and box.y0 > at[below] + 4]
        low, high = min(box.x0 for box in drawn), max(box.x1 for box in drawn)
        tall = max(box.y1 for box in drawn) - min(box.y0 for box in drawn)
        # derived: A4 less 8 mm of margin on each side, and 16 mm
        # 52 mm, and lower where that saves a page: 45, 39 or 33 mm (common practice, no source)
        high_as_planned = any(tall == pytest.approx(high, abs=0.5) for high in (52.0, 45.0, 39.0, 33.0))
        assert high_as_planned or high - low == pytest.approx(210 - 16 - 16, abs=0.5)
        assert tall < 52.5
        # the labels' leaders are as long on paper at each scale, so a drawing that is made lower has them to one side
        assert (low + high) / 2 == pytest.approx(105.0, abs=1.5)


@pytest.mark.parametrize(("high", "across"), [(52.0, False), (400.0, True)])
def test_a_drawing_with_all_the_room_there_is_ends_at_the_pages_edges(high: float, across: bool) -> None:
    """derived: a ground of 194 mm less 16 mm; an instrument that would be 400 mm high there is wider than that"""
    job = sample("leaning-neck")
    flow = Flow(Box(8.0, 8.0, 202.0, 600.0))
    before_after._drawing(flow, job, work_out(job), "As it was", frozenset({"seam"}), high)
    box = marks_box([mark for mark in flow.pages[0] if not isinstance(mark.shape, Text)])
    assert (box.width == pytest.approx(178.0, abs=1.0)) is across
    assert (box.height == pytest.approx(high, abs=1.0)) is not across
    assert box.width < 179.0


@pytest.mark.parametrize("name", SAMPLES)
def test_the_ways_that_it_moved_are_told_by_their_signs(name: str) -> None:
    for job in (sample(name), mirrored(sample(name))):
        found, said = moved_by(job, survey(job)), words_of(job).splitlines()
        if found is None:
            continue
        along, across, turn = shows(found.along, job.unit), shows(found.across, job.unit), abs(found.turn) >= 0.05
        assert said.count("no change") == [along, across, turn].count(False)
        assert ("toward the tail" in said, "toward the nut" in said) == (
            along and found.along > 0,
            along and found.along <= 0,
        )
        assert ("counter-clockwise, as seen from above" in said) == (turn and found.turn > 0)
        assert ("clockwise, as seen from above" in said) == (turn and found.turn <= 0)
        treble = job.bass_or_treble("left") == "treble"
        assert ("to the treble side" in said) == (across and (found.across > 0) == treble)


def test_a_short_string_is_told_at_its_own_octave() -> None:
    """derived: d ln f = −d / L, so that the same ± in mm is 1731 / L cents: at fret 17 of a string from fret 5, and
    more than that of the whole string beside it by 2^(5/12) or nearly so
    """
    told = [
        line for line in words_of(sample("floating-five")).splitlines() if line.startswith("±") and "cents at" in line
    ]
    assert [line.rpartition(" ")[2] for line in told] == ["12", "12", "12", "12", "17"]
    whole, short = (float(line[1:].split()[0]) for line in told[3:])
    assert 1.2 < short / whole < 1.5  # the ± itself grows a little toward the bass end, by 5 in 100


@pytest.mark.parametrize(("share", "cents"), [(1.0, 2.0), (0.75, 2.5), (0.5, 3.0), (0.0, 4.0)])
def test_between_the_outer_strings_the_cents_are_shared_out_by_where_a_string_lies(share: float, cents: float) -> None:
    """derived: straight between the two ends; one that starts at a fret by as much more as it is shorter"""
    layout = work_out(sample("leaning-neck"))
    assert layout.saddle is not None
    sheet = replace(layout.saddle.by_sheet, pm95=layout.saddle.pm95)
    saddle = replace(layout.saddle, cents95=(2.0, 4.0), by_sheet=sheet)
    (_, left), (_, right) = saddle.at_strings
    x, _ = layout.strings[0].break_point
    string = replace(layout.strings[0], break_point=(x, right + share * (left - right)))
    assert before_after._cents95(saddle, string) == pytest.approx(cents)
    short = replace(string, starts_at=5, length=x / 1.3)
    assert before_after._cents95(saddle, short) == pytest.approx(1.3 * cents)


@pytest.mark.parametrize(
    ("floats", "by", "said"),
    [
        (False, "by ear", "as worked out; not read as built yet"),
        (True, "by ear", "as heard"),
        (True, "worked out", "as worked out; not heard on its bridge yet"),
    ],
)
def test_what_the_promise_of_a_strings_tune_rests_on(floats: bool, by: str, said: str) -> None:
    job = sample("floating-five" if floats else "leaning-neck")
    string = replace(work_out(job).strings[0], compensation_from=by)
    assert before_after._known_by(job, string) == said
