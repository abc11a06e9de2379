"""A reading that others tell little of is shown and told as one that nothing checks: a slip in it would not show."""

from msgspec.structs import replace
from PySide6.QtGui import QImage

from app.desk.cards.measure.table.measure_table import ReadingTable
from app.desk.cards.measure.table.reading_row import UNCHECKED
from app.desk.cards.measure.table.readings_model import FITS
from app.say.figures.unchecked import unchecked
from geometry.layout import Fit
from tests.app.desk.conftest import OpenDesk, sample


def painted(table: ReadingTable) -> QImage:
    """The cell under “fits” of the line that is chosen."""
    cell = table.visualRect(table.readings.index(table.currentIndex().row(), FITS))
    return table.viewport().grab(cell).toImage()


def test_a_reading_of_two_numbers_wears_a_ring_where_a_slip_in_one_would_not_show(open_desk: OpenDesk) -> None:
    """However far off the other one is: the rows say what the count over the table and the old work say."""
    desk = open_desk(sample("leaning-neck"))
    table, layout = desk.measure.table, desk.document.layout
    assert layout is not None
    parted = {fit.id for fit in layout.readings if fit.checked} & unchecked(layout)
    assert parted
    rows = {row.id: row for row in table.readings.rows}
    assert {name for name, row in rows.items() if row.said() == UNCHECKED} == unchecked(layout)
    far = next(rows[name] for name in parted)
    fits = tuple(replace(fit, residual=0.2 if fit.checked else 0.0) for fit in far.fits)
    assert far._replace(fits=fits).said() == UNCHECKED


def test_a_slip_that_would_not_show_has_a_ring_and_is_told_so(open_desk: OpenDesk) -> None:
    table = open_desk(sample("turned-left")).measure.table
    rows = table.readings.rows
    at, fit = next(
        (at, row.worst) for at, row in enumerate(rows) if row.worst and row.worst.w and not row.worst.checked
    )
    assert rows[at].said() == UNCHECKED
    table.go(at)
    hardly = painted(table)

    def shown_as(other: Fit) -> QImage:
        rows[at] = rows[at]._replace(fits=(other,))
        return painted(table)

    assert shown_as(replace(fit, w=None, smallest_error=None)) == hardly
    assert shown_as(replace(fit, redundancy=0.5, smallest_error=1.0)) != hardly
    assert rows[at].said().startswith("fits, ")
