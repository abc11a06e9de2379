"""A new job from the command line."""

from pathlib import Path

import pytest

from app import cli, jobfile
from app.newjob import NotBegun, begin


def test_it_is_written_and_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "mine.job.json"
    assert cli.run(["new", str(path), "--hand", "left", "--strings", "4", "--unit", "in"]) == 0
    assert capsys.readouterr().out == f"{path}\n"
    job = jobfile.read(path)
    assert (job.hand, job.unit) == ("left", "in")
    assert job.strings is not None
    assert [string.name for string in job.strings.list] == ["1", "2", "3", "4"]


def test_a_bare_name_gets_the_ending(tmp_path: Path) -> None:
    assert cli.run(["new", str(tmp_path / "mine")]) == 0
    assert [path.name for path in tmp_path.iterdir()] == ["mine.job.json"]


def test_a_job_that_is_there_is_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "mine.job.json"
    path.write_text("precious")
    assert cli.run(["new", str(path)]) == 2
    assert capsys.readouterr().err == f"offsquare: {path} is there already; choose another name.\n"
    assert path.read_text() == "precious"


def test_a_usual_set_brings_its_strings() -> None:
    strings = begin(string_set="steel light").strings
    assert strings is not None
    assert [string.diameter for string in strings.list][:2] == ["0.012 in", "0.016 in"]


@pytest.mark.parametrize("count", [0, 13])
def test_too_few_and_too_many_strings(count: int) -> None:
    with pytest.raises(NotBegun, match=f"a job has 1 to 12 strings, not {count}"):
        begin(strings=count)


def test_a_set_there_is_not() -> None:
    with pytest.raises(NotBegun, match="there is no set of strings “piano wire”; there are: steel extra light"):
        begin(string_set="piano wire")
