"""Each cause by which a compensation may be wrong moves what it is a cause of, and nothing else."""

import numpy as np
import pytest

from geometry.strings.causes_of_doubt import unsure
from geometry.strings.played import strings_as_played
from geometry.strings.string_make import make
from tests.geometry.strings.test_compensation import FRETS, STEEL

MOVES = [(1, "stretch", ""), (2, "core", "core"), (3, "", "bend"), (4, "mass", ""), (5, "", ""), (7, "", "")]
"""By its column what a cause moves in kappa and in rho."""


@pytest.mark.parametrize(("cause", "kappa", "rho"), [*MOVES, (8, "alike", "")])
def test_a_cause_moves_its_own(cause: int, kappa: str, rho: str) -> None:
    # derived: stretch goes with the core's area, the square of its diameter, over the mass; bending with the diameter
    states = unsure(strings_as_played(STEEL, "right", FRETS))
    for index, string in enumerate(STEEL.list):
        made = make(string)
        assert made is not None
        assert made.ratio is None
        area = {
            "": 1.0,
            "stretch": 1 + made.stretch_sd,
            "core": (1 + made.core_sd) ** 2,
            "mass": 1 / (1 + made.mass_sd),
            "alike": 1 + made.set_sd,
        }
        bent = {"": 1.0, "core": 1 + made.core_sd, "bend": 1 + made.rho_sd}
        seen = states.kappa[:, cause, index] / states.kappa[:, 0, index]
        assert seen == pytest.approx(np.full(seen.shape, area[kappa]))
        seen = states.rho[:, cause, index] / states.rho[:, 0, index]
        assert seen == pytest.approx(np.full(seen.shape, bent[rho]))
