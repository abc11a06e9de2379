"""What the person should know of old holes: those that new ones run into, or come too near, and those that will show.

An old hole that is open leads a drill or a cutter astray and breaks out where its wall is thin: it is plugged first,
and then drilled as if it were whole wood (common practice, no source). So it never stops the work.
"""

from collections.abc import Iterator, Sequence

from geometry import words
from geometry.findings import Finding, look
from geometry.job import Job
from geometry.layout import Consequences, Gap, HoleFate, OldPlan
from geometry.old_work.holes.assumed_holes import after, number_in_row
from geometry.old_work.holes.old_holes import SLOT
from geometry.units import said, said_pm

NEIGHBOURS = 20.0
"""mm. Neighbouring pin holes of a row lie no farther apart (common practice, no source)."""


def unread(job: Job, old: OldPlan) -> Iterator[Finding]:
    """Two old pin holes with room for others between them, while nobody said how many stood in the row; of a bridge
    that is glued again, whatever else of it is still to be given.
    """
    if job.held != "glue" or len(old.pins) != 2 or (job.old is not None and job.old.row is not None):
        return
    first, last = old.pins
    apart = abs(complex(*last.at) - complex(*first.at))
    if apart > NEIGHBOURS:
        called = " and ".join(hole_called(job, hole.name) for hole in old.pins)
        yield look(
            "old.row",
            f"Between {called} no hole was read: say under “Holes in the row” how many stood there in all, 2 if no "
            "more did, or they stay unplugged.",
            "field:old.row",
            mm=apart,
        )


def findings(job: Job, found: Consequences) -> Iterator[Finding]:
    """One finding for all holes of a sort, with the worst of them in numbers."""
    cut = [hole for hole in found.holes if hole.cut_by]
    if cut:
        worst = min((hole.walls[0] for hole in cut), key=lambda gap: gap.mm)
        verb = "may run" if worst.pm95 >= -worst.mm else f"run{_s(cut)}"
        yield look(
            "old.cut",
            f"{_new(cut)} {verb} into {_called(job, cut)}, by {_pm(job, worst, -worst.mm)} at most. "
            f"{_plug(cut)} first, then drill and cut.",
            _where(job, cut),
            mm=worst.mm,
            pm95=worst.pm95,
            count=float(len(cut)),
        )
    thin = [(hole, gap) for hole in found.holes if not hole.cut_by and not hole.used_by for gap in hole.walls[:1]]
    thin = [(hole, gap) for hole, gap in thin if gap.mm < gap.pm95]
    if thin:
        worst = min((gap for _, gap in thin), key=lambda gap: gap.mm)
        yield look(
            "old.thin_wall",
            f"Between {_called(job, [hole for hole, _ in thin])} and {new_called(worst.new)} stays "
            f"{_pm(job, worst, worst.mm)} of wood: it may break out. {_plug([hole for hole, _ in thin])} first.",
            _where(job, [hole for hole, _ in thin]),
            mm=worst.mm,
            pm95=worst.pm95,
            count=float(len(thin)),
        )
    yield from _showing(job, found)
    off = [hole for hole in found.holes if hole.off_top]
    if off:
        yield look(
            "old.off_top",
            f"Outside the body’s outline: {_called(job, off)}. Look at the readings to it, and at the "
            "order of the body’s points.",
            _where(job, off),
            count=float(len(off)),
        )


def _showing(job: Job, found: Consequences) -> Iterator[Finding]:
    shown = [hole for hole in found.holes if hole.under != "covered" and not hole.used_by]
    if shown:
        how = "Fill it with a strip" if shown[0].kind == "slot" else _plug(shown)
        yield look(
            "old.shows",
            f"Not hidden by the new bridge: {_called(job, shown)}. {how}, the grain along the top’s.",
            _where(job, shown),
            count=float(len(shown)),
        )
    unsure = [hole for hole in found.holes if hole.under == "covered" and 0 <= hole.inside.value < hole.inside.pm95]
    if unsure:
        worst = min((hole.inside for hole in unsure), key=lambda inside: inside.value)
        yield look(
            "old.may_show",
            f"The new bridge covers {_called(job, unsure)} by {said_pm(worst.pm95, job.unit, worst.value)} only: "
            f"{'they' if len(unsure) > 1 else 'it'} may show.",
            _where(job, unsure),
            mm=worst.value,
            pm95=worst.pm95,
        )


def _called(job: Job, holes: Sequence[HoleFate]) -> str:
    """Old holes in a sentence: “old pin hole 1 and the old slot”; several that are assumed as one."""
    assumed = [hole for hole in holes if after(job, hole.hole)[1]]
    together = assumed if len(assumed) > 1 else []
    names = [
        f"the {SLOT}" if hole.kind == "slot" else hole_called(job, hole.hole) for hole in holes if hole not in together
    ]
    if together:
        first, steps = after(job, together[0].hole)[0], [after(job, hole.hole)[1] for hole in together]
        all_of_them = job.old is not None and job.old.row == len(together) + 2
        between = f"{len(together)} assumed holes between those that were read"
        names.append(between if all_of_them else assumed_called(job, first, steps))
    return words.several(names)


def hole_called(job: Job, name: str) -> str:
    """An old hole in a sentence: “old pin hole 3”, “the old hole “screw””; one that nobody read says between which."""
    first, step = after(job, name)
    if step:
        return assumed_called(job, first, (step,))
    called = words.called(name, job.hand)
    return f"the old hole {called}" if words.is_own(name) else called


def assumed_called(job: Job, first: str, steps: Sequence[str]) -> str:
    """Holes that nobody read, so many steps after one that was, by their numbers in the row where these are sure: “old
    pin holes 2 and 5 (assumed)”; else “the assumed holes 1 and 4 on from old pin hole 1”.
    """
    s, numbers = "s" if len(steps) > 1 else "", [number_in_row(job, first, step) for step in steps]
    if all(numbers):
        return f"old pin hole{s} {words.joined(sorted(numbers, key=int))} (assumed)"
    return f"the assumed hole{s} {words.joined(steps)} on from {hole_called(job, first)}"


def _new(holes: Sequence[HoleFate]) -> str:
    """What cuts the holes: “The slot and the new pin holes”."""
    by = dict.fromkeys("slot" if name == "slot" else "pin" for hole in holes for name in hole.cut_by)
    return words.first_large(words.joined([{"slot": "the slot", "pin": "new pin holes"}[name] for name in by]))


def _s(holes: Sequence[HoleFate]) -> str:
    return "s" if all(name == "slot" for hole in holes for name in hole.cut_by) else ""


def new_called(name: str) -> str:
    """Something new in a sentence."""
    return "the slot" if name == "slot" else f"the new pin hole of {words.string(name.removeprefix('pin:'))}"


def _plug(holes: Sequence[HoleFate]) -> str:
    """What to do with them."""
    if all(hole.kind == "slot" for hole in holes):
        return "Fill it with a strip"
    return "Plug them" if len(holes) > 1 else "Plug it"


def _pm(job: Job, gap: Gap, much: float) -> str:
    return said_pm(gap.pm95, job.unit, much) if much > 0 else f"no more than {said(0.0, job.unit)}"


def _where(job: Job, holes: Sequence[HoleFate]) -> str:
    """What the finding is about: the first of the holes."""
    return "old" if holes[0].kind == "slot" else f"old:{after(job, holes[0].hole)[0]}"
