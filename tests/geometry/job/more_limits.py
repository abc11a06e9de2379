"""Limits of boards, nuts, bridges and tails: how a value is put in, the least and the greatest that is taken (common
practice, no source).
"""

from collections.abc import Callable

from geometry.job import (
    Arch,
    Board,
    Bridge,
    Floating,
    Frets,
    Kept,
    Nut,
    Places,
    Proof,
    Reading,
    Saddle,
    Scales,
    Separate,
    String,
    Tail,
    Through,
    TieBlock,
)
from geometry.job.sheets import Sheets

Limits = dict[str, tuple[Callable[[float], object], float, float]]
FOUR = ((0.0, 20.0), (0.0, -20.0), (400.0, 20.0), (400.0, -20.0))


def _kept(**changes: object) -> Kept:
    given: dict[str, object] = {"board": FOUR, "slot": FOUR, "saddle": (640.0, 642.0), "pm95": (0.3, 0.3)}
    return Kept(name="first", when="2026-11-28", places=Places(**given | changes))  # type: ignore[arg-type]  # fields


MORE_LIMITS: Limits = {
    "arch's chord": (lambda v: Arch(chord=v, rise=0.5), 10.0, 150.0),
    "arch's rise": (lambda v: Arch(chord=150.0, rise=v), 0.02, 60.0),
    "arch's rise within": (lambda v: Arch(chord=40.0, rise=0.5, within=v), 0.005, 2.0),
    "board's radius": (lambda v: Board(radius=v), 30.0, 5000.0),
    "board's radius at the nut": (lambda v: Board(radius=(v, 300.0)), 30.0, 5000.0),
    "board's radius at its end": (lambda v: Board(radius=(300.0, v)), 30.0, 5000.0),
    "nut's thickness": (lambda v: Nut(thickness=v), 1.0, 20.0),
    "nut's height": (lambda v: Nut(height=v), 2.0, 30.0),
    "nut's bed": (lambda v: Nut(bed=v), 0.0, 20.0),
    "nut's bed, left": (lambda v: Nut(bed=(v, None)), 0.0, 20.0),
    "nut's bed, right": (lambda v: Nut(bed=(None, v)), 0.0, 20.0),
    "fret_height": (lambda v: Nut(fret_height=v), 0.2, 3.0),
    "over_fret1, left": (lambda v: Nut(over_fret1=(v, None)), 0.0, 5.0),
    "over_fret1, right": (lambda v: Nut(over_fret1=(None, v)), 0.0, 5.0),
    "margin, left": (lambda v: Nut(margins=(v, 3.0)), 0.5, 30.0),
    "margin, right": (lambda v: Nut(margins=(3.0, v)), 0.5, 30.0),
    "clearance": (lambda v: Nut(clearance=v), 0.0, 1.0),
    "back_angle": (lambda v: Nut(back_angle=v), 0.0, 45.0),
    "below_fret": (lambda v: Nut(below_fret=v), 0.0, 3.0),
    "scale, left": (lambda v: Scales(left=v), 200.0, 1500.0),
    "scale, right": (lambda v: Scales(right=v), 200.0, 1500.0),
    "square_fret": (lambda v: Frets(count=36, slanted=True, square_fret=v), 0, 36),  # type: ignore[arg-type]  # a file
    "from_neighbour": (lambda v: String(name="5", starts_at=5, from_neighbour=v), 0.5, 80.0),
    "from_edge": (lambda v: String(name="5", starts_at=5, from_edge=v), 0.5, 80.0),
    "wall": (lambda v: Saddle(wall=v), 0.0, 20.0),
    "least_piece": (lambda v: Saddle(least_piece=v), 1.0, 100.0),
    "least_step": (lambda v: Saddle(least_step=v), 0.5, 50.0),
    "wing_length": (
        lambda v: Bridge(length=400.0, wing_length=v),
        1.0,
        199.9,
    ),  # two leave a middle of the longest bridge
    "front_to_slot": (lambda v: Bridge(width=120.0, front_to_slot=v), 0.0, 100.0),
    "tie block behind the slot": (lambda v: TieBlock(behind_slot=v), 1.0, 60.0),
    "tie block's depth": (lambda v: TieBlock(depth=v), 2.0, 60.0),
    "tie block's height": (lambda v: TieBlock(height=v, hole=1.0), 2.0, 40.0),
    "tie block's length": (lambda v: TieBlock(length=v), 10.0, 300.0),
    "tie hole's height": (lambda v: TieBlock(height=40.0, hole=v), 0.5, 39.9),  # under the top of the highest block
    "tie hole's diameter": (lambda v: TieBlock(diameter=v), 0.5, 6.0),
    "tie holes' spacing": (lambda v: TieBlock(spacing=v), 1.0, 20.0),
    "tie holes' second below": (lambda v: TieBlock(below=v), 0.0, 20.0),
    "floating bridge's length": (lambda v: Floating(length=v), 20.0, 300.0),
    "floating bridge's width": (lambda v: Floating(width=v), 2.0, 60.0),
    "front_to_crown": (lambda v: Floating(width=60.0, front_to_crown=v), 0.0, 60.0),
    "floating bridge's height": (lambda v: Floating(height=v), 2.0, 60.0),
    "floating bridge's height, left": (lambda v: Floating(height=(v, None)), 2.0, 60.0),
    "floating bridge's height, right": (lambda v: Floating(height=(None, v)), 2.0, 60.0),
    "first foot": (lambda v: Floating(length=300.0, feet=(v, 20.0)), 1.0, 150.0),
    "last foot": (lambda v: Floating(length=300.0, feet=(20.0, v)), 1.0, 150.0),
    "tail behind": (lambda v: Tail(behind=v), 5.0, 500.0),
    "tail's spread": (lambda v: Tail(spread=v), 5.0, 200.0),
    "tail under": (lambda v: Tail(under=v), 0.0, 80.0),
    "tail's screw": (lambda v: Tail(screw=v), 0.5, 8.0),
    "tail's screw along": (lambda v: Tail(screws=((v, 0.0),)), -100.0, 200.0),
    "tail's screw across": (lambda v: Tail(screws=((0.0, v),)), -100.0, 100.0),
    "pin_hole": (lambda v: Tail(pin_hole=v), 1.0, 20.0),
    "through holes behind": (lambda v: Through(behind=v), 0.0, 150.0),
    "through holes' diameter": (lambda v: Through(diameter=v, ferrule=None), 1.0, 12.0),
    "ferrule": (lambda v: Through(diameter=1.0, ferrule=v), 2.0, 20.0),
    "ferrule_deep": (lambda v: Through(ferrule_deep=v), 0.5, 60.0),
    "travel": (lambda v: Separate(length=200.0, travel=v), 0.0, 60.0),
    "foremost": (lambda v: Separate(length=200.0, foremost=v), 0.0, 80.0),
    "base's length": (lambda v: Separate(length=v, travel=1.0, foremost=1.0), 5.0, 200.0),
    "base's width": (lambda v: Separate(width=v), 4.0, 200.0),
    "base's thickness": (lambda v: Separate(thickness=v), 0.5, 30.0),
    "base's screw": (lambda v: Separate(screw=v), 0.8, 8.0),
    "body": (lambda v: Separate(body=v), 5.0, 120.0),
    "base's screw behind its front": (lambda v: Separate(length=44.0, screws=((v, 0.0),)), 0.0, 44.0),
    "base's screw across": (lambda v: Separate(width=80.0, screws=((9.0, v),)), -40.0, 40.0),
    "cutter of outlines": (lambda v: Sheets(cutters={"outline": v}), 0.1, 25.0),
    "angle": (lambda v: Reading(id="r", kind="angle", of=("a", "b"), from_=("c", "d"), value=v), 0.0, 180.0),
    "what a distance of the proof was to be": (lambda v: Proof(stage="clamped", wanted={"p": v}), 0.0, 5000.0),
    "kept place": (lambda v: _kept(saddle=(640.0, v)), -5000.0, 5000.0),
    "kept ±": (lambda v: _kept(pm95=(v, 0.3)), 0.0, 5000.0),
    "kept length": (lambda v: _kept(checks={"end.bridge.left": (v, 0.3)}), -5000.0, 5000.0),
    "kept length's ±": (lambda v: _kept(checks={"end.bridge.left": (180.0, v)}), 0.0, 5000.0),
}
