"""Published figures on strings, in data/strings.json: its `works` name author, title and terms, its `cases` the work.

Lengths in the cases are in mm unless a key says otherwise. What can be derived is derived in the tests instead.
"""

import json
from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np

from geometry.strings.compensation import FretPlaces
from geometry.strings.stretch import Array, Setup


@lru_cache(maxsize=1)
def _cases() -> dict[str, Any]:
    found: dict[str, Any] = json.loads((Path(__file__).parent / "data" / "strings.json").read_text(encoding="utf-8"))
    return dict(found["cases"])


def case(name: str) -> tuple[Any, Any, Any]:
    """Inputs, expected and tolerance of a case."""
    one = _cases()[name]
    return one["inputs"], one.get("expected"), one.get("tolerance")


def equal_frets(nominal: float, strings: int, frets: int = 12) -> FretPlaces:
    """Equal-tempered frets (ratio 2^(1/12)) for strings of one nominal length."""
    row = nominal * (1 - 2.0 ** (-np.arange(1, frets + 1) / 12))
    return FretPlaces(nominal=np.full(strings, nominal), frets=np.tile(row, (strings, 1)))


def setup(
    nominal: float,
    low: float,
    rise: float,
    rho: list[float],
    kappa: list[float],
    behind: float = 0.0,
    frets: int = 12,
) -> Setup:
    """Strings of known radius and kappa over equal-tempered frets."""
    places = equal_frets(nominal, len(rho), frets)
    return Setup(
        nominal=places.nominal[:, None],
        frets=places.frets,
        height=np.array([[low]]),
        rise=np.array([[rise]]),
        sag=np.zeros_like(places.frets),
        behind=np.full_like(places.frets, behind),
        kappa=column(kappa),
        rho=column(rho),
    )


def column(values: list[float]) -> Array:
    """Values of the strings as the equation takes them, (strings, 1)."""
    return np.array(values, dtype=np.float64)[:, None]
