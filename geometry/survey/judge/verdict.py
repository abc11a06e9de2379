"""The verdict on the readings as a whole, and the words that say why."""

import math
from collections.abc import Mapping, Sequence

from geometry import words
from geometry.job import Job, Reading
from geometry.layout import TWO_SIDED_95, Fit, Loose, Verdict, Why
from geometry.survey.adjust.adjustment import Adjusted
from geometry.survey.judge.checked import shows
from geometry.survey.judge.complaint import at_least, complaint, complaint_of_laying, length
from geometry.survey.judge.shared_slip import shared_slip
from geometry.survey.judge.suspects import Suspects
from geometry.survey.rows.row import Row
from geometry.survey.rows.which_side import Turn


def judge(
    job: Job,
    done: Adjusted,
    found: Suspects,
    loose: Sequence[Loose],
    elsewhere: Sequence[str],
    denied: Sequence[Turn],
    checked: Mapping[str, bool],
    fits: Sequence[Fit],
) -> tuple[Verdict, Why, str]:
    """The first verdict that applies, and why, in plain sentences: of readings that are accused where there are any,
    and of no others. What is said besides of points that may lie on either side stands last. `fits` in the order of
    the rows.
    """
    readings = {reading.id: reading for reading in job.readings}
    trouble = _trouble(job, done, found, readings, fits)
    also = _either(job, elsewhere, denied) if elsewhere or denied else None
    if trouble:
        besides = also.whole if also else ""
        return "loose" if loose else "either side" if also else _sort_of(found), trouble, besides
    if loose:
        why = _loose(job, loose)
        return "loose", why.followed_by(also.whole) if also else why, ""
    if also:
        return "either side", also, ""
    m = done.net.fitted
    if done.dof <= 0 or not shows(done.redundancy[:m], done.net.sigma[:m]).any():
        return "unchecked", UNCHECKED, ""
    if found.coarse > 1:
        return "coarse", _coarse(found.coarse, found.wider), ""
    return "clean", _clean(job, done, [name for name, seen in checked.items() if not seen], found.wider), ""


def _sort_of(found: Suspects) -> Verdict:
    """What the readings accused make of the whole, where all points are settled."""
    return "swapped" if found.swap else "one of these" if found.group else "misread"


WORSE = 1.2
"""From here on it is said that readings within chance agree worse than they should, in one good job of 12 as well
(derived: 4 + χ² of 14 spare readings beyond 1.2² × 18)."""
MANY = 2
"""More readings of which one is out are counted where there is little room."""
UNCHECKED = Why(
    what="No reading is left over to check the others with",
    how="one wrong reading would not show",
    then="Add a diagonal, or read a distance again from elsewhere.",
)


def _trouble(
    job: Job, done: Adjusted, found: Suspects, readings: Mapping[str, Reading], fits: Sequence[Fit]
) -> Why | None:
    """What is said of the readings accused, what none can be named from first; None where none is."""
    if found.swap:
        return _swapped(job, done, found, readings)
    one_of, named = _one_of(job, done, found, readings), _named(job, done, found, readings, fits)
    return one_of.followed_by(named.whole) if one_of and named else one_of or named


def _named(
    job: Job, done: Adjusted, found: Suspects, readings: Mapping[str, Reading], fits: Sequence[Fit]
) -> Why | None:
    """What is wrong with the first that is named, and which to look at besides."""
    if not found.named:
        return None
    named = {done.net.rows[row].id: error for row, error in zip(found.named, found.errors, strict=True)}
    shared = None if "" in named else shared_slip(job, readings, named)
    if shared:
        return shared
    first, *others = found.named
    row = done.net.rows[first]
    if row.laying:
        said = complaint_of_laying(job, done.net.ids(first), found.errors[0])
    else:
        said = complaint(job, readings[row.id], found.errors[0], None if others else pm95_of_others(fits[first]))
    told = _called(job, done, (first,))
    rest = [name for name in _called(job, done, others) if name not in told]
    return said.followed_by(f"Then look at {words.several(rest)} as well.") if rest else said


def _one_of(job: Job, done: Adjusted, found: Suspects, readings: Mapping[str, Reading]) -> Why | None:
    """Of which readings, or layings, one is wrong, and what would tell which. They are counted where none is marked
    besides.
    """
    if not found.group:
        return None
    either, rows = _called(job, done, found.group), [done.net.rows[row] for row in found.group]
    angles = any(words.much(readings[row.id], 0.0) for row in rows if row.id)
    much = "" if angles else f", {at_least(found.group_error, job.unit)}"  # mm would be said of degrees
    out = f"out{much}, but nothing read so far tells which"
    if any(row.laying for row in rows):
        return Why(
            what=f"One of these is {out}", how=", or ".join(either), then="Lay the rule again and read them anew."
        )
    if len({readings[row.id].of_what for row in rows}) == 1:
        return Why(
            what=f"Of the readings {words.joined(either)} one is {out}",
            then=f"Read it once more and keep all {len(rows) + 1}: the one that is out will stand alone.",
        )
    return Why(
        what=f"One of the readings {words.several(either)} is {out}",
        then="Read them again in this order. Where none changes, read the first a second time and keep both readings, "
        "then the next, until one is named.",
        counted=f"One of the {len(either)} readings marked in the table is {out}"
        if len(either) > MANY and not found.named
        else None,
    )


def _called(job: Job, done: Adjusted, found: Sequence[int]) -> list[str]:
    """What rows are called in a sentence, each reading once; a laying’s zero as the readings that share it."""
    names: dict[str, None] = {}
    for row in found:
        ids = done.net.ids(row)
        laying = bool(done.net.rows[row].laying)
        names.update(dict.fromkeys([words.laying_called(job, ids)] if laying else words.readings_called(job, ids)))
    return list(names)


def pm95_of_others(fit: Fit) -> float:
    """The ± (95 %, mm) of what all other readings say of one: σ √((1 − r)/r), for the estimated error's variance σ²/r
    is that of the reading and that of what the others say together (W. Baarda, A testing procedure for use in geodetic
    networks, 1968).
    """
    return TWO_SIDED_95 * fit.sigma * math.sqrt((1 - fit.redundancy) / fit.redundancy)


def _swapped(job: Job, done: Adjusted, found: Suspects, readings: Mapping[str, Reading]) -> Why:
    one, two = (done.net.rows[i] for i in found.swap)
    first, second = (words.reading_called(job, readings[row.id]) for row in (one, two))
    return Why(
        what=f"{first} and {second} seem to be exchanged",
        how="the other way round all readings agree",
        then=f"If {_read(job, readings, two)} belongs to the first and {_read(job, readings, one)} to the second, "
        "exchange them.",
    )


def _read(job: Job, readings: Mapping[str, Reading], row: Row) -> str:
    """What a row reads, in words."""
    return words.much(readings[row.id], row.value) or length(row.value, job.unit)


def _loose(job: Job, loose: Sequence[Loose]) -> Why:
    names = [words.called(point.point, job.hand) for point in loose]
    verb = "is" if len(names) == 1 else "are"
    what = f"{words.first_large(words.several(names))} {verb} not fixed by the readings yet"
    return Why(what=what, then=loose[0].held_by)


def _either(job: Job, elsewhere: Sequence[str], denied: Sequence[Turn]) -> Why:
    if denied:
        turn = denied[0]
        said = words.beside("left" if turn.sign > 0 else "right", turn.a, turn.b, job.hand)
        called = words.first_large(words.called(turn.p, job.hand))
        return Why(
            what=f"{called} is said to lie {said}, but the readings put it on the other side",
            then="Look at the side that was given, or at the readings to it.",
        )
    names = [words.called(name, job.hand) for name in elsewhere]
    return Why(
        what=f"{words.first_large(words.several(names))} may lie on either side",
        how="the readings fit both",
        then="Say on which side of a straightedge, or take one more reading there.",
    )


def _clean(job: Job, done: Adjusted, unseen: Sequence[str], wider: float) -> Why:
    count = len({row.id for row in done.net.rows[: done.net.fitted]})
    agree, then = f"All {count} readings agree", None
    if unseen:
        names = words.several([words.called(name, job.hand) for name in unseen])
        then = f"One wrong reading at {names} would not show."
    if wider < WORSE:
        return Why(what=agree, then=then)
    return Why(
        what=f"{agree}, but somewhat worse than they were said to be read",
        how=f"every ± is {wider:.1f} times as wide for it",
        then=then,
    )


def _coarse(times: float, wider: float) -> Why:
    return Why(
        what=f"The readings agree {times:.1f} times worse than they were said to be read, and none stands out as the "
        "wrong one",
        then=f"Every ± is {wider:.1f} times as wide because of it. Say that the readings were coarser, or read again "
        "those that you doubt.",
    )
