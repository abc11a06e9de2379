"""What lies in or under the top was read once as a rule: where a slip that nothing would show could bring it into a cut
that is said to be clear of it.
"""

from collections.abc import Iterator, Mapping, Sequence

from geometry import words
from geometry.findings import Finding, look
from geometry.job import Job
from geometry.layout import Consequences, Gap, OldPlan
from geometry.layout.measured import GROSS
from geometry.old_work.gaps.old_work_states import OldInRows
from geometry.units import said

MOST = 3
"""So many readings are named."""
LITTLE = 0.5
"""mm. What a gross error moves by less is not looked for again: a hole is drilled and plugged no better (common
practice, no source)."""


def unseen(job: Job, rows: OldInRows, plan: OldPlan) -> dict[str, tuple[str, ...]]:
    """The readings, by id, whose gross error would not show and would move an old hole, metal, a brace or the plate by
    more than a little, by what a gap calls it; what is checked is left out.
    """
    holes = (hole for hole in (*plan.pins, *plan.holes) if not hole.assumed)
    of: dict[str, tuple[str, ...]] = {f"metal:{metal.name}": (metal.name,) for metal in plan.metal}
    of |= {f"point:{hole.name}": (hole.name,) for hole in holes}
    if job.old is not None:
        of |= {f"brace:{brace.name}": job.old.braces[brace.name].of for brace in plan.braces}
        of |= {"plate": job.old.plate} if plan.plate else {}
    found = {old: _unseen(rows, points) for old, points in of.items()}
    return {old: ids for old, ids in found.items() if ids}


def _unseen(rows: OldInRows, points: tuple[str, ...]) -> tuple[str, ...]:
    states = rows.wider.states
    ids = (
        name
        for at in rows.points(points).T
        for part in (at.real, at.imag)
        for name in states.unseen(part, LITTLE / GROSS)
    )
    return tuple(dict.fromkeys(ids))


def findings(job: Job, plan: OldPlan, found: Consequences) -> Iterator[Finding]:
    """One for all that is clear of pin holes and slot by less than a gross error and stands on readings that nothing
    checks.
    """
    keep = {f"metal:{metal.name}": metal.keep_out for metal in plan.metal}
    met = dict.fromkeys(gap.old for gap in found.gaps if gap.old in found.unseen and _may_be_met(gap, keep))
    near = sorted(met, key=lambda old: old not in keep)  # metal first, which spoils most
    if not near:
        return
    ids = tuple(dict.fromkeys(name for old in near for name in found.unseen[old]))
    metal = any(old in keep for old in near)
    how = "Find it again with a magnet" if metal else "Look inside with a mirror"
    read = words.several(words.readings_called(job, ids), MOST)
    yield look(
        "old.unchecked",
        f"Nothing checks {place_of(job, ids)} {words.joined([lies_in(job, old) for old in near])} "
        f"{'lie' if len(near) > 1 else 'lies'}"
        f": {read} could be out by {said(GROSS, job.unit)} or more, and what is to be drilled or cut might meet "
        f"{'them' if len(near) > 1 else 'it'}. {how} before you drill, or read {'them' if len(ids) > 1 else 'it'} once "
        "more from somewhere else.",
        f"reading:{ids[0]}",
        mm=min(gap.mm - keep.get(gap.old, 0.0) for gap in found.gaps if gap.old in near),
    )


def place_of(job: Job, ids: Sequence[str]) -> str:
    """What it is of a place that these readings alone hold."""
    kinds = {reading.kind for reading in job.readings if reading.id in ids}
    return (
        "how far along the neck" if kinds == {"along"} else "how far across the neck" if kinds == {"off"} else "where"
    )


def _may_be_met(gap: Gap, keep: Mapping[str, float]) -> bool:
    """Whether it is clear beyond its ±, but not beyond a gross error. A slot meets no brace and no plate's edge that
    lies under the top.
    """
    if gap.new == "slot" and gap.old not in keep:
        return False
    clear = gap.mm - gap.pm95 - keep.get(gap.old, 0.0)
    return 0 <= clear < GROSS


def lies_in(job: Job, old: str) -> str:
    """What lies in or under the top, as a gap calls it, in a sentence."""
    kind, _, name = old.partition(":")
    if kind == "plate":
        return "the plate’s edge"
    if kind == "brace":
        return words.brace(name)
    called = words.called(name, job.hand)
    return f"the metal {called}" if words.is_own(name) else called


def slip_unseen(names: Sequence[str]) -> str:
    """That a slip in any of these readings would not show, and the remedy."""
    return f"a slip in {' or '.join(names)} would not show: read {'it' if len(names) == 1 else 'them'} once more"
