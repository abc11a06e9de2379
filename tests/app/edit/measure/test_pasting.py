"""Readings pasted as text."""

import pytest

from app.edit import edits
from app.edit.measure import pasting
from geometry.job import Job, NotAJob


@pytest.fixture
def job() -> Job:
    made = Job()
    for of in (("nut.left", "nut.right"), ("end.left", "end.right"), ("nut.left", "end.left")):
        made = edits.add(made, "distance", of)
    return made


def values(job: Job) -> list[object]:
    return [r.value for r in job.readings]


def test_values_go_down_from_the_reading_in_hand(job: Job) -> None:
    assert values(pasting.paste(job, "56\n450.5\n", "r2")) == [None, 56, 450.5]


def test_decimal_commas_part_nothing(job: Job) -> None:
    assert values(pasting.paste(job, "43,2\n56,4", "r1")) == ["43,2 mm", "56,4 mm", None]


@pytest.mark.parametrize("mark", ["\t", ";", ", "])
def test_names_and_values(job: Job, mark: str) -> None:
    pasted = pasting.paste(job, f"r3{mark}450\nr1{mark}43.5", None)
    assert values(pasted) == [43.5, None, 450]


def test_a_reading_is_named_by_its_words_too(job: Job) -> None:
    assert values(pasting.paste(job, "Board end, edge to edge\t56", None)) == [None, 56, None]


def test_inches_are_kept(job: Job) -> None:
    assert values(pasting.paste(job, "1 11/16 in", "r1"))[0] == "1 11/16 in"


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "There is nothing to paste"),
        ("43\nx", "Line 2 of what was pasted: “x” is not a length"),
        ("r9\t5", "Line 1 of what was pasted names “r9”, and no reading is called so"),
        ("43\n56\n450\n1", "Line 4 of what was pasted has no reading left to go to"),
    ],
)
def test_what_cannot_be_pasted_is_said_with_its_line(job: Job, text: str, sentence: str) -> None:
    with pytest.raises(NotAJob, match=sentence):
        pasting.paste(job, text, "r1")


def test_a_cell_without_end_is_refused_in_a_sentence(job: Job) -> None:
    with pytest.raises(NotAJob, match="One cell of what was pasted is longer than 131,072 characters"):
        pasting.paste(job, "r1\t" + "9" * 131_073, "r1")
