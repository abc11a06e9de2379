"""Makes every picture in docs/pictures/ anew from the running program.

The window is painted on a screen that isn't there (Qt's offscreen platform), with settings of its own in a folder that
is thrown away; the sheets are the exported PDF files, drawn by pdfium. Nothing is retouched. What is shown in words is
checked by tests/test_docs.py; what is shown in pictures is to be looked at after this has run.
"""

import datetime
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise
from pathlib import Path

import msgspec
import pypdfium2
from PySide6.QtCore import QPoint, QSizeF
from PySide6.QtGui import QPixmap, QRegion
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QScrollArea, QWidget

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from app.desk.cards.card import Card  # noqa: E402
from app.desk.cards.sheets.sheets_card import SheetsCard  # noqa: E402
from app.desk.document.preferences import Preferences  # noqa: E402
from app.desk.frame.desk import Desk  # noqa: E402
from app.desk.frame.window import Frame  # noqa: E402
from app.desk.widgets.look import LIGHT, Look, Theme, load_typeface  # noqa: E402
from app.desk.widgets.reading_picture import ReadingPicture  # noqa: E402
from app.desk.widgets.style_sheet import apply_look  # noqa: E402
from app.file import export_job, job_file, samples, settings  # noqa: E402  # from a checkout that isn't installed, too
from app.file.settings import Settings  # noqa: E402
from geometry.job import Job  # noqa: E402
from geometry.job.measured.kinds import SHAPES  # noqa: E402
from geometry.work_out import work_out  # noqa: E402

PICTURES = ROOT / "docs" / "pictures"
SIZE, RATIO = (1440, 900), 1.5
"""The window's size in pixels of its own, and how many of the picture's pixels go into one of them."""
DOTS = 130
"""Dots to the inch in the pictures of sheets."""
COLUMN, GAP = 760, 24
"""How high a column of a whole card's picture may be, and what stays blank round it, in the window's pixels."""
THINKS = 1500
"""ms until what the window works out when the hands are idle is on the screen too."""
DAY = datetime.date(2025, 3, 1)
"""The date on the sheets, so that a picture changes only when its sheet does."""
SLIP, SLIPPED, TRUE = "one-slip", "r37", 42.5
"""The sample job of the tutorial, its wrong reading, and what the rule says when that is read again (mm)."""
KINDS = {"floating-five": "bridge-place", "slanted-separate": "saddle-bases"}
"""The sample jobs of bridges that are not glued, and the sheet that is shown of each."""
FOLDER = "~/jobs/one-slip sheets"
"""What stands in the pictures as the folder for files: nobody's, in place of one of the machine they are made on."""
THEMES: tuple[Theme, ...] = ("light", "dark")


def main() -> None:
    os.environ["QT_QPA_PLATFORM"], os.environ["QT_SCALE_FACTOR"] = "offscreen", str(RATIO)
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as bare:
        os.environ["OFFSQUARE_SETTINGS"] = str(Path(bare) / "settings.json")
        app = QApplication(["offsquare"])
        app.setStyle("Fusion")
        app.setCursorFlashTime(0)  # or a picture would differ with the moment
        load_typeface()
        made = Path(bare) / "pictures"
        made.mkdir()
        for theme in THEMES:
            cards(theme, made)
        kinds_of_reading(made)
        kinds_of_bridge(made)
        sheets(made)
        sheets_of_kinds(made)
        shutil.rmtree(PICTURES, ignore_errors=True)  # only when all the new ones are there
        shutil.copytree(made, PICTURES)
    print(f"{len(list(PICTURES.glob('*.png')))} pictures in {PICTURES}")


def cards(theme: Theme, to: Path) -> None:
    """Each card of the window, with the tutorial's job."""
    with desk(theme) as on:
        keep(on.frame, to / f"start-{theme}.png")
        on.commands.open_sample(str(sample("leaning-neck")))
        on.go_to("reading:r5")
        keep(on.frame, to / f"desk-{theme}.png")
        on.commands.open_sample(str(sample(SLIP)))
        on.go_to(f"reading:{SLIPPED}")
        keep(on.frame, to / f"measure-{theme}.png")
        on.measure.typing.put(SLIPPED, str(TRUE))
        if theme == "light":
            keep(on.frame, to / "mended.png")
            on.commands.add_reading()
            keep(on.measure, to / "add-a-reading.png")
        for name in ("Strings", "Bridge", "Sheets"):
            on.cards.open(name)
            if isinstance(on.card, SheetsCard):
                on.card.into.line.setText(FOLDER)
            keep(on.frame, to / f"{name.lower()}-{theme}.png")
            if theme == "light":
                keep_whole(on.card, to / f"{name.lower()}-card.png")


def kinds_of_bridge(to: Path) -> None:
    """The Bridge card with the plan, for bridges that are not glued."""
    with desk("light") as on:
        for name in KINDS:
            on.commands.open_sample(str(sample(name)))
            on.cards.open("Bridge")
            keep(on.frame, to / f"bridge-{name}.png")


def sheets_of_kinds(to: Path) -> None:
    """A sheet each of bridges that are not glued."""
    for name, template in KINDS.items():
        job = job_file.read(sample(name))
        chosen = msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, templates=(template,)))
        stamp = msgspec.structs.replace(export_job.stamp(chosen, job_file.fingerprint(job)), date=DAY)
        (path,) = export_job.export(job, work_out(job), stamp, to.parent / name, ("pdf",))
        page = pypdfium2.PdfDocument(path)[0]
        page.render(scale=DOTS / 72).to_pil().convert("L").save(to / f"sheet-{template}.png", optimize=True)


def kinds_of_reading(to: Path) -> None:
    """How straightedge and rule are held for each kind of reading, as the Measure card shows it."""
    look = Look(LIGHT, 1.0)
    for kind in SHAPES:
        picture = ReadingPicture(look)
        picture.show_kind(kind, "")
        picture.resize(picture.sizeHint())
        picture.grab().save(str(to / f"reading-{kind}.png"), "PNG", 0)


def sheets(to: Path) -> None:
    """The placement template, the check sheet and the job sheet of the tutorial's job, once it is mended."""
    job = mended(job_file.read(sample(SLIP)))
    chosen = msgspec.structs.replace(job.sheets, templates=("placement", "check-sheet", "job-sheet"))
    stamp = export_job.stamp(msgspec.structs.replace(job, sheets=chosen), job_file.fingerprint(job))
    stamp = msgspec.structs.replace(stamp, date=DAY)
    for path in export_job.export(job, work_out(job), stamp, to.parent / "sheets", ("pdf",)):
        pages = pypdfium2.PdfDocument(path)
        for at, page in enumerate(pages, 1):
            name = f"sheet-{path.stem}" + (f"-{at}" if len(pages) > 1 else "")
            page.render(scale=DOTS / 72).to_pil().convert("L").save(to / f"{name}.png", optimize=True)


def mended(job: Job) -> Job:
    readings = tuple(msgspec.structs.replace(r, value=TRUE) if r.id == SLIPPED else r for r in job.readings)
    return msgspec.structs.replace(job, readings=readings)


@contextmanager
def desk(theme: Theme) -> Iterator[Desk]:
    """A window of its own."""
    preferences = Preferences(Settings(theme=theme, text=1.0))
    settings.save(preferences.settings)
    apply_look(preferences.look())
    frame = Frame(preferences, lambda made: Desk(made, made.preferences))
    frame.furnish()
    frame.resize(*SIZE)
    frame.show()
    on = frame.desk
    assert on is not None
    yield on
    on.document.start(on.document.job)  # nothing to be asked about
    on.recovery.drop()
    frame.close()
    frame.deleteLater()


def keep_whole(card: Card, to: Path) -> None:
    """Keep a picture of all of a card, with what one must scroll to: in columns, parted above a heading."""
    area = card.findChild(QScrollArea)
    inside = area.widget() if isinstance(area, QScrollArea) else None
    assert inside is not None
    labels = (label for label in inside.findChildren(QLabel) if label.property("role") == "heading")
    heads = sorted(label.mapTo(inside, label.rect().topLeft()).y() for label in labels if label.isVisible())
    cuts = [0]
    for head, after in pairwise([*heads, inside.height()]):
        if after - cuts[-1] > COLUMN:
            cuts.append(head)
    cuts.append(inside.height())
    wide, high = inside.width() + GAP, max(low - top for top, low in pairwise(cuts))
    size = QSizeF(wide * (len(cuts) - 1) + GAP, high + 2 * GAP) * RATIO
    picture = QPixmap(size.toSize())
    picture.setDevicePixelRatio(RATIO)
    picture.fill(LIGHT.card)
    for at, (top, low) in enumerate(pairwise(cuts)):
        part = QRegion(0, top, inside.width(), low - top)
        inside.render(picture, QPoint(GAP + at * wide, GAP), part, QWidget.RenderFlag.DrawChildren)
    picture.save(str(to), "PNG", 0)


def keep(widget: QWidget, to: Path) -> None:
    """Keep a picture of a widget, when it has come to rest."""
    QTest.qWait(THINKS)
    widget.grab().save(str(to), "PNG", 0)


def sample(name: str) -> Path:
    path = samples.find(name)
    assert path is not None, name
    return path


if __name__ == "__main__":
    main()
