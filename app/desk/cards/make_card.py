"""Makes a step's card when it is first opened; each card's own imports wait until then."""

from typing import TYPE_CHECKING

from app.desk.cards.card import Card

if TYPE_CHECKING:
    from app.desk.frame.desk import Desk


def make(name: str, desk: "Desk") -> Card:
    """The card of a step, tied to the desk."""
    document, look = desk.document, desk.look
    match name:
        case "Measure":
            return desk.commands.measure
        case "Start":
            from app.desk.cards.start.start_card import StartCard

            start = StartCard(document, look, lambda: desk.bench.kept.recent)
            start.begun.connect(desk.commands.begin)
            start.asked_open.connect(desk.doors.open)
            start.asked_path.connect(desk.commands.open_recent)
            start.asked_sample.connect(desk.commands.open_sample)
            return start
        case "Strings":
            from app.desk.cards.strings.strings_card import StringsCard

            strings = StringsCard(document, look)
            strings.chosen.connect(desk.board.highlight_one)
            strings.went_to.connect(desk.go_to)
            strings.went_to_measure.connect(desk.commands.add_reading)
            return strings
        case "Bridge":
            from app.desk.cards.bridge.bridge_card import BridgeCard

            bridge = BridgeCard(document, look)
            bridge.went_to.connect(desk.go_to)
            return bridge
        case "Sheets":
            from app.desk.cards.sheets.sheets_card import SheetsCard
            from app.desk.plan.sheets_preview import Preview

            sheets = SheetsCard(document, look, desk.bench)
            sheets.asked_export.connect(desk.commands.export)
            sheets.asked_print.connect(desk.commands.print)
            sheets.asked_check_sheet.connect(desk.commands.print_check_sheet)
            sheets.went_to.connect(desk.go_to)
            preview = Preview(desk, sheets)
            sheets.wanted.connect(preview.want)
            return sheets
        case _:
            raise ValueError(f"there is no card {name}")
