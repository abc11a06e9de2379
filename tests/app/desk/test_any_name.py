"""Ids of readings, names of points and strings and titles may be any text: on the page of the command line, on the
written sheets and in the window no other word and no number comes from them.

Derived: what stands there under names that occur nowhere else, these put for the names that were drawn.
"""

import datetime
import random
import re
from collections import Counter
from collections.abc import Callable
from itertools import chain

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QLabel

from app.cli import bench_page
from app.desk.frame.desk import Desk
from app.say import terminal
from export.drawing.marks import Text
from export.records import Stamp
from export.templates import sheets
from geometry import words
from geometry.job import Job
from geometry.work_out import work_out
from tests.app.desk.conftest import OpenDesk, make_whole, unpainted
from tests.geometry.any_job import test_any_name as any_name
from tests.geometry.any_job.test_any_name import FAMILIES, ODD, OWN, renamed

STAMP = Stamp(
    date=datetime.date(2026, 1, 2), fingerprint="0000-00", templates=("job-sheet", "placement", "before-and-after")
)
JOBS = (
    any_name.misread,
    any_name.swapped,
    any_name.either_side,
    any_name.metal_near_the_slot,
    any_name.one_of_two,
    any_name.own_string,
)
"""With readings accused, exchanged and undecided, and with metal, points and a string under a person's own names."""
OF_SENTENCES = "is. And: to; be"
"""A name with all that parts our own sentences."""
TITLE, IDS = "QTQ", [f"QR{k}Q" for k in range(200)]


def plain(make: Callable[[], Job]) -> Job:
    """The job under names that occur nowhere else."""
    job = make()
    return replace(renamed(job, dict(zip((r.id for r in job.readings), IDS, strict=False)), {}), title=TITLE)


def otherwise(job: Job, seed: int) -> tuple[Job, dict[str, str]]:
    """The job under names that are drawn: words and letters of our own sentences, figures, markup, right-to-left; and
    what was put for what.
    """
    chosen = random.Random(seed)
    drawn = chosen.sample(ODD, len(ODD))
    mine = [name for name in drawn if words.is_own(name) and name.split(".")[0] not in FAMILIES]
    mine = [name for name in mine if not re.fullmatch("[0-9]+[a-z]?", name)]  # numbers are what strings are called
    used = [
        name for name in OWN if name in (*job.points, *(one.name for one in (job.strings.list if job.strings else ())))
    ]
    points = dict(zip(used, (OF_SENTENCES, *mine) if seed == 0 else mine, strict=False))
    chosen.shuffle(drawn)
    numbers = (str(k) for k in range(1000) if str(k) not in drawn)
    ids = dict(zip((r.id for r in job.readings), chain(drawn, numbers), strict=False))
    title = chosen.choice(ODD)
    return replace(renamed(job, ids, points), title=title), {**ids, **points, TITLE: title}


def put(text: str, names: dict[str, str], shown: Callable[[str], str] = str) -> str:
    """The text, each name in it as it is called now: as it is `shown`, and in quotes as it is quoted."""
    each = re.compile("QR[0-9]+Q|Q[XYST]Q")
    quoted = any_name.QUOTED.sub(
        lambda inside: each.sub(lambda found: shown(words.quoted(names[found[0]])[1:-1]), inside[0]), text
    )
    return each.sub(lambda found: shown(names[found[0]]), quoted)


def on_page(job: Job) -> str:
    """The page of the command line, without what keeps its columns under each other."""
    body = bench_page.page(job, work_out(job)).partition("\n\n")[2]  # below the title
    return re.sub(r"[\s─-]+", " ", body).strip()


def on_sheets(job: Job) -> list[str]:
    """The words on the sheets; where a line breaks hangs on how long a name is."""
    made = sheets(job, work_out(job), STAMP, lambda *_: None)
    return [mark.shape.text for sheet in made for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]


def in_window(desk: Desk) -> list[str]:
    """Every word of the cards that speak of readings, old work and strings, those that are heard too."""
    found = []
    for card in ("Measure", "Old work", "Strings", "Bridge"):
        desk.cards.open(card)
        desk.board.refresh()
        make_whole(desk.card)
        for label in desk.card.findChildren(QLabel):
            found += [label.text(), label.toolTip(), label.accessibleName()]
        for button in desk.card.findChildren(QAbstractButton):
            found += [button.text(), button.toolTip(), button.accessibleName()]
        for table in desk.card.findChildren(QAbstractItemView):
            model = table.model()
            for row in range(model.rowCount() if model is not None else 0):
                cells = [model.index(row, column) for column in range(model.columnCount())]
                roles = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole)
                found += [str(cell.data(role)) for cell in cells for role in roles]
    return found


@pytest.mark.parametrize("make", JOBS)
def test_no_word_of_the_page_comes_from_a_name(make: Callable[[], Job]) -> None:
    job = plain(make)
    said = on_page(job)
    for seed in range(4):
        other, names = otherwise(job, seed)
        assert on_page(other) == " ".join(put(said, names, terminal.plain).split()), names


@pytest.mark.parametrize("make", JOBS)
def test_no_word_of_the_sheets_comes_from_a_name(make: Callable[[], Job]) -> None:
    job = plain(make)
    said = on_sheets(job)
    assert any(IDS[0] in text for text in said)
    assert any(TITLE in text for text in said)
    for seed in range(3):
        other, names = otherwise(job, seed)
        wanted = Counter(" ".join(put(text, names) for text in said).split())
        found = Counter(" ".join(on_sheets(other)).split())
        assert found <= wanted, names
        assert {*(wanted - found)} <= {*OF_SENTENCES.split()}, names  # beside a small plot a name is cut short


@pytest.mark.parametrize(("make", "seed"), [(any_name.metal_near_the_slot, 0), (any_name.own_string, 1)])
def test_no_word_of_the_window_comes_from_a_name(make: Callable[[], Job], seed: int, open_desk: OpenDesk) -> None:
    job = plain(make)
    said = in_window(unpainted(open_desk(job)))
    assert any("“" in text for text in said)
    other, names = otherwise(job, seed)
    wanted = [words.first_large(put(text, names)) for text in said]  # a name may begin a field's name
    assert list(map(words.first_large, in_window(unpainted(open_desk(other))))) == wanted, names
