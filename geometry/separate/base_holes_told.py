"""What is to be said of the bases' holes: thin wood between them, old holes and metal in their way, an opening beneath.

An old hole that is open leads a drill astray: it is plugged first, and then drilled as if it were whole wood; a screw
that takes an old hole of its own size on the same place needs no plug (common practice, no source).
"""

from collections.abc import Iterator, Sequence

from geometry import words
from geometry.findings import Finding, Grade, look
from geometry.hardware.posts import SNUG, USED_AGAIN
from geometry.job import Job, Separate
from geometry.layout import Gap, OldPlan, SeparatePlan
from geometry.units import mm, said, said_pm, said_under

WALL = 2.0
"""The least wood in mm between two holes that is left as a rule (common practice, no source)."""


def findings(job: Job, separate: Separate, plan: SeparatePlan, old: OldPlan) -> Iterator[Finding]:
    """Of the walls between new holes, to old ones and to metal, and of the opening."""
    yield from _between(job, plan)
    yield from _old(job, separate, plan, old)
    yield from _metal(job, plan, old)
    yield from _over(job, plan)


def new_called(name: str) -> str:
    """A new hole in a sentence: “screw hole 2”, “the through hole of string 6”."""
    sort, _, own = name.partition(":")
    if sort == "through":
        return f"the through hole of {words.string(own)}"
    string, _, number = own.rpartition(".")
    return f"screw hole {number} of the base of {words.string(string)}" if string else f"screw hole {own}"


def _between(job: Job, plan: SeparatePlan) -> Iterator[Finding]:
    """The thinnest wall between two new holes."""
    walls = [gap for gap in plan.walls if not gap.old.startswith(("point:", "metal:")) and gap.mm < WALL]
    if not walls:
        return
    worst = min(walls, key=lambda gap: gap.mm)
    one, other = new_called(worst.new), new_called(worst.old)
    gone = worst.mm <= 0
    if gone:
        text = f"{words.first_large(one)} and {other} run into each other by {said(-worst.mm, job.unit)}."
    else:
        text = (
            f"Only {said_under(worst.mm, WALL, job.unit)} of wood stays between {one} and {other}; "
            f"{said(WALL, job.unit)} is usual."
        )
    beneath = " Their ferrules count, beneath the face." if worst.new[:7] == worst.old[:7] == "through" else ""
    yield Finding(
        grade="stop" if gone else "look",
        code="separate.wall",
        text=f"{text}{beneath} Look at their places, at the sizes of both and at the spread at the saddle.",
        values={"mm": worst.mm},
        where="field:separate.through" if "through" in worst.new + worst.old else "field:separate.screws",
    )


def takes(gap: Gap, separate: Separate, old: OldPlan) -> bool:
    """Whether a screw takes an old hole of its own size on the same place."""
    apart = abs(complex(*gap.new_xy) - complex(*gap.old_xy))
    wide = next((hole.diameter for hole in (*old.pins, *old.holes) if f"point:{hole.name}" == gap.old), 0.0)
    return gap.new.startswith("screw:") and apart <= USED_AGAIN and wide <= mm(separate.screw) + SNUG


def _old(job: Job, separate: Separate, plan: SeparatePlan, old: OldPlan) -> Iterator[Finding]:
    """New holes that run into old ones, may, or leave a thin wall."""
    near = [gap for gap in plan.walls if gap.old.startswith("point:")]
    again = [gap for gap in near if takes(gap, separate, old)]
    rest = [gap for gap in near if gap not in again]
    if again:
        yield Finding(
            grade="good",
            code="separate.used_again",
            text=f"{_several_new(again)} {_come(again)} on {_several_old(job, again)}, which need no plug.",
            values={"count": float(len(again))},
            where=again[0].old,
        )
    for code, some, what in (
        ("separate.into_old", [gap for gap in rest if gap.mm <= 0], "run"),
        ("separate.near_old", [gap for gap in rest if 0 < gap.mm <= max(gap.pm95, WALL / 2)], "come"),
    ):
        if not some:
            continue
        worst = min(some, key=lambda gap: gap.mm)
        may = what == "run" and worst.pm95 >= -worst.mm
        verb = f"may {what}" if may else what if len({gap.new for gap in some}) > 1 else f"{what}s"
        how = (
            f"into {_several_old(job, some)}, by {said_pm(worst.pm95, job.unit, -worst.mm)} at most"
            if what == "run"
            else f"near {_several_old(job, some)}: {said_pm(worst.pm95, job.unit, worst.mm)} of wood stays"
        )
        plugs = ("holes", "them") if len({gap.old for gap in some}) > 1 else ("hole", "it")
        yield look(
            code,
            f"{_several_new(some)} {verb} {how}. Plug the old {plugs[0]} first, let {plugs[1]} set, then "
            "drill as if it were whole wood.",
            worst.old,
            mm=worst.mm,
            pm95=worst.pm95,
        )


def _come(gaps: Sequence[Gap]) -> str:
    return "come" if len({gap.new for gap in gaps}) > 1 else "comes"


def _several_new(gaps: Sequence[Gap]) -> str:
    names = list(dict.fromkeys(gap.new for gap in gaps))
    screws = [name.removeprefix("screw:") for name in names if name.startswith("screw:") and "." not in name]
    parts = [f"screw hole{'s' if len(screws) > 1 else ''} {words.joined(screws)}"] if screws else []
    parts += [new_called(name) for name in names if name.removeprefix("screw:") not in screws]
    return words.first_large(words.several(parts, 4))


def _several_old(job: Job, gaps: Sequence[Gap]) -> str:
    names = dict.fromkeys(gap.old.removeprefix("point:") for gap in gaps)
    return words.several([words.called(name, job.hand) for name in names], 4)


def _metal(job: Job, plan: SeparatePlan, old: OldPlan) -> Iterator[Finding]:
    """Metal where a hole is to be drilled."""
    for metal in old.metal:
        gaps = [gap for gap in plan.walls if gap.old == f"metal:{metal.name}"]
        if not gaps:
            continue
        worst = min(gaps, key=lambda gap: gap.mm - gap.pm95)
        called = words.called(metal.name, job.hand)
        who = f"the metal {called}" if words.is_own(metal.name) else called
        clear = said(metal.keep_out, job.unit)
        room = said_under(max(worst.mm, 0.0), metal.keep_out, job.unit, worst.pm95)
        grade: Grade = "good"
        text = f"{words.first_large(who)} is clear of all holes by {room}."
        if worst.mm < metal.keep_out or worst.mm <= 0:
            grade = "stop"
            text = (
                f"The middle of {who} lies {room} from {new_called(worst.new)}; {clear} is to be kept clear round it. "
                "A drill that meets metal can break: take the metal out, or set the base elsewhere."
            )
        elif worst.mm - worst.pm95 < metal.keep_out:
            grade = "look"
            text = (
                f"The middle of {who} lies {room} from {new_called(worst.new)}; {clear} is to be kept clear round it, "
                "and that is too little to be sure. Find it again with a magnet before you drill."
            )
        yield Finding(
            grade=grade,
            code="separate.metal",
            text=text,
            values={"room": worst.mm, "keep_out": metal.keep_out, "pm95": worst.pm95},
            where=f"metal:{metal.name}",
        )


def _over(job: Job, plan: SeparatePlan) -> Iterator[Finding]:
    """A base or a hole over the opening that was measured."""
    holes = [gap for gap in plan.over if gap.new != "base" and gap.mm <= gap.pm95]
    if holes:
        worst = min(holes, key=lambda gap: gap.mm)
        surely = worst.mm + worst.pm95 <= 0
        yield Finding(
            grade="stop" if surely else "look",
            code="separate.hole_over",
            text=f"{words.first_large(new_called(worst.new))} {'comes' if surely else 'may come'} out in the opening "
            "beneath the base: no wood holds it there. Look at the places on the base, and at the opening’s points.",
            values={"mm": worst.mm, "pm95": worst.pm95},
            where="field:separate.opening",
        )
    base = [gap for gap in plan.over if gap.new == "base" and gap.mm < 0]
    if base:
        worst = min(base, key=lambda gap: gap.mm)
        yield look(
            "separate.over",
            f"The base would lie over the opening by {said_pm(worst.pm95, job.unit, -worst.mm)}. Look whether it may, "
            "and at the opening’s points.",
            "field:separate.opening",
            mm=worst.mm,
            pm95=worst.pm95,
        )
