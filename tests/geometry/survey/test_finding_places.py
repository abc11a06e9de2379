"""Places are found from readings of every kind, without any coordinates given."""

import math

import msgspec
import pytest

from geometry.job import Job, Point, Reading
from geometry.survey import survey
from tests.geometry.survey.invented import BOARD, Wanted, job_of, taken
from tests.geometry.survey.test_verdicts import SQUARE


def reading(key: str, kind: str, of: str, laid: str = "", **more: object) -> Reading:
    return Reading(id=key, kind=kind, of=tuple(of.split()), from_=tuple(laid.split()), sigma=0.2, **more)  # type: ignore[arg-type]


def places(job: Job) -> dict[str, complex]:
    solved = survey(job)
    return {name: complex(*solved.state[c : c + 2]) for name, c in solved.point_at.items()}


def apart(at: dict[str, complex], a: str, b: str) -> float:
    return abs(at[a] - at[b])


SEAM = BOARD | {"seam.1": 512 + 3j, "seam.2": 780 - 9j, "old.1": 634 + 75j, "old.2": 631 - 78j}
BY_STRAIGHTEDGE: list[Wanted] = [
    *SQUARE,
    ("along", "seam.1", "nut.left end.left"),
    ("off", "seam.1", "nut.left end.left"),
    ("along", "seam.2", "nut.right end.right"),
    ("off", "seam.2", "nut.right end.right"),
    ("off", "old.1", "seam.1 seam.2"),
    ("along", "old.1", "seam.1 seam.2"),
    ("across", "old.1 old.2", "seam.1 seam.2"),
    ("along", "old.2", "seam.1 seam.2"),
]


@pytest.mark.parametrize("turned", [False, True], ids=["in order", "backwards"])
def test_straightedges_laid_on_points_that_are_themselves_measured(turned: bool) -> None:
    wanted = BY_STRAIGHTEDGE[::-1] if turned else BY_STRAIGHTEDGE
    found = places(job_of(taken(SEAM, wanted)))
    assert set(found) == {name for name in SEAM if not name.startswith("fret12")}
    for a, b in (("nut.left", "old.2"), ("old.1", "old.2"), ("end.right", "seam.2")):
        assert apart(found, a, b) == pytest.approx(abs(SEAM[a] - SEAM[b]), abs=1e-6)


def test_the_end_of_a_straightedge_is_found_from_a_point_off_it() -> None:
    """c lies 30 left of a–b, 200 from a: so a–b runs asin(30/200) to the right of a–c; b is 300 along it."""
    job = job_of(
        (
            reading("1", "distance", "a c", value=200.0),
            reading("2", "off", "c", "a b", side="left", value=30.0),
            reading("3", "distance", "a b", value=300.0),
            reading("4", "along", "c", "a b", value=math.sqrt(200**2 - 30**2)),
        )
    )
    found = places(job)
    expected = 300**2 + 200**2 - 2 * 300 * 200 * math.cos(math.asin(0.15))
    assert apart(found, "b", "c") == pytest.approx(math.sqrt(expected), abs=1e-6)


def test_a_straightedge_whose_length_nobody_read() -> None:
    """Two points along and off it have their places though its far end has none."""
    job = job_of(
        (
            reading("1", "along", "c", "a b", value=130.0),
            reading("2", "off", "c", "a b", side="left", value=30.0),
            reading("3", "along", "d", "a b", value=230.0),
            reading("4", "off", "d", "a b", side="right", value=30.0),
        )
    )
    solved = survey(job)
    assert {point.point for point in solved.report.loose} == {"b"}
    assert apart(places(job), "c", "d") == pytest.approx(math.hypot(100, 60), abs=1e-6)


def test_a_square_holds_a_corner() -> None:
    """A carpenter's square on a–b at b: c stands 40 off at a right angle, on the left as its name does not say."""
    job = job_of(
        (
            reading("1", "distance", "a b", value=300.0),
            reading("2", "square", "a b b c"),
            reading("3", "distance", "b c", value=40.0),
            reading("4", "off", "c", "a b", side="left", value=40.0),
        )
    )
    assert apart(places(job), "a", "c") == pytest.approx(math.hypot(300, 40), abs=1e-6)


def test_where_an_edge_meets_the_straightedge() -> None:
    """The footprint's front crosses the line of the left edge 634 from the nut."""
    job = job_of(
        (
            *taken(BOARD, SQUARE),
            reading("m", "meets", "old.1 old.2", "nut.left end.left", value=634.0),
            reading("o1", "off", "old.1", "nut.left end.left", side="left", value=45.0),
            reading("o2", "off", "old.2", "nut.left end.left", side="right", value=108.0),
            reading("s", "square", "old.1 old.2 nut.left end.left"),
        )
    )
    found = places(job)
    edge = (found["end.left"] - found["nut.left"]) / abs(found["end.left"] - found["nut.left"])
    for name in ("old.1", "old.2"):
        assert ((found[name] - found["nut.left"]) * edge.conjugate()).real == pytest.approx(634, abs=1e-6)


def test_rims_give_the_hole_and_its_diameter() -> None:
    job = job_of(
        (
            *taken(BOARD, SQUARE),
            reading("p1", "rims", "end.left pin.1", value=(200.0, 205.2)),
            reading("p2", "rims", "end.right pin.1", value=(210.0, 215.2)),
        )
    )
    assert survey(job).report.diameters["pin.1"] == pytest.approx(5.2)
    assert apart(places(job), "end.left", "pin.1") == pytest.approx(202.6, abs=1e-6)


def test_a_sheet_alone_gives_places_that_nothing_checks() -> None:
    job = job_of(
        tuple(reading(n, "at", n, value=v) for n, v in (("a", (0.0, 0.0)), ("b", (3.0, 4.0)), ("c", (9.0, 0.0))))
    )
    solved = survey(job)
    assert solved.report.verdict == "unchecked"
    assert apart(places(job), "a", "b") == pytest.approx(5.0)


def test_a_sheet_lies_askew_to_the_other_readings() -> None:
    """Read off a sheet turned by 30 degrees and shifted; two points of it are measured as well."""
    turn = complex(math.cos(0.5), math.sin(0.5))
    sheet = {name: SEAM[name] * turn + (12 - 7j) for name in ("nut.left", "end.right", "seam.1")}
    readings = (
        *taken(BOARD, SQUARE),
        *(reading(f"s{n}", "at", n, value=(z.real, z.imag)) for n, z in sheet.items()),
    )
    found = places(job_of(readings))
    assert apart(found, "end.left", "seam.1") == pytest.approx(abs(SEAM["end.left"] - SEAM["seam.1"]), abs=1e-6)
    assert (((found["end.left"] - found["nut.left"]).conjugate() * (found["seam.1"] - found["nut.left"])).imag) < 0


def test_by_their_names_the_board_lies_tailward_of_the_nut_and_left_is_left() -> None:
    found = places(job_of(taken(BOARD, SQUARE)))
    across, ahead = found["nut.left"] - found["nut.right"], found["end.left"] - found["nut.right"]
    assert (ahead.conjugate() * across).imag > 0


def test_figures_that_do_not_hang_together_leave_the_lesser_one_loose() -> None:
    more = [reading("x", "distance", "body.1 body.2", value=90.0)]
    solved = survey(job_of((*taken(BOARD, SQUARE), *more)))
    assert {point.point for point in solved.report.loose} == {"body.1", "body.2"}
    assert len(solved.point_at) == 4


def test_a_point_of_which_only_one_thing_is_known_is_drawn_near_the_board() -> None:
    # derived: the corners' middle is 220 from the nut; 150 on toward the tail, and 24.5 to the right of the left edge,
    # along which that is as far to within the edges' lean of 6 in 440
    board = {"nut.left": 22j, "nut.right": -22j, "end.left": 440.0 + 28j, "end.right": 440.0 - 28j}
    corners = list(board)
    pairs: list[Wanted] = [("distance", f"{a} {b}", "") for i, a in enumerate(corners) for b in corners[i + 1 :]]
    off = Reading(
        id="off", kind="off", of=("seam.1",), from_=("nut.left", "end.left"), side="right", value=24.5, within=0.5
    )
    found = survey(job_of((*taken(board, pairs), off)))
    x, y = found.rough["seam.1"]
    state = found.state
    a, b = (complex(*state[at : at + 2]) for at in (found.point_at["nut.left"], found.point_at["end.left"]))
    along = (complex(x, y) - a) * ((b - a) / abs(b - a)).conjugate()
    assert along.real == pytest.approx(370.0, abs=3.0)
    assert along.imag == pytest.approx(-24.5, abs=1e-6)


@pytest.mark.parametrize("family", ["head", "headslot", "post", "screw"])
@pytest.mark.parametrize("there", [-40.0, 40.0])
def test_where_a_point_of_the_headstock_may_lie_on_either_side_of_the_nut_its_rough_place_tells(
    family: str, there: float
) -> None:
    """derived: two distances from the nut's corners leave two places, one on each side of its front"""
    name = f"{family}.1"
    two: list[Wanted] = [("distance", f"nut.{side} {name}", "") for side in ("left", "right")]
    made = job_of(
        taken(
            BOARD | {name: 40 + 12j},
            [*SQUARE, *two],
        )
    )
    near = msgspec.structs.replace(made, points={**made.points, name: Point(near=(there, 12.0))})
    at = places(near)
    ahead = -1j * (at["nut.left"] - at["nut.right"])
    along = ((at[name] - at["nut.left"]) * ahead.conjugate()).real / abs(ahead)
    assert along == pytest.approx(there, abs=0.5)
