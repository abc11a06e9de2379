"""The string that the saddle's thickness leaves farthest outside, and how thick a saddle would carry all."""

import math

from geometry import words
from geometry.findings import Finding
from geometry.job import Job, Saddle
from geometry.job.bridges.how_held import how_held
from geometry.saddle.in_pieces.pieces import Peaks, Piece
from geometry.saddle.saddle_line import Strung
from geometry.saddle.string_plans import WantedCompensation, counting
from geometry.strings.octave import limp_cents, octave_called
from geometry.strings.trial_saddles import EAR_CENTS
from geometry.units import mm, said

OUTSIDE = 0.05
"""A string's place outside the saddle's thickness by less than this, mm, is not spoken of: no file is finer."""
BLANKS, THINNEST, THICKEST = 0.5, 2.0, 8.0
"""Saddles are made in steps of thickness of so many mm, none thinner than the second or thicker than the third (common
practice, no source)."""


def room_finding(
    job: Job, strung: Strung, wanted: WantedCompensation, peaks: Peaks, pieces: tuple[Piece, ...]
) -> tuple[Finding, ...]:
    """The string whose break point lies farthest outside the saddle's thickness, what that costs in cents, and the
    thickness that would carry all.
    """
    off = (strung.break_point[0].real - peaks.x).tolist()
    cents = [
        miss * limp_cents(nominal) for miss, nominal in zip(off, wanted.ready.places.nominal.tolist(), strict=True)
    ]
    asking = [i for i, told in enumerate(counting(wanted.each).tolist()) if told]
    worst = max(asking, key=lambda i: abs(cents[i]))
    saddle = job.saddle or Saddle()
    ridge = how_held(job).ridge
    if abs(off[worst]) < OUTSIDE:
        return _square(job, saddle, strung, wanted, peaks, asking) if saddle.straight and saddle.made == "one" else ()
    what = f"A straight {ridge} cannot follow" if saddle.straight else f"The {ridge} is too thin for"
    if saddle.made == "steps":
        what = f"A step of the {ridge} cannot follow"
    way = "farther back" if off[worst] > 0 else "farther forward"
    needed = _needed(job, saddle, strung, pieces, asking)
    octave = octave_called(job, wanted.ready.strings.list[worst])
    more = "" if needed is None else f" A {ridge} of {said(needed, job.unit)} would carry all of them."
    return (
        Finding(
            grade="look" if abs(cents[worst]) > EAR_CENTS else "good",
            code="saddle.straight" if saddle.straight else "saddle.room",
            text=f"{what} {words.string(wanted.each[worst].name)}: it should break {said(abs(off[worst]), job.unit)} "
            f"{way}. What filing leaves costs {abs(cents[worst]):.1f} cents at {octave}, the most of all "
            f"strings.{more}",
            values={"mm": off[worst], "cents": cents[worst]} | ({} if needed is None else {"needed": needed}),
            where="saddle",
        ),
    )


def _square(
    job: Job, saddle: Saddle, strung: Strung, wanted: WantedCompensation, peaks: Peaks, asking: list[int]
) -> tuple[Finding, ...]:
    """What a saddle square to the neck would cost unfiled, where filing takes up all of it: cents of the string that
    is farthest from it in tune.
    """
    line = peaks.x - (peaks.at - saddle.peak_at) * mm(saddle.thickness)
    off = strung.break_point[0].real - line
    cents = (off * [limp_cents(nominal) for nominal in wanted.ready.places.nominal.tolist()]).tolist()
    worst = max(asking, key=lambda i: abs(cents[i]))
    octave = octave_called(job, wanted.ready.strings.list[worst])
    return (
        Finding(
            grade="good",
            code="saddle.square",
            text=f"The {how_held(job).ridge} stands square to the neck. Unfiled that costs {abs(cents[worst]):.1f} "
            f"cents at {octave}, most at {words.string(wanted.each[worst].name)}; filed under each string to "
            "its place it costs nothing.",
            values={"mm": float(off[worst]), "cents": cents[worst]},
            where="saddle",
        ),
    )


def _needed(job: Job, saddle: Saddle, strung: Strung, pieces: tuple[Piece, ...], asking: list[int]) -> float | None:
    """The thinnest saddle that is made and in which the place of every string lies that is `asking` for one; None where
    no saddle is so thick, or where the slot comes with the bridge or the saddle is filed in steps, so that thickness
    alone does not do it.
    """
    if saddle.made == "steps" or job.carries_slot:
        return None
    from geometry.saddle.in_pieces.splitting import thickness_needed

    wanted = strung.break_point[0]
    parts = [part for piece in pieces if (part := [i for i in asking if piece.run[0] <= i < piece.run[1]])]
    return made_thickness(
        max(thickness_needed(wanted[part].imag, wanted[part].real, straight=saddle.straight) for part in parts)
    )


def made_thickness(least: float) -> float | None:
    """The thinnest saddle that is made, from a least thickness on, mm; None where none is so thick."""
    made = max(math.ceil(least / BLANKS - 1e-9) * BLANKS, THINNEST)
    return made if made <= THICKEST else None
