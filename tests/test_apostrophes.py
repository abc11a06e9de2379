"""One kind of apostrophe (’) in all that is shown, printed or written: in every text of the program that is no
docstring, in the stories of the sample jobs, and in the guide.
"""

import json
import re
from pathlib import Path

import pytest

from app.file import samples
from tests.in_one import in_one
from tests.sources import ROOT, said_by_the_program, sentences

GUIDE = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
STRAIGHT = re.compile(r"(?<=\w)'(?=[a-z])|(?<=s)'(?= )|^'(?=s\b)")
"""What stands in a word, ends one as in “the strings' spread”, or follows a name that is put in."""


def prose(page: str) -> str:
    """A page of the guide without its code."""
    return re.sub(r"```.*?```|`[^`\n]*`", "", page, flags=re.DOTALL)


def test_what_the_program_says() -> None:
    assert [(name, said) for name, said in said_by_the_program() if STRAIGHT.search(said)] == []


@in_one("path", samples.paths())
def test_what_the_sample_jobs_tell(path: Path) -> None:
    job = json.loads(path.read_text(encoding="utf-8"))
    said = [job.get("title", ""), job.get("note", ""), *(one.get("note", "") for one in job.get("readings", []))]
    assert not [text for text in said if STRAIGHT.search(text)]


@in_one("page", GUIDE)
def test_what_the_guide_tells(page: Path) -> None:
    assert STRAIGHT.findall(prose(page.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize(
    ("source", "count"),
    [
        ('said = "the board\'s end"', 1),
        ("said = f\"the strings' spread, {x['a']}'s, isn't\"", 3),
        ("said = 'the board’s end'", 0),
        ('def f():\n    "the board\'s end"\n', 0),
    ],
)
def test_a_straight_one_is_found(source: str, count: int) -> None:
    assert sum(len(STRAIGHT.findall(said)) for said in sentences(source)) == count
