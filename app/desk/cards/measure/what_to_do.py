"""What the Measure card says to do: how the reading in hand is taken, or what the line that is chosen is for."""

from app.desk.cards.measure.reading_commands import ReadingCommands
from app.desk.cards.measure.table.measure_table import ReadingTable
from app.say import how_to
from geometry.job import Job

EMPTY = "No readings yet: “Add…” takes one up, and File → New job begins a whole list."
FOLDS = "Left folds this group, Right opens it. Up and Down go on."
MANY = "What you choose or press below is done to all of them."


def what_to_do(job: Job, commands: ReadingCommands, table: ReadingTable, line: str) -> str:
    """How the reading in hand is taken; else how the group in hand folds, else what the card is for, its `line`."""
    taken = commands.chosen
    if taken is not None:
        behind = table.readings.behind(table.at)
        return how_to.take(taken, job.hand, job.unit, behind) if len(commands.all_chosen) < 2 else MANY
    if table.group:
        return FOLDS
    return line if table.readings.rows else EMPTY
