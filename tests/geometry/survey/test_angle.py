"""Angles taken with a bevel gauge: what they tell of an old footprint's side, and what of them can be no reading."""

import cmath
import math

import msgspec
import pytest

from geometry.job import Job, NotAJob, Point, Reading, SideHint
from geometry.job.measured.kinds import BLADE, PER_DEGREE
from geometry.survey.rows.rows_of_readings import fineness, rows_of
from geometry.work_out import work_out
from tests.geometry.survey.invented import SIDES_AND_DIAGONALS

PLACES = {
    "nut.left": 21.5j,
    "nut.right": -21.5j,
    "end.left": 480 + 28j,
    "end.right": 480 - 28j,
    "old.1": 620 + 40j,
    "old.2": 622 - 45j,
}
"""An invented board and the front of an old footprint, mm."""
EDGE, FRONT = ("nut.left", "end.left"), ("old.1", "old.2")
TIED = [
    *SIDES_AND_DIAGONALS,
    ("end.left", "old.1"),
    ("end.right", "old.1"),
    ("old.1", "old.2"),
]
BASS = SideHint(of=("nut.left", "end.left"), is_="right")
OTHER = {"left": "right", "right": "left"}


def true_degrees(places: dict[str, complex] = PLACES) -> float:
    """Derived: the angle between the directions of the edge and of the front."""
    edge, front = (places[b] - places[a] for a, b in (EDGE, FRONT))
    return math.degrees(abs(cmath.phase(front / edge)))


def bevel(**fields: object) -> Reading:
    return Reading(id="angle", kind="angle", of=FRONT, from_=EDGE, **fields)  # type: ignore[arg-type]  # a reading's own


def job(*more: Reading, hints: tuple[SideHint, ...] = (BASS,)) -> Job:
    """The board and the footprint's first corner by distances, and how long its front is."""
    read = [
        Reading(id=f"r{k}", kind="distance", of=of, value=round(abs(PLACES[of[0]] - PLACES[of[1]]), 3))
        for k, of in enumerate(TIED)
    ]
    points = {name: Point(side=hints if name == "old.2" else ()) for name in PLACES}
    return Job(points=points, readings=(*read, *more))


def measured(of: str) -> Reading:
    return Reading(id=f"to.{of}", kind="distance", of=(of, "old.2"), value=round(abs(PLACES[of] - PLACES["old.2"]), 3))


def mirrored(whole: Job) -> Job:
    """The same readings on the instrument's mirror image, whose left is right."""

    def named(name: str) -> str:
        head, _, side = name.partition(".")
        return f"{head}.{OTHER.get(side, side)}"

    def hint(one: SideHint) -> SideHint:
        return SideHint(of=(named(one.of[0]), named(one.of[1])), is_="left" if one.is_ == "right" else "right")

    points = {named(name): Point(side=tuple(hint(one) for one in p.side)) for name, p in whole.points.items()}
    turned = tuple(
        msgspec.structs.replace(r, of=tuple(map(named, r.of)), from_=tuple(map(named, r.from_))) for r in whole.readings
    )
    return msgspec.structs.replace(whole, points=points, readings=turned)


def test_an_angle_and_a_length_place_a_corner() -> None:
    layout = work_out(job(bevel(value=true_degrees())))
    assert layout.survey.verdict == "clean"
    at = layout.points["old.2"]
    assert complex(at.x, at.y) == pytest.approx(PLACES["old.2"], abs=0.02)  # the lengths are typed to 0.001 mm


def test_an_angle_turns_either_way_and_that_is_said() -> None:
    layout = work_out(job(bevel(value=true_degrees()), hints=()))
    assert layout.survey.verdict == "either side"
    assert "Old footprint 2 may lie on either side" in layout.survey.why.whole


def test_the_mirror_image_has_its_corner_mirrored() -> None:
    whole = job(bevel(value=true_degrees()))
    one, other = (work_out(each).points["old.2"] for each in (whole, mirrored(whole)))
    assert (other.x, other.y) == pytest.approx((one.x, -one.y), abs=1e-6)


def test_an_angle_is_the_same_with_both_lines_turned_round() -> None:
    back = msgspec.structs.replace(bevel(value=true_degrees()), of=FRONT[::-1], from_=EDGE[::-1])
    one, other = (work_out(job(each)).points["old.2"] for each in (bevel(value=true_degrees()), back))
    assert (other.x, other.y) == pytest.approx((one.x, one.y), abs=1e-4)


def test_a_gauge_that_slipped_is_named_in_degrees() -> None:
    whole = job(bevel(value=round(true_degrees()) - 12.0), measured("end.left"), measured("end.right"))
    why = work_out(whole).survey.why.whole
    assert why.startswith("“old footprint 1 to 2, angle to treble edge”: reads 1")
    assert "° less than the others allow. Set the gauge again, or strike it out." in why


def test_a_row_of_degrees_is_the_arc_at_a_blades_length() -> None:
    """Derived: 90 degrees are a quarter of a circle of 100 mm radius; half a degree's arc is 0.873 mm."""
    (row,) = rows_of(job(), [bevel(value=90)])[:1]
    assert row.value == pytest.approx(math.pi / 2 * 100)
    assert row.sigma == pytest.approx(0.873, abs=0.0005)
    assert fineness(bevel(within=3)).own == pytest.approx(3 / math.sqrt(3) * PER_DEGREE)
    assert BLADE == 100.0


@pytest.mark.parametrize(
    ("fields", "why"),
    [
        ({"value": 180.5}, "must lie between 0 and 180"),
        ({"value": -1}, "must lie between 0 and 180"),
        ({"value": "90 mm"}, "a number of degrees without a unit"),
        ({"value": (90, 91)}, "takes one value, but has two values"),
        ({"with_": "rule 1"}, "use one of bevel gauge"),
        ({"within": "1 mm"}, "a number of degrees without a unit"),
        ({"side": "left"}, "takes no side"),
        ({"asked": True}, "is no question"),
    ],
)
def test_what_no_angle_can_be(fields: dict[str, object], why: str) -> None:
    with pytest.raises(NotAJob, match=why):
        bevel(**fields)


def test_a_length_is_not_read_with_a_bevel_gauge() -> None:
    with pytest.raises(NotAJob, match="not known"):
        Reading(id="r", kind="distance", of=FRONT, with_="bevel gauge")
