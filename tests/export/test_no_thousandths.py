"""On the sheets of a job that was read with a rule of 64ths alone nothing is told in thousandths of an inch, but what
strings and the files for their slots are told in.
"""

import re
from datetime import date

import pytest
from msgspec.structs import replace

from app.edit.edits import set_unit
from export.drawing.marks import Text
from export.records import Figure, Stamp
from export.templates.blanks import nut_drawn, saddle_drawn
from export.templates.standing import crown
from export.templates.written import solid_tables
from geometry.job import Job, Nut
from geometry.work_out import work_out
from tests.app.desk.conftest import sample

STAMP = Stamp(date=date(2026, 11, 1), fingerprint="abc", paper="Letter", templates=())
THOUSANDTHS = re.compile(r"\d\.\d{3}\b")


def ruled(name: str) -> Job:
    """A sample whose readings were all taken with a rule of 64ths, in inches, with a nut to be made."""
    job = set_unit(sample(name), "in")
    return replace(
        job,
        readings=tuple(replace(reading, with_="rule 1/64") for reading in job.readings),
        nut=Nut(bed=6.0, fret_height=1.0),
    )


def told(figure: Figure) -> list[str]:
    """The words of its drawing, and of its tables all but widths of slots."""
    words = [mark.shape.text for mark in figure.marks if isinstance(mark.shape, Text)]
    for table in figure.tables:
        skip = [at for at, head in enumerate(table.head or ()) if head in ("width", "drill", "or")]
        words += [cell for row in table.rows for at, cell in enumerate(row) if at not in skip]
    return [*words, *figure.notes]


@pytest.mark.parametrize("name", ["leaning-neck", "floating-five"])
def test_saddle_crown_and_nut_in_64ths(name: str) -> None:
    job = ruled(name)
    layout = work_out(job)
    figures = [nut_drawn.draw(job, layout, STAMP)]
    figures.append((saddle_drawn if name == "leaning-neck" else crown).draw(job, layout, STAMP))
    words = [text for figure in figures for text in told(figure)]
    rows = [*solid_tables.saddle(job, layout), *solid_tables.crown(job, layout)]
    rows += [[cell for at, cell in enumerate(row) if at != 2] for row in solid_tables.nut(job, layout)]
    assert any("/64" in text for text in words)
    assert any("/64" in cell for row in rows for cell in row)
    assert [text for text in (*words, *(cell for row in rows for cell in row)) if THOUSANDTHS.search(text)] == []
