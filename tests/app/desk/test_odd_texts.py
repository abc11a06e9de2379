"""Texts that are no words: markup, half characters, names no folder can have."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from app.desk.frame.about_job import AboutJob
from app.desk.frame.desk import Desk
from app.edit import edits
from app.file.settings import Settings, SettingsError
from export.correction import CheckSheet
from geometry.job import NotAJob
from tests.app.desk.conftest import make_whole, sample

MARKUP = "<b>bold</b><img src='x'>"
HALF = "half \ud800 a character"


def labels(inside: QWidget) -> list[QLabel]:
    return [label for label in inside.findChildren(QLabel) if MARKUP in label.text()]


def test_no_label_takes_a_jobs_words_for_markup(desk: Desk) -> None:
    job = sample("turned-left")
    assert job.strings is not None
    named = tuple(edits.replace(string, name=MARKUP) for string in job.strings.list[:1]) + job.strings.list[1:]
    job = edits.replace(job, title=MARKUP, note=MARKUP, strings=edits.replace(job.strings, list=named))
    desk.job_files.new(job)
    for card in ("Measure", "Old work", "Strings", "Bridge", "Sheets"):
        desk.cards.open(card)
        make_whole(desk.card)
    desk.job_files.failed.emit(f"{MARKUP} cannot be read")
    about = AboutJob(desk.document, desk.look, desk)
    about.open()
    found = labels(desk)
    about.close()
    assert found
    assert [label for label in found if label.textFormat() != Qt.TextFormat.PlainText] == []


def test_half_a_character_is_refused_where_it_is_typed(desk: Desk, tmp_path: Path) -> None:
    about = AboutJob(desk.document, desk.look, desk)
    about.open()
    before = desk.document.job
    assert about.title.visit.settle(HALF).startswith("This text holds half a character, which no file can keep")
    assert desk.document.job == before
    with pytest.raises(NotAJob, match="holds half a character"):
        desk.document.edit("note", edits.replace(before, note=HALF))
    desk.document.save(tmp_path / "a.job.json")
    about.close()


def test_half_a_character_in_the_note_is_said_beside_it(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    about = AboutJob(desk.document, desk.look, desk)
    about.open()
    monkeypatch.setattr(about.note, "toPlainText", lambda: HALF)
    about.note.textChanged.emit()
    assert about.wrong.text().startswith("This text holds half a character")
    assert desk.document.job.note != HALF
    about.close()


def test_a_printers_name_has_whole_characters() -> None:
    with pytest.raises(SettingsError, match="half a character"):
        Settings().with_printer(HALF, CheckSheet(across=180.0, up=180.0))


@pytest.mark.parametrize("name", [HALF, "a\0b"])
def test_a_folder_that_no_system_takes_is_refused(name: str, desk: Desk, tmp_path: Path) -> None:
    desk.exporter.export(tmp_path / name)
    assert desk.notice.words.text().startswith("Nothing was written: the folder’s name holds a sign")
    assert list(tmp_path.iterdir()) == []
