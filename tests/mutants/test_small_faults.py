"""The mutants themselves: what is made of a few lines, and that a test sees a fault it looks for and no other."""

import ast
from pathlib import Path

import pytest

from tests.mutants.choosing import may_see, place, within
from tests.mutants.recording import Recorded, lines_as_bits, read, write
from tests.mutants.small_faults import Mutant, mutants
from tests.mutants.trying import record, tried


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
    (tmp_path / "tests").mkdir()
    (tmp_path / "tests/test_page.py").write_text(PAGE_TESTS, encoding="utf-8")
    says = [test(f"tests/test_page.py::{name}", 1.0, "") for name in ("test_limit[1]", "test_called", "test_other")]
    assert may_see(tmp_path, "geometry/high.py", 1, says) == says[:2]
    assert may_see(tmp_path, "geometry/high.py", 12, says) == []
    assert within([near, far, sheet], 5.0) == [near, far]
    assert within([near, far, sheet], 2.0) == [far]


FORKS = pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")
"""Python 3.12 and later warn of threads that numpy may have; the child imports and runs, and ends."""


SIGNS = "def sign(x: float) -> int:\n    return 1 if x > 0 else -1\n"


@FORKS
def test_a_fault_is_seen_by_a_test_that_looks_and_taken_out_again(tmp_path: Path) -> None:
    module, tests = tmp_path / "signs.py", tmp_path / "test_signs.py"
    module.write_text(SIGNS, encoding="utf-8")
    tests.write_text(
        "from signs import sign\n\n\ndef test_blind() -> None:\n    assert sign(1.0) == 1\n\n\n"
        "def test_seeing() -> None:\n    assert sign(0.0) == -1\n",
        encoding="utf-8",
    )
    (tmp_path / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")
    fault = Mutant("signs.py", SIGNS.index("> 0"), SIGNS.index("> 0") + 1, ">=")
    assert tried(tmp_path, fault, ["test_signs.py::test_blind"], 60.0) == "survives"
    assert tried(tmp_path, fault, ["test_signs.py::test_seeing"], 60.0) == "killed"
    assert module.read_text(encoding="utf-8") == SIGNS


MORE_SIGNS = """

@cache
def sign_again(x: float) -> int:
    return sign(x)


def called_at_import(x: float) -> float:
    return x
"""
RECORDED_TESTS = """from functools import cache

import pytest
from geometry.signs import called_at_import, sign, sign_again


@pytest.fixture(scope="module")
def shared() -> int:
    return sign(1.0)


FIRST = called_at_import(1.0)


def test_shared(shared: int) -> None:
    assert shared == 1


@pytest.mark.parametrize("times", [1, 2])
def test_kept(shared: int, times: int) -> None:
    assert sign_again(-1.0) == -1
"""


@FORKS
@pytest.mark.parametrize("conftest", ["", "import gc\n\n\ndef pytest_collection_finish():\n    gc.freeze()\n"])
def test_a_test_runs_what_its_fixtures_ran_and_what_was_kept(tmp_path: Path, conftest: str) -> None:
    """Also where what is loaded by the end of the collection is frozen, as our own conftest does."""
    root = tmp_path / "sources"
    (root / "geometry").mkdir(parents=True)
    (root / "geometry/__init__.py").touch()
    (root / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")
    (root / "conftest.py").write_text(conftest, encoding="utf-8")
    (root / "geometry/signs.py").write_text("from functools import cache\n\n\n" + SIGNS + MORE_SIGNS, encoding="utf-8")
    (root / "test_signs.py").write_text(RECORDED_TESTS, encoding="utf-8")
    found = record(root, "test_signs.py")
    both = 1 << 5 | 1 << 14
    lines = {test.name.partition("::")[2]: test.lines["geometry/signs.py"] for test in found}
    assert lines == {"test_shared": both, "test_kept[1]": both | 1 << 10, "test_kept[2]": both | 1 << 10}
    assert all(0 < test.seconds < 5 for test in found)
    write(tmp_path / "kept" / "one.json", found)
    assert read(tmp_path / "kept" / "one.json") == found


@FORKS
@pytest.mark.parametrize(("waits", "limit"), [("time.sleep(LONG)", 0.3), ("while LONG:\n        pass", 1.0)])
def test_what_takes_too_long_is_seen(tmp_path: Path, waits: str, limit: float) -> None:
    (tmp_path / "waits.py").write_text("LONG = 0\n", encoding="utf-8")
    (tmp_path / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")
    (tmp_path / "test_waits.py").write_text(
        f"import time\nfrom waits import LONG\n\n\ndef test_it() -> None:\n    {waits}\n", encoding="utf-8"
    )
    fault = Mutant("waits.py", 7, 8, "600")
    assert tried(tmp_path, fault, ["test_waits.py::test_it"], limit) == "never ends"
