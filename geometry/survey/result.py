"""What the survey hands on: the adjusted state with its covariance, and what is to be said of the readings."""

import msgspec

from geometry.frame import Array as Array
from geometry.layout import XY, Fit, Survey


class Alternative(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """What the survey would find without some readings that are accused: their `ids`, how the state (p,) would change
    by `change`, and what its covariance would gain, `more` @ `more`ᵀ, `more` (p, k).

    For readings that have no say already (`aside`) `change` is what each mm of them would do if they had.
    """

    ids: tuple[str, ...]
    change: Array
    more: Array
    aside: bool = False


class Surveyed(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The adjusted **state**: all unknowns in one vector, in the survey's own frame (first straightedge).

    `state` (p,), `cov` (p, p) its a-priori covariance, `gain` (p, m) what a change of one in each of the m rows of
    the fit changes in the state, `redundancy` (m,). `point_at` maps each solved point to the column of its x (its y is
    the next); `extra_at` maps the other unknowns to theirs:
    `scale.left`, `shift.left` (likewise right, centre): fret k stands at scale × fraction(k) − shift from the nut's
    front along that path; shift is present only where two frets of that side, far enough apart, were read;
    `zero.A` the zero error of laying A; `diameter.pin.1` a hole's diameter; `height.fret 12.left` a height.
    The m rows are those of `fits`, in their order.
    `rough` holds start places of loose points, in the same frame, for drawing only. `checked` per solved point.
    `besides`: what is said of points that may lie on either side, where the report speaks of readings accused.
    `otherwise`: what may be instead, as long as readings are accused.
    """

    state: Array
    cov: Array
    gain: Array
    redundancy: Array
    point_at: dict[str, int]
    extra_at: dict[str, int]
    fits: tuple[Fit, ...]
    report: Survey
    besides: str = ""
    checked: dict[str, bool]
    rough: dict[str, XY]
    alternatives: tuple[Alternative, ...] = ()
