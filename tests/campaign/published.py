"""How far the program's own numbers lie from published ones: networks of surveying books and tables of strings."""

from collections.abc import Iterator

import numpy as np

from tests.published.string_cases import case as string_case
from tests.published.survey_cases import NETWORKS
from tests.published.test_strings_stretch import NYLON_SETS, measured_set, on_the_real_instrument, worked_out
from tests.published.test_survey_networks import adjusted

HEAD = """
## Against what others published

The networks are worked through in surveying books and adjusted by an independent program besides; lengths are in each
network’s own unit. The strings are the two nylon sets of Anderson & Beausoleil (2024), with the set-backs that they
print, and the instrument on which they measured how sharp each fret sounded. The tests hold these figures.

| what | source | compared | farthest apart |
|---|---|---|---|
"""


def text() -> str:
    """The section of the page."""
    return HEAD + "".join(f"| {' | '.join(cells)} |\n" for cells in (*_networks(), *_strings()))


def _networks() -> Iterator[tuple[str, str, str, str]]:
    for key, case in NETWORKS.items():
        done = adjusted(case)
        places = [
            abs(found - told)
            for name, (x, y, *_) in case["coordinates"].items()
            for found, told in zip(done.place(name), (x, y), strict=True)
        ]
        rows = [abs(v - case["rows"][row.id][0]) for row, v in zip(done.net.rows, done.residual, strict=True)]
        yield (
            f"network {key}",
            str(case.get("source", "")).replace("'", "’"),
            f"{len(places) // 2} points, {len(rows)} readings",
            f"places {max(places):.1e}, residuals {max(rows):.1e}",
        )


def _strings() -> Iterator[tuple[str, str, str, str]]:
    for name in NYLON_SETS:
        _, expected, _ = string_case(f"SETB-{name}")
        apart = [abs(one.saddle - told) for one, told in zip(worked_out(name), expected["dS_mm"], strict=True)]
        yield (
            f"set {name}",
            "Anderson & Beausoleil 2024",
            f"{len(apart)} set-backs at the saddle",
            f"{max(apart):.3f} mm",
        )
    heard = on_the_real_instrument(measured_set())
    _, expected, _ = string_case("MEAS-01")
    low, high = np.tile(expected["fret12_other"], (6, 1)).T
    low[[2, 5]], high[[2, 5]] = expected["fret12_strings_3_6"]
    beyond = np.maximum(np.maximum(low - heard[:, 11], heard[:, 11] - high), 0.0)
    yield "a real instrument", "the same", "6 strings at fret 12, measured ranges", f"{beyond.max():.2f} cents outside"
