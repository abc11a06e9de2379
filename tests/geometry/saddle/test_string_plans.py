"""The strings in the layout: where they leave the nut and the saddle, what stays in cents, and the ear."""

import math

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.job import Board, Heard, Heights, Pins, Saddle, SlotFront, Spread, String, Strings
from geometry.job.seating import Moved
from geometry.layout import Layout
from geometry.strings.usual_sets import SETS
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, bridge, job, scales, six, surveyed

STEEL = Strings(
    list=SETS["steel 12-54"].strings,
    nut=Spread(spread=38.0),
    saddle=Spread(spread=56.0),
    height=Heights(nut=0.45, saddle=3.2),
)
TRIAL: dict[str, XY] = {"trial.1.left": (644.0, 40.0), "trial.1.right": (644.0, -40.0)}
ACTION = {
    "height.fret 1.left": 0.5,
    "height.fret 1.right": 0.6,
    "height.fret 12.left": 1.9,
    "height.fret 12.right": 2.5,
}


def laid_out(
    strings: Strings, points: dict[str, XY] = BOARD, extras: dict[str, float] | None = None, **blocks: object
) -> Layout:
    return lay_out(
        job(points, "right", strings=strings, **blocks), surveyed(points, scales(640.0, 640.0) | (extras or {}))
    )


def told(layout: Layout) -> dict[str, Finding]:
    return {finding.code: finding for finding in layout.findings}


def heard(*what: Heard) -> Strings:
    return replace(six(bass=3.0, treble=3.0), compensation="worked out", heard=what)


def test_a_string_of_unknown_make_goes_where_a_trial_saddle_and_the_ear_send_it() -> None:
    # derived: the trial saddle stands 4 past the nominal place of 640; there 1 mm is 1731.2 (1/324 − 1/644) = 2.655
    # cents, so 6 cents sharp send string 6 farther by 2.26; its path leans by 0.014, which is 0.06 at 640
    layout = laid_out(heard(Heard(string="6", cents=6, trial="1", against="open")), BOARD | TRIAL)
    string = layout.strings[-1]
    assert string.compensation_from == "by ear"
    assert string.break_point[0] == pytest.approx(644.0 + 6 / 2.655, abs=0.005)
    assert [one.compensation_from for one in layout.strings[:5]] == ["common practice"] * 5


def test_how_well_a_trial_saddle_is_measured_tells_in_the_compensation() -> None:
    # derived: 2 cents are 0.753 mm; ends, scales and nut known to 0.1 each leave the trial between 0.13 and 0.3
    layout = laid_out(heard(Heard(string="6", cents=6, trial="1", against="open")), BOARD | TRIAL)
    least, most = (1.96 * math.hypot(2 / 2.655, sd) for sd in (0.13, 0.3))
    assert least < layout.strings[-1].compensation_pm95 < most


def test_a_slanted_trial_saddle_is_met_by_each_string_on_its_own_path() -> None:
    # derived: over 80 the trial leans 2, so at y = ±28 it stands at 644 ± 0.7; nothing heard amiss leaves it there
    slanted: dict[str, XY] = {"trial.1.left": (643.0, 40.0), "trial.1.right": (645.0, -40.0)}
    both = heard(*(Heard(string=name, cents=0, trial="1", against="open") for name in ("1", "6")))
    layout = laid_out(both, BOARD | slanted)
    assert layout.strings[0].break_point[0] == pytest.approx(643.3, abs=0.01)
    assert layout.strings[5].break_point[0] == pytest.approx(644.7, abs=0.01)


def test_a_trial_saddle_whose_ends_are_not_measured_is_said() -> None:
    layout = laid_out(heard(Heard(string="6", cents=6, trial="1")))
    assert "trial saddle 1 is not used yet" in told(layout)["heard.no_trial"].text
    assert layout.strings[-1].compensation_from == "common practice"


def test_a_known_string_is_moved_part_of_the_way_by_the_ear() -> None:
    silent = laid_out(STEEL, BOARD | TRIAL).strings[-1]
    sharp = laid_out(replace(STEEL, heard=(Heard(string="6", cents=3, trial="1"),)), BOARD | TRIAL).strings[-1]
    assert silent.compensation < sharp.compensation
    assert sharp.compensation_from == "by ear"
    assert sharp.compensation_pm95 < silent.compensation_pm95


def test_action_as_read_stands_before_heights_as_typed() -> None:
    typed, measured = laid_out(STEEL), laid_out(STEEL, extras=ACTION)
    assert typed.strings[0].compensation != measured.strings[0].compensation
    again = laid_out(replace(STEEL, height=Heights(nut=2.0, saddle=9.0)), extras=ACTION)
    assert again.strings[0].compensation == pytest.approx(measured.strings[0].compensation)


def test_heights_that_were_read_are_used_though_others_are_missing() -> None:
    # the heights typed in the job (b, c) stand where none was read: STEEL's at the bass side over fret 12
    three = {name: value for name, value in ACTION.items() if name != "height.fret 12.right"}
    some, every, none = (laid_out(STEEL, extras=extras).strings for extras in (three, ACTION, {}))
    assert some[0].compensation == pytest.approx(every[0].compensation)
    assert some[5].compensation != pytest.approx(none[5].compensation, abs=1e-3)
    assert some[5].compensation != pytest.approx(every[5].compensation, abs=1e-3)


def test_a_height_that_is_missing_is_named_and_assumed() -> None:
    three = {name: value for name, value in ACTION.items() if name != "height.fret 1.right"}
    found = told(laid_out(replace(STEEL, height=None), extras=three))["heights.assumed"]
    assert found.grade == "look"
    assert found.text.startswith("The string’s height over fret 1 at bass is missing, so the usual one is assumed")
    assert "heights.assumed" not in told(laid_out(replace(STEEL, height=None), extras=ACTION))


def test_a_height_no_instrument_has_is_a_slip_and_left_out() -> None:
    layout = laid_out(STEEL, extras=ACTION | {"height.fret 12.right": 25.0})
    assert told(layout)["heights.slip"].text.startswith("The bass string over fret 12 reads 25.0 mm")
    read = {name: value for name, value in ACTION.items() if name != "height.fret 12.right"}
    assert layout.strings == laid_out(STEEL, extras=read).strings


def test_the_string_leaves_a_compensated_nut_behind_its_front() -> None:
    # derived: 0.8 toward the headstock along the neck centre line, on the string's path, which leans 9 in 643
    plain, moved = (
        laid_out(six(bass=3.0, treble=3.0)),
        laid_out(replace(six(bass=3.0, treble=3.0), nut_compensation=0.8)),
    )
    here, there = plain.strings[0], moved.strings[0]
    assert here.nut_xy == pytest.approx((0.0, 19.0))
    assert there.nut_xy == pytest.approx((-0.8, 19.0 - 0.8 * 9 / 643), abs=1e-4)
    assert there.length == pytest.approx(here.length + 0.8, abs=1e-3)
    assert there.break_point == here.break_point


def test_a_nut_worked_out_shortens_most_strings() -> None:
    # Anderson & Beausoleil 2024 find set-backs at the nut below nought throughout: the nut moves toward the bridge
    layout = laid_out(replace(STEEL, nut_compensation="worked out"))
    assert min(string.nut_compensation for string in layout.strings) < -0.1
    first = layout.strings[0]
    assert first.nut_xy[0] == pytest.approx(-first.nut_compensation)


def test_a_zero_fret_leaves_no_nut_to_compensate() -> None:
    layout = laid_out(replace(STEEL, nut_compensation=0.8), board=Board(zero_fret=True))
    assert {string.nut_compensation for string in layout.strings} == {0.0}
    assert told(layout)["nut.zero_fret"].grade == "look"
    assert "nut.zero_fret" not in told(laid_out(STEEL, board=Board(zero_fret=True)))


def test_the_peak_lies_inside_the_saddle_under_every_string() -> None:
    peaks = [string.peak for string in laid_out(STEEL).strings]
    assert all(0 <= peak <= 1 for peak in peaks)
    assert max(peaks) - min(peaks) > 0.2


def test_what_stays_in_cents_is_that_of_the_slot_as_it_is_cut() -> None:
    # derived: a slot cut square under a square bridge leaves the bass short and the treble long by half the slant each,
    # of which the saddle's thickness takes back what it has room for
    cut = bridge(slot_front=SlotFront(left=9.0, right=9.0), pins=None)
    thin = Saddle(thickness=2.5)
    free, held = laid_out(STEEL, saddle=thin), laid_out(STEEL, saddle=thin, bridge=cut)
    saddle = held.saddle
    assert saddle is not None
    treble, bass = saddle.left_over
    assert treble > 0.5
    assert bass < -0.5
    assert held.strings[-1].cents[12] > free.strings[-1].cents[12] + 0.3
    assert held.strings[0].peak < free.strings[0].peak


def test_a_straight_saddle_tells_what_it_costs() -> None:
    strings = six(bass=6.0, treble=1.0)
    found = told(laid_out(strings, saddle=Saddle(thickness=3.0, straight=True)))["saddle.straight"]
    # derived: all at 3.5 with room for 1.5 either way leaves the outer strings 1.0 off: 1731.2/640 = 2.7 cents
    assert abs(found.values["cents"]) == pytest.approx(2.7, abs=0.05)
    assert abs(found.values["mm"]) == pytest.approx(1.0, abs=0.005)
    assert found.grade == "look"
    # derived: a thickness of 6 holds all; unfiled the outer strings are 2.5 off: 2.5 × 1731.2/640 = 6.76 cents
    held = told(laid_out(strings, saddle=Saddle(thickness=6.0, straight=True)))
    assert "saddle.straight" not in held
    assert abs(held["saddle.square"].values["cents"]) == pytest.approx(6.76, abs=0.05)
    assert "stands square to the neck. Unfiled that costs 6.8 cents at fret 12" in held["saddle.square"].text
    assert "saddle.square" not in told(laid_out(strings, saddle=Saddle(thickness=6.0)))


def test_a_string_the_thickness_cannot_hold_is_named() -> None:
    # derived: 5 mm behind the others, and a thickness of 3 holds 3 of them
    strings = replace(six(bass=3.0, treble=3.0), compensation=(3.0, 3.0, 8.0, 3.0, 3.0, 3.0))
    found = told(laid_out(strings))["saddle.room"]
    assert "too thin for string 3: it should break" in found.text
    assert "farther back" in found.text
    assert found.text.endswith(" A saddle of 5.0 mm would carry all of them.")


def test_no_thickness_is_told_for_a_slot_that_goes_along_with_the_bridge() -> None:
    """What carries all strings where they want it is too thin 2 mm farther on, which a thicker saddle was told to mend
    (derived: 3 mm hold 2 and a half of the 3 that the strings want; the slot lies 2 mm behind its place).
    """
    strings = replace(six(bass=3.0, treble=3.0), compensation=(3.0, 3.0, 5.5, 3.0, 3.0, 3.0))
    moved = Moved(along=2.0, slot="goes along")
    assert told(laid_out(strings, bridge=bridge(moved=moved)))["saddle.room"].text.endswith("the most of all strings.")
    assert "saddle.room" not in told(laid_out(strings, bridge=bridge(moved=replace(moved, slot="stays"))))


def test_pins_of_pairs_stand_in_two_rows() -> None:
    # derived: the second hole of each pair 8 mm behind the first's row, on its own string's path
    twelve = Strings(list=SETS["steel twelve 10-46"].strings, saddle=Spread(spread=58.0), compensation=(3.0,) * 12)
    layout = laid_out(twelve, bridge=bridge(pins=Pins(), width=34.0))
    assert layout.bridge is not None
    xs = [pin.at[0] for pin in layout.bridge.pins]
    assert [b - a for a, b in zip(xs[0::2], xs[1::2], strict=True)] == pytest.approx([8.0] * 6, abs=0.05)
    # derived: 3.0 aside, less 0.1 where a path leans by 0.014 over 8, and 8 behind: 8.51 apart, less two radii of 2.5
    assert layout.bridge.wood["holes"] == pytest.approx(3.51, abs=0.05)
    assert "wood.holes" not in told(layout)


def test_pins_of_pairs_in_one_row_run_into_each_other() -> None:
    twelve = Strings(list=SETS["steel twelve 10-46"].strings, saddle=Spread(spread=58.0), compensation=(3.0,) * 12)
    found = told(laid_out(twelve, bridge=bridge(pins=Pins(second_row=0.0))))["wood.holes"]
    assert found.grade == "stop"
    assert found.values["wood"] == pytest.approx(3.0 - 5.0, abs=0.05)


def test_a_tie_bridge_has_no_holes_and_its_strings_end_at_the_saddle() -> None:
    layout = laid_out(six(bass=2.0, treble=1.5), bridge=bridge(outline="straight", pins=None, width=29.0))
    assert layout.bridge is not None
    assert layout.bridge.pins == ()
    assert layout.strings[0].end == layout.strings[0].break_point
    assert set(layout.bridge.wood) == {"front", "behind"}


def test_one_string_has_a_saddle_without_a_slant() -> None:
    one = Strings(list=(String(name="1"),), saddle=Spread(spread=10.0), compensation=(3.0,))
    layout = laid_out(one, bridge=bridge())
    assert layout.saddle is not None
    assert (layout.saddle.slant, layout.saddle.longer) == (0.0, "neither")
    assert layout.strings[0].break_point == pytest.approx((643.0, 0.0), abs=0.07)
    assert layout.saddle.slot[0][1] == pytest.approx(10.0)  # 10 mm past the string on either side


def test_an_end_of_the_saddle_is_as_uncertain_as_the_strings_near_it() -> None:
    # derived: a straight line's least squares weigh six strings at its end 11, 8, 5, 2, -1, -4 of 21; those below
    # nought left out, 11, 8, 5, 2 of 26. The survey is as good as exact
    made = job(BOARD, "right", strings=STEEL)
    layout = lay_out(made, surveyed(BOARD, scales(640.0, 640.0), sd=1e-5))
    assert layout.saddle is not None
    pm95 = [string.compensation_pm95 for string in layout.strings]
    treble, bass = (sum(w * pm for w, pm in zip((11, 8, 5, 2), own, strict=False)) / 26 for own in (pm95, pm95[::-1]))
    assert layout.saddle.pm95 == pytest.approx((treble, bass), abs=1e-3)
    # what is wrong with all strings moves both ends the same way, so the slant is surer than two ends by themselves
    assert layout.saddle.slant_pm95 < math.hypot(treble, bass) - 0.1


def test_one_string_carries_all_its_spread_into_the_saddle() -> None:
    one = Strings(list=STEEL.list[:1], saddle=Spread(spread=10.0), height=STEEL.height)
    layout = lay_out(job(BOARD, "right", strings=one), surveyed(BOARD, scales(640.0, 640.0), sd=1e-5))
    assert layout.saddle is not None
    assert layout.saddle.pm95[0] == pytest.approx(layout.strings[0].compensation_pm95, abs=1e-3)


def test_strings_whose_place_is_typed_leave_the_saddle_to_the_survey() -> None:
    layout = lay_out(job(BOARD, "right", strings=six(3.0, 2.0)), surveyed(BOARD, scales(640.0, 640.0), sd=1e-5))
    assert layout.saddle is not None
    assert max(layout.saddle.pm95) < 1e-3


@pytest.mark.parametrize(("scale", "speaks"), [(640.0, False), (470.0, True)])
def test_a_height_that_decides_is_to_be_read_twice(scale: float, speaks: bool) -> None:
    """The same steel on a short scale is slack: a slip of 0.4 mm at fret 12 moves the saddle by as much as is said."""
    strings = replace(STEEL, height=None)

    def with_action(more: float) -> Layout:
        extras = scales(scale, scale) | ACTION | {"height.fret 12.right": ACTION["height.fret 12.right"] + more}
        return lay_out(job(BOARD, "right", strings=strings), surveyed(BOARD, extras))

    before, after = with_action(0.0), with_action(0.4)
    moved = abs(after.strings[-1].compensation - before.strings[-1].compensation)
    assert (moved > 1.5) == speaks
    assert ("heights.unchecked" in told(before)) == speaks
    if speaks:
        assert told(before)["heights.unchecked"].values["mm"] == pytest.approx(moved, rel=0.25)  # a tangent, no chord


@pytest.mark.parametrize("coarser", [0.5, 2.0])
def test_what_a_slip_over_fret_12_moves_does_not_hang_on_how_well_fret_1_was_read(coarser: float) -> None:
    """derived: it is how far the saddle follows that height, whatever the ± of the other"""
    strings = replace(STEEL, height=None)
    alike = surveyed(BOARD, scales(470.0, 470.0) | ACTION)
    cov = alike.cov.copy()
    for name, column in alike.extra_at.items():
        if name.startswith("height.fret 1."):
            cov[column, column] *= coarser**2
    moved = [
        told(lay_out(job(BOARD, "right", strings=strings), replace(alike, cov=one)))["heights.unchecked"].values["mm"]
        for one in (alike.cov, cov)
    ]
    assert moved[1] == pytest.approx(moved[0], rel=0.05)


def test_a_string_tells_its_course_or_else_its_place_in_the_list() -> None:
    pairs = tuple(replace(string, course=n // 2 + 1 if n < 4 else None) for n, string in enumerate(STEEL.list))
    assert [string.course for string in laid_out(replace(STEEL, list=pairs)).strings] == [1, 1, 2, 2, 5, 6]


def test_a_slot_that_is_cut_for_the_strings_leaves_nothing_over() -> None:
    saddle = laid_out(STEEL, bridge=bridge()).saddle
    assert saddle is not None
    assert (saddle.left_over, saddle.left_over_cents) == ((0.0, 0.0), (0.0, 0.0))


def test_a_string_without_a_course_is_one_of_its_own() -> None:
    single, paired = six(3.0, 2.0), six(3.0, 2.0)
    pairs = tuple(replace(one, course=1 + i // 2) for i, one in enumerate(paired.list))
    assert [one.course for one in laid_out(single).strings] == [1, 2, 3, 4, 5, 6]
    assert [one.course for one in laid_out(replace(paired, list=pairs)).strings] == [1, 1, 2, 2, 3, 3]


def test_a_list_that_climbs_is_seen_though_its_short_string_is_the_highest() -> None:
    five = SETS["short fifth steel 10-24"].strings
    given = Strings(list=five, nut=Spread(spread=20.0), saddle=Spread(spread=42.0))
    assert "strings.order" not in told(laid_out(given))
    assert told(laid_out(replace(given, list=five[::-1])))["strings.order"].grade == "look"


def test_strings_that_have_what_was_typed_for_others_may_be_heard() -> None:
    before = SETS["steel 10-46"].strings
    typed = replace(STEEL, compensation=(2.0,) * 6, typed_for=before, heard=(Heard(string="6", cents=3, trial="1"),))
    layout = laid_out(typed, BOARD | TRIAL)
    assert [one.compensation_from for one in layout.strings] == ["typed"] * 6
