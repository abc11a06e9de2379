"""What all tests share: no display is needed, and no test touches the settings of whoever runs it."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
settings.register_profile("ci", derandomize=True, print_blob=True)
if os.environ.get("CI"):
    settings.load_profile("ci")  # the same examples at each run; without it others each time


@pytest.fixture(autouse=True)
def own_settings(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A settings file of this test's own, which is not there yet."""
    path = tmp_path_factory.mktemp("settings") / "settings.json"
    monkeypatch.setenv("OFFSQUARE_SETTINGS", str(path))
    return path
