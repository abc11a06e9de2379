"""A job tells a length in one fineness wherever it stands: 64ths of an inch on the screen are 64ths on paper too."""

import datetime
import re
from functools import cache

import pytest
from msgspec.structs import replace

from app.cli import bench_page
from app.file import job_file, samples
from app.say.figures import key_figures
from export.drawing.marks import Text
from export.records import Stamp
from export.templates import sheets
from geometry.job import Job
from geometry.layout import Layout
from geometry.saddle.slot_leaning import told_slant
from geometry.units import Unit, as_shown, said
from geometry.work_out import work_out

STAMP = Stamp(date=datetime.date(2026, 1, 2), fingerprint="", paper="A4")


@cache
def sample(name: str, unit: Unit) -> tuple[Job, Layout]:
    path = samples.find(name)
    assert path is not None
    job = replace(job_file.read(path), unit=unit)
    return job, work_out(job)


def on_paper(job: Job, layout: Layout, template: str) -> list[str]:
    pages = sheets(job, layout, replace(STAMP, templates=(template,)))
    return [mark.shape.text for page in pages for mark in page.drawing.marks if isinstance(mark.shape, Text)]


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
@pytest.mark.parametrize("name", ["turned-left", "leaning-neck", "floating-five", "bolted-left"])
def test_the_slant_is_told_alike_everywhere(name: str, unit: Unit) -> None:
    job, layout = sample(name, unit)
    assert layout.saddle is not None
    slant = said(told_slant(layout.saddle, unit), unit)
    left, right = layout.saddle.from_nut
    if abs(abs(left - right) - layout.saddle.slant) < 0.01:  # where the nut is square to the neck
        # derived: what is shown of the two places from the nut, one less the other
        assert said(as_shown(left, unit) - as_shown(right, unit), unit).lstrip("−") == slant
    strip = next(figure for figure in key_figures.key_figures(job, layout) if figure.title == key_figures.SLANT)
    assert f"{strip.value} {unit}" == slant
    assert f"slant {slant}," in bench_page.page(job, layout)
    assert slant in on_paper(job, layout, "job-sheet")
    placed = on_paper(job, layout, "placement" if job.held == "glue" else "bridge-place")
    assert [text for text in placed if text.endswith(f" {slant} farther")]


def test_what_stands_beside_a_pm_in_64ths_is_in_64ths() -> None:
    """The outer strings' margins, and how high the saddle stands, in the job sheet's tables."""
    pairs = [
        text for text in on_paper(*sample("turned-left", "in"), "job-sheet") if " ; " in text and text[-3:] == " in"
    ]
    assert len(pairs) >= 3  # margins at two places, and the height
    assert not [text for text in pairs if "." in text]


def test_the_page_tells_compensation_in_64ths_and_what_was_typed_as_typed() -> None:
    job, layout = sample("turned-left", "in")
    assert job.strings is not None
    typed = ("5/64 in", "2.5 mm", None, None, None, None)
    page = bench_page.page(replace(job, strings=replace(job.strings, compensation=typed)), layout)
    told = {line.split("   ")[0].strip(): line for line in page.splitlines() if line.strip().startswith("String ")}
    assert " 5/64 " in told["String 1"]
    assert " 2.5 mm " in told["String 2"]
    assert not re.search(r" 0\.0\d+ ", told["String 3"])
