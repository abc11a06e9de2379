"""What the proof is called and says, sentence by sentence."""

import msgspec
import pytest

from geometry.findings import is_unsure
from geometry.job import Job, Reading, Separate
from geometry.proof import Proved
from geometry.proof.distances_told import band_words, end_called, ends_in_short, row_words
from geometry.proof.faults import Cause
from geometry.proof.margin_left import MarginLeft
from geometry.proof.proof_at_stage import Row
from geometry.proof.proof_told import as_finding, said, string_words
from geometry.proof.where_it_stands import Pose, StringPlace
from tests.in_one import in_one

FRONT = Reading(id="p", kind="distance", of=("nut.left", "bridge.front.right"), value=640.0)
POSE = Pose(along=1.24, across=-0.36, turn=0.52, along_pm95=0.3, across_pm95=0.4, turn_pm95=0.2)
ROW = Row(reading=FRONT, wanted=641.26, band=0.83, good="not good", off=-1.26, blamed="likeliest")
STANDS = (
    "The bridge stands 1.2 ±0.3 mm too far from the nut, 0.4 ±0.4 mm to the bass side, and turned by 0.5 ±0.2°, "
    "which takes its bass end 1.4 ±0.6 mm farther from the nut than its treble end."
)


@pytest.mark.parametrize(
    ("name", "called"),
    [
        ("nut.right", "nut, bass corner"),
        ("end.left", "board end, treble corner"),
        ("fret12.left", "fret 12, treble edge"),
        ("bridge.slot.right", "slot front, bass end"),
        ("bridge.pin.6", "pin hole 6"),
        ("seam.1", "seam 1"),
    ],
)
def test_what_its_places_are_called(name: str, called: str) -> None:
    assert end_called(name, "right") == called


def test_where_there_is_little_room() -> None:
    def short(*of: str) -> str:
        return ends_in_short(msgspec.structs.replace(FRONT, of=of), "right")

    assert short("end.right", "bridge.slot.left") == "end bass – slot treble"
    assert short("fret12.left", "bridge.pin.1") == "fret 12 treble – pin 1"
    assert short("nut.left", "bridge.front.right") == "nut treble – front bass"


@pytest.mark.parametrize(
    ("separate", "called"),
    [
        (None, "bridge"),
        (Separate(bases="one"), "base"),
        (Separate(bases="one a string", set="square"), "row of bases"),
    ],
)
def test_what_is_placed_is_called_by_its_kind(separate: Separate | None, called: str) -> None:
    nowhere = msgspec.structs.replace(ROW, good="no place")
    assert row_words(Job(separate=separate), nowhere) == f"has no place on this {called}"


def test_each_distance_says_whether_it_is_good() -> None:
    one = msgspec.structs.replace
    assert row_words(Job(), ROW) == "not good: 1.3 mm less; likeliest misread"
    assert row_words(Job(), one(ROW, off=1.26, blamed="")) == "not good: 1.3 mm more"
    assert row_words(Job(), one(ROW, blamed="may be")) == "not good: 1.3 mm less; may be misread"
    assert [row_words(Job(), one(ROW, good=good)) for good in ("good", "to read", "struck", "no place")] == [
        "good",
        "",
        "left out",
        "has no place on this bridge",
    ]
    assert band_words(Job(), ROW) == "641.3 ±0.8 mm"
    assert band_words(Job(), one(ROW, good="no place")) == "–"


BACK = Reading(id="q", kind="distance", of=("end.left", "bridge.pin.6"), value=190.0)
MAY_BE = (msgspec.structs.replace(ROW, blamed="may be"),)
BOTH = (*MAY_BE, Row(reading=BACK, wanted=188.0, band=0.5, good="not good", off=2.0, blamed="may be"))
EITHER = (
    "Whichever it is, the bridge stands 1.2 ±0.3 mm too far from the nut, 0.4 ±0.4 mm to the bass side, and turned by "
    "0.5 ±0.2°, which takes its bass end 1.4 ±0.6 mm farther from the nut than its treble end."
)


def proved(cause: Cause | None, also: tuple[Cause, ...] = (), pose: Pose | None = POSE, **more: object) -> Proved:
    whole = Proved(stage="clamped", when="", rows=(ROW,), cause=cause, also=also, pose=pose, long=150.0)
    return msgspec.structs.replace(whole, **more)


@in_one(
    ("found", "says"),
    [
        (proved("good"), f"Good: the bridge is where it belongs. {STANDS}"),
        (proved("slipped"), f"Not good: likeliest the tape slipped. {STANDS} Lay the sheet again."),
        (
            proved("slipped", stage="built"),
            f"Not good: likeliest the tape slipped. {STANDS} Allow for it when the saddle is filed.",
        ),
        (
            proved("scale", size=(-0.0114, -0.0114)),
            "Not good: likeliest the sheet was printed 1.1 % too small. Lay a rule on its scales. If they are off, "
            "print it again at 100 %; if not, read again with the rule that measured the instrument.",
        ),
        (
            proved("scale", stage="built", size=(-0.0114, -0.0114)),
            "Not good: likeliest the sheet was printed 1.1 % too small. File the saddle string by string; where cents "
            "stay, fill the slot and cut it again.",
        ),
        (
            proved("scale", size=(0.006, -0.0131)),
            "Not good: likeliest the sheet was printed 0.6 % too long along the neck and 1.3 % too narrow across the "
            "neck. Lay a rule on its scales, both ways. If they are off, print it again with that printer’s "
            "correction; if not, read again with the rule that measured the instrument.",
        ),
        (
            proved("scale", size=(0.0004, 0.01)),
            "Not good: likeliest the sheet was printed 1.0 % too wide across the neck. Lay a rule on its scales, both "
            "ways. If they are off, print it again with that printer’s correction; if not, read again with the rule "
            "that measured the instrument.",
        ),
        (
            proved("swapped", stage="built"),
            "Not good: likeliest the sheet was turned over, bass for treble. File the saddle string by string; where "
            "cents stay, fill the slot and cut it again.",
        ),
        (
            proved("reading"),
            "Not good: likeliest “nut, treble corner to bridge front, bass corner” was misread; it reads 1.3 mm less "
            "than it should, and the others agree. Read it again.",
        ),
        (
            proved("scale", ("slipped",), size=(-0.0114, -0.0114), rows=()),
            "Not good, and it may be that the sheet was printed 1.1 % too small or the tape slipped. Lay a rule on the "
            f"sheet’s scales to tell which. {EITHER}",
        ),
        (
            proved("swapped", ("slipped",), rows=(), stage="built"),
            "Not good, and it may be that the sheet was turned over or the tape slipped. See which way up the sheet "
            f"lay to tell which. {EITHER} File nothing before.",
        ),
        (
            proved("slipped", ("reading", "scale"), size=(0.02, 0.02), rows=MAY_BE),
            "Not good, and it may be that the tape slipped, “nut, treble corner to bridge front, bass corner” was "
            "misread (1.3 mm less) or the sheet was printed 2.0 % too large. Read it again and lay a rule on the "
            f"sheet’s scales to tell which. {EITHER}",
        ),
        (
            proved("reading", rows=BOTH),
            "Not good, and it may be that “nut, treble corner to bridge front, bass corner” was misread (1.3 mm less) "
            "or “board end, treble corner to pin hole 6” was misread (2.0 mm more). Read these again to tell which. "
            f"{EITHER}",
        ),
        (
            proved("unclear", pose=None),
            "Not good: more than one thing is wrong. Read all distances again with the rule that measured the "
            "instrument; lay a rule on the sheet’s scales.",
        ),
        (proved(None), "Read 2 more distances, and they say where the bridge is."),
        (proved(None, rows=(ROW, ROW)), "Read 1 more distance, and they say where the bridge is."),
    ],
)
def test_what_the_distances_say_as_a_whole(found: Proved, says: str) -> None:
    assert said(Job(), found) == says
    told = as_finding(Job(), found)
    assert told.text.endswith(says)
    assert told.grade == ("good" if found.cause in (None, "good") else "look")


LEFT = MarginLeft(place="board end", side="right", mm=2.6, pm95=0.4, was=3.3, nearer=1.0)
KEEPS = "At the board end the outer bass string"


@pytest.mark.parametrize(
    ("mm", "pm95", "stage", "grade", "says"),
    [
        (2.6, 0.4, "clamped", "good", f"Good: the bridge is where it belongs. {STANDS} {KEEPS} keeps 2.6 ±0.4 mm"),
        (
            2.2,
            0.4,
            "clamped",
            "look",
            f"Good along the neck; across, these distances don’t tell enough. {STANDS} {KEEPS} keeps 2.2 ±0.4 mm to "
            "the board’s edge, and 2.0 mm is usual: stretch a thread along it and look before the glue.",
        ),
        (
            1.6,
            0.4,
            "clamped",
            "look",
            f"Not good across. {STANDS} {KEEPS} keeps only 1.6 ±0.4 mm to the board’s edge; 2.0 mm is usual. Move the "
            "bridge 1.0 mm to the treble side, and read again.",
        ),
        (
            -0.6,
            0.4,
            "built",
            "look",
            f"Not good across. {STANDS} {KEEPS} would lie 0.6 ±0.4 mm beyond the board’s edge; 2.0 mm is usual. Notch "
            "the saddle nearer the middle for it.",
        ),
    ],
)
def test_good_is_only_what_leaves_a_string_its_margin(
    mm: float, pm95: float, stage: str, grade: str, says: str
) -> None:
    """2 mm at the least: common practice, no source"""
    found = proved("good", stage=stage, margin=msgspec.structs.replace(LEFT, mm=mm, pm95=pm95))
    told = as_finding(Job(), found)
    assert says in told.text
    assert told.grade == grade
    assert found.wrong is (mm < 2.0)
    assert is_unsure(told) is (mm == 2.2)


def test_a_margin_that_was_to_be_small_is_not_the_bridges_fault() -> None:
    planned = msgspec.structs.replace(LEFT, mm=1.5, was=1.6)
    assert not planned.short
    assert not planned.may_be_short
    assert msgspec.structs.replace(planned, mm=1.1).short  # 0.5 mm less than planned, known to ±0.4


def test_a_bridge_on_the_other_sides() -> None:
    other = Pose(along=-1.24, across=0.36, turn=-0.52, along_pm95=0.3, across_pm95=0.4, turn_pm95=0.2)
    assert (
        "too near to the nut, 0.4 ±0.4 mm to the treble side, and turned by 0.5 ±0.2°, which takes its treble end 1.4"
        in said(Job(), proved("good", pose=other))
    )
    assert "too large" in said(Job(), proved("scale", size=(0.01, 0.01)))


@pytest.mark.parametrize(
    ("cents", "file", "left_cents", "says"),
    [
        (2.5, -0.9, 0.04, "2.5 ±0.8 cents flat; file the ridge 0.9 mm forward"),
        (-2.5, 0.9, 0.04, "2.5 ±0.8 cents sharp; file the ridge 0.9 mm back"),
        (-2.5, 0.9, -0.05, "2.5 ±0.8 cents sharp; file the ridge 0.9 mm back, 0.1 cents stay"),
        (-2.5, 0.05, 0.0, "2.5 ±0.8 cents sharp; file the ridge 0.1 mm back"),
        (0.1, -0.049, 0.049, "0.1 ±0.8 cents flat; leave the ridge"),
        (2.5, 0.0, 2.5, "2.5 ±0.8 cents flat; its ridge cannot go farther"),
        (0.1, 0.0, 0.05, "0.1 ±0.8 cents flat; leave the ridge"),
        (0.1, 0.0, 2.1, "0.1 ±0.8 cents flat; its ridge cannot go farther"),
        (2.0, -0.75, 0.0, "2.0 ±0.8 cents flat; leave the ridge"),  # an ear is sure of no less (common practice)
    ],
)
def test_what_filing_does_for_a_string(cents: float, file: float, left_cents: float, says: str) -> None:
    """What shows as nothing (half a tenth) is nothing."""
    string = StringPlace(
        name="1", off=cents / 2.7, pm95=0.3, cents=cents, cents95=0.8, file=file, left=0.0, left_cents=left_cents
    )
    assert string_words(Job(), string) == says


def test_what_is_less_than_its_own_pm_asks_for_no_filing_and_before_the_glue_none_is_told_as_done() -> None:
    unsure = StringPlace(name="5", off=1.7, pm95=1.8, cents=4.6, cents95=4.7, file=-1.7, left=0.0, left_cents=0.0)
    assert string_words(Job(unit="in"), unsure) == "4.6 ±4.7 cents flat; leave the ridge"
    sure = msgspec.structs.replace(unsure, cents=4.8, file=-1.75)
    assert string_words(Job(), sure, "clamped") == "4.8 ±4.7 cents flat; glued so, file the ridge 1.8 mm forward"
    assert string_words(Job(), sure, "built") == "4.8 ±4.7 cents flat; file the ridge 1.8 mm forward"


def test_a_turn_says_which_end_it_takes_farther() -> None:
    """derived: 0.3° of 152.4 mm (6 in) is 0.80 mm, 2/64 in; its ± of 0.4° is 1.06 mm, rounded up 3/64"""
    turned = msgspec.structs.replace(POSE, turn=0.3, turn_pm95=0.4)
    left = Job(unit="in", hand="left")
    assert said(left, proved("slipped", pose=turned, long=152.4)).endswith(
        "and turned by 0.3 ±0.4°, which takes its treble end 1/32 ±3/64 in farther from the nut than its bass end. "
        "Lay the sheet again."
    )
    straight = msgspec.structs.replace(POSE, turn=0.01, turn_pm95=0.4)
    assert "turned by 0.0 ±0.4°, which is ±1.1 mm from end to end." in said(Job(), proved("good", pose=straight))


def test_a_sheets_size_that_is_less_than_its_own_pm_is_not_told_beside_another_cause() -> None:
    small = msgspec.structs.replace(proved("scale", rows=()), size=(0.0014, 0.0014), size_pm=(0.0022, 0.0022))
    one = msgspec.structs.replace
    for first, then in (("slipped", "scale"), ("scale", "slipped")):
        assert said(Job(), one(small, cause=first, also=(then,))).startswith("Not good: likeliest the tape slipped.")
    both = one(small, cause="slipped", also=("scale",), size_pm=(0.0013, 0.0013))
    assert "the tape slipped or the sheet was printed 0.1 % too large" in said(Job(), both)
    assert "printed 0.1 % too large" in said(Job(), small)  # nothing else explains it
    along = one(small, size=(0.006, 0.0014))
    assert "printed 0.6 % too long along the neck. Lay" in said(Job(), along)


def test_what_only_all_distances_together_show_is_said_of_them_together() -> None:
    each = msgspec.structs.replace(ROW, good="good", blamed="")
    assert said(Job(), proved("slipped", rows=(each, each, each))).startswith(
        "Each distance is good by itself, but not all together: likeliest the tape slipped."
    )
    assert said(Job(), proved("slipped", rows=(each, ROW))).startswith("Not good: likeliest")


def test_what_reads_like_its_band_and_is_beyond_it_says_so() -> None:
    finer = msgspec.structs.replace(ROW, off=0.84, blamed="")
    assert row_words(Job(), finer) == "not good: just over 0.8 mm more"
