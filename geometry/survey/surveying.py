"""The survey of a job: readings in, places with their covariance and a verdict on the readings out."""

import numpy as np

from geometry import units
from geometry.job import Job
from geometry.layout import Fit, Loose, Survey
from geometry.survey.adjust import NO_CONTROL, Adjusted, come_to_rest, described
from geometry.survey.datum import Straightedge, moved
from geometry.survey.network import Network, evaluate, network
from geometry.survey.result import Array, Surveyed
from geometry.survey.rows import rows_of
from geometry.survey.sides import Turn, turns
from geometry.survey.start import Choice, Placed, find, sought
from geometry.survey.suspects import BELIEVABLE, SHOWS, snoop

NOTHING = np.array([], dtype=np.intp)


def survey(job: Job) -> Surveyed:
    """Solve all readings of a job that take part. Never raises: what cannot be solved is said in the report."""
    net = network(rows_of(job))
    if not net.rows:
        return _empty()
    sides = turns(job, net.points)
    x, open_choices = _solve(job, net, sides)
    done = _framed(job, net, x)
    return _result(done, open_choices)


def _empty() -> Surveyed:
    none = np.zeros(0)
    return Surveyed(
        state=none,
        cov=np.zeros((0, 0)),
        gain=np.zeros((0, 0)),
        redundancy=none,
        point_at={},
        extra_at={},
        fits=(),
        report=Survey(verdict="unchecked", why="No reading has been taken yet. Begin with the first one in the list."),
        checked={},
        rough={},
    )


def _near(job: Job) -> dict[str, complex]:
    return {
        name: complex(units.mm(point.near[0]), units.mm(point.near[1]))
        for name, point in job.points.items()
        if point.near is not None
    }


def _solve(job: Job, net: Network, sides: tuple[Turn, ...]) -> tuple[Array, tuple[Choice, ...]]:
    what = sought(net.rows, net.points, sides, _near(job))
    flipped: frozenset[str] = frozenset()
    placed = find(what)
    for choice in placed.open:
        other = find(what, flipped | {choice.point})
        if _cost(net, other, sides) < _cost(net, placed, sides) - 1:
            placed, flipped = other, flipped | {choice.point}
    x, _ = come_to_rest(net, _vector(net, placed), NOTHING)
    best = _misfit(net, x, sides)
    still_open = []
    for choice in placed.open:
        other = find(what, flipped ^ {choice.point})
        y, _ = come_to_rest(net, _vector(net, other), NOTHING)
        cost = _misfit(net, y, sides)
        if cost < best - 11:
            x, best, placed, flipped = y, cost, other, flipped ^ {choice.point}
        elif cost < best + 11:
            still_open.append(choice)
    return x, tuple(still_open)


def _vector(net: Network, placed: Placed) -> Array:
    x = np.zeros(net.p)
    z = np.array([placed.at[name] for name in net.points], dtype=complex)
    x[: 2 * len(z)] = z.view(float)
    return x


def _cost(net: Network, placed: Placed, sides: tuple[Turn, ...]) -> float:
    g, _ = evaluate(net, _vector(net, placed))
    plain = np.array([row.form not in ("none", "at") for row in net.rows])
    miss = ((g - net.value) / np.hypot(net.sigma, 1.0))[plain]
    return float(np.minimum(miss**2, 400).sum()) + _against(net, _vector(net, placed), sides)


def _misfit(net: Network, x: Array, sides: tuple[Turn, ...]) -> float:
    g, _ = evaluate(net, x)
    return float((((g - net.value) / net.sigma) ** 2).sum()) + _against(net, x, sides)


def _against(net: Network, x: Array, sides: tuple[Turn, ...]) -> float:
    z = x[: 2 * len(net.points)].view(complex)
    at = dict(zip(net.points, z.tolist(), strict=True))
    return sum((1e6 if turn.said else 200.0) for turn in sides if not turn.agrees(at))


def _framed(job: Job, net: Network, x: Array) -> Adjusted:
    """The fit in the frame that leaves most points held: the first straightedge, if that is one of them."""
    if len(net.points) < 2:
        return described_alone(net, x)
    candidates: list[tuple[str, str]] = []
    for reading in job.readings:
        if reading.taken and len(reading.from_) == 2:
            candidates.append((reading.from_[0], reading.from_[1]))
            break
    if {"nut.left", "end.left"} <= set(net.points):
        candidates.append(("nut.left", "end.left"))
    if {"nut.left", "nut.right"} <= set(net.points):
        candidates.append(("nut.left", "nut.right"))
    spans = sorted((r for r in net.rows if r.form == "distance"), key=lambda r: -r.value)
    candidates += [(r.points[0], r.points[1]) for r in spans]
    candidates.append((net.points[0], net.points[1]))
    best: Adjusted | None = None
    for a, b in candidates:
        datum = Straightedge(a, b)
        done = described(net, moved(net, x, datum, {}), datum)
        if not done.loose:
            return done
        if best is None or len(done.loose) < len(best.loose):
            best = done
    assert best is not None
    return best


def described_alone(net: Network, x: Array) -> Adjusted:
    """A job without points: heights and frets alone."""
    from geometry.survey.datum import Fixed

    return described(net, x, Fixed({name: "xy" for name in net.points}))


def _result(done: Adjusted, open_choices: tuple[Choice, ...]) -> Surveyed:
    net = done.net
    unsettled = {choice.point for choice in open_choices}
    solved = [name for name in net.points if name not in done.loose and name not in unsettled]
    point_at = {name: 2 * i for i, name in enumerate(net.points) if name in solved}
    extra_at = {name: net.column(name) for name in net.extras if not np.any(np.abs(done.free[net.column(name)]) > 1e-4)}
    fits = _fits(done)
    found = snoop(done)
    loose = tuple(_loose(done, name, solved) for name in net.points if name in done.loose)
    named = tuple(net.rows[i].id for i in found.named)
    group = tuple(net.rows[i].id for i in found.group)
    return Surveyed(
        state=done.x,
        cov=done.cov,
        gain=done.gain[:, : net.fitted],
        redundancy=done.redundancy[: net.fitted],
        point_at=point_at,
        extra_at=extra_at,
        fits=fits,
        report=Survey(
            verdict="loose"
            if loose
            else "either side"
            if unsettled
            else "one of these"
            if group
            else "misread"
            if named
            else "unchecked"
            if done.dof == 0
            else "clean",
            why=_why(named, group, loose, unsettled, done),
            suspects=named,
            groups=(group,) if group else (),
            dof=done.dof,
            vtpv=done.squares,
            loose=loose,
            zero_errors={name[5:]: float(done.x[c]) for name, c in extra_at.items() if name.startswith("zero.")},
            diameters={name[9:]: float(done.x[c]) for name, c in extra_at.items() if name.startswith("diameter.")},
        ),
        checked={name: _checked(done, name) for name in solved},
        rough={name: done.place(name) for name in net.points if name not in solved},
    )


def _fits(done: Adjusted) -> tuple[Fit, ...]:
    net = done.net
    w = done.w
    fits = []
    for i, row in enumerate(net.rows[: net.fitted]):
        r = float(done.redundancy[i])
        seen = r > NO_CONTROL
        fits.append(
            Fit(
                id=row.id,
                value=row.value,
                adjusted=row.value + float(done.residual[i]),
                residual=float(done.residual[i]),
                sigma=row.sigma,
                redundancy=r,
                w=float(w[i]) if seen else None,
                believable=BELIEVABLE * row.sigma * (r**0.5 if seen else 1.0),
                smallest_error=SHOWS * row.sigma / r**0.5 if seen else None,
                component=row.component,
            )
        )
    return tuple(fits)


def _checked(done: Adjusted, name: str) -> bool:
    i = 2 * done.net.points.index(name)
    moves = np.abs(done.gain[i : i + 2, : done.net.fitted]).max(axis=0) > 0.05
    r = done.redundancy[: done.net.fitted]
    smallest = SHOWS * done.net.sigma[: done.net.fitted] / np.sqrt(np.maximum(r, 1e-12))
    return bool(np.all((smallest <= np.maximum(3.0, 13 * done.net.sigma[: done.net.fitted]))[moves]))


def _loose(done: Adjusted, name: str, solved: list[str]) -> Loose:
    i = 2 * done.net.points.index(name)
    block = done.free[i : i + 2]
    _, vectors = np.linalg.eigh(block @ block.T + 1e-9 * done.cov[i : i + 2, i : i + 2])
    x, y = vectors[:, -1]
    here = complex(*done.place(name))
    best = max(
        solved,
        key=lambda other: abs(_part(complex(*done.place(other)) - here, complex(x, y))),
        default="",
    )
    held = f"Measure from {best} to {name}." if best else f"Measure to {name} from two points that are known."
    return Loose(point=name, direction=(float(x), float(y)), held_by=held)


def _part(d: complex, e: complex) -> float:
    return (d.conjugate() * e).real / max(abs(d), 1e-9)


def _why(
    named: tuple[str, ...], group: tuple[str, ...], loose: tuple[Loose, ...], unsettled: set[str], done: Adjusted
) -> str:
    if loose:
        return f"Not yet held: {', '.join(point.point for point in loose)}. {loose[0].held_by}"
    if unsettled:
        return f"The readings fit as well with {', '.join(sorted(unsettled))} on the other side. Say which side it is."
    if group:
        return f"One of {', '.join(group)} is wrong, and nothing read so far tells which. Read them again."
    if named:
        return f"Reading {named[0]} does not go with the others. Read it again, or strike it out."
    if done.dof == 0:
        return "Nothing is left over to check with: any reading could be wrong and it would not show."
    return "The readings go together."
