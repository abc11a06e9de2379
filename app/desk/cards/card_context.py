"""What the window lends its cards when they are made: the document, the plan, and what can be asked of the window."""

from collections.abc import Callable
from typing import NamedTuple

from app.desk.cards.card_stack import CardStack
from app.desk.document.document import Document
from app.desk.document.preferences import Preferences
from app.desk.output.job_pages import JobPages
from app.desk.plan.drawing_board import DrawingBoard
from app.desk.widgets.look import Look
from geometry.findings import Finding
from geometry.job import Held, Job
from geometry.job.job import Hand
from geometry.units import Unit


class CardContext(NamedTuple):
    """`stack` holds the cards, the open one in front. `go_to` goes to what a finding is about, `begin` begins a new
    job, `turn_blank` shows one that is only being begun for the other hand, in another unit or with its bridge held in
    another way, `show_tools` tells what there is to say of cutter and kerf.
    """

    document: Document
    preferences: Preferences
    board: DrawingBoard
    pages: JobPages
    stack: CardStack
    look: Look
    go_to: Callable[[str], None]
    add_reading: Callable[[], None]
    turn_blank: Callable[[Hand, Unit, Held], None]
    begin: Callable[[Job], None]
    ask_open: Callable[[], None]
    open_path: Callable[[str], None]
    open_sample: Callable[[str], None]
    export: Callable[[], None]
    print_sheets: Callable[[], None]
    print_check_sheet: Callable[[str], None]
    show_tools: Callable[[tuple[Finding, ...]], None]
