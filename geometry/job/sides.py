"""The two physical sides of an instrument, as one sights down the neck from the headstock, strings up."""

from typing import Literal

Side = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")
"""In the order in which whatever there is of both sides stands, everywhere."""
