"""Whether the frets as counted check each other, and which one to read next."""

from typing import Literal

import pytest
from msgspec.structs import replace

from geometry.frets.fret_fit import count_told
from geometry.frets.fret_lines import unchecked
from geometry.job import Frets, Job, Reading
from geometry.layout import Fit
from geometry.work_out import work_out
from tests.geometry.frets.test_fret_lines import TWELFTH, read_on
from tests.geometry.made import BOARD, job
from tests.in_one import in_one


@pytest.mark.parametrize(("counted", "told"), [((12,), False), ((1, 12), False), ((1, 5, 12), True)])
def test_a_count_that_two_frets_cannot_tell_is_said(counted: tuple[int, ...], told: bool) -> None:
    one, other = read_on("left", counted), read_on("right", counted)
    frets = tuple(replace(r, id=f"{r.id}{r.on}") for r in (*one.readings, *other.readings) if r.kind == "fret")
    layout = work_out(replace(one, readings=(*one.readings[: len(BOARD)], *frets)))
    assert told != any(f.code == "frets.unchecked" and "counted" in f.text for f in layout.findings)


@pytest.mark.parametrize(
    ("counted", "hidden", "says"),
    [
        ({"left": (5, 9, 12), "right": (5, 9, 12)}, (), ""),
        ({"left": (5, 9, 12), "right": (5, 9, 12)}, ("9 left",), "Nothing checks fret 9 (treble): a slip there"),
        ({"left": (5, 9, 12), "right": (5, 9, 12)}, ("9 right",), "Nothing checks fret 9 (bass): a slip there"),
        ({"left": (5, 9, 12), "right": (9, 12)}, ("5 left",), "Read fret 5 along the bass string as well."),
        ({"left": (5, 9, 12), "right": (5, 9, 12)}, ("9 left",), "Read fret 7 along the treble string as well."),
        ({"left": (5, 9, 12), "right": (5, 9, 12)}, ("9 right",), "Read fret 7 along the bass string as well."),
        ({"left": (5, 12), "right": (5, 12)}, (), "Too few frets are read to tell how they were counted"),
        ({"left": (5, 12), "right": (5, 12)}, (), "Read fret 9 along the bass string as well."),
        ({"left": (12,), "right": ()}, ("12 left",), "Nothing checks the frets: a misread or miscounted one"),
    ],
)
def test_which_fret_would_check_the_others(
    counted: dict[Literal["left", "right"], tuple[int, ...]], hidden: tuple[str, ...], says: str
) -> None:
    """Along the side with fewer, or that of one that nothing checks, a fret that is not read there."""
    read = [(f"{fret} {side}", fret, side) for side, frets in counted.items() for fret in frets]
    readings = tuple(Reading(id=name, kind="fret", fret=fret, on=side, value=300.0) for name, fret, side in read)
    fit = Fit(id="", value=300.0, adjusted=300.0, residual=0.0, sigma=0.2, redundancy=0.5, w=0.0, believable=0.7)
    # derived: 4.132 × 0.2 mm over the root of the redundancy number
    seen, unseen = replace(fit, smallest_error=1.17), replace(fit, redundancy=0.0001, smallest_error=82.6)
    fits = tuple(replace(unseen if name in hidden else seen, id=name) for name, _, _ in read)
    found = unchecked(Job(readings=readings), fits)
    assert (says in found[0].text) if says else found == ()


@in_one(
    ("read", "twelfth", "scale", "told"),
    # derived: three different frets, points on fret 12 being one; a typed scale; or no fret that can be miscounted
    [
        ((), False, None, True),
        ((), False, 640.0, True),
        ((), True, None, False),
        ((), True, 640.0, True),
        ((5,), False, None, False),
        ((5, 12), False, None, False),
        ((5, 12), True, None, False),
        ((5, 7), True, None, True),
        ((5, 7), False, None, False),
        ((5, 7, 12), False, None, True),
        ((5,), False, 640.0, True),
    ],
)
def test_whether_frets_counted_wrong_alike_would_show(
    read: tuple[int, ...], twelfth: bool, scale: float | None, told: bool
) -> None:
    frets = [Reading(id=f"f{n}", kind="fret", fret=n, on="left", value=30.0 * n) for n in read]
    struck = Reading(id="s", kind="fret", fret=3, on="left", value=100.0, struck=True)
    on_12 = [Reading(id="t", kind="distance", of=("fret12.left", "fret12.right"), value=54.0)] if twelfth else []
    base = job(BOARD | TWELFTH, "right", frets=Frets(scale=scale))
    assert count_told(replace(base, readings=(*frets, struck, *on_12))) == told


@pytest.mark.parametrize(
    ("read", "next_"), [((), 12), ((12,), 5), ((5, 12), 9), ((5, 9, 12), 7), ((5, 7, 9, 12), 3), ((3, 5, 7, 9, 12), 1)]
)
def test_the_fret_that_is_asked_for_next(read: tuple[int, ...], next_: int) -> None:
    """The bass side lacks what the treble side has; on it these are read (common practice, no source)."""
    sides: tuple[tuple[Literal["left", "right"], tuple[int, ...]], ...] = (
        ("left", (2, 4, 6, 8, 10, 11)),
        ("right", read),
    )
    readings = tuple(
        Reading(id=f"{n}{side}", kind="fret", fret=n, on=side, value=300.0) for side, frets in sides for n in frets
    )
    fit = Fit(id="", value=300.0, adjusted=300.0, residual=0.0, sigma=0.2, redundancy=0.0001, w=0.0, believable=0.7)
    (found,) = unchecked(Job(readings=readings), tuple(replace(fit, id=one.id) for one in readings))
    assert f"Read fret {next_} along the bass string as well." in found.text


def test_a_scale_typed_where_no_fret_was_read_is_not_checked() -> None:
    (found,) = unchecked(Job(frets=Frets(scale=640.0)), ())
    assert found.code == "frets.unchecked"
    assert found.text.startswith("Nothing checks the scale as typed")
    assert "Read fret 12 along the bass string" in found.text
    assert unchecked(Job(), ()) == ()


@pytest.mark.parametrize(("count", "next_"), [(12, 12), (11, 5), (5, 5), (4, 3), (1, 1)])
def test_no_fret_is_asked_for_that_the_board_has_not(count: int, next_: int) -> None:
    taken = Reading(id="f", kind="fret", fret=2, on="left", value=70.0)
    fit = Fit(id="f", value=70.0, adjusted=70.0, residual=0.0, sigma=0.2, redundancy=0.0001, w=0.0, believable=0.7)
    (found,) = unchecked(Job(readings=(taken,), frets=Frets(count=count)), (fit,))
    assert f"Read fret {next_} along" in found.text
