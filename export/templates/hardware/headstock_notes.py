"""What the headstock's sheets say of the order of the work, of the drills, and of how surely the places are known."""

from collections.abc import Sequence

from export.drills import either, nearest_names
from export.errors import ExportError
from geometry.hardware.near_posts import apart_from
from geometry.hardware.posts import USED_AGAIN, is_loose
from geometry.job import Job
from geometry.layout import HeadstockPlan, Layout
from geometry.units import mm, show, show_pm
from geometry.words import called, joined

ON_HEAD = "The strips are as exact as the print; on the headstock the posts’ places are good to"
"""What a jig's ± is of."""


def posts_of(layout: Layout) -> HeadstockPlan:
    """The headstock with its new posts. Raises `ExportError` where there are none."""
    found = layout.hardware.headstock
    if found is None or not found.posts:
        raise ExportError("The headstock’s sheets need new tuners on a headstock that was read; see the Headstock card")
    return found


def order(job: Job, found: HeadstockPlan) -> tuple[str, ...]:
    """Which plug must be in before which hole, and what is drilled through as it is."""
    says = []
    tuners, wide = job.hardware.tuners, {hole.name: hole.diameter for hole in found.old_posts}
    again = [post.again for post in found.posts if post.again]
    loose = [name for name in again if tuners is not None and is_loose(job, name, wide[name], tuners)]
    if fits := [called(name, job.hand) for name in again if name not in loose]:
        says.append(f"Drilled through as they are: {joined(fits)}.")
    if loose:
        names = joined([called(name, job.hand) for name in loose])
        says.append(f"Bored out for the bushing, which alone holds the post there: {names}.")
    holes = {hole.name: hole for hole in found.old_posts}
    used = [(post, holes[post.again]) for post in found.posts if post.again]
    if tuners is not None and any(apart_from(found, tuners, *both) > USED_AGAIN for both in used):
        says.append("Try the tuners on these holes before you drill: each hole’s place is only as sure as it was read.")
    first = [plug for plug in found.plugs if plug.before]
    if first:
        says.append(
            "Plug first, before a post is drilled there: "
            + "; ".join(f"{called(plug.hole, job.hand)} before {_posts(plug.before)}" for plug in first)
            + "."
        )
    return tuple(says)


def _posts(names: Sequence[str]) -> str:
    return joined([name if name.startswith("post") else f"the post of string {name}" for name in names])


def drilled(job: Job, found: HeadstockPlan, *, jig: bool = False) -> str:
    """Drills, and how surely the places are known; wood is held where the bit breaks through."""
    if job.hardware.slotted:
        face = "" if jig else "Nothing is drilled in the face: the lines are the posts’ axes. "
        return f"{face}{how_to_bore(job, found, jig=jig)}"
    post, unit = found.posts[0], job.unit
    along, across = (max(post.pm95[axis] for post in found.posts) for axis in (0, 1))
    sizes = either(nearest_names(post.diameter), unit)
    if post.bushing is not None and job.hardware.tuners is not None:
        wide, deep = either(nearest_names(post.bushing), unit), mm(job.hardware.tuners.bushing_deep)
        sizes = f"first {wide}, {show(deep, unit)} {unit} deep from the face, then {sizes} through"
    return (
        f"Drill {sizes}, with scrap clamped behind where the bit breaks through. "
        f"{ON_HEAD if jig else 'Places are good to'} ±{show_pm(along, unit)} {unit} along and ±{show_pm(across, unit)} "
        f"{unit} across."
    )


def screwed(job: Job, found: HeadstockPlan) -> tuple[str, ...]:
    """Where the plates' screws go in, and by which drill; nothing where there are none in the back."""
    tuners = job.hardware.tuners
    if not found.screws or tuners is None or tuners.plate is None:
        return ()
    sizes = " or ".join(nearest_names(mm(tuners.plate.screw_hole)))
    return (f"Plates’ screws last, into the back and by the plates: {sizes}.",)


def how_to_bore(job: Job, found: HeadstockPlan, *, jig: bool = False) -> str:
    """The drills, which way they go, what is held where they break through, and how surely the places are known."""
    tuners, post, unit = job.hardware.tuners, found.posts[0], job.unit
    sizes = either(nearest_names(post.diameter), unit)
    if post.bushing is not None and tuners is not None:
        deep = show(mm(tuners.bushing_deep), unit)
        sizes = f"first {either(nearest_names(post.bushing), unit)}, {deep} {unit} deep from the side, then {sizes}"
    return (
        f"Drill {sizes} from the side into the slot, level with the face and square to the middle line, in scrap "
        f"first; put scrap wood into the slots where the bit breaks through.{how_sure(job, found, jig=jig)}"
    )


def how_sure(job: Job, found: HeadstockPlan, *, jig: bool = False) -> str:
    """The ± of the places along the edges, as a sentence, of a jig's on the headstock; empty where no edge is known."""
    wide = [bore.along[1] for side in found.sides for bore in side.bores if bore is not None]
    says = ON_HEAD if jig else "Places are good to"
    return f" {says} ±{show_pm(max(wide), job.unit)} {job.unit} along the edge." if wide else ""
