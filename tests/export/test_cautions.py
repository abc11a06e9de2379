"""The cautions stand where the hand is: read back from PDF, DXF and SVG by other software."""

import re
from pathlib import Path as File
from typing import get_args
from xml.etree import ElementTree

import msgspec
import pytest
from ezdxf.filemanagement import readfile

from app.file import job_file, samples
from export import cautions, write_all
from export.drawing.typeface import shown
from export.records import Stamp
from export.templates import TEMPLATES
from export.templates.written import work_steps
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.export import readers
from tests.export.conftest import OF_OTHER_BRIDGES, suited

CUTTING = {"cut", "route", "drill"}
DRAWN = [name for name, template in TEMPLATES.items() if template.draw is not None and name not in OF_OTHER_BRIDGES]


def written(job: Job, layout: Layout, stamp: Stamp, folder: File, name: str, kind: str) -> File:
    (file,) = write_all(*suited(name, job, layout), msgspec.structs.replace(stamp, templates=(name,)), folder, (kind,))
    return file


NEITHER_DRILLED_NOR_ROUTED = {
    *("clearing", "nut-slots", "nut-blank", "saddle-blank", "crown"),
    *("tie-block", "post-jig", "side-markers", "face-markers", "bridge-place"),
}
"""Templates by which no wood is drilled or routed that may hold metal."""


def bare(layout: Layout) -> Layout:
    return msgspec.structs.replace(layout, old=msgspec.structs.replace(layout.old, metal=()))


def test_each_template_that_cuts_has_a_caution(job: Job, layout: Layout, stamp: Stamp) -> None:
    for name in DRAWN:
        draw = TEMPLATES[name].draw
        assert draw is not None
        assert CUTTING & {mark.purpose for mark in draw(*suited(name, job, layout), stamp).marks}
        assert cautions.of_template(name)
    assert cautions.of_template("check-sheet") == ()


@pytest.mark.parametrize("paper", ["A4", "A5"])
@pytest.mark.parametrize("name", DRAWN)
def test_every_page_of_it_carries_it(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str, paper: str
) -> None:
    file = written(job, layout, msgspec.structs.replace(stamp, paper=paper), tmp_path, name, "pdf")
    pages = readers.pdf_all_words(file)
    assert pages
    for said in pages:
        for caution in cautions.of_template(name):
            assert shown(caution) in said


def texts(file: File) -> list[str]:
    """All words of a DXF file's drawing, or of an SVG file."""
    if file.suffix == ".dxf":
        return [text.dxf.text for text in readfile(file).modelspace().query("TEXT")]
    return ["".join(each.itertext()) for each in ElementTree.parse(file).iter("{http://www.w3.org/2000/svg}text")]


@pytest.mark.parametrize("kind", ["dxf", "svg"])
@pytest.mark.parametrize("name", DRAWN)
def test_files_for_machines_carry_theirs(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str, kind: str
) -> None:
    wanted = shown(cautions.MACHINES.text)
    wanted = wanted.replace("’", "'") if kind == "dxf" else wanted  # stroke fonts have no other
    said = texts(written(job, layout, stamp, tmp_path, name, kind))
    assert wanted in said
    assert (cautions.METAL_HERE in said) == (name not in cautions.OF_OTHER_WOOD)
    without = texts(written(job, bare(layout), stamp, tmp_path / "bare", name, kind))
    assert wanted in without
    assert cautions.METAL_HERE not in without
    probed = any("Probe for metal" in said for said in cautions.of_template(name))
    assert (cautions.PROBE in without) == probed == (name not in NEITHER_DRILLED_NOR_ROUTED)


def test_the_tops_metal_is_told_where_the_top_is_cut_or_laid_on() -> None:
    """Neither on the neck nor on a part of new wood; written out, so that a new template is thought of."""
    assert set(TEMPLATES) - cautions.OF_OTHER_WOOD == {
        *("placement", "full-length", "bridge", "clearing", "plate", "bridge-place", "tailpiece"),
        *("saddle-bases", "saddle-bases-back", "job-sheet", "before-and-after", "check-sheet"),
    }


def test_the_job_sheet_says_them_at_the_step_where_each_is_first_met(job: Job, layout: Layout) -> None:
    steps = {step.split(".")[0].split(",")[0].split(";")[0]: step for step in work_steps.steps(job, layout, TEMPLATES)}
    rout, fit = "Rout the slot after the glue has set if it was not cut", "Fit the bridge’s underside to the top"
    for at, caution in (
        ("Take the old bridge off", cautions.STRINGS_OFF),
        ("Take the old bridge off", cautions.HEAT),
        ("Take the old bridge off", cautions.LAW),
        ("Score and clear the finish within the line on “Finish clearing”", cautions.SOLVENTS),
        ("Score and clear the finish within the line on “Finish clearing”", cautions.DUST),
        (fit, cautions.DRILL_CHIPS),
        (rout, cautions.PIECES),
        ("String up", cautions.TENSION),
    ):
        assert caution.text in steps[at]
    assert steps[fit].endswith("Metal and dust: as above.")
    assert steps["Drill the pin holes undersize"].endswith("Metal, chips and dust: as above.")
    assert steps[rout].endswith("Metal and dust: as above.")
    assert steps["Dry clamp"] == "Dry clamp. Fill in the check distances above."


def test_each_step_at_which_a_drill_runs_says_so() -> None:
    """Of every sample: where a step's own words drill, bore, plug or rout, what is said behind tells of chips."""
    drills = re.compile(r"\b(drill|bore|plug the|rout)\b", re.IGNORECASE)
    seen = 0
    for path in sorted(samples.folder().glob("*.job.json")):
        job = job_file.read(path)
        for step in work_steps.steps(job, work_out(job), TEMPLATES):
            if drills.search(step) and not step.startswith(("Take", "Prick the base", "Mark")):
                seen += 1
                assert re.search("chips|Chips|throws pieces", step), (path.name, step)
    assert seen > 30


def test_what_a_caution_is_about_is_told_in_full_once() -> None:
    """Whatever its words: of a strap pin on a glued bridge metal was told in two ways. What is said of an instrument
    that is held is no other's: "as above" would send a hand to words that do not suit it.
    """
    steps: tuple[cautions.Step, ...] = ("rout", "tail", "headstock", "tail", "headstock")
    work = tuple(zip(steps, ("Rout.", "Bore.", "Drill.", "Bore.", "Drill."), strict=True))
    assert cautions.told(work, "glue") == (
        f"Rout. {cautions.PIECES.text} {cautions.DUST.text} Metal: as above.",
        f"Bore. {cautions.TAIL_CHIPS.text} Metal and dust: as above.",
        f"Drill. {cautions.DRILL_CHIPS.text} Metal and dust: as above.",
        "Bore. Metal, chips, a firm hold and dust: as above.",
        "Drill. Metal, chips and dust: as above.",
    )


def test_an_instrument_drilled_at_its_end_is_held_and_not_clamped() -> None:
    said = " ".join(caution.text for caution in cautions.of_step("tail"))
    assert "hold the instrument firmly" in said
    assert "clamp" not in said


def test_no_caution_is_told_twice_on_a_job_sheet() -> None:
    """By each sentence of six words or more, on the sheet of every sample; what is looked at first stands there too."""
    for path in sorted(samples.folder().glob("*.job.json")):
        job = job_file.read(path)
        said = " ".join((*cautions.before(job.held), *work_steps.steps(job, work_out(job), TEMPLATES)))
        sentences = [one.strip() for one in re.split(r"(?<=[.])\s", said)]
        again = [
            one for one in sentences if len(one.split()) > 5 and sentences.count(one) > 1 and "as above" not in one
        ]
        assert again == [], path.name
    assert "as above" in said


def test_they_stand_on_the_paper_of_the_job_sheet(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    file = written(job, layout, stamp, tmp_path, "job-sheet", "pdf")
    said = " ".join(readers.pdf_all_words(file))
    for step in set(get_args(cautions.Step)) - {"slacken", "crown", "tail"}:
        for caution in cautions.of_step(step):
            assert shown(caution.text) in said


def test_they_are_short_and_defer() -> None:
    assert all(len(caution.text) <= 135 for caution in cautions.ALL)
    assert "stand above" in cautions.ALL[-1].text
    assert len({caution.title for caution in cautions.ALL}) == len(cautions.ALL)


def test_what_is_looked_at_first_is_that_of_how_the_bridge_is_held() -> None:
    screws = " ".join(cautions.before("screws"))
    assert "Neck joint" in screws
    assert "braces" not in screws
    assert "plate" not in screws
    assert "braces" in " ".join(cautions.before("glue"))


def test_a_new_tie_block_is_drilled_without_looking_for_metal_in_it() -> None:
    said = " ".join(cautions.of_template("tie-block"))
    assert "metal" not in said.lower()
    assert cautions.CATCHES in said
    assert cautions.PROBE in " ".join(cautions.of_template("bridge"))
