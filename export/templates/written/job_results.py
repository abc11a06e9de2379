"""The job sheet's table of results: scale, nominal places, saddle and bridge with their ±, in the job's unit."""

import math

from export.paper.flow import Column
from export.templates.written.job_tables import Rows, length
from export.templates.written.unglued import separate_steps
from geometry import units, words
from geometry.frets.slants import fret_called, told
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import Layout, SaddlePlan, Slants
from geometry.saddle.slot_leaning import nut_aslant, slot_apart, told_slant
from geometry.units import Unit, show, show_pm

RESULTS = (Column("", 60), Column("", 28, "e", bold=True), Column("±", 12, "e"), Column("", 94))
SLANTS = {"bass": "bass side farther", "treble": "treble side farther", "neither": "square to the neck"}
SPACINGS = {"equal": "equal temperament", "eighteen": "rule of eighteen", "measured": "frets as measured"}


def results(job: Job, layout: Layout) -> Rows:
    """Scale, nominal places, saddle and slant with their ±."""
    rows: Rows = []
    unit, frets, saddle, ridge = job.unit, layout.frets, layout.saddle, how_held(job).ridge
    if frets is not None:
        if frets.slants is None:  # slanted frets have a scale on either side, and none between
            said = SPACINGS[frets.spacing]
            rows.append(["Scale", length(frets.scale, unit), show_pm(frets.scale_pm95, unit), said])
        places = (frets.nominal.left, frets.nominal.left_pm95), (frets.nominal.right, frets.nominal.right_pm95)
        for side, at in job.bass_first:
            place, pm = places[at]
            name = f"Nominal place, {words.side(side, job.hand)} side"
            rows.append([name, length(place, unit), show_pm(pm, unit), "from the nut, along the outer string"])
        rows += _slants(job, frets.slants, unit)
    if saddle is not None:
        nut = "" if frets is None or frets.slants else nut_aslant(job, saddle)
        longer = f"{SLANTS[saddle.longer]}; {nut}" if nut else SLANTS[saddle.longer]
        slant = units.said(told_slant(saddle, unit), unit)
        rows.append([f"Slant of the {ridge}, at the strings", slant, show_pm(saddle.slant_pm95, unit), longer])
        own = slot_apart(job, saddle)
        if own is not None:
            longer = f"{SLANTS[own.longer]}, as it comes with the bridge"
            rows.append(["Slant of the slot", units.said(own.mm, unit), "", longer])
        for side, index in job.bass_first:
            name = words.side(side, job.hand)
            cents = f"{saddle.tune95[index]:.1f} cents at fret 12"
            said = f"from the nut, along the neck; {cents}{_doubt(saddle)}"
            stands = how_held(job).line if job.held == "strings" else f"{ridge}’s place"
            what, far = f"{words.first_large(stands)}, {name} end", length(saddle.from_nut[index], unit)
            rows.append([what, far, show_pm(saddle.by_sheet.pm95[index], unit), said])
    if layout.bridge is not None and layout.bridge.corners_pm95:
        along, across = (max(pms) for pms in zip(*layout.bridge.corners_pm95, strict=True))
        said = f"along the neck, by the sheet on the board; ±{show_pm(across, unit)} {unit} across it"
        said += "" if layout.bridge.across_checked else ", not checked"
        rows.append(["The bridge’s place, corners", "", show_pm(along, unit), said])
    if layout.floating is not None or layout.tail is not None:
        from export.templates.written.unglued.standing_results import rows as standing  # few jobs have them

        rows += standing(job, layout)
    if layout.separate is not None:
        rows += separate_steps.results(job, layout.separate)
    return [*rows, *_saddle_height(layout, unit, ridge)]


def _doubt(saddle: SaddlePlan) -> str:
    """What is still open of the saddle's place."""
    if saddle.waits_for:
        return "; not settled"
    return "" if saddle.checked else "; not checked"


def _slants(job: Job, slants: Slants | None, unit: Unit) -> Rows:
    """How nut and nominal places lie on slanted frets, and which fret is square."""
    if slants is None:
        return []
    rows = [
        [
            f"Slant of the {line.name}",
            units.said(line.mm, unit),
            show_pm(line.pm95, unit),
            f"{line.side} side farther{f'; {line.declared}' if line.declared else ''}",
        ]
        for line in told(job, slants)
    ]
    declared = "" if slants.square_fret is None else f"{fret_called(slants.square_fret)} was declared"
    return [*rows, ["Nearest to square", fret_called(slants.squarest), "", declared]]


def _saddle_height(layout: Layout, unit: Unit, ridge: str) -> Rows:
    """How high the ridge stands over the top, and over the bridge where that is known; bass and treble in one row, the
    ± the wider one's.
    """
    found = next((finding.values for finding in layout.findings if finding.code == "saddle.height"), {})
    sides = [side for side in ("bass", "treble") if f"over_top.{side}" in found]
    if not sides:
        return []

    def both(key: str) -> list[str]:
        return [show(found[f"{key}.{side}"], unit) for side in sides if f"{key}.{side}" in found]

    said = [f"{' ; '.join(out)} {unit} over the bridge"] if (out := both("projection")) else []
    angles = [side for side in sides if f"degrees.{side}" in found]
    if angles:
        wide = math.ceil(max(found[f"degrees_pm95.{side}"] for side in angles) - 1e-9)
        turned = " ; ".join(f"{found[f'degrees.{side}']:.0f}" for side in angles)
        said.append(f"breaks by {turned} ±{wide}°")
    breaks = layout.bridge.tie.breaks if layout.bridge is not None and layout.bridge.tie is not None else {}
    if breaks:
        degrees = [one.degrees for one in breaks.values()]
        widest = math.ceil(max(one.pm95 for one in breaks.values()) - 1e-9)
        said.append(f"down to the tie holes by {min(degrees):.0f} to {max(degrees):.0f} ±{widest}°")
    wide_mm = max(found[f"over_top_pm95.{side}"] for side in sides)
    name = f"{words.first_large(ridge)} over the top, {' ; '.join(sides)}"
    return [[name, f"{' ; '.join(both('over_top'))} {unit}", show_pm(wide_mm, unit), ", ".join(said)]]
