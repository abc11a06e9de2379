"""The job sheet's tables: what stands in them, in the job's unit, and the words of its lists."""

import re
from collections.abc import Set

from export import plugs_and_drills
from export.drills import nearest_inch, nearest_metric
from export.paper.flow import Column
from export.templates.glued.bridge import BRIDGE
from export.templates.glued.dowels import dowels
from export.templates.numbered_holes import pin_drills
from export.templates.written import old_work_told
from export.templates.written.unglued import separate_steps
from geometry import words
from geometry.forces import force
from geometry.job import Job, Reading
from geometry.job.measured.kinds import SHAPES
from geometry.job.sides import SIDES
from geometry.layout import Fit, Layout, TiePlan, accused
from geometry.placed.margin_rows import margin_rows
from geometry.proof import Proved, ends_called, row_words, within_words
from geometry.units import NOTHING, Unit, in_decimals, show, show_off, show_pm, with_unit

Rows = list[list[str]]

PROOF = (
    Column("from", 48),
    Column("to", 52),
    Column("distance", 24, "e", bold=True),
    Column("good within", 18, "e"),
    Column("", 6),
    Column("measured", 46),
)
CHECKS = (*PROOF[:3], PROOF[3]._replace(heading="±"), *PROOF[4:])
"""The columns of the check distances stand below those of the proof's."""
STRINGS = (
    Column("string", 14, "s", bold=True),
    Column("pitch", 14),
    Column("thickness", 22, "e"),
    Column("compensation", 26, "e", bold=True),
    Column("±", 14, "e"),
    Column("found by", 32),
    Column("length", 22, "e"),
    Column("pull", 18, "e"),
    Column("fret 12", 24, "e"),
)
KEPT = (Column("", 70), Column("kept", 26, "e"), Column("now", 26, "e"), Column("difference", 68, "s", bold=True))
HOLES = (
    Column("in order", 37.5),
    Column("number", 17.5, "e"),
    Column("diameter", 25, "e", bold=True),
    Column("metric", 16.5, "e"),
    Column("inch", 27, "e"),
    Column("", 70.5),
)
READINGS = (Column("", 7.5), Column("reading", 50), Column("as read", 20, "e", bold=True), Column("off by", 11.5, "e"))
CHOICE = (
    Column("made of", 44, "s", bold=True),
    Column("parted after", 26),
    Column("thick", 16, "e"),
    Column("cents left", 22, "e", bold=True),
    Column("string", 16, "e"),
    Column("all within their ±", 34, "e"),
    Column("thick enough for all", 36, "e"),
)
PINS = "Pin holes, to ream"
MINUS = re.compile(r"(?<![\w.])-(?=[\d.])")
"""A typed minus sign: not the dash between an inch and its fraction."""
OFF_BY = "Off by: the fit less the reading. –: no other reading checks it. !: does not agree with the others."


def saddle_choice(job: Job, layout: Layout) -> Rows:
    """The ways to make the saddle side by side, where one piece does not carry all strings or another is chosen."""
    from geometry.saddle.choice_of_saddle import rows, saddle_choices, worth_a_table

    found = saddle_choices(job, layout)
    return [list(row) for row in rows(job, found)] if worth_a_table(found) else []


def length(value: float, unit: Unit) -> str:
    """A length with its unit."""
    return f"{show(value, unit)} {unit}"


def _compensation(job: Job, at: int, value: float) -> str:
    """A string's compensation as it was typed, or as it is worked out: no finer than a rule reads."""
    given = job.strings.compensation if job.strings is not None else None
    own = given[at] if isinstance(given, tuple) else None
    return length(value, job.unit) if own is None else with_unit(own)


def _margins(job: Job, layout: Layout) -> Rows:
    """The outer strings' margins as checks, bass and treble in one row a place."""
    rows: Rows = []
    for row in margin_rows(job, layout):
        both = f"{show(row.bass.mm, job.unit)} ; {show(row.treble.mm, job.unit)} {job.unit}"
        to = f"board’s edge {row.at}" + ("" if row.checked else ", not checked")
        wide = show_pm(max(row.bass.pm95, row.treble.pm95), job.unit)
        rows.append(["outer strings, bass ; treble", to, both, wide, "[]", ""])
    return rows


def proof_rows(job: Job, proved: Proved | None) -> Rows:
    """The distances of the proof, each with its band, a box to tick and what was read or a line to write on."""
    rows: Rows = []
    for row in proved.rows if proved is not None else ():
        if row.good in ("struck", "no place"):
            continue
        read = "" if row.reading.value is None else f"{words.value(row.reading, job.unit)} {row_words(job, row)}"
        rows.append(
            [
                *ends_called(row.reading, job.hand),
                length(row.wanted, job.unit),
                f"±{within_words(job, row)}",
                "[]",
                read,
            ]
        )
    return rows


def checks(job: Job, layout: Layout, *, proved: bool) -> Rows:
    """The margins and, where no proof tells which distances to read, the check distances: each with a box to tick and a
    line to write on. To the screws of several bases they are read all the same: a proof tells of the whole row alone.
    """
    several = job.separate is not None and job.separate.bases != "one"
    rows = [
        [
            check.from_,
            check.to,
            length(check.distance, job.unit),
            show_pm(check.pm95, job.unit),
            "[]",
            "",
        ]
        for check in layout.checks
        if (not proved or (several and ".screw." in check.code)) and not check.code.startswith("margin.")
    ]
    return rows + _margins(job, layout)


def strings(job: Job, layout: Layout) -> Rows:
    """Each string: what it is, where it breaks, and what stays out of tune at fret 12."""
    pitches = {string.name: string.pitch or "" for string in job.strings.list} if job.strings else {}
    rows: Rows = []
    for at, string in enumerate(layout.strings):
        cents = string.cents.get(12)
        rows.append(
            [
                string.name,
                pitches.get(string.name, ""),
                _thickness(string.diameter, job.unit),
                _compensation(job, at, string.compensation),
                show_pm(string.compensation_pm95, job.unit) if string.compensation_pm95 > NOTHING else "known",
                string.compensation_from + (f", from fret {string.starts_at}" if string.starts_at else ""),
                length(string.length, job.unit),
                force(string.tension_n, job.unit) if string.tension_n is not None else "",
                _cents(cents),
            ]
        )
    return rows


def _cents(cents: float | None) -> str:
    return "" if cents is None else f"{in_decimals(cents, sign=True)} cents"


def _thickness(diameter: float | None, unit: Unit) -> str:
    if diameter is None:
        return ""
    return f"{show(diameter, 'in', 2)} in" if unit == "in" else f"{show(diameter, 'mm', 2)} mm"


def holes(job: Job, layout: Layout) -> Rows:
    """All that is plugged and drilled, in the order of the work: plugs, then pin holes, dowels and the rest."""
    rows: Rows = [*old_work_told.plug_rows(job, layout), *plugs_and_drills.plugs(job, layout)]
    tie = layout.bridge.tie if layout.bridge else None
    for name, found, place in (
        (PINS, layout.bridge.pins if layout.bridge else (), _place(job, layout)),
        ("Tie holes", tie.holes if tie else (), _tied(job, tie) if tie else ""),
        ("Locating dowels", dowels(layout, job.unit), f"on template “{BRIDGE}”"),
    ):
        if found:
            diameter = found[0].diameter  # one for all: the job's, or a rod's
            metric, inch = (
                pin_drills(job, diameter) if name == PINS else (nearest_metric(diameter), nearest_inch(diameter))
            )
            said = f"{inch.name} ({inch.diameter:.2f} mm)"
            rows.append([name, str(len(found)), length(diameter, job.unit), metric.name, said, place])
    if layout.tail is not None:
        from export.templates.written.unglued.standing_results import tail_holes  # few jobs have one

        rows += tail_holes(job, layout.tail)
    return [*rows, *separate_steps.holes(job, layout), *plugs_and_drills.drills(job, layout)]


def _tied(job: Job, tie: TiePlan) -> str:
    """How high the tie holes lie, and that they are drilled while the bridge lies free."""
    ups = sorted({round(hole.up, 3) for hole in tie.holes}, reverse=True)
    high = " and ".join(show(up, job.unit) for up in ups)
    return f"through the block, {high} {job.unit} over the bottom"


def _place(job: Job, layout: Layout) -> str:
    """How well the pin holes' places are known: the worst of them, along the neck and across it."""
    if layout.bridge is None or not layout.bridge.pins_pm95:
        return ""
    along, across = (show_pm(max(pms), job.unit) for pms in zip(*layout.bridge.pins_pm95, strict=True))
    return f"placed to ±{along} {job.unit} along, ±{across} {job.unit} across"


def readings(job: Job, layout: Layout) -> Rows:
    """Every reading as typed, and how far it stands from the fit; struck ones say so."""
    fits = {fit.id: fit for fit in layout.readings if fit.component in ("", "x", "nominal")}
    suspects = accused(layout.survey)
    rows: Rows = []
    for reading in job.readings:
        read, off = _read(job, reading), _off(job, reading, fits, suspects)
        rows.append([reading.id, words.reading(reading, job.hand), read, off])
        if reading.struck:
            rows[-1][3] = "struck"
    return rows


def off_by(job: Job) -> str:
    """What the last column's signs mean; and which way one sights where a side is left or right: on a line that
    runs neither along the neck nor across it.
    """
    sighted = dict.fromkeys(reading.from_ for reading in job.readings if words.side_read(reading, job.hand) in SIDES)
    if not sighted:
        return OFF_BY
    ways = [f"from {words.called(one, job.hand)} to {words.called(other, job.hand)}" for one, other in sighted]
    return f"{OFF_BY} Left and right: as you sight {words.joined(ways)}."


def _read(job: Job, reading: Reading) -> str:
    """A reading's value as typed, a question's answer."""
    if reading.asked:
        return "" if reading.struck else "not answered"
    return MINUS.sub("−", words.value_and_side(reading, job.unit, job.hand)) if SHAPES[reading.kind].values else "yes"


def _off(job: Job, reading: Reading, fits: dict[str, Fit], suspects: Set[str]) -> str:
    fit = fits.get(reading.id)
    if fit is None:
        return ""
    hardly = fit.smallest_error is not None and not fit.checked
    if fit.w is None or (hardly and reading.id not in suspects):
        return "–"
    sign = "−" if fit.residual < 0 else ""
    angle = words.much(reading, fit.residual)
    suspect = reading.id in suspects
    off = f"{sign}{angle}" if angle else show_off(fit.residual, job.unit, accused=suspect)
    return f"{off} !" if suspect else off
