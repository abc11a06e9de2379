"""The **choice of place**: what speaks for one place of the bridge and what for another, weighed by the person."""

from geometry.choice.choose import ChosenPlace, choose

__all__ = ["ChosenPlace", "choose"]
