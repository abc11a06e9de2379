"""The survey of a job: readings in, places with their covariance and a verdict on the readings out."""

from itertools import combinations

import msgspec
import numpy as np

from geometry import words
from geometry.job import Job
from geometry.layout import XY, Fit, Loose, Survey, Why
from geometry.median import median
from geometry.survey.adjust.adjustment import NO_CONTROL, Adjusted, come_to_rest, describe
from geometry.survey.adjust.datum import Fixed, moved_to_datum
from geometry.survey.adjust.looseness import STILL
from geometry.survey.adjust.network import NO_COLUMNS, Network, network_of
from geometry.survey.adjust.own_frame import in_own_frame, possible_bases
from geometry.survey.judge.checked import Flags, checked_points
from geometry.survey.judge.loose_points import describe_loose
from geometry.survey.judge.suspects import SHOWS, Suspects, agrees, exchanged, find_suspects
from geometry.survey.judge.verdict import judge
from geometry.survey.judge.without_accused import alternatives
from geometry.survey.result import Surveyed
from geometry.survey.rows.row import BELIEVABLE
from geometry.survey.rows.rows_of_readings import rows_of
from geometry.survey.rows.which_side import Turn
from geometry.survey.start.configuration import Configuration, find_configuration
from geometry.survey.start.piece_by_piece import put_together
from geometry.survey.start.set_aside import ASIDE, GROSS, set_aside, suspicious
from geometry.units import as_shown

REACH = 2000.0
"""No point of an instrument lies farther from the middle of the others, mm (common practice, no source)."""
FIRST = Why(what="No reading has been taken yet", then="Begin with the first one in the list.")


class Solution(msgspec.Struct, frozen=True, eq=False):
    """The fit, what may lie elsewhere, what was denied, and the rows set aside; `net` is the network as read. In a
    `doubtful` one some reading may be grossly out.
    """

    done: Adjusted
    net: Network
    doubtful: bool
    elsewhere: dict[str, XY] = {}
    denied: tuple[Turn, ...] = ()
    aside: tuple[int, ...] = ()
    left_out: dict[str, tuple[str, ...]] = {}


def survey(job: Job) -> Surveyed:
    """Solve all readings of a job that take part. Never raises: what cannot be solved is said in the report."""
    rows = rows_of(job)
    solution = _solution(job, network_of(rows))
    if solution.doubtful and not solution.aside and not _explained(solution):
        pieces = put_together(rows, lambda net: not _solution(job, net).doubtful)
        if pieces is not None and pieces.left_out:
            solution = msgspec.structs.replace(_solution(job, pieces.net), left_out=pieces.left_out)
    return _report(job, solution)


def _explained(solution: Solution) -> bool:
    """Whether the readings that snooping names are all that is amiss: without them the others agree."""
    net, found = solution.net, find_suspects(solution.done)
    if found.swap or not found.named or found.group:
        return bool(found.swap)
    sigma = net.sigma.copy()
    sigma[list(found.named)] *= ASIDE
    return agrees(msgspec.structs.replace(net, sigma=sigma), solution.done.x)


def _solution(job: Job, net: Network) -> Solution:
    if len(net.points) < 2:
        still = Fixed(dict.fromkeys(net.points, "xy"))
        held = np.arange(2 * len(net.points))
        done = describe(net, come_to_rest(net, np.zeros(net.p), held).x, still)
        return Solution(done, net, suspicious(done))
    base = next(possible_bases(job, net))
    configuration = find_configuration(job, net, base)
    done = _stood(job, net, configuration)
    doubtful = suspicious(done)
    if doubtful:
        aside, lighter = set_aside(net, configuration.start, base)
        if aside:
            better = find_configuration(job, lighter, base)
            again = _stood(job, lighter, better)
            if np.abs(again.residual[list(aside)]).min() > GROSS:
                return Solution(again, net, suspicious(again), better.elsewhere, better.denied, aside)
    return Solution(done, net, doubtful, configuration.elsewhere, configuration.denied)


def _stood(job: Job, net: Network, configuration: Configuration) -> Adjusted:
    done = in_own_frame(job, net, configuration.x, configuration.base)
    return done if configuration.resting else msgspec.structs.replace(done, resting=False)


def _report(job: Job, solution: Solution) -> Surveyed:
    done, net = _without_runaways(solution.done), solution.done.net
    unsettled = solution.elsewhere
    solved = [name for name in net.points if name not in done.loose and name not in unsettled]
    point_at = {name: 2 * place for place, name in enumerate(net.points) if name in solved}
    m = net.fitted
    first = 2 * len(net.points)
    held: Flags = np.asarray(~(np.abs(done.free[first:]) > STILL).any(axis=1))
    extra_at = {name: first + place for place, name in enumerate(net.extras) if held[place]}
    fits = _fits(solution)
    found = _suspects(solution, fits)
    loose = (*describe_loose(done, solved, job.hand), *(_left_out(job, *item) for item in solution.left_out.items()))
    checked = checked_points(done.x, point_at, done.gain[:, :m], done.redundancy[:m], net.sigma[:m])
    verdict, why, besides = (
        judge(job, done, found, loose, tuple(unsettled), solution.denied, checked, fits)
        if fits
        else ("unchecked", FIRST, "")
    )
    group = _names(net, found.group)
    read = _more_coarsely(done, found.wider) if found.coarse > 1 else _wider(done, found.wider)
    return Surveyed(
        state=read.x,
        cov=read.cov,
        gain=read.gain[:, :m],
        redundancy=read.redundancy[:m],
        point_at=point_at,
        extra_at=extra_at,
        fits=fits,
        report=Survey(
            verdict=verdict,
            why=why,
            suspects=_names(net, found.swap or found.named),
            groups=(group,) if group and not found.swap else (),
            layings=tuple(net.rows[row].laying for row in (*found.named, *found.group) if net.rows[row].laying),
            dof=done.dof,
            vtpv=done.squares,
            coarse=found.coarse,
            wider=found.wider,
            loose=loose,
            zero_errors={name[5:]: float(done.x[at]) for name, at in extra_at.items() if name.startswith("zero.")},
            diameters={
                name[9:]: as_shown(float(done.x[at]), job.unit)
                for name, at in extra_at.items()
                if name.startswith("diameter.")
            },
            elsewhere=dict(unsettled),
        ),
        besides=besides,
        checked=checked,
        rough={name: done.place(name) for name in net.points if name not in solved},
        alternatives=alternatives(read, solution.net, found, solution.aside),
    )


def _more_coarsely(done: Adjusted, times: float) -> Adjusted:
    """The fit of the same readings, each so many times as coarse as it was said to be, its laying's zero with it."""
    net = done.net
    own = np.array([bool(row.id) or row.extras[0][0].startswith("zero.") for row in net.rows])
    coarser = msgspec.structs.replace(net, sigma=np.where(own, times, 1.0) * net.sigma)
    held = np.arange(2 * len(net.points)) if isinstance(done.datum, Fixed) else NO_COLUMNS
    x = come_to_rest(coarser, done.x, held).x
    if not isinstance(done.datum, Fixed):
        x = moved_to_datum(coarser, x, done.datum, {})
    return msgspec.structs.replace(describe(coarser, x, done.datum), loose=done.loose)


def _wider(done: Adjusted, times: float) -> Adjusted:
    """The same fit with a covariance for readings so many times as coarse: x = G l, so each row's own part of it is
    g gᵀ σ² (E. M. Mikhail, Observations and Least Squares, 1976; from memory).
    """
    if times == 1:
        return done
    rows = done.net.doubted
    own = done.gain[:, :rows] * done.net.sigma[:rows]
    return msgspec.structs.replace(done, cov=done.cov + (times**2 - 1) * own @ own.T)


def _without_runaways(done: Adjusted) -> Adjusted:
    """The fit with points loose that lie where no instrument reaches."""
    if len(done.net.points) < 2:
        return done
    places = done.x[: 2 * len(done.net.points)].view(complex)
    middle = complex(median(places.real), median(places.imag))
    far = {done.net.points[i] for i in np.flatnonzero(~(np.abs(places - middle) < REACH))}
    return msgspec.structs.replace(done, loose=done.loose | far) if far else done


def _left_out(job: Job, name: str, ids: tuple[str, ...]) -> Loose:
    """A point whose readings do not go with the rest, and which they are."""
    said = words.several(words.readings_called(job, (taken.id for taken in job.readings if taken.id in ids)))
    found = f"The readings to it do not agree with each other or with the rest: {said}. Read them again."
    return Loose(point=name, direction=None, held_by=found)


def _names(net: Network, rows: tuple[int, ...]) -> tuple[str, ...]:
    """Readings by their rows, each once: a reading of two numbers has two rows, a laying all its readings."""
    return tuple(dict.fromkeys(name for row in rows for name in net.ids(row)))


def _suspects(solution: Solution, fits: tuple[Fit, ...]) -> Suspects:
    """What the fit says, with the readings set aside before all others."""
    found = find_suspects(solution.done)
    aside = sorted(solution.aside, key=lambda row: -abs(fits[row].residual))
    return msgspec.structs.replace(
        found,
        named=(*aside, *found.named),
        errors=(*(-fits[row].residual for row in aside), *found.errors),
        swap=_swap_aside(solution, (*aside, *found.named)) if aside else found.swap,
    )


def _swap_aside(solution: Solution, rows: tuple[int, ...]) -> tuple[int, ...]:
    """The two rows set aside whose values, exchanged, make all readings agree; empty where there are none."""
    net = solution.net
    pairs = [(i, j) for i, j in combinations(sorted(rows), 2) if net.rows[i].form == net.rows[j].form]
    return next((pair for pair in pairs[:3] if agrees(exchanged(net, *pair), solution.done.x)), ())


def _fits(solution: Solution) -> tuple[Fit, ...]:
    """How each reading fits. One set aside is compared with what the others say of it, by its own fineness."""
    done, net = solution.done, solution.net
    r, sigma = done.redundancy.copy(), net.sigma
    aside = list(solution.aside)
    others = (1 - r[aside]) * done.net.sigma[aside] ** 2
    r[aside] = sigma[aside] ** 2 / (sigma[aside] ** 2 + others)
    fits = []
    for i, (row, v, s, share) in enumerate(
        zip(net.rows[: net.fitted], done.residual.tolist(), sigma.tolist(), r.tolist(), strict=False)
    ):
        seen = share > NO_CONTROL
        own = s * share**0.5 if seen else s
        # of a reading of two numbers one alone may be set aside, and the other may be checked by nothing
        if i in aside:
            own = s / share**0.5
        fits.append(
            Fit(
                id=row.id,
                value=row.value,
                adjusted=row.value + v,
                residual=v,
                sigma=s,
                redundancy=share,
                w=v / own if seen else None,
                believable=BELIEVABLE * own,
                smallest_error=SHOWS * s / share**0.5 if seen else None,
                component=row.component,
            )
        )
    return tuple(fits)
