"""The mutants themselves: what is made of a few lines, and that a test sees a fault it looks for and no other."""

from pathlib import Path

import pytest

from tests.mutants.mutations import Mutant, mutants
from tests.mutants.trying import files_for, survives


def changed(source: str) -> set[str]:
    """The source with each of its faults."""
    return {mutant.applied(source) for mutant in mutants("m.py", source) if mutant.is_fault(source)}


@pytest.mark.parametrize(
    ("source", "faults"),
    [
        ("a < b", {"(a <= b)", "(a >= b)"}),
        ("a >= b", {"(a > b)", "(a < b)"}),
        ("a == b", {"(a != b)"}),
        ("a in b", {"(a not in b)"}),
        ("a and b", {"(a or b)"}),
        ("a + b", {"(a - b)"}),
        ("a * b", {"(a / b)"}),
        ("not a", {"(a)"}),
        ("-a", {"(a)"}),
        ("X = 3", {"X = 4", "X = 2"}),
        ("X = 0", {"X = 1"}),
        ("X = 2.0", {"X = 3.0", "X = 2.5"}),
        ("X = True", {"X = False"}),
        ("a if b else c", {"(a if not b else c)"}),
        ("if a:\n    b", {"if (not a):\n    b"}),
        ("a += b", {"pass"}),
        ("f(a)", {"pass"}),
        ("def f() -> float:\n    return a", {"def f() -> float:\n    return (-a)"}),
        ("def f() -> bool:\n    return a", {"def f() -> bool:\n    return (not a)"}),
        ("def f() -> str:\n    return a", set()),
        ("x: Literal[1] = y", set()),
        ("assert a < b", set()),
        ('f"{a + b}"', set()),
        ("'−' + (a < b)", {"('−' - (a < b))", "'−' + ((a <= b))", "'−' + ((a >= b))"}),
    ],
)
def test_what_is_made_of_a_line(source: str, faults: set[str]) -> None:
    assert changed(source) == faults


def test_a_mutant_is_shown_as_a_difference() -> None:
    mutant = Mutant("m.py", 9, 10, "2")
    assert mutant.diff("a = 0\nb =1\n") == "@@ -2 +2 @@\n-b =1\n+b =2\n"


def test_the_tests_that_mirror_a_module_come_first_and_all_but_slow_ones_are_run() -> None:
    root = Path(__file__).parents[2]
    found = files_for("export/machine/offset.py", root)
    assert found[0] == "tests/export/machine/test_offset.py"
    assert "tests/export/drawing/test_clip.py" in found
    assert not any(file.startswith("tests/app") or file.endswith("test_never_stops.py") for file in found)


FORKS = pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")
"""Python 3.12 and later warn of threads that numpy may have; the child imports and runs, and ends."""


@FORKS
def test_a_fault_is_seen_by_a_test_that_looks_and_taken_out_again(tmp_path: Path) -> None:
    source = "def sign(x: float) -> int:\n    return 1 if x > 0 else -1\n"
    module, blind, seeing = (tmp_path / name for name in ("signs.py", "test_blind.py", "test_seeing.py"))
    module.write_text(source, encoding="utf-8")
    head = "from signs import sign\n\n\ndef test_it() -> None:\n"
    blind.write_text(head + "    assert sign(1.0) == 1\n", encoding="utf-8")
    seeing.write_text(head + "    assert sign(1.0) == 1\n    assert sign(0.0) == -1\n", encoding="utf-8")
    (tmp_path / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")
    fault = Mutant("signs.py", source.index("> 0"), source.index("> 0") + 1, ">=")
    assert survives(tmp_path, fault, ["test_blind.py"], 60.0)
    assert not survives(tmp_path, fault, ["test_seeing.py"], 60.0)
    assert module.read_text(encoding="utf-8") == source


@FORKS
def test_what_takes_too_long_is_seen(tmp_path: Path) -> None:
    (tmp_path / "waits.py").write_text("LONG = 0\n", encoding="utf-8")
    (tmp_path / "test_waits.py").write_text(
        "import time\nfrom waits import LONG\n\n\ndef test_it() -> None:\n    time.sleep(LONG)\n", encoding="utf-8"
    )
    assert not survives(tmp_path, Mutant("waits.py", 7, 8, "600"), ["test_waits.py"], 2.0)
