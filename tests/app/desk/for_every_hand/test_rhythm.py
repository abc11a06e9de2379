"""One rhythm down every card: each heading stands as far below what is above it, whatever kind of bridge is told of."""

from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication, QLabel, QScrollArea, QWidget

from app.desk.frame.desk import Desk
from app.desk.widgets.fold import Fold
from geometry.job import Job
from tests.app.desk.conftest import OpenDesk, let_rounds_pass, sample, unpainted

SAMPLES = sorted(path.name.removesuffix(".job.json") for path in Path("sample_jobs").glob("*.job.json"))
CARDS = ("Strings", "Bridge", "Sheets")
APART = 24
"""Pixels at 100 % (derived: 12 between two rows of a card, and 12 more over a heading)."""
FIRST_IN_FOLD = {"Places to choose from": 22}
"""Derived: 10 below what a fold is opened by, and 12 over a heading."""


def leaves(inside: QWidget) -> list[QWidget]:
    """What is seen of a part and has nothing inside that is seen."""
    found = [w for w in inside.findChildren(QWidget) if w.isVisibleTo(inside) and w.height() > 1 and w.width() > 1]
    return [w for w in found if not any(c.isVisibleTo(inside) for c in w.findChildren(QWidget))]


def gaps(inside: QWidget) -> Iterator[tuple[str, int]]:
    """Each heading but the first of all, and the pixels between it and what stands above it."""
    boxes = []
    for leaf in leaves(inside):
        top = leaf.mapTo(inside, QPoint(0, 0)).y()
        boxes.append((top, top + leaf.height(), leaf))
    for top, _, leaf in boxes:
        if isinstance(leaf, QLabel) and leaf.property("role") == "heading":
            above = [low for _, low, other in boxes if low <= top and other is not leaf]
            if above:
                yield leaf.text(), top - max(above)


def settle() -> None:
    for _ in range(3):
        QApplication.processEvents()


def headings(desk: Desk, card: str) -> dict[str, int]:
    desk.cards.open(card)
    for fold in desk.card.findChildren(Fold):
        fold.set_open(True)
    settle()
    let_rounds_pass()
    settle()
    areas = [area for area in desk.card.findChildren(QScrollArea) if area.isVisible()]
    inside = max(areas, key=lambda area: area.height()).widget() if areas else None
    return dict(gaps(inside)) if inside else {}


def test_headings_stand_as_far_below_what_is_above_them(desk: Desk) -> None:
    unpainted(desk)
    desk.frame.resize(1366, 2600)
    for name in SAMPLES:
        desk.document.start(sample(name))
        found = {(card, text): gap for card in CARDS for text, gap in headings(desk, card).items()}
        assert len(found) > 5, name
        assert {of: gap for of, gap in found.items() if gap != FIRST_IN_FOLD.get(of[1], APART)} == {}, name


def test_no_heading_stands_over_nothing(open_desk: OpenDesk) -> None:
    """An empty job has no string to choose or to hear, and no bridge to prove."""
    desk = unpainted(open_desk(Job()))
    desk.frame.resize(1366, 2600)
    shown = {text for card in ("Strings", "Bridge") for text in headings(desk, card)}
    assert not shown & {"The chosen string", "The chosen string: 1", "By ear", "Proof"}
    desk.document.start(sample("leaning-neck"))
    shown = {text for card in ("Strings", "Bridge") for text in headings(desk, card)}
    assert {"The chosen string: 1", "By ear", "Proof"} <= shown
