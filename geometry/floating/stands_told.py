"""What is to be said of a floating bridge as it stands today: how far it is to be slid and turned, and one that is
turned the wrong way for the hand.
"""

import math
from collections.abc import Iterator, Mapping

from geometry import words
from geometry.findings import Finding, look
from geometry.floating.stands import lean
from geometry.job import Floating, Job
from geometry.job.bridges.floating import STANDS
from geometry.job.sides import SIDES
from geometry.layout import BridgePlan, FloatingPlan, Layout, PlacedPoint, SaddlePlan, Slide
from geometry.saddle.saddle_line_told import LEANS
from geometry.units import mm, said, said_pm, shows

TURNED = 45.0
"""Degrees. No bridge stands turned by so much; with its feet's sides exchanged it seems turned by 180 (common practice,
no source)."""

APART = 2.0
"""mm. The bridge's length and the distance of the corners read at its ends differ by less (common practice, no source:
four readings with a rule leave 0.7 mm, two standard deviations)."""


def apart(job: Job, floating: Floating, points: Mapping[str, PlacedPoint]) -> Iterator[Finding]:
    """The corners of the outer feet, as they were read, against the bridge's length: nothing else checks them."""
    if any(name not in points for name in STANDS):
        return
    one, other = (complex(points[name].x, points[name].y) for name in STANDS)
    read, long = abs(one - other), mm(floating.length)
    if abs(read - long) > APART:
        yield look(
            "floating.feet_apart",
            f"By their readings the front corners of the outer feet lie {said(read, job.unit)} apart, and the bridge "
            f"is {said(long, job.unit)} long: look at the readings of both, and at the bridge’s length.",
            f"point:{STANDS[0]}",
            mm=read - long,
        )


def is_in_place(layout: Layout) -> bool:
    """Whether the bridge stands where it belongs already, within what is known of that."""
    return any(finding.code == "floating.stands" and finding.grade == "good" for finding in layout.findings)


def findings(job: Job, saddle: SaddlePlan, plan: FloatingPlan, bridge: BridgePlan) -> Iterator[Finding]:
    """Nothing where the bridge's feet are not measured and nothing was heard on it."""
    if plan.today is None:
        lacking = [name for name in STANDS if name in job.points]
        if lacking:
            yield Finding(
                grade="look",
                code="floating.feet_wait",
                text="Where the bridge stands today is not known yet: read the front corners of its two outer feet.",
                where=f"point:{lacking[0]}",
            )
        return
    if abs(plan.today.turn) > TURNED:
        yield look(
            "floating.feet_sides",
            f"By their readings the bridge’s outer feet would be turned by {abs(plan.today.turn):.0f}° from where they "
            "belong, and no bridge stands so: look which of them is the bass one, and at the sides of both.",
            f"point:{STANDS[0]}",
            degrees=plan.today.turn,
        )
        return
    yield from _wrong_way(job, saddle, plan.today, bridge)
    yield _slide(job, plan.today)


def _wrong_way(job: Job, saddle: SaddlePlan, today: Slide, bridge: BridgePlan) -> Iterator[Finding]:
    """A bridge that leans the other way than the strings want, both by more than a hand would see."""
    (_, left), (_, right) = saddle.at_strings
    leans = -math.tan(math.radians(lean(today, bridge.turn))) * (left - right)
    wanted = -math.tan(bridge.turn) * (left - right)
    if min(abs(leans), abs(wanted)) <= LEANS or leans * wanted >= 0:
        return
    farther = job.bass_or_treble("left" if leans > 0 else "right")
    yield Finding(
        grade="look",
        code="floating.leans",
        text=f"The bridge stands turned the wrong way for a {job.hand}-handed instrument: at the outer strings its "
        f"{farther} end lies {said(abs(leans), job.unit)} farther to the tail, and the strings want "
        f"{said(abs(wanted), job.unit)} more at {saddle.longer}.",
        values={"stands": leans, "wanted": wanted},
        where="bridge",
    )


def _slide(job: Job, today: Slide) -> Finding:
    """How far each outer foot is to go, or that the bridge stands where it belongs as well as that is known."""
    bass = 0 if job.bass == "left" else 1
    here = all(abs(go) <= pm for go, pm in zip(today.along, today.along_pm95, strict=True))
    aside = abs(today.across) > today.across_pm95
    parts, stays = [], ""
    for side, at in (("bass", bass), ("treble", 1 - bass)):
        go, pm = today.along[at], today.along_pm95[at]
        way = "toward the tail" if go > 0 else "toward the nut"
        if shows(go, job.unit):
            parts.append(f"its {side} foot {said_pm(pm, job.unit, abs(go))} {way}")
        else:
            stays = f"; its {side} foot stands where it belongs, within ±{said_pm(pm, job.unit)}"
    to = job.bass_or_treble("left" if today.across > 0 else "right")
    across = f"all of it {said_pm(today.across_pm95, job.unit, abs(today.across))} to the {to} side"
    values = {
        "bass": today.along[bass],
        "treble": today.along[1 - bass],
        "across": today.across,
        "degrees": today.turn,
    }
    if here and not aside:
        text = _stands(job, today)
        return Finding(grade="good", code="floating.stands", text=text, values=values, where="bridge")
    slide = ", and ".join(filter(None, (" and ".join(parts), across if aside else "")))
    text = f"From where the bridge stands to where it belongs: {slide}{stays if parts else ''}."
    return Finding(grade="look", code="floating.stands", text=text, values=values, where="bridge")


def _stands(job: Job, today: Slide) -> str:
    """A bridge that stands within its ±: at which foot it was read to stand off, and by how much."""
    off = list[str]()
    for side, at in (("bass", SIDES.index(job.bass)), ("treble", 1 - SIDES.index(job.bass))):
        go, pm = today.along[at], today.along_pm95[at]
        if shows(go, job.unit):
            way = "nearer the nut" if go > 0 else "farther to the tail"
            whose = "its" if off else "the bridge’s"
            off.append(f"{whose} {side} foot stands {said_pm(pm, job.unit, abs(go))} {way} than it belongs")
    if not off:
        pm = max(today.along_pm95)
        return f"The bridge stands where it belongs, as well as that is known: within ±{said_pm(pm, job.unit)}."
    return (
        f"By its readings {words.joined(off)}. That is within what is known of its place: as well as "
        "that is known, it stands where it belongs."
    )
