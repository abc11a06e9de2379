"""That a fault is seen by a test that looks for it and by no other, in place or imported anew."""

import compileall
from collections.abc import Callable
from pathlib import Path
from py_compile import PycInvalidationMode

import pytest

from tests.mutants import trying
from tests.mutants.collected import Collected, in_place
from tests.mutants.recording import Recorded, kept_at, read, write
from tests.mutants.small_faults import Mutant
from tests.mutants.trying import Outcome, collect, record, tried, tried_anew

FORKS = pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")
"""Python 3.12 and later warn of threads that numpy may have; the child imports and runs, and ends."""


def sources(tmp_path: Path, **files: str) -> Path:
    """A folder with these modules of geometry, or with test files and conftest where they are named so."""
    root = tmp_path / "sources"
    for package in ("geometry", "tests"):
        (root / package).mkdir(parents=True)
        (root / package / "__init__.py").touch()
    (root / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")
    for name, text in files.items():
        folder = root / ("tests" if name.startswith(("test_", "conftest")) else "geometry")
        (folder / f"{name}.py").write_text(text, encoding="utf-8")
    compileall.compile_dir(root, quiet=1, invalidation_mode=PycInvalidationMode.CHECKED_HASH)
    return root


def with_collected(root: Path, file: str, use: Callable[[Collected], str]) -> str:
    """What is made of the tests of a file once they are collected."""
    kept = root.parent / "made"

    def keep(tests: Collected) -> None:
        kept.write_text(use(tests), encoding="utf-8")

    collect(root, [file], keep)
    return kept.read_text(encoding="utf-8")


def fault(file: str, source: str, before: str, after: str) -> Mutant:
    return Mutant(file, source.index(before), source.index(before) + len(before), after)


SIGNS = "LIMIT = 0\n\n\ndef sign(x: float) -> int:\n    return 1 if x > LIMIT else -1\n"
LOOKING = """from geometry.signs import LIMIT, sign


def test_blind() -> None:
    assert sign(2.0) == 1


def test_seeing() -> None:
    assert sign(0.0) == -1


def test_limit() -> None:
    assert LIMIT == 0
"""


@FORKS
@pytest.mark.parametrize("try_it", [tried, lambda tests, *what: tried_anew(tests.root, *what)])
@pytest.mark.parametrize(("before", "after", "seen_by"), [("> L", ">= L", "seeing"), ("0", "1", "limit")])
def test_a_fault_is_seen_by_a_test_that_looks_and_taken_out_again(
    tmp_path: Path, try_it: Callable[..., Outcome], before: str, after: str, seen_by: str
) -> None:
    root = sources(tmp_path, signs=SIGNS, test_signs=LOOKING)
    mutant = fault("geometry/signs.py", SIGNS, before, after)

    def outcomes(tests: Collected) -> str:
        one_by_one = {name: [Recorded(name, 0.1, {})] for name in tests.items}
        return ",".join(name for name, test in one_by_one.items() if try_it(tests, mutant, test) == "killed")

    assert with_collected(root, "tests/test_signs.py", outcomes) == f"tests/test_signs.py::test_{seen_by}"
    assert (root / "geometry/signs.py").read_text(encoding="utf-8") == SIGNS


def test_a_fault_is_put_in_place_where_only_functions_do_something_else() -> None:
    """Those around them are changed with them; what a default or a class holds is known to others already."""
    source = "A = 1\n\n\ndef f(x=2):\n    def g():\n        return 3\n\n    return g\n\n\nclass C:\n    B = 4\n"
    source += "\n    def h(self):\n        return lambda: 5 + 6\n"

    def changed_by(before: str) -> list[str]:
        return [change.before.co_name for change in in_place(source, source.replace(before, f"{before}0"))]

    assert {number: changed_by(number) for number in "123456"} == {
        "1": [],
        "2": [],
        "3": ["f", "g"],
        "4": [],
        "5": ["h", "<lambda>"],
        "6": ["h", "<lambda>"],
    }


AT_IMPORT = """def at_import():
    return 1


def in_a_test_file():
    return 2


def later():
    return 3


TABLE = at_import()
"""
USING = """from geometry.tables import TABLE, in_a_test_file, later

GIVEN = in_a_test_file()


def test_it() -> None:
    assert (TABLE, GIVEN, later()) == (1, 2, 3)
"""


@FORKS
@pytest.mark.parametrize(("number", "in_place"), [("1", False), ("2", False), ("3", True)])
def test_what_ran_before_the_tests_is_imported_anew(tmp_path: Path, number: str, in_place: bool) -> None:
    root = sources(tmp_path, tables=AT_IMPORT, test_tables=USING)
    mutant = fault("geometry/tables.py", AT_IMPORT, number, "9")

    def found(tests: Collected) -> str:
        killed = tried(tests, mutant, [Recorded("tests/test_tables.py::test_it", 0.1, {})])
        return f"{tests.put_in(mutant.file, AT_IMPORT, mutant.applied(AT_IMPORT))} {killed}"

    assert with_collected(root, "tests/test_tables.py", found) == f"{in_place} killed"


MORE_SIGNS = """

@cache
def sign_again(x: float) -> int:
    return sign(x)


def called_at_import(x: float) -> float:
    return x


def called_here() -> int:
    return 1


HERE = called_here()
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
    """Also where what is loaded by the end of the collection is frozen, as our own conftest does. What is run as our
    own modules are imported is known, and is no test's.
    """
    module = "from functools import cache\n\n\n" + SIGNS + MORE_SIGNS
    root = sources(tmp_path, signs=module, test_signs=RECORDED_TESTS, conftest=conftest)
    kept = tmp_path / "kept" / "one.json"

    def recorded(tests: Collected) -> str:
        found = record(tests, "tests/test_signs.py")
        write(kept, found)
        assert read(kept) == found
        return str(tests.recorder.imported("geometry/signs.py"))

    assert with_collected(root, "tests/test_signs.py", recorded) == str(1 << 21)
    both = 1 << 8 | 1 << 17
    lines = {test.name.partition("::")[2]: test.lines["geometry/signs.py"] for test in read(kept)}
    assert lines == {"test_shared": both, "test_kept[1]": both | 1 << 13, "test_kept[2]": both | 1 << 13}
    assert all(0 < test.seconds < 5 for test in read(kept))


@FORKS
def test_where_nothing_is_recorded_what_was_kept_is_forgotten_once(tmp_path: Path) -> None:
    source = "from functools import cache\n\n\n@cache\ndef kept() -> list[int]:\n    return []\n"
    text = "from geometry.keeps import kept\n\nkept().append(1)\n\n\n"
    text += "def test_one() -> None:\n    kept().append(2)\n\n\ndef test_two() -> None:\n    assert kept() == [2]\n"
    root = sources(tmp_path, keeps=source, test_keeps=text)

    def found(tests: Collected) -> str:
        tests.recorder.rest()
        return f"{tests.run(dict.fromkeys(tests.items, 5.0))} {len(tests.recorder.tests())}"

    assert with_collected(root, "tests/test_keeps.py", found) == "0 0"


def test_a_record_is_of_one_state_of_sources_tests_and_what_they_hold(tmp_path: Path) -> None:
    """Each state has its own root here, for what is told of a root's sources is kept."""
    states = {"": "", "geometry/signs.py": SIGNS, "tests/test_signs.py": "A = 1", "tests/held.txt": "one | 1.0"}
    found = set[Path]()
    for number, (file, text) in enumerate(states.items()):
        root = sources(tmp_path / str(number), signs="", test_signs="")
        if file:
            (root / file).write_text(text, encoding="utf-8")
        found.add(kept_at(root, "tests/test_signs.py"))
        (root / "tests/test_other.py").touch()
        assert kept_at(root, "tests/test_signs.py") in found
    assert len(found) == len(states)


@FORKS
@pytest.mark.parametrize(
    ("waits", "name", "limit"),
    [
        ("time.sleep(LONG())", "AT_LEAST", 0.03),
        ("while LONG():\n        pass", "AT_LEAST", 0.3),
        ("while LONG():\n        pass", "EACH", 0.3),
    ],
)
def test_what_takes_too_long_is_seen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, waits: str, name: str, limit: float
) -> None:
    monkeypatch.setattr(trying, name, limit)
    source = "def LONG():\n    return 0\n"
    text = f"import time\nfrom geometry.waits import LONG\n\n\ndef test_it() -> None:\n    {waits}\n"
    root = sources(tmp_path, waits=source, test_waits=text)
    mutant = fault("geometry/waits.py", source, "0", "600")
    seeing = [Recorded("tests/test_waits.py::test_it", 0.0, {})]
    assert with_collected(root, "tests/test_waits.py", lambda tests: tried(tests, mutant, seeing)) == "never ends"
