"""Fits so small that what follows from them is derived by hand: each row stands for an unknown of its own, read with
1 mm, and how the rows check each other is given by their control matrix.
"""

from types import SimpleNamespace
from typing import Any

import numpy as np

from geometry.survey.adjust.datum import Free
from geometry.survey.result import Array


def a_fit(
    control: Array,
    residual: list[float],
    *,
    datum: object = None,
    points: int = 1,
    doubted: int | None = None,
    fitted: int | None = None,
    dof: int = 1,
    sigma: float = 1.0,
) -> Any:
    """A fit with this control matrix (m, m) and these residuals (m,) in standard deviations as said. Of its rows the
    first `doubted` may be accused, and the first `fitted` are readings.
    """
    m = len(control)
    net = SimpleNamespace(
        sigma=np.full(m, sigma),
        points=[f"p{k}" for k in range(points)],
        ids=lambda row: (f"r{row}",),
        doubted=m if doubted is None else doubted,
        fitted=m if fitted is None else fitted,
    )
    v, redundancy = np.array(residual), np.diagonal(control).copy()
    return SimpleNamespace(
        net=net,
        slopes=np.eye(m),
        gain=(np.eye(m) - control) / sigma,
        residual=v * sigma,
        redundancy=redundancy,
        w=v / np.sqrt(np.where(redundancy > 0, redundancy, 1.0)),
        datum=datum or Free(("p0",)),
        squares=float(v @ v),
        dof=dof,
    )
