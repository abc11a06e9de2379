"""What the README tells a new user to type is what is run here and in every check of a change."""

import re
import shlex
from pathlib import Path
from typing import get_args

from app.cli import command_line
from app.file import samples
from geometry.job import Held

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^```\n(.*?)\n```$", README, re.MULTILINE | re.DOTALL)
CI = (ROOT / ".ci" / "run").read_text(encoding="utf-8")


def test_there_are_two_commands_of_one_line() -> None:
    assert len(COMMANDS) == 2
    assert all("\n" not in command for command in COMMANDS)


def test_each_command_makes_its_own_venv_and_installs() -> None:
    for command in COMMANDS:
        steps = command.split(" && ")
        assert steps[0] == "python3 -m venv .venv"
        assert steps[1].startswith(".venv/bin/pip install ")
        assert steps[2].startswith(".venv/bin/")


def test_the_test_command_is_the_one_that_checks_every_change() -> None:
    assert COMMANDS[1] in CI


def test_the_main_command_exports_a_sample_that_is_there(tmp_path: Path) -> None:
    typed = shlex.split(COMMANDS[0].split(" && ")[2])
    assert typed[0] == ".venv/bin/offsquare"
    argv = [str(ROOT / word) if word.startswith("sample_jobs/") else word for word in typed[1:]]
    argv[argv.index("--to") + 1] = str(tmp_path)
    assert command_line.run(argv) == 0
    assert {path.name for path in tmp_path.iterdir()} >= {"placement.pdf", "placement.dxf"}


def test_the_row_of_a_new_job_names_how_a_bridge_may_be_held() -> None:
    (row,) = [line for line in README.splitlines() if "offsquare new mine.job.json" in line]
    assert {f"--held {held}" for held in get_args(Held)} - {"--held glue"} == set(re.findall(r"--held \w+", row))


def test_the_packages_for_the_tests_are_among_those_for_the_window() -> None:
    line = re.search(r"sudo apt-get install ([^`]*)`", README)
    needed = re.search(r"^needed=\((.*)\)$", CI, re.MULTILINE)
    assert line is not None
    assert needed is not None
    told = set(line[1].split()) | {"libxkbcommon0"}  # comes with libxkbcommon-x11-0
    assert set(needed[1].split()) <= told


def test_each_sample_and_picture_that_is_named_is_there() -> None:
    for name in re.findall(r"\]\(([^)]+\.(?:png|md))\)", README):
        assert (ROOT / name).is_file(), name
    named = {path.name.removesuffix(".job.json") for path in samples.paths()}
    assert {"one-slip", "turned-left-old-slot", "leaning-neck"} <= named
