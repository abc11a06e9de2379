"""What all tests share: no display is needed, and no test touches the settings of whoever runs it."""

import gc
import importlib
import os
import sys
from contextlib import suppress
from itertools import count
from pathlib import Path

import pytest
from hypothesis import settings

from tests.slow import is_slow

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # before numpy is loaded, and as in the program
gc.set_threshold(50_000, 20, 100)  # thousands of short tests leave little behind: looking seldom saves their twentieth
settings.register_profile("ci", derandomize=True, print_blob=True)
if os.environ.get("CI"):
    settings.load_profile("ci")  # the same examples at each run; without it others each time


@pytest.hookimpl(tryfirst=True)
def pytest_collection(session: pytest.Session) -> None:
    """Of two workers the second loads the tests from their end, if all are to be run: each then finds half of them
    compiled by the other, where none was yet.
    """
    if os.environ.get("PYTEST_XDIST_WORKER") != "gw1" or session.config.args != ["tests"] or sys.dont_write_bytecode:
        return
    for path in sorted(Path("tests").rglob("test_*.py"), reverse=True):
        with suppress(Exception):  # what is wrong with it is told when it is collected
            importlib.import_module(".".join(path.with_suffix("").parts))


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what is slow; `-m "not slow"` leaves it out."""
    for item in items:
        if is_slow(item.path):
            item.add_marker("slow")


def pytest_collection_finish() -> None:
    """What is loaded by now stays to the end: it need not be gone through again whenever garbage is collected."""
    gc.collect()
    gc.freeze()


NUMBERS = count(1)


@pytest.fixture(scope="session")
def all_settings(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where each test's settings have a folder: pytest's own are numbered by going through all that are there."""
    return tmp_path_factory.mktemp("settings")


@pytest.fixture(autouse=True)
def where_settings_are(all_settings: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where this test's settings go if it keeps any; not even the folder is there, for few tests need it."""
    path = all_settings / str(next(NUMBERS)) / "settings.json"
    monkeypatch.setenv("OFFSQUARE_SETTINGS", str(path))
    return path


@pytest.fixture
def own_settings(where_settings_are: Path) -> Path:
    """A settings file of this test's own, which is not there yet."""
    where_settings_are.parent.mkdir()
    return where_settings_are
