"""The tutorial done to the letter: the page itself says what to press, to type and to tick, and each sentence that it
quotes, each name in bold, each figure and each line of its table stands where it says.

A step of the page is a section. What it **tells** is looked for in what the window shows from the step's beginning to
its end, and on the sheets that were written by then.
"""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pdfplumber
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QMenu,
    QPushButton,
    QTableView,
    QWidget,
)

from app.cli import command_line
from app.desk.cards.findings_list import FindingLine
from app.desk.frame.desk import Desk
from app.desk.frame.step_row import StepButton
from app.desk.frame.strip_cell import Cell
from app.desk.plan.painting.plan_widget import Plan
from app.desk.widgets.inputs.choice import Tick
from export.drawing.marks import Text
from tests.app.desk.conftest import USUAL, Answers, OpenDesk, let_hands_rest, make_whole, press, type_into

PAGE = Path(__file__).parents[3] / "docs" / "tutorial.md"
LOW = 720
"""Pixels, so high is a window on a small screen."""


def plain(text: str) -> str:
    """Words without the page's own marks, on one line."""
    return " ".join(text.replace("*", "").replace("`", "").split())


def steps(page: str) -> dict[str, str]:
    """The page's sections by their headings, in order; what stands before the first is left out."""
    found = re.split(r"^## (.+)$", page, flags=re.MULTILINE)[1:]
    return dict(zip(found[::2], found[1::2], strict=True))


def prose(section: str) -> str:
    """A section without its code, its pictures and where its links lead."""
    without = re.sub(r"```.*?```|!\[.*?\]\(.*?\)", "", section, flags=re.DOTALL)
    return re.sub(r"\]\(.*?\)", "]", without)


# what a page tells


def bold(section: str) -> list[str]:
    """The names in bold, of a menu's path each part."""
    return [part for found in re.findall(r"\*\*(.+?)\*\*", section, re.DOTALL) for part in plain(found).split(" → ")]


def quoted(section: str) -> list[str]:
    """Sentences that the window says, and what stands in quotes."""
    said = re.findall(r"^> (.+)$", section, re.MULTILINE)
    return [plain(words) for words in (*said, *re.findall(r"“(.+?)”", prose(section), re.DOTALL))]


def figures(section: str) -> list[str]:
    """Numbers with what they are of, as in “±2.2 mm”, “6.0 cents”, “57 taken”."""
    of = r"±?\d+(?:\.\d+)? (?:mm|cents)\b|\d+ (?:taken|checked by others)"
    return re.findall(of, plain(re.sub(r"^> .+$", "", prose(section), flags=re.MULTILINE)))


def tables(section: str) -> list[dict[str, str]]:
    """The lines of a table, each by its heads."""
    lines = [[plain(cell) for cell in line.strip("|").split("|")] for line in re.findall(r"^\|.*\|$", section, re.M)]
    return [dict(zip(lines[0], line, strict=True)) for line in lines[2:]] if lines else []


# what the window shows


def shown(desk: Desk) -> str:
    """All words that are to be seen in the window, menus and lists that unfold among them."""
    return plain(" \n ".join(_words(desk)))


def _words(desk: Desk) -> Iterator[str]:
    for widget in desk.frame.findChildren(QWidget):
        if not widget.isVisible():
            continue
        match widget:
            case Cell():
                yield f"{widget.figure.title} {widget.figure.value} {widget.figure.rest}"
                yield widget.accessibleName()
            case StepButton():
                yield widget.accessibleName()
            case FindingLine():
                yield widget.finding.text
            case QLabel() | QAbstractButton() | QLineEdit():
                yield widget.text()
            case QComboBox():
                yield from (widget.itemText(at) for at in range(widget.count()))
            case QTableView():
                yield from _cells(widget)
            case Plan() if widget.drawing is not None:
                yield from (mark.shape.text for mark in widget.drawing.marks if isinstance(mark.shape, Text))
    for action in desk.frame.findChildren(QAction):
        yield action.text().replace("&", "")


def _cells(table: QTableView) -> Iterator[str]:
    model, role = table.model(), Qt.ItemDataRole
    for column in range(model.columnCount()):
        yield str(model.headerData(column, Qt.Orientation.Horizontal))
        for row in range(model.rowCount()):
            for way in (role.DisplayRole, role.AccessibleTextRole):
                yield str(model.data(model.index(row, column), way) or "")


# the hand


def settle() -> None:
    for _ in range(3):
        QApplication.processEvents()


class Seen(NamedTuple):
    """What was to be seen during a step, at its beginning and at its end."""

    all: str
    first: str
    last: str


class Hand:
    """Does what a section says, in the order in which it says it."""

    def __init__(self, desk: Desk, answers: Answers, folder: Path) -> None:
        self.desk, self.answers, self.folder = desk, answers, folder

    def do(self, section: str) -> Seen:
        """Do it; what was to be seen on the way, and at its end."""
        seen = [shown(self.desk)]
        for act, told in self._acts(section):
            act(told)
            settle()
            seen.append(shown(self.desk))
        if lacking(bold(section), " ".join(seen)):
            let_hands_rest(self.desk)  # then it comes up by itself what is worth measuring next
        seen.append(shown(self.desk))
        if self.desk.frame.height() == LOW:
            self.desk.frame.resize(self.desk.frame.width(), USUAL[1])
            settle()
        return Seen(" ".join(seen), seen[0], seen[-1])

    def _acts(self, section: str) -> Iterator[tuple[Any, str]]:
        """What is to be done, and with what."""
        text = plain_but_bold(section)
        known = {
            r"start the program alone and choose “(.+?)”": self.choose,
            r"\[the card (\w+)\]": self.open_card,
            r"so has \*\*(.+?)\*\* at the foot[^.]*\. Click that figure": self.click_figure,
            r"Type `(.+?)` and press Enter": self.type_value,
            r"First save the job: \*\*(.+?)\*\*": self.press_menu,
            r"open the card \*\*(.+?)\*\*": self.open_card,
            r"Tick ((?:\*\*.+?\*\*(?: and )?)+)": self.tick_only,
            r"In a (low) window": self.make_low,
            r"press \*\*(Export files|Why)\*\*": self.press_button,
        }
        found = [(match.start(), act, match[1]) for way, act in known.items() for match in re.finditer(way, text)]
        yield from ((act, told) for _, act, told in sorted(found, key=lambda one: one[0]))

    def make_low(self, _how: str) -> None:
        """The window as low as on a small screen, to the end of the step."""
        self.desk.frame.resize(self.desk.frame.width(), LOW)
        settle()

    def choose(self, name: str) -> None:
        self._click(next(b for b in self._seen(QPushButton) if b.text() == name))

    def press_button(self, name: str) -> None:
        self._click(next(b for b in self._seen(QPushButton) if b.text() == name))

    def open_card(self, name: str) -> None:
        self._click(self.desk.header.steps.buttons[name])

    def click_figure(self, title: str) -> None:
        self._click(next(cell for cell in self.desk.strip.cells if cell.figure.title == title))

    def type_value(self, text: str) -> None:
        table = self.desk.measure.table
        assert table.hasFocus()
        type_into(table, text[0])
        line = next(found for found in table.findChildren(QLineEdit) if found.isVisible())
        type_into(line, text[1:])
        press(line, Qt.Key.Key_Return)

    def press_menu(self, path: str) -> None:
        self.answers.save = self.folder / "mine.job.json"
        action_at(self.desk, path).trigger()

    def tick_only(self, names: str) -> None:
        wanted = re.findall(r"\*\*(.+?)\*\*", names)
        make_whole(self.desk.card)
        ticks = {tick.text(): tick for tick in self._seen(Tick, anywhere=True)}
        assert set(wanted) <= set(ticks)
        from export.templates import TEMPLATES

        for template in TEMPLATES.values():
            if ticks[template.title].isChecked() != (template.title in wanted):
                ticks[template.title].click()

    def _seen(self, kind: Any, *, anywhere: bool = False) -> list[Any]:
        return [found for found in self.desk.frame.findChildren(kind) if anywhere or found.isVisible()]

    def _click(self, button: QAbstractButton) -> None:
        assert button.isVisible()
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def plain_but_bold(section: str) -> str:
    """A section on one line; a picture of a card stands for opening that card."""
    cards = re.sub(r"!\[The ([A-Z]\w+) card.*?\]\(.*?\)", r"[the card \1]", section, flags=re.DOTALL)
    return " ".join(re.sub(r"```.*?```|!\[.*?\]\(.*?\)", "", cards, flags=re.DOTALL).split())


def action_at(desk: Desk, path: str) -> QAction:
    """A command by the menu it is in and its name."""
    menu, _, name = path.partition(" → ")
    (found,) = (m for m in desk.frame.findChildren(QMenu) if m.title().replace("&", "") == menu)
    return next(action for action in found.actions() if action.text().replace("&", "") == name)


@pytest.fixture(scope="module")
def page() -> dict[str, str]:
    return steps(PAGE.read_text(encoding="utf-8"))


@pytest.fixture
def walked(open_desk: OpenDesk, answers: Answers, page: dict[str, str], tmp_path: Path) -> dict[str, Seen]:
    """What was to be seen at each step, by its heading."""
    hand = Hand(open_desk(None), answers, tmp_path)
    return {head: hand.do(section) for head, section in page.items()}


def on_paper(folder: Path) -> str:
    """All words on the sheets that were written, those over each other along a side too."""
    found = []
    for path in sorted(folder.rglob("*.pdf")):
        with pdfplumber.open(path) as pdf:
            for page in pdf.pages:
                found += [page.extract_text() or "", _up_the_sides(page)]
    return plain(" ".join(found))


def _up_the_sides(page: Any) -> str:
    """The figures that stand over each other to one line at their right, as a scale's do, from the foot up."""
    scales = (word for word in page.extract_words() if re.fullmatch(r"\d+|mm|in", word["text"]))
    figures = sorted(scales, key=lambda word: -word["top"])
    columns = ([word["text"] for word in figures if abs(word["x1"] - one["x1"]) < 1.5] for one in figures)
    return " \n ".join(" ".join(column) for column in columns)


def stands(words: str, there: str) -> bool:
    """Whether words stand there as they are, not within others."""
    return re.search(rf"(?<![\w.]){re.escape(words.rstrip('.'))}(?!\w)", there) is not None


def lacking(told: list[str], there: str) -> list[str]:
    """What of it does not stand there. A length may have its ± between the number and the unit."""
    return [words for words in told if not (stands(words, there) or _with_pm(words, there))]


def _with_pm(words: str, there: str) -> bool:
    number, _, unit = words.partition(" ")
    return re.search(rf"(?<![\w.]){re.escape(number)} ±[\d.]+ {unit}(?!\w)", there) is not None


def test_the_tutorial_to_the_letter(walked: dict[str, Seen], page: dict[str, str], tmp_path: Path) -> None:
    paper = on_paper(tmp_path)
    lack = {
        head: missing
        for head, section in page.items()
        if (missing := lacking(told_in(section), f"{walked[head].all} {paper}"))
    }
    assert lack == {}
    told = [words for section in page.values() for words in told_in(section)]
    assert len(told) > 30  # the page was understood
    _signs(walked, page)
    _sides(walked, page)
    _check_distances(page, paper)
    _without_the_window(page, tmp_path)


def told_in(section: str) -> list[str]:
    stamps = re.findall(r"`(file .+?)`", section)
    return [*bold(section), *quoted(section), *figures(section), *stamps]


def _signs(walked: dict[str, Seen], page: dict[str, str]) -> None:
    """What has a triangle has one, and has none when it “has gone”."""
    (names,) = (
        found
        for section in page.values()
        for found in re.findall(r"\*\*(\w+)\*\* has a triangle behind it, and so has \*\*(\w+)\*\*", section)
    )
    found = next(head for head, section in page.items() if "has a triangle behind it" in section)
    gone = next(head for head, section in page.items() if "triangle has gone" in section)
    for name in names:
        sign = rf"(?<!\w){name}(?:: [^,]+)?, look again"
        assert re.search(sign, walked[found].first), name
    assert f"{names[0]}, done" in walked[gone].last


def _sides(walked: dict[str, Seen], page: dict[str, str]) -> None:
    """A figure that is told of both sides stands at both."""
    says = r"\*\*(.+?)\*\* is ([\d.]+) mm at the bass and ([\d.]+) mm at the treble"
    told = [(head, *found) for head, section in page.items() for found in re.findall(says, section)]
    assert told
    for head, title, bass, treble in told:
        assert f"{title}, bass edge {bass} ±" in walked[head].all
        assert f"{title}, treble edge {treble} ±" in walked[head].all


def _check_distances(page: dict[str, str], paper: str) -> None:
    """The table: what lies along an edge is written on the template, the rest on the job sheet."""
    rows = [row for section in page.values() for row in tables(section)]
    assert len(rows) > 3
    for row in rows:
        along, mm, pm = row["along"], row["mm"], row["good within"]
        line = (
            f"{along} {mm} mm, good within {pm}"
            if along.endswith("edge")
            else f"{row['from']} {row['to']} {mm} mm ±{pm}"
        )
        assert stands(line, paper), line


def _without_the_window(page: dict[str, str], folder: Path) -> None:
    """The command that the page gives writes the same sheets."""
    (typed,) = re.findall(r"offsquare (export .+)", "\n".join(page.values()))
    inside = {path.name for path in folder.rglob("*.pdf")}
    job, out = folder / "mine.job.json", folder / "by command"
    words = [str(job) if word == job.name else str(out) if before == "--to" else word for before, word in _pairs(typed)]
    assert command_line.run(words) == 0
    assert {path.name for path in out.rglob("*.pdf")} == inside


def _pairs(typed: str) -> Iterator[tuple[str, str]]:
    """Each word of a command with the one before it."""
    words = typed.split()
    return zip(["", *words], words, strict=False)


def test_what_the_window_does_not_say_would_be_seen() -> None:
    seen = "Fret 12 to slot front, bass edge 318.8 ±2.2 mm · 6.0 cents"
    assert lacking(["Fret 12 to slot front", "318.8 mm", "6.0 cents", "±2.2 mm"], seen) == []
    assert lacking(["Fret 12 to slot", "Slot front", "318.9 mm", "18.8 mm", "6.0 mm"], seen) == [
        "Slot front",
        "318.9 mm",
        "18.8 mm",
        "6.0 mm",
    ]
