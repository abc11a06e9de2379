"""What speaks for and against a figure: how its readings fit, and the sides that its points lie on."""

import numpy as np

from geometry.survey.adjust.network import LEVER, SHEETS, Network, evaluate
from geometry.survey.result import Array
from geometry.survey.rows.which_side import Turn
from geometry.survey.start.rough_places import NEVER, RATHER_NOT, ProvisionalPlaces


def vector(net: Network, at: dict[str, complex]) -> Array:
    """Places by name as the vector of unknowns (p,): sheets laid on the places read off them, the other extra unknowns
    at 0.
    """
    x = np.zeros(net.p)
    x[: 2 * len(net.points)] = np.array([at[name] for name in net.points], dtype=complex).view(float)
    for name, up in SHEETS.items():
        _lay_sheet(net, x, name, up, at)
    return x


def _lay_sheet(net: Network, x: Array, name: str, up: int, at: dict[str, complex]) -> None:
    """Turn and shift a sheet to lie best on its points (least squares): a paper may lie any way round, and from half a
    turn off no fit finds the way.
    """
    turn = f"{name}.turn"
    of_x, of_y = (
        {
            row.points[0]: row.value
            for row in net.rows
            if row.form == "at" and row.extras[0][0] == turn and row.component == part
        }
        for part in "xy"
    )
    points = [point for point in of_x if point in of_y]
    if not points:
        return
    read = np.array([complex(of_x[point], up * of_y[point]) for point in points])
    here = np.array([at[point] for point in points])
    spin = complex(np.vdot(here - here.mean(), read - read.mean()))
    angle = float(np.angle(spin)) if abs(spin) > 0 else 0.0
    shift = read.mean() - np.exp(1j * angle) * here.mean()
    x[net.column(turn)] = angle * LEVER
    x[net.column(f"{name}.x")], x[net.column(f"{name}.y")] = shift.real, up * shift.imag


def places(net: Network, x: Array) -> dict[str, complex]:
    """Places by name out of x (p,)."""
    return dict(zip(net.points, x[: 2 * len(net.points)].view(complex).tolist(), strict=True))


def misfit(net: Network, x: Array) -> float:
    """The weighted sum of squares at x (p,)."""
    return whole_cost(net, x, ())


def whole_cost(net: Network, x: Array, sides: tuple[Turn, ...], most: float = np.inf) -> float:
    """The weighted sum of squares at x (p,), no row counted for more than `most`, and what speaks against the sides."""
    miss = (evaluate(net, x)[0] - net.value) / net.sigma
    return float(np.minimum(miss**2, most).sum()) + cost_of_sides(net, x, sides)


def start_cost(net: Network, placed: ProvisionalPlaces, sides: tuple[Turn, ...]) -> float:
    """The same for start places, which are out by a millimetre or so themselves."""
    x = vector(net, placed.at)
    tied = np.array([bool(row.id and row.points) and row.form != "at" for row in net.rows])
    miss = ((evaluate(net, x)[0] - net.value) / np.hypot(net.sigma, 1.0))[tied]
    return float(np.minimum(miss**2, 400).sum()) + cost_of_sides(net, x, sides)


def cost_of_sides(net: Network, x: Array, sides: tuple[Turn, ...]) -> float:
    """What the sides that x (p,) puts points on cost."""
    at = places(net, x)
    return sum((NEVER if turn.said else RATHER_NOT) for turn in sides if not turn.agrees(at))
