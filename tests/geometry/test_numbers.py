"""Each number that docs/numbers.md tells is the one that the program works with."""

import math
import re

import msgspec
import pytest

from app.edit.old_work import hole_sizes, old_places
from app.edit.strings import string_starts
from export.templates import parts, stock, turning_holes
from export.templates.separate.saddle_bases_told import LEANS
from geometry.advice import candidates, weighing
from geometry.bounds import (
    fingerboard,
    nut_sizes,
    odd_holes,
    old_bridge,
    saddle_and_bridge,
    side_against_side,
    string_makes,
    stringing_asked,
)
from geometry.bridge import belly, seat_bridge, tied, tied_told
from geometry.choice import merits_of_poses
from geometry.floating import feet_told, sliding
from geometry.frets import fret_fit, fret_lines
from geometry.go_or_wait import of_floating
from geometry.go_or_wait.for_separate import BESIDE_THROUGH
from geometry.go_or_wait.verdicts import BESIDE, GLUE_WITHIN, UNHEARD
from geometry.hardware import headstock_told, markers, near_posts, on_old_holes_told, plug_sizes, post_rows, posts
from geometry.job import Saddle, String, stringing
from geometry.job.job import MOST_OFF, MOST_READINGS
from geometry.job.measured.measuring_tools import GAUGES, INSTRUMENTS
from geometry.job.neck import board
from geometry.job.neck.fretting import SCALES
from geometry.job.neck.hardware import USUAL_FRETS
from geometry.job.placements import MOST_KEPT
from geometry.layout import measured
from geometry.neck import find_neck, straightness, string_paths
from geometry.old_work.footprint import covering
from geometry.old_work.holes import old_holes, old_holes_told, plugs
from geometry.placed import check_distances, kept_placements, margins, small_nuts
from geometry.proof import choosing_distances, faults, filing, fitting
from geometry.saddle import (
    saddle_line,
    saddle_line_told,
    string_plan_findings,
    string_plans,
    thickness,
    typed_and_asked,
)
from geometry.saddle.heights import break_angle, top_fall
from geometry.separate.base_holes_told import WALL
from geometry.separate.narrowest import MOST_SLOPE
from geometry.separate.separate_told import GAIN
from geometry.solids import board_bend, nut_blank, nut_told
from geometry.strings import estimate_findings, list_order, played, string_heights, string_make, tension, trial_saddles
from geometry.strings.string_heights import SD_ASSUMED, SD_MEASURED
from geometry.strings.string_make import DENSITY_SD, E_GUT_SD, ENDS_SD, ENDS_SD_SOFT, R_SD, R_SET_SD
from geometry.strings.usual_compensation import FEW_STEEL, PM95, USUAL
from geometry.survey import surveying
from geometry.survey.judge import suspects
from geometry.survey.rows import one_scale
from geometry.survey.rows.row import BELIEVABLE
from geometry.survey.start import mirror_images
from geometry.tail import strap_pin, tail_told, with_tail
from tests.guide import tables, text
from tests.in_one import in_one

PAGE = text("numbers.md")
RUNNING = " ".join(PAGE.split())
"""The page as one line, so that a sentence is found however it is broken."""


def short(value: float) -> str:
    """A number as a page has it: a minus sign, and thousands apart."""
    return f"{value:,g}".replace("-", "−")


def test_the_fineness_of_the_instruments() -> None:
    rows = tables(PAGE)["with", "reading", "zero", "class"]
    assert rows == [(f"`{name}`", f"{i.reading:.2f}", f"{i.zero:.2f}", i.legal) for name, i in INSTRUMENTS.items()]


def test_the_fineness_of_a_bevel_gauge() -> None:
    said = re.search(r"`bevel gauge` and read off .*? standard deviation of ([\d.]+) degrees", PAGE, re.DOTALL)
    assert said is not None
    assert float(said[1]) == GAUGES["bevel gauge"].degrees


def test_start_values_by_common_practice() -> None:
    rows = tables(PAGE)["material", "treble", "bass", "±"]
    assert rows == [(name, str(treble), str(bass), str(PM95[name])) for name, (treble, bass) in USUAL.items()]


def test_the_spreads_that_strings_carry() -> None:
    rows = tables(PAGE)["not known", "one standard deviation", "of"]
    said = {name: spread for name, spread, _ in rows}
    assert said["how a steel string’s ends hold"] == f"{ENDS_SD:.2f} of an end"
    assert said["how a soft string’s ends hold"] == f"{ENDS_SD_SOFT} of an end"
    assert said["stretch of a soft string, alone and with its set"] == f"{R_SD:.0%} and {R_SET_SD:.0%}".replace(
        "%", " %"
    )
    assert said["a height over fret 1 and over fret 12, assumed"] == f"{SD_ASSUMED[0]} and {SD_ASSUMED[1]} mm"
    assert said["the same, read"] == f"{SD_MEASURED} mm"
    assert said["mass of plain nylon, gut, fluorocarbon"] == ", ".join(
        f"{100 * sd:.0f} %" for sd in DENSITY_SD.values()
    )


def test_the_spreads_of_a_strings_make() -> None:
    rows = tables(PAGE)["not known", "one standard deviation", "of"]
    said = {name: spread for name, spread, _ in rows}
    assert said["stretch of gut, with its set"] == f"{100 * E_GUT_SD:.0f} %"
    wound = string_make.make(String(name="6", build="wound", diameter=1.35))
    known = string_make.make(String(name="6", build="wound", diameter=1.35, core=0.46))
    assert wound is not None
    assert known is not None
    assert said["stretch of wound steel"] == f"{100 * wound.set_sd:.0f} %"
    assert said["a steel core, usual or measured"] == f"{100 * wound.core_sd:.0f} % and {100 * known.core_sd:.0f} %"
    assert said["how far out a wound steel string bends, beyond its core"] == f"{100 * wound.rho_sd:.0f} %"


def test_what_each_string_is_made_of() -> None:
    for name, density, *spreads in tables(PAGE)["string", "kg/m³", "mass", "bends", "stretch"]:
        build, material = name.split(" ", 1)
        fields = {"name": "1", "material": material, "build": build, "diameter": 1.0, "core": 0.5}
        made = string_make.make(msgspec.convert(fields if build == "wound" else fields | {"core": None}, String))
        assert made is not None
        assert spreads == [f"{100 * sd:g} %" for sd in (made.mass_sd, made.rho_sd, made.stretch_sd)], name
        mass = {"plain": math.pi / 4, "wound": math.pi**2 / 16 * (1 - 0.5**2)}[build]  # derived: turns that touch
        if name == "wound silk and steel":
            mass = math.pi**2 / 16 * (1 - 0.65**2)  # silk is 0.15 mm thick in all (from memory)
        core = 0.0 if build == "plain" else (970.0 if material == "nylon" else 7850.0) * math.pi / 4 * 0.5**2
        assert made.mass == pytest.approx((float(density.replace(",", "")) * mass + core) * 1e-6), name


def test_four_courses_of_steel() -> None:
    assert f"With four courses or fewer of steel, {FEW_STEEL[0]} to {FEW_STEEL[1]}." in RUNNING


TAKEN = {
    "both outer strings have one scale": f"{one_scale.TWO_IN_ONE} mm between them",
    "the nut stands alike at both ends": f"{one_scale.NUT} mm between them",
    "the nut as a whole stands where it should, where the frets tell it worse": f"{one_scale.NUT} mm",
    "a scale that was typed or declared, not read": f"{one_scale.TYPED} mm",
    "from the outer string to the edge, a tenth of their spread outside, a fret runs straight on": (
        f"{one_scale.BESIDE_SD} mm"
    ),
}


def test_what_is_taken_of_frets_and_nut() -> None:
    rows = {name: spread for name, spread, _ in tables(PAGE)["taken", "one standard deviation", ""]}
    assert {name: rows[name] for name in TAKEN} == TAKEN
    assert one_scale.BESIDE == 1 / 10


def bounds() -> dict[str, tuple[str, str]]:
    """What is to be looked at and what stops, as the table of bounds has them."""
    asked, makes, sides, old = stringing_asked, string_makes, side_against_side, old_bridge
    low, high = asked.COMPENSATION
    bridge, board, frets = saddle_and_bridge, fingerboard, fret_lines
    return {
        "a string’s compensation, worked out or typed": ("", f"under {short(low)} or over {short(high)} mm"),
        "a typed compensation, off the straight line through the others’ (four or more, not all of known make)": (
            f"over {asked.OFF_THE_OTHERS} mm",
            "",
        ),
        "nut’s compensation, nearer to fret 1; typed, farther from it": (
            f"over {asked.NUT_USUAL} mm; over {asked.NUT_BACK} mm",
            f"over {asked.NUT_MOST:g} mm",
        ),
        "typed compensation, off what strings of known make ask for: the middle one of all; one beside it": (
            f"over {typed_and_asked.ALL:g} and over {typed_and_asked.ONE} times that ±, "
            f"and {typed_and_asked.LEAST:g} mm",
            "",
        ),
        "the core of a wound steel string, against what is usual": (f"{makes.CORES} times, either way", ""),
        "strings over fret 12, in the middle, against what is usual on 650 mm or more, where read or typed": (
            f"{sides.TALL} mm more",
            "",
        ),
        "relief": (f"over {asked.RELIEF} mm", ""),
        "finger behind the fret": (f"over {asked.BEHIND:g} mm", ""),
        "reference A4": ("under {:g} or over {:g} Hz".format(*asked.REFERENCE), ""),
        "spread at the saddle": (f"less than at the nut, or {asked.WIDENS:g} mm more", ""),
        "string over fret 12, bass less treble, where read or typed": (
            f"under {short(sides.BASS_HIGHER[0])} or over {sides.BASS_HIGHER[1]} mm",
            "",
        ),
        "string over the frets at the nut, by the heights over frets 1 and 12": (f"over {sides.OVER_NUT} mm", ""),
        "board, string or straightedge over the top, side against side": (f"over {sides.UNLIKE:g} mm", ""),
        "one string’s pull, against the middle one’s": (f"{makes.UNEVEN} times, either way", ""),
        "steel strings": (
            f"plain over {makes.THICK_PLAIN} mm, wound under {makes.THIN_WOUND} mm; mixed with strings without steel",
            "",
        ),
        "a drone, between strings that are fretted; a short string at the treble": ("always", ""),
        "the middle one’s pull, of steel; of a set without steel": (
            f"under {makes.SLACK_STEEL:g} N; under {makes.SLACK_SOFT:g} or over {makes.TAUT_SOFT:g} N",
            "",
        ),
        "of four courses or more, an inner one with fewer strings than all others have": ("always", ""),
        "a course’s lowest string, below that of its neighbour at the treble (no drone)": (
            f"over {list_order.WIDEST} semitones",
            "",
        ),
        "strings of one course": (f"more than {makes.MOST_IN_COURSE}", ""),
        "fret count": (f"under {board.FEWEST} or over {board.MOST}, or under a fret that was read or heard", ""),
        "a fret that was read, past the board’s end": ("", f"over {board.PAST_END:g} mm"),
        "nut, from where the frets want it": ("", f"over {frets.NO_NUT:g} mm"),
        "board’s end, against the nut": (f"{board.NARROWS} mm narrower, or {board.WIDENS:g} mm wider", ""),
        "seam, against the neck centre line": (f"over {find_neck.CANTED:g} degrees", ""),
        "saddle from the nut; bass against treble": (
            "",
            f"under {short(SCALES[0])} or over {short(SCALES[1])} mm; over {bridge.SLANT:g} mm",
        ),
        "saddle’s thickness": (f"over {bridge.THICKEST_SADDLE} mm", ""),
        "slot past the outer strings": (f"less than {bridge.SLOT_PAST:g} mm", "less than nothing"),
        "bridge’s length and width": (
            "under {:g} or over {:g} mm; under {:g} or over {:g} mm".format(*bridge.LENGTHS, *bridge.WIDTHS),
            "",
        ),
        "a floating bridge’s length and width at its feet": (
            "under {:g} or over {:g} mm; under {:g} or over {:g} mm".format(
                *bridge.STANDING_LENGTHS, *bridge.STANDING_WIDTHS
            ),
            "",
        ),
        "a floating bridge’s foot": (f"under {bridge.FOOT:g} mm long", f"under {bridge.NO_FOOT:g} mm"),
        "slot’s depth; belly’s depth": (
            "under {:g} or over {:g} mm; over {:g} mm".format(*bridge.DEPTHS, bridge.BELLY),
            "",
        ),
        "pin holes, new; old": (
            "under {:g} or over {:g} mm; under {:g} or over {:g} mm".format(*bridge.HOLES, *odd_holes.PINS),
            "",
        ),
        "other old holes in the top; a headstock’s old post holes; its old screws": (
            "; ".join(
                f"under {least:g} or over {most:g} mm"
                for least, most in (odd_holes.OTHERS, odd_holes.POSTS, odd_holes.SCREWS)
            ),
            "",
        ),
        "old pin holes, or a headstock’s old posts or screws: one against the others": (
            f"over {odd_holes.UNLIKE:g} times, either way",
            "",
        ),
        "frets over the board’s face; the nut’s blank; what is wanted over fret 1": (
            "under {:g} or over {:g} mm; under {:g} or over {:g} mm; over {:g} mm".format(
                *nut_sizes.FRETS, *nut_sizes.BLANKS, nut_sizes.WANTED
            ),
            "",
        ),
        "new place, from the old footprint or its holes, along the strings": (f"over {old.FAR:g} mm, large", ""),
        "old footprint: beside the neck’s middle; opposite sides or diagonals unlike": (
            f"over {old.ASIDE:g} mm; over {old.UNLIKE:g} mm",
            "",
        ),
        "an old hole, outside the old footprint": (f"over {old.HOLE_OUTSIDE:g} mm", ""),
        "an old hole, outside the body’s points joined by straight lines": (
            f"over {old_holes.BULGE:g} mm and its ±",
            "",
        ),
        "two old pin holes, none read between them, while their row’s number is not said": (
            f"over {old_holes_told.NEIGHBOURS:g} mm apart",
            "",
        ),
        "a point read off the board’s edge": ("", f"over {MOST_OFF:g} mm (refused)"),
        "readings in a job": ("", f"over {short(MOST_READINGS)} (refused)"),
        "placements kept in a job": ("", f"over {MOST_KEPT} (refused)"),
    }


def test_the_bounds() -> None:
    rows = {name: (look, stops) for name, look, stops in tables(PAGE)["of", "to be looked at", "stops"]}
    assert {name: rows[name] for name in bounds()} == bounds()
    assert stringing_asked.FEW == 4  # the second row's head


def bench() -> dict[str, str]:
    """What is taken at the bench, as its table has it."""
    return {
        "the bridge is glued, its slot still uncut, with a ± of": f"{GLUE_WITHIN} mm at most",
        "plug cutters": ", ".join(f"{size:g}" for size in plugs.CUTTERS["mm"])
        + " mm, or 1/4, 5/16, 3/8, 1/2, 5/8, 3/4 in",
        "an old hole is drilled out for its plug by, at least": f"{plugs.CLEAN} mm",
        "the wood of bridges weighs": f"{1000 * covering.DENSITY:g} g/cm³",
        "a bridge’s front to its slot, where that is not said": f"{seat_bridge.FRONT_SHARE} of its width",
        "holes to turn a part over on": (
            f"{turning_holes.DIAMETER:g} mm wide, {turning_holes.BESIDE:g} mm beside its ends"
        ),
        "two placements differ, where it is shown at all": (
            f"by {kept_placements.SEEN['mm']} mm, in inches by half a 64th"
        ),
        "parts on stock, from each other and from its edge": f"{stock.GAP:g} mm and the widest cutter",
        "a point that is only pointed at on the plan is sure to": f"±{old_places.EYE:g} mm",
        "an old hole whose diameter nobody read or typed yet": (
            f"{hole_sizes.PIN:g} mm of a pin, {hole_sizes.HOLE:g} mm else"
        ),
        "what lies under the top is shown on templates round the bridge to": f"{parts.ROUND:g} mm",
    }


def test_what_is_taken_at_the_bench() -> None:
    rows = {name: taken for name, taken in tables(PAGE)["of", "taken as"]}
    assert {name: rows[name] for name in bench()} == bench()
    assert plugs.CUTTERS["cm"] == plugs.CUTTERS["mm"]
    # derived: an inch has 25.4 mm
    assert plugs.CUTTERS["in"] == tuple(25.4 * part for part in (1 / 4, 5 / 16, 3 / 8, 1 / 2, 5 / 8, 3 / 4))
    assert kept_placements.SEEN["in"] == 25.4 / 128
    assert kept_placements.SEEN["cm"] == kept_placements.SEEN["mm"]


def sizes() -> dict[str, str]:
    """What is taken of strings, board and headstock, as its table has it."""
    strings, paths, action = stringing, string_paths, stringing.HIGHEST_ACTION
    estimates, post, told, marked = estimate_findings, posts, headstock_told, markers
    beside = string_starts.USUAL_BESIDE
    return {
        "strings are": f"{strings.THINNEST} to {strings.THICKEST:g} mm thick",
        "outer strings lie apart": "{:g} to {:g} mm".format(*strings.SPREADS),
        "two strings of a course lie apart, where that is typed": "{:g} to {:g} mm".format(*strings.PAIRS),
        "fretted strings tell drones how the saddle slants, from so much of it on that they span": (
            f"{string_plans.TELLS_SLANT}"
        ),
        "a string that starts at a fret lies there from its neighbour, or from the board’s edge": (
            "{:g} to {:g} mm".format(*strings.BESIDE)
        ),
        "a short string is off the board, however its width was measured, from so far beyond the edge on": (
            f"{small_nuts.OFF_BOARD:g} mm"
        ),
        "a short string, before more is said: it starts at fret; from its neighbour; from the edge": (
            f"{string_starts.USUAL_FRET}; {beside['neighbour']:g} mm; {beside['edge']:g} mm"
        ),
        "two strings of a course lie apart, where that is not said": (
            f"{paths.PAIR_AT_NUT} mm at the nut, {paths.PAIR_AT_SADDLE:g} mm at the saddle"
        ),
        "an outer string from the board’s edge at the nut, where the spread is not given": f"{paths.EDGE_TO_STRING} mm",
        "strings side by side touch when they swing, with less between them than": f"{paths.TOUCH} mm",
        "an action is at most": f"{action['fret 1']:g} mm over fret 1, {action['fret 12']:g} mm over fret 12",
        "action of steel over fret 1, over fret 12 at treble and bass, where nobody read it": (
            "{:g}, {:g} and {:g} mm at a scale of 650 mm".format(*string_heights.USUAL_METAL)
        ),
        "action of soft strings, the same": "{:g}, {:g} and {:g} mm".format(*string_heights.USUAL_SOFT),
        "strings over fret 12 can hardly be played, or lie on the frets": (
            f"from {estimates.UNPLAYABLE:g} mm, under {estimates.LIES_ON} mm"
        ),
        "a nut comes out below the frets’ plane by more than": f"{estimates.SUNK} mm: read the heights again",
        "a string’s estimate is worth a look": f"from ± {estimates.WIDE:g} mm",
        "one string pulls": f"{tension.SLACKEST:g} to {tension.HARDEST:g} N",
        "a set pulls harder than the one it replaces: much, a little, less": (
            f"{tension.MUCH_HEAVIER}, {tension.HEAVIER} and {tension.LIGHTER} times"
        ),
        "the finger stays within so much of the room behind its fret": f"{played.MOST_BEHIND}",
        "typed compensation leans against what the strings ask for by at most": (
            f"{string_plan_findings.WRONG_WAY:g} mm"
        ),
        "a saddle stands out by": f"{break_angle.LOW:g} to {break_angle.HIGH:g} mm",
        "a string breaks over it by": (
            f"{math.degrees(break_angle.SHALLOW):g} to {math.degrees(break_angle.STEEP):g} degrees"
        ),
        "the least wood under a slot": f"{break_angle.LEAST_WOOD:g} mm",
        "of a saddle’s height stands in its slot at least": f"{break_angle.LEAST_SEATED}",
        "the face of a board has a radius of": f"{board.RADII[0]:g} to {short(board.RADII[1])} mm",
        "the least wood between an outer slot of the nut and its end, between two slots, under one": (
            f"{nut_told.EDGE_WALL}, {nut_told.BETWEEN} and {nut_told.UNDER} mm"
        ),
        "of its string’s thickness a slot of the nut is deep at least": f"{nut_told.HOLDS}",
        "a slot of the nut lies under the frets’ plane by at most": f"{nut_told.SUNK} mm",
        "a slot runs past the outer strings, where its length is not given": f"{saddle_line.BEYOND:g} mm",
        "a piece of a split saddle; a step of a stepped one": (
            f"{Saddle().least_piece:g} mm long at least; {Saddle().least_step:g} mm wide"
        ),
        "between the slots of two pieces stays": f"{Saddle().wall:g} mm of wood",
        "saddles are made": f"{thickness.THINNEST:g} to {thickness.THICKEST:g} mm thick, by {thickness.BLANKS} mm",
        "a tie block reaches past its outer holes, where its length is not given": f"{tied.PAST_HOLES:g} mm",
        "the least wood between tie holes, over them, under them, past the outer ones, from the slot to the block": (
            "{:g}, {:g}, {:g}, {:g} and {:g} mm".format(
                *(tied_told.LEAST[place][0] for place in ("holes", "top", "bottom", "ends", "slot"))
            )
        ),
        "a saddle leans, from a slant of": f"{saddle_line_told.LEANS} mm",
        "a belly’s depth, where it is not given": f"{belly.BELLY_SHARE} of the width at the wings",
        "a point on an edge says nothing of it where it is known no better than": (
            f"{find_neck.WEAK:g} mm, one standard deviation"
        ),
        "a nut is wide at least": f"{find_neck.NARROWEST:g} mm",
        "the usual caliper opens, the longest rule reaches": (
            f"{candidates.CALIPER:g} mm, {short(candidates.RULE)} mm"
        ),
        "what a person with a rule is sometimes out by": f"{measured.GROSS:g} mm",
        "fret tops over the board": f"{top_fall.FRET:g} mm",
        "a measured fall of the top, one standard deviation": f"{top_fall.FALL_SD} mm",
        "a top leans against the board’s plane: to be looked at, a slip": (
            f"over {math.degrees(top_fall.STEEP):g} and over {math.degrees(top_fall.MISREAD):g} degrees"
        ),
        "a new pin hole uses an old one again, its middle nearer than": f"{merits_of_poses.USED_AGAIN} mm",
        "a new post uses an old one again that is no wider, its middle nearer than": f"{post.USED_AGAIN} mm",
        "or, where the old one’s place is known no better than so, nearer than its ±, at most": (
            f"{posts.TOLD_APART} mm"
        ),
        "an old post hole is as wide as a new one, wider by what its rims are read to, or by": f"{posts.SNUG} mm",
        "the first post from the nut along the middle line, where no old one tells": f"{post_rows.FIRST:g} mm",
        "wood between a new post and an old hole, under which that is plugged first": f"{near_posts.THIN} mm",
        "a post lies on an old hole, not only in its side, where they share of the narrower one’s width": (
            f"{100 * on_old_holes_told.ON:.0f} %"
        ),
        "wood from a post to the headstock’s edge": f"{told.EDGE:g} mm",
        "wood over or under a post in a slotted headstock’s side": f"{told.OVER:g} mm",
        "an old hole of the headstock takes a dowel of the next half mm, not a usual plug, if it is narrower than": (
            f"{plug_sizes.DOWEL:g} mm"
        ),
        "an old post hole, an old screw hole, before they are measured": (
            f"{hole_sizes.POST:g} mm, {hole_sizes.SCREW} mm"
        ),
        "posts across from each other stand out of square unseen by": f"{told.ASKEW:g} degree",
        "a string turns sideways at the nut by at most": f"{told.TURNS:g} degrees",
        "wood between a marker and a fret, over or under a marker in the edge": (
            f"{marked.ROOM:g} mm, {marked.SKIN} mm"
        ),
        "a job’s markers stand before frets": ", ".join(map(str, USUAL_FRETS)),
    }


def test_the_sizes_of_strings_board_and_headstock() -> None:
    rows = {name: taken for name, taken in tables(PAGE)["of", "taken as"]}
    assert {name: rows[name] for name in sizes()} == sizes()


def test_each_row_is_held_to_its_constant_but_for_those_told_elsewhere() -> None:
    rows = [name for name, _ in tables(PAGE)["of", "taken as"] if name not in sizes() and name not in bench()]
    assert rows == [
        "the slot is cut, or a bridge with a cut slot glued, with a ± of",
        "a pin hole is drilled, before it is reamed",
        "a pin’s small end, where it is not known",
        "plugs in a top",
        "a scar is not worth a word under",
        "wood between holes and slot, whose size the detail tells",
    ]


SENTENCES = (
    f"never is a reading accused within {BELIEVABLE:.2f}",
    f"({suspects.SOMEWHAT} times the variance, as if eight spare readings had shown it",
    f"several lie more than {mirror_images.USUAL:g} mm from there",
    f"No point lies more than {surveying.REACH / 1000:g} m from the middle of the others",
    f"falls away from the board’s plane by up to {math.degrees(top_fall.TILT):g} degrees",
    f"it is told from {straightness.SURE:.2f} of its own standard deviations on",
    f"Both parts must be {find_neck.SHORTEST:g} mm long",
    f"{margins.LEAST:g} mm is called enough, and one under {check_distances.SEEN} mm is no distance to check",
    f"one square board in 200 would go so far ({one_scale.SHOWN:.2f} standard deviations)",
    f"A nut within {fret_lines.MOVED} mm, frets that lean by less than {fret_lines.SLANTED} mm, a typed scale within "
    f"{fret_lines.DIFFERS:g} mm of the frets",
    f"a fret read more than {fret_fit.NOT_A_FRET:g} mm off was misread",
    f"stiffness of the wire, {string_make.E_STEEL / 1e9:.1f} GPa",
    f"players fretting one note differ by {trial_saddles.EAR_CENTS:g} cents",
    f"{break_angle.SD_THICKNESS} mm of the bridge’s thickness, {break_angle.SD_DEPTH} mm of the slot’s depth, "
    f"{break_angle.SD_BEHIND} mm of the way to the pin",
    f"{board_bend.SD_CHORD} mm of the chord, and {100 * board_bend.TYPED_SD:g} % of a typed radius",
    f"{nut_blank.SD_FRET} mm of the frets’ height, {nut_blank.SD_BED} mm of the board’s face",
    f"glued with a ± of up to {GLUE_WITHIN} mm",
    f"up to {GLUE_WITHIN} mm along the neck and {BESIDE} mm across it",
    f"is known to {BESIDE} mm across the neck; holes through the body to {BESIDE_THROUGH} mm across",
    f"No base is set beyond {math.degrees(math.atan(MOST_SLOPE)):.0f} degrees. A slant is proposed where it leaves "
    f"{GAIN} mm more",
    f"Two holes have {WALL} mm of wood between them as a rule",
    f"judged as a saddle’s over a glued bridge: {math.degrees(break_angle.SHALLOW):.0f} to "
    f"{math.degrees(break_angle.STEEP):.0f} degrees",
    f"comes out {LEANS:.4f} of the body’s thickness aside",
    f"or than {UNHEARD:g} cents, by which players fretting",
    f"stood up with a ± of up to {of_floating.SLIDES:g} mm",
    f"in steps of {sliding.FINE} mm up to {sliding.THICKEST:g} mm, to within {sliding.CARRIES} mm",
    f"with one standard deviation of {feet_told.HEIGHT_SD} mm",
    f"past the measured edge of the top by more than {feet_told.OVER:g} mm",
    f"and {with_tail.NOTCH_SD} mm of each string’s place",
    f"{with_tail.UNDER_SD} mm of how far the strings end under the straightedge, and {with_tail.BEHIND_SD} mm of",
    f"a push from {tail_told.SLIDES} of what presses down",
    f"by less than {tail_told.SHALLOW:g}° let it rattle and walk, by more than {tail_told.STEEP:g}° they press",
    f"turns by more than {tail_told.TURNS:g}° wears its notch",
    f"where a strap pin belongs while they lie no more than {strap_pin.WIDEST:g} mm apart",
    f"but for a wall of {filing.WALL} mm at its front and back: half of "
    "{:g}, {:g} or {:g} mm less that is 1.0, 1.5 and 2.5 mm".format(*filing.THICKNESSES),
    f"a bridge {choosing_distances.OFF:g} mm off along or across, half a degree of turn, "
    f"a sheet {100 * choosing_distances.SMALL:.0f} %",
    f"one distance misread by {choosing_distances.MISREAD:g} mm",
    f"one that changes no distance by {choosing_distances.SEEN} mm is not looked for",
    f"({suspects.SHOWS:.2f} standard deviations, as for readings)",
    f"how nearly a sheet can be laid: {faults.LAID[0]} mm and {math.degrees(faults.LAID[2]):.2f} degrees",
    f"called so in at least {100 * (1 - fitting.FALSELY):.0f} of 100",
    f"tape that slipped by {faults.SLIP:g} mm and {math.degrees(faults.TURN):g} degrees, a sheet printed "
    f"{100 * faults.SCALE:g} % off both ways and {100 * faults.FED:g} % off each way by itself, a misreading of "
    f"{faults.MISREAD:g} mm",
)


@in_one("sentence", SENTENCES)
def test_the_page_says(sentence: str) -> None:
    assert sentence in RUNNING


def test_numbers_that_the_page_writes_as_words() -> None:
    assert "four at least and six at most" in RUNNING
    assert (choosing_distances.LEAST, choosing_distances.MOST) == (4, 6)
    assert math.degrees(choosing_distances.TURNED) == pytest.approx(0.5)  # half a degree
    assert "that one of them is to blame 19 times in 20" in RUNNING
    assert faults.SURE == 19 / 20
    assert "bent as they are (three rounds)" in RUNNING
    assert faults.ROUNDS == 3
    assert "where none explains more than one in a thousand" in RUNNING
    assert faults.UNEXPLAINED == 1 / 1000
    assert "turns by at least half of their mean" in RUNNING
    assert straightness.ALIKE == 0.5
    assert "as if eight spare readings had shown it" in RUNNING
    assert suspects.AS_SAID == 8
    assert "in three jobs of a hundred without a misreading" in RUNNING
    assert suspects.FALSELY == 0.03
    assert weighing.FLOOR_CENTS == UNHEARD == trial_saddles.EAR_CENTS
    assert faults.LAID[0] == faults.LAID[1]


def test_points_of_the_normal_distribution() -> None:
    # derived: erfc is twice the upper tail of a normal distribution of variance a half
    assert math.erfc(BELIEVABLE / math.sqrt(2)) == pytest.approx(0.001)
    assert math.erfc(one_scale.SHOWN / math.sqrt(2)) == pytest.approx(0.005)
    assert math.erfc((suspects.SHOWS - BELIEVABLE) / math.sqrt(2)) / 2 == pytest.approx(0.2)
    assert math.erfc(suspects.MIDDLE / math.sqrt(2)) == pytest.approx(0.5)
    # chi-square with one degree of freedom is the square of a normal number; to the three figures it is given with
    assert math.erfc(math.sqrt(mirror_images.AS_WELL / 2)) == pytest.approx(0.001, rel=0.02)
    assert math.exp(suspects.AS_LIKELY / 2) == pytest.approx(20, rel=0.01)  # twenty to one
    # derived: 2 ln 12 less 2 ln 3, as told beside it
    assert pytest.approx(2 * math.log(12 / 3), abs=0.05) == one_scale.AS_WELL
    assert pytest.approx(math.sqrt(1 / 6)) == ENDS_SD  # a triangle from 0 to 2: JCGM 100:2008, 4.3.9
