"""However the paper lies, the placement sheets of every glued sample say what may be done now and what must wait."""

import datetime
from itertools import product
from pathlib import Path
from typing import get_args

import pytest

from app.file import job_file, samples
from export.drawing.marks import Text
from export.records import Stamp, Turn
from export.templates import sheets
from geometry import go_or_wait
from geometry.go_or_wait.told_once import told_of
from tests.export.sample_pages import laid

TURNS: tuple[Turn, ...] = get_args(Turn)
GLUED = [path for path in samples.paths() if job_file.read(path).held == "glue"]


@pytest.mark.parametrize("path", GLUED, ids=job_file.name_of)
def test_go_or_wait_stands_on_the_sheet_however_the_paper_lies(path: Path) -> None:
    job, layout = laid(job_file.name_of(path))
    lines = [line for line in go_or_wait.in_short(job, told_of(job, layout).steps) if line]
    assert lines, "a line for the glue, or for the slot"
    for turn, paper in product(TURNS, ("A4", "Letter")):
        stamp = Stamp(date=datetime.date(2026, 1, 2), fingerprint="", paper=paper, turn=turn, margin=8.0)
        pages = sheets(job, layout, stamp)
        says = " ".join(m.shape.text for page in pages for m in page.drawing.marks if isinstance(m.shape, Text))
        for line in lines:
            assert line in says, (turn, paper, line)
