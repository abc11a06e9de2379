"""The mutants themselves: what is made of a few lines, and which tests may see it."""

import ast
from pathlib import Path

import pytest

from tests.mutants.choosing import may_see, place, within
from tests.mutants.recording import Recorded, lines_as_bits
from tests.mutants.small_faults import Mutant, mutants


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
        ("raise AssertionError", set()),
        ("raise ValueError", {"pass"}),
        ("x = a.reshape(-1)", set()),
        ("x = a.reshape(2)", {"x = a.reshape(3)", "x = a.reshape(1)"}),
        ("X = 1e-09", {"X = 1.000000001"}),
        ("x = zip(a, strict=True)", set()),
        ('f"{a + b}"', set()),
        ("'−' + (a < b)", {"('−' - (a < b))", "'−' + ((a <= b))", "'−' + ((a >= b))"}),
    ],
)
def test_what_is_made_of_a_line(source: str, faults: set[str]) -> None:
    assert changed(source) == faults


def test_a_mutant_is_shown_as_a_difference() -> None:
    mutant = Mutant("m.py", 9, 10, "2")
    assert mutant.diff("a = 0\nb =1\n") == "@@ -2 +2 @@\n-b =1\n+b =2\n"


MODULE = """LIMIT = 2


def high(
    value,
    limit=LIMIT,
):
    if (
        value > limit
        or value > 9
    ):
        return True
    return False
"""


@pytest.mark.parametrize(
    ("line", "lines", "names"),
    [
        (1, range(1, 2), ("LIMIT",)),
        (6, range(8, 14), ()),  # what stands in the head of a function is seen by whoever calls it
        (10, range(8, 12), ()),  # a condition is one, on however many lines it stands
        (12, range(12, 13), ()),
    ],
)
def test_what_runs_together_with_a_line(line: int, lines: range, names: tuple[str, ...]) -> None:
    found = place(ast.parse(MODULE), line)
    assert (found.lines, found.names) == (lines, names)


PAGE_TESTS = """from geometry import high

ALL = (high.LIMIT,)


def test_limit(value):
    assert value in ALL


def test_called():
    assert high.LIMIT == 2


def test_other():
    assert high.high(3)
"""


def test_the_tests_of_a_line_are_those_that_run_it_the_near_and_the_fast_first(tmp_path: Path) -> None:
    (tmp_path / "geometry").mkdir()
    (tmp_path / "export").mkdir()
    (tmp_path / "geometry/high.py").write_text(MODULE, encoding="utf-8")
    (tmp_path / "export/sheet.py").write_text("from geometry.high import LIMIT\n\n\ndef f():\n    print(LIMIT)\n")

    def test(name: str, seconds: float, file: str, *lines: int) -> Recorded:
        return Recorded(name, seconds, {file: lines_as_bits(lines)})

    near = test("tests/geometry/test_high.py::test_true", 3.0, "geometry/high.py", 8, 9, 12)
    far = test("tests/geometry/test_all.py::test_it", 1.0, "geometry/high.py", 8, 9, 10, 12)
    sheet = test("tests/export/test_sheet.py::test_it", 2.0, "export/sheet.py", 5)
    found = {line: may_see(tmp_path, "geometry/high.py", line, [sheet, far, near]) for line in (1, 12, 13)}
    assert found == {1: [near, far, sheet], 12: [near, far], 13: []}
    at_import = lines_as_bits([12])
    assert may_see(tmp_path, "geometry/high.py", 12, [sheet, far, near], at_import) == [near, far, sheet]
    (tmp_path / "tests").mkdir()
    (tmp_path / "tests/test_page.py").write_text(PAGE_TESTS, encoding="utf-8")
    says = [test(f"tests/test_page.py::{name}", 1.0, "") for name in ("test_limit[1]", "test_called", "test_other")]
    assert may_see(tmp_path, "geometry/high.py", 1, says) == says[:2]
    assert may_see(tmp_path, "geometry/high.py", 12, says) == []
    assert within([near, far, sheet], 5.0) == [near, far]
    assert within([near, far, sheet], 2.0) == [far]
