"""Sentences stay sentences, whatever names stand in them."""

import json
from pathlib import Path

import pytest

from app.file import job_file
from app.say import plain_words
from app.say.terminal import LONGEST, shortened

NAME = "a name of many words " * 300


@pytest.mark.parametrize(
    "text",
    [
        f"There is no template “{NAME}”; the templates are placement and bridge",
        f"{NAME} cannot be read: there is no such file or folder",
        f"“{NAME}” and “{NAME}” are not known; " + "did you mean something else? " * 20,
        "x" * 5000,
    ],
)
def test_no_sentence_is_longer_than_one_reads_at_a_glance(text: str) -> None:
    short = shortened(text)
    assert len(short) <= LONGEST
    assert short[:10] == text[:10]
    assert short[-30:] == text[-30:]
    assert len(plain_words.sentence(text)) <= LONGEST + 1


def test_a_sentence_that_is_short_enough_stays_as_it_is() -> None:
    text = f"There is no template “{'a b ' * 20}”; the templates are placement and bridge"
    assert shortened(text) == text


def test_of_a_word_without_end_both_ends_are_kept_and_all_that_stands_around_it() -> None:
    after = "” is not known; mend its name, or leave it out"
    assert shortened(f"The reading “{'x' * 400}{after}") == f"The reading “{'x' * 99}…{'x' * 99}{after}"


def test_what_is_said_of_a_job_with_long_names_is_short(tmp_path: Path) -> None:
    for tree in (
        {"offsquare": 1, NAME: 1},
        {"offsquare": 1, "bridge": {NAME: 1}},
        {"offsquare": 1, "readings": [{"id": NAME, "kind": "distance", "of": [NAME, "b"], "value": NAME}]},
        {"offsquare": NAME},
    ):
        path = tmp_path / "a.job.json"
        path.write_text(json.dumps(tree))
        with pytest.raises(job_file.JobFileError) as caught:
            job_file.read(path)
        assert len(str(caught.value)) <= LONGEST
