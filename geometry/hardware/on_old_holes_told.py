"""What is said of new posts that lie on old holes, cut into them, or leave little wood between."""

from collections.abc import Iterator

from geometry import words
from geometry.findings import Finding
from geometry.hardware.near_posts import THIN, apart_from
from geometry.hardware.posts import TOLD_APART, hole_wide, is_worn
from geometry.job import Job
from geometry.layout import HeadstockPlan, Post
from geometry.units import said, said_pm

ON = 0.75
"""Two holes that share so much of the narrower one's width lie on each other, rather than cut into each other's side
(common practice, no source)."""


def near_old(job: Job, plan: HeadstockPlan, post: Post, who: str, where: str) -> Iterator[Finding]:
    """A new hole that cuts an old one, or leaves little between."""
    if post.wall is None or post.wall[0] >= max(THIN, post.wall[1]):
        return
    wall, pm95 = post.wall
    called = words.called(post.nearest_old, job.hand)
    hole = f"the old hole {called}" if words.is_own(post.nearest_old) else called
    if wall <= 0:
        says = _lies_on(job, plan, post, hole) or (
            f"cuts into {hole} by {said_pm(pm95, job.unit, -wall)}: plug it first, then drill."
        )
        text = f"{who} {says}"
    elif wall <= pm95:
        text = (
            f"{who} may cut into {hole}: {said_pm(pm95, job.unit, wall)} of wood lies between, too little "
            "to be sure. Plug it first, then drill."
        )
    else:
        text = f"{who} leaves {said_pm(pm95, job.unit, wall)} of wood to {hole}: plug it first, or the drill runs over."
    values = {"wall": wall, "pm95": pm95}
    yield Finding(grade="look", code="post.old_hole", text=text, where=where, values=values)


def _lies_on(job: Job, plan: HeadstockPlan, post: Post, called: str) -> str:
    """What is said of a new hole that lies on an old one, or within it; empty where it only cuts its side."""
    tuners, head = job.hardware.tuners, job.hardware.headstock
    hole = next((one for one in (*plan.old_posts, *plan.old_screws) if one.name == post.nearest_old), None)
    if hole is None or tuners is None or head is None:
        return ""
    apart, wide = apart_from(plan, tuners, post, hole), hole_wide(tuners)
    if (wide + hole.diameter) / 2 - apart < ON * min(wide, hole.diameter):
        return ""
    old = head.posts.get(hole.name)
    if apart < TOLD_APART and old is not None and is_worn(job, hole.name, old, hole.diameter, tuners):
        if old.worn:
            return f"lies on {called}, which is worn: plug it first, then drill."
        sizes = f"{said(hole.diameter, job.unit)} wide, for {said(wide, job.unit)}"
        return f"lies on {called}, which is worn for it ({sizes}): plug it or bush it first, then drill."
    within = "within" if hole.diameter > wide and apart <= (hole.diameter - wide) / 2 else "on"
    return f"lies {within} {called}, {said(apart, job.unit)} beside its middle: plug it first, then drill."
