"""What the headstock's sheets say of old holes that are drilled through."""

from msgspec.structs import replace

from export.templates.hardware.headstock_notes import order
from geometry.job import Hardware, Headstock, Job, OldPost, Point, Tuners
from geometry.layout import HeadstockPlan, Hole, Post, Ray
from tests.in_one import in_one

POST = Post(string="3", side="left", at=(-50.0, 22.0), pm95=(0.1, 0.1), diameter=6.35, bushing=8.73, again="old")
PLAN = HeadstockPlan(
    outline=(), slots=(), middle=Ray((0.0, 0.0), (1.0, 0.0)), old_posts=(), old_screws=(), posts=(POST,)
)
FITS = "Drilled through as they are: the old hole “old”."
LOOSE = "Bored out for the bushing, which alone holds the post there: the old hole “old”."
LAY = "Try the tuners on these holes before you drill: each hole’s place is only as sure as it was read."


@in_one(
    ("x", "wide", "says"),
    [
        # common practice, no source: 0.3 mm, and 0.15 mm over the post's hole of 6.35 mm
        (0.0, 6.35, (FITS,)),
        (0.29, 6.5, (FITS,)),
        (0.31, 6.35, (FITS, LAY)),
        (0.0, 6.6, (LOOSE,)),
        (0.5, 7.94, (LOOSE, LAY)),
    ],
)
def test_old_holes_that_are_drilled_through(x: float, wide: float, says: tuple[str, ...]) -> None:
    tuners = Tuners(left=(1,), right=(), post=6.35, bushing=8.73)
    hardware = Hardware(headstock=Headstock(posts={"old": OldPost(diameter=wide)}), tuners=tuners)
    old = Hole(name="old", at=(-50.0 + x, 22.0), diameter=wide)
    found = order(Job(points={"old": Point()}, hardware=hardware), replace(PLAN, old_posts=(old,)))
    assert [text.replace("the old hole ", "") for text in found] == [text.replace("the old hole ", "") for text in says]
