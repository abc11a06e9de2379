"""What all tests share: no display is needed, and no test touches the settings of whoever runs it."""

import gc
import os
from pathlib import Path
from tempfile import mkdtemp

import pytest
from hypothesis import settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # before numpy is loaded, and as in the program
settings.register_profile("ci", derandomize=True, print_blob=True)
if os.environ.get("CI"):
    settings.load_profile("ci")  # the same examples at each run; without it others each time


def pytest_collection_finish() -> None:
    """What is loaded by now stays to the end: it need not be gone through again whenever garbage is collected."""
    gc.collect()
    gc.freeze()


@pytest.fixture(scope="session")
def all_settings(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where each test's settings have a folder: pytest's own are numbered by going through all that are there."""
    return tmp_path_factory.mktemp("settings")


@pytest.fixture(autouse=True)
def own_settings(all_settings: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A settings file of this test's own, which is not there yet."""
    path = Path(mkdtemp(dir=all_settings)) / "settings.json"
    monkeypatch.setenv("OFFSQUARE_SETTINGS", str(path))
    return path
