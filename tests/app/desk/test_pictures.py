"""The guide's pictures show nothing of the machine that made them: the fields are read while each picture is made."""

import importlib.util
import tempfile
from pathlib import Path
from types import ModuleType

import pytest
from PySide6.QtWidgets import QLabel, QLineEdit, QWidget

ROOT = Path(__file__).resolve().parents[3]
OURS = (str(ROOT), str(Path.home()), tempfile.gettempdir())
"""Paths of this machine that a picture could show."""


def making() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_pictures", ROOT / "docs" / "make_pictures.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def shown(widget: QWidget) -> list[str]:
    """All that can be read in a widget, as it is painted."""
    fields = [line.text() or line.placeholderText() for line in widget.findChildren(QLineEdit)]
    return fields + [label.text() for label in widget.findChildren(QLabel)]


@pytest.fixture
def pictures(monkeypatch: pytest.MonkeyPatch) -> dict[str, list[str]]:
    """What stands in each of the window's pictures, by its file's name; no picture is painted."""
    module, read = making(), dict[str, list[str]]()

    def keep(widget: QWidget, to: Path) -> None:
        read[to.name] = shown(widget)

    monkeypatch.setattr(module, "keep", keep)
    monkeypatch.setattr(module, "keep_whole", keep)
    module.cards("light", Path("pictures"))
    assert module.FOLDER in read["sheets-light.png"]
    return read


def test_no_picture_shows_a_path_of_the_machine_that_made_it(pictures: dict[str, list[str]]) -> None:
    assert {"start-light.png", "sheets-light.png", "sheets-card.png"} <= set(pictures)
    for name, words in pictures.items():
        assert [word for word in words if any(path in word for path in OURS)] == [], name


def test_a_path_would_be_seen() -> None:
    line = QLineEdit()
    line.setText(f"{ROOT}/sample_jobs/one-slip sheets")
    holder = QWidget()
    line.setParent(holder)
    assert any(path in word for word in shown(holder) for path in OURS)
