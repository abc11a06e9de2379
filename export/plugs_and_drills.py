"""Plugs and drills for headstock, markers and other holes, as the job sheet lists them: in the order of the work, plugs
before the holes that wait for them, each by size with the nearest metric and inch drills or plug cutters.
"""

from collections.abc import Iterable, Iterator, Sequence

from export.drills import Drill, nearest_inch, nearest_metric, plug
from geometry import words
from geometry.hardware.head_sides import depth_below
from geometry.hardware.plug_sizes import DOWEL
from geometry.job import Job, OtherHole
from geometry.layout import HeadstockPlan, Layout, Plug
from geometry.old_work.holes.plugs import widest_told_alike
from geometry.units import INCH, mm, said, show, show_pm

OF_PLUG = "sizes of the plug: "
"""What a plug's row says first, for its hole is another size than what is set into it."""
Rows = list[list[str]]
"""What, how many, how wide, metric size, inch size, and what is to be said of it."""


def plugs(job: Job, layout: Layout) -> Rows:
    """The headstock's old holes and the other holes that are plugged; those that others wait for come first."""
    found = layout.hardware.headstock
    wanted = found.plugs if found is not None else ()
    rows: Rows = []
    for first in (True, False):
        rows += _headstock(job, [one for one in wanted if bool(one.before) == first], wanted)
    for hole in sorted((h for h in job.hardware.holes if h.plug is not None), key=lambda h: mm(h.plug or 0.0)):
        size = mm(hole.plug or 0.0)
        sizes, says = (Drill(f"{size:.1f} mm", size), _inch_cutter(size)), f"{hole.grain} grain{_reach(hole)}"
        rows.append(_row(job, "Other hole, to plug", [mm(hole.diameter)], sizes, f"{OF_PLUG}{says}: {hole.where}"))
    return rows


def _headstock(job: Job, wanted: Sequence[Plug], every: Sequence[Plug]) -> Rows:
    by_size: dict[tuple[tuple[Drill, Drill], str], list[Plug]] = {}
    widest = widest_told_alike((one.diameter for one in every), job.unit)
    for one in sorted(wanted, key=lambda one: one.plug):
        by_size.setdefault((plug_sizes(widest[one.diameter]), _old_depth(job, one.hole)), []).append(one)
    rows = []
    for (sizes, deep), together in by_size.items():
        names = names_said(job, [one.hole for one in together])
        waiting = list(dict.fromkeys(name for one in together for name in one.before))
        before = f", before {_posts(waiting)}" if waiting else ""
        what = "In the sides, to plug" if job.hardware.slotted else "Headstock, to plug"
        rows.append(_row(job, what, [one.diameter for one in together], sizes, f"{OF_PLUG}{names}{deep}{before}"))
    return rows


def _old_depth(job: Job, name: str) -> str:
    """How deep an old hole is, where that was typed."""
    head = job.hardware.headstock
    hole = (head.posts | head.screws).get(name) if head is not None else None
    return f", {show(mm(hole.depth), job.unit)} {job.unit} deep" if hole is not None and hole.depth is not None else ""


def plug_sizes(diameter: float) -> tuple[Drill, Drill]:
    """What an old hole of the headstock is drilled out to: a plug of a usual size, a narrow one for a dowel."""
    if diameter >= DOWEL:
        return plug(diameter)
    half, count = (int(diameter * 2 + 1e-6) + 1) / 2, int(diameter / INCH * 32 + 1e-6) + 1
    inch = nearest_inch(count / 32 * INCH)
    return Drill(f"{half:.1f} mm", half), inch


def _inch_cutter(size: float) -> Drill:
    """The plug cutter nearest to a plug's size, in 16ths of an inch."""
    wide = max(1, round(size / INCH * 16)) / 16 * INCH
    return Drill(said(wide, "in"), wide)


def names_said(job: Job, names: Sequence[str]) -> str:
    """Old holes by their kind and numbers: “post holes 1, 3 and 4”; others by their names."""
    parts = []
    for family, one in (("post", "post"), ("screw", "screw")):
        numbers = [name.removeprefix(f"{family}.") for name in names if _numbered(name, family)]
        if numbers:
            parts.append(f"old {one}{'s' if len(numbers) > 1 else ''} {words.joined(numbers)}")
    parts += [words.called(name, job.hand) for name in names if not any(_numbered(name, f) for f in ("post", "screw"))]
    return words.joined(parts)


def _numbered(name: str, family: str) -> bool:
    return name.startswith(f"{family}.") and name.removeprefix(f"{family}.").isdecimal()


def _posts(strings: Sequence[str]) -> str:
    return f"post{'s' if len(strings) > 1 else ''} {words.joined([name.removeprefix('post ') for name in strings])}"


def drills(job: Job, layout: Layout) -> Rows:
    """What is drilled anew: bushings before the posts through them, plate screws, other holes, and markers."""
    return [
        _row(job, what, sizes, (nearest_metric(sizes[0]), nearest_inch(sizes[0])), says)
        for what, sizes, says in (*_tuners(job, layout), *_others(job), *_markers(job, layout))
    ]


Wanted = tuple[str, list[float], str]
"""What is drilled, how wide each of its holes is (mm), and what is to be said of it."""


def _tuners(job: Job, layout: Layout) -> Iterator[Wanted]:
    found, tuners = layout.hardware.headstock, job.hardware.tuners
    if found is None or tuners is None or not found.posts:
        return
    slotted = job.hardware.slotted
    along, across = (show_pm(max(post.pm95[axis] for post in found.posts), job.unit) for axis in (0, 1))
    deep = f"{show(mm(tuners.bushing_deep), job.unit)} {job.unit} deep from the {'side' if slotted else 'face'}"
    if tuners.bushing is not None:
        yield "Bushings", [mm(tuners.bushing)] * len(found.posts), deep
    says = _in_sides(job, found) if slotted else f"placed to ±{along} {job.unit} along, ±{across} {job.unit} across"
    yield "Tuner posts", [post.diameter for post in found.posts], says
    screws = len(found.screws) + sum(len(side.screws) for side in found.sides)
    if screws and tuners.plate is not None:
        yield "Tuner plates’ screws", [mm(tuners.plate.screw_hole)] * screws, ""


def _in_sides(job: Job, found: HeadstockPlan) -> str:
    """Where posts are drilled in the sides: how deep under the face, and how surely along the edge."""
    below = depth_below(job)
    deep = f", {show(below, job.unit)} {job.unit} below the face" if below is not None else ""
    pm95 = max((bore.along[1] for bore in found.bores if bore is not None), default=None)
    sure = f", ±{show_pm(pm95, job.unit)} {job.unit} along the edge" if pm95 is not None else ""
    return f"in the sides{deep}{sure}"


def _others(job: Job) -> Iterator[Wanted]:
    for hole in job.hardware.holes:
        if hole.plug is None:
            deep = "right through" if hole.depth is None else f"{show(mm(hole.depth), job.unit)} {job.unit} deep"
            yield "Other hole", [mm(hole.diameter)], f"{deep}{_reach(hole)}: {hole.where}"


def _reach(hole: OtherHole) -> str:
    """That something beneath a hole must stay within reach, where it must."""
    return ", stay within reach" if hole.reach else ""


def _markers(job: Job, layout: Layout) -> Iterator[Wanted]:
    markers = job.hardware.markers
    if markers is None:
        return
    for name, wanted, dots in (
        ("Side markers", markers.side, layout.hardware.side),
        ("Face markers", markers.face, layout.hardware.face),
    ):
        if wanted is not None and dots:
            deep = f"{show(mm(wanted.deep), job.unit)} {job.unit} deep"
            yield name, [dot.diameter for dot in dots], deep


def _row(job: Job, what: str, sizes: Iterable[float], drilled: tuple[Drill, Drill], says: str) -> list[str]:
    widths = sorted(sizes)
    wide = " to ".join(dict.fromkeys(show(width, job.unit) for width in (widths[0], widths[-1])))
    metric, inch = drilled
    return [what, str(len(widths)), f"{wide} {job.unit}", metric.name, f"{inch.name} ({inch.diameter:.2f} mm)", says]


def _large(text: str) -> str:
    return words.first_large(text)


# the work in order


def steps(job: Job, layout: Layout) -> tuple[str, ...]:
    """What is done at headstock and neck, in order: plugs, then posts from both sides, then markers."""
    work = [*_plugged(job, layout), *_drilled(job, layout)]
    if job.hardware.holes:
        work.append("Plug and drill the other holes as listed; look for what must stay within reach first.")
    if layout.hardware.side:
        work.append(
            "Guard the top with card where the drill stands over it. Wrap the strip of side markers round the edge, "
            "prick and drill to a stop; glue the dots in and level them."
        )
    if layout.hardware.face:
        work.append("Prick the face markers through their sheet, drill to a stop, glue the dots in and level them.")
    return tuple(work)


def _plugged(job: Job, layout: Layout) -> Iterator[str]:
    """The headstock's plugs, those first that a new hole cuts."""
    found = layout.hardware.headstock
    if found is None or not found.plugs or not found.posts:
        return
    first = [one.hole for one in found.plugs if one.before]
    rest = [one.hole for one in found.plugs if not one.before]
    waits = f" {_large(names_said(job, first))} first: new holes cut them." if first else ""
    then = f" Then {names_said(job, rest)}." if first and rest else ""
    if job.hardware.slotted:
        where = "Plug the old holes in the headstock’s sides, with scrap in the slots."
    else:
        where = "Plug the headstock’s old holes, grain along it."
    yield f"{where}{waits}{then} Let the glue set and level the plugs."


def _drilled(job: Job, layout: Layout) -> Iterator[str]:
    """How the posts are drilled: through the face, or into the slots from the sides."""
    found, tuners = layout.hardware.headstock, job.hardware.tuners
    if found is None or tuners is None or not found.posts:
        return
    last = "; the plates’ screws last" if found.screws or any(side.screws for side in found.sides) else ""
    if tuners.roller is not None:
        yield (
            "Fold the strips over the headstock’s sides, prick the posts, and drill there into the slots, level with "
            f"the face and square to the middle line, with scrap in each slot where the bit breaks through{last}."
        )
        return
    wide = "the bushings from the face, then " if tuners.bushing is not None else ""
    yield (
        f"Lay the headstock sheets on and compare both. Drill {wide}the posts from the face until the point shows, "
        f"then from the back, with scrap clamped behind{last}."
    )
