"""The table of cards: what each is called, how it is made, and which blocks of the job file it has fields of.

A card is a module of its own and one entry here; the header, the View menu and the findings find it by this table. Each
card's own imports wait until it is first opened.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from app.desk.cards.card import Card
from app.desk.cards.card_context import CardContext
from app.desk.cards.card_stack import CardStack

if TYPE_CHECKING:
    from app.desk.cards.measure.measure_card import MeasureCard


class CardEntry(NamedTuple):
    """`is_step`: it stands in the header's row of steps. `blocks`: of the job file, whose fields are on it."""

    name: str
    make: Callable[[CardContext], Card]
    blocks: tuple[str, ...] = ()
    is_step: bool = True


def _start(context: CardContext) -> Card:
    from app.desk.cards.start.start_card import StartCard

    card = StartCard(context.document, context.look, context.preferences, context.stack)
    card.begun.connect(context.begin)
    card.turned.connect(context.turn_blank)
    card.asked_open.connect(context.ask_open)
    card.asked_path.connect(context.open_path)
    card.asked_sample.connect(context.open_sample)
    return card


def _measure(context: CardContext) -> Card:
    from app.desk.cards.measure.measure_card import MeasureCard
    from app.desk.cards.measure.reading_on_plan import ReadingOnPlan

    card = MeasureCard(context.document, context.look, context.stack)
    card.findings.went_to.connect(context.go_to)
    card.went_on.connect(lambda to: context.go_to(to) if to.startswith("field:") else context.stack.open(to))
    ReadingOnPlan(card, context.document, context.board, context.stack)
    return card


def _old_work(context: CardContext) -> Card:
    from app.desk.cards.old_work.old_work_card import OldWorkCard
    from app.desk.cards.old_work.old_work_on_plan import OldWorkOnPlan

    card = OldWorkCard(context.document, context.look, context.stack)
    card.went_to.connect(context.go_to)
    card.measuring.connect(lambda reading: _to_measure(context, reading, "Old work"))
    OldWorkOnPlan(card, context.board, context.stack)
    return card


def _to_measure(context: CardContext, reading: str, asked: str, where: str = "") -> None:
    """To the first of the readings that a card asked for; from the last of them the way leads back to it, or to the
    place on it that asked.
    """
    context.go_to(f"reading:{reading}")
    measure_card(context.stack).notes.lead_to(asked, where)


def _strings(context: CardContext) -> Card:
    from app.desk.cards.strings.strings_card import StringsCard

    card = StringsCard(context.document, context.look, context.stack)
    card.chosen.connect(context.board.pictures.highlight_one)
    card.went_to.connect(context.go_to)
    card.went_to_measure.connect(context.add_reading)
    card.by_ear.asked.connect(lambda reading: _to_measure(context, reading, "By ear", "field:strings.heard"))
    return card


def _bridge(context: CardContext) -> Card:
    from app.desk.cards.bridge.bridge_card import BridgeCard
    from app.desk.cards.bridge.place.choice_on_plan import ChoiceOnPlan

    card = BridgeCard(context.document, context.look, context.stack)
    card.went_to.connect(context.go_to)
    ChoiceOnPlan(card.glued.choice, context.board.pictures, context.stack)
    return card


def _headstock(context: CardContext) -> Card:
    from app.desk.cards.headstock.headstock_card import HeadstockCard
    from app.desk.cards.headstock.headstock_on_plan import HeadstockOnPlan

    card = HeadstockCard(context.document, context.look, context.stack)
    card.went_to.connect(context.go_to)
    card.measuring.connect(lambda reading: _to_measure(context, reading, "Headstock"))
    card.pointing.connect(context.board.pointer.place)
    HeadstockOnPlan(card, context.document, context.board, context.stack)
    return card


def _sheets(context: CardContext) -> Card:
    from app.desk.cards.sheets.sheets_card import SheetsCard
    from app.desk.cards.sheets.sheets_preview import SheetsPreview

    card = SheetsCard(context.document, context.look, context.preferences, context.stack)
    card.asked_export.connect(context.export)
    card.asked_print.connect(context.print_sheets)
    card.asked_check_sheet.connect(context.print_check_sheet)
    card.went_to.connect(context.go_to)
    SheetsPreview(card, context.pages, context.board.pictures, context.stack, context.show_tools)
    return card


CARDS = (
    CardEntry("Start", _start, is_step=False),
    CardEntry("Measure", _measure),
    CardEntry("Old work", _old_work, ("old", "bridge_off")),
    CardEntry("Strings", _strings, ("strings", "frets", "nut", "board.radius", "board.arch")),
    CardEntry("Bridge", _bridge, ("bridge", "saddle", "floating", "separate", "tail", "choice", "kept", "proof")),
    CardEntry("Headstock", _headstock, ("hardware",)),
    CardEntry("Sheets", _sheets, ("sheets",)),
)


def steps() -> tuple[str, ...]:
    """The names of the steps, in the order of the work."""
    return tuple(entry.name for entry in CARDS if entry.is_step)


def make(name: str, context: CardContext) -> Card:
    """The card of that name, tied to what it was lent."""
    return next(entry for entry in CARDS if entry.name == name).make(context)


def measure_card(cards: CardStack) -> "MeasureCard":
    """The Measure card of the stack, open or not."""
    from app.desk.cards.measure.measure_card import MeasureCard

    return cards.get_as("Measure", MeasureCard)


def card_with(block: str) -> str:
    """The name of the card that has the fields of a block of the job file, or nothing."""
    return next((entry.name for entry in CARDS if block in entry.blocks), "")
