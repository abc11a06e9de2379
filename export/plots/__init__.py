"""Small plots of what a triangle of numbers would say less well; drawn once for the cards and for the job sheet.

A **plot** is a drawing in paper mm, its lower left corner at (0, 0), and a sentence that says the same to those who
don't see it. What a line stands for is told by its type and by words beside it, a mark's by its shape; never by colour
alone.
"""

from export.plots.axes import Plot
from export.plots.cents import cents_before_and_after, cents_of_strings
from export.plots.chain import chain_of_doubt
from export.plots.fret_fits import fret_fits

__all__ = ["Plot", "cents_before_and_after", "cents_of_strings", "chain_of_doubt", "fret_fits"]
