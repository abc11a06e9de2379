"""The layout as a page of plain text for the bench: `offsquare work-out JOB`. Lengths in the job's unit."""

import math
from collections.abc import Iterator, Sequence
from typing import get_args

from app.cli.text_table import Row, indented, table, wrapped
from app.file import job_file
from app.say import look_again, terminal
from geometry import proof, words
from geometry.findings import ASKED, BEGUN, STATED, Finding, is_unsure
from geometry.forces import force
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.job.measured.proof import Stage
from geometry.layout import XY, Fit, Layout, Margin, accused_in_order
from geometry.placed import kept_placements, kept_told
from geometry.placed.margin_rows import margin_rows
from geometry.saddle.slot_leaning import slot_apart, told_slant
from geometry.units import show, show_pm, typed

GRADES = ("STOP", "look", "unsure", "waits", "begun", "good", "")
"""How a finding is graded, in the order in which the page has them; what only states what was declared is not."""

BESIDE = ("", "kept", "difference")
PARTS = {"nominal": "to the middle", "span": "how wide"}
"""What is said of two numbers that one reading gives."""


def page(job: Job, layout: Layout) -> str:
    """The whole page, ending in a line's end."""
    title = terminal.one_line(job.title) or "A job without a title"
    head = f"{title}\n{words.job_line(job)} · file {job_file.fingerprint(job)}"
    parts = [head, *_readings(job, layout), *_scale(job, layout), *_strings(job, layout), *_saddle(job, layout)]
    parts[1:1] = [*_now(job, layout), *_proofs(job)]
    parts += [
        *_bridge(job, layout),
        *_solids(job, layout),
        *_margins(job, layout),
        *_checks(job, layout),
        *_kept(job, layout),
    ]
    parts += _findings(layout)
    return terminal.plain("\n\n".join(parts)) + "\n"


def _now(job: Job, layout: Layout) -> Iterator[str]:
    """What may be done to the wood now, and what must wait, as the job sheet has it."""
    from geometry import go_or_wait
    from geometry.go_or_wait.told_once import told_of

    steps = go_or_wait.said(job, told_of(job, layout).steps)
    if steps:
        yield "\n".join(["Go or wait", *indented(wrapped(step, "  ") for step in steps)])


def _proofs(job: Job) -> Iterator[str]:
    """The distances that were read before the glue and as built, and what they say."""
    for stage in get_args(Stage):
        proved = proof.prove(job, stage) if any(one.stage == stage and one.readings for one in job.proof) else None
        read = [row for row in proved.rows if row.good in ("good", "not good")] if proved is not None else []
        if proved is None or not read:
            continue
        rows = [
            (
                terminal.one_line(proof.ends_in_short(row.reading, job.hand)),
                proof.band_words(job, row),
                words.value(row.reading, job.unit),
                proof.row_words(job, row),
            )
            for row in read
        ]
        when = f", {proved.when}" if proved.when else ""
        title = f"Read {proof.stage_called(job, stage)}{when}, {job.unit}"
        yield table(title, ("", "should be", "as read", ""), rows)
        yield wrapped(proof.said(job, proved), "")


def _readings(job: Job, layout: Layout) -> Iterator[str]:
    taken = sum(reading.taken for reading in job.readings)
    struck = sum(reading.struck for reading in job.readings)
    asked = sum(reading.asked and not reading.struck for reading in job.readings)
    waiting = len(job.readings) - taken - struck - asked
    counts = [f"{taken or 'none'} taken"] + [f"{struck} struck out"] * (struck > 0)
    counts += [f"{waiting} still to be measured"] * (waiting > 0)
    counts += [f"{asked} question{'s' * (asked > 1)} not answered"] * (asked > 0)
    yield f"Readings: {', '.join(counts)}."
    order = accused_in_order(layout.survey)
    again = sorted((fit for fit in layout.readings if fit.id in order), key=lambda fit: order.index(fit.id))
    widest = max((len(terminal.one_line(name)) for name in order), default=0)
    rows = [_fit(job, fit, widest) for fit in again]
    if rows:
        yield table("Look at these again", ("", "as read", "the others say", "off by"), rows)
    following = look_again.measure_next(job, layout).said
    if following:
        yield wrapped(f"Measure next: {following}", "  ")


def _fit(job: Job, fit: Fit, widest: int) -> Row:
    """One reading, its id as wide as the `widest`, and what the others say of it: how far they put it is
    w σ / √redundancy (W. Baarda, A testing procedure for use in geodetic networks, 1968), whether it has its say in the
    fit or was set aside.
    """
    taken = next(reading for reading in job.readings if reading.id == fit.id)
    said = words.reading(taken, job.hand)
    part = f", {PARTS.get(fit.component, fit.component)}" if fit.component else ""
    name = f"{terminal.one_line(fit.id):{widest}}  {terminal.one_line(said)}{part}"
    off = fit.residual if not fit.w else fit.w * fit.sigma / math.sqrt(fit.redundancy)
    value, others, out = (words.much(taken, mm) or _length(job, mm) for mm in (fit.value, fit.value + off, abs(off)))
    return name, value, others, out


def _scale(job: Job, layout: Layout) -> Iterator[str]:
    frets = layout.frets
    if frets is None:
        return
    slanted = frets.slants is not None  # then each side has a scale, and none lies between
    rows = [] if slanted else [("Scale", _length(job, frets.scale), _pm(job, frets.scale_pm95))]
    nominal = frets.nominal
    places = (nominal.left, nominal.left_pm95), (nominal.right, nominal.right_pm95)
    for side, at in job.bass_first:
        place, pm = places[at]
        rows.append((f"Nominal place, {words.side(side, job.hand)} side", _length(job, place), _pm(job, pm)))
    yield table(f"Frets, {job.unit}", ("", "from the nut", "±"), rows)
    if frets.slants is not None:
        from geometry.frets.slants import in_a_line

        yield wrapped(in_a_line(job, frets.slants, layout.saddle), "")


def _strings(job: Job, layout: Layout) -> Iterator[str]:
    rows = []
    for at, string in enumerate(layout.strings):
        pull = "" if string.tension_n is None else force(string.tension_n, job.unit)
        worst = max((abs(cents) for cents in string.cents.values()), default=None)
        start = f", from fret {string.starts_at}" if string.starts_at else ""
        rows.append(
            (
                terminal.one_line(f"String {string.name}") + start,
                _compensation(job, at, string.compensation),
                string.compensation_from,
                _length(job, string.length),
                pull,
                "" if worst is None else f"{worst:.1f}",
            )
        )
    if rows:
        yield table(
            f"Strings, {job.unit}", ("", "compensation", "which is", "its length", "pull", "cents at worst"), rows
        )


def _compensation(job: Job, at: int, value: float) -> str:
    """A string's compensation as it was typed, or as it is worked out: no finer in inches than a rule reads."""
    given = job.strings.compensation if job.strings is not None else None
    typed_ = given[at] if isinstance(given, tuple) else None
    return _length(job, value, 1 if job.unit == "in" else 2) if typed_ is None else typed(typed_, job.unit)


def _saddle(job: Job, layout: Layout) -> Iterator[str]:
    saddle = layout.saddle
    if saddle is None:
        return
    pm = " and ".join(
        f"{_pm(job, saddle.by_sheet.pm95[at])} ({saddle.tune95[at]:.1f} cents) at {words.side(side, job.hand)}"
        for side, at in job.bass_first
    )
    slant, own = f"slant {_leaning(job, told_slant(saddle, job.unit), saddle.longer)}", slot_apart(job, saddle)
    if own is not None:
        slant = f"{slant}, and of the slot {_leaning(job, own.mm, own.longer)}"
    lines = [f"{words.first_large(how_held(job).ridge)}: {slant}; its place is known to {pm}."]
    if saddle.waits_for:
        again = words.readings_called(job, saddle.waits_for)
        lines.append(f"Not settled until {words.several(again, 4)} {_are(again)} read again.")
    elif not saddle.checked:
        lines.append("Not checked: a slip in one of the readings that hold it would not show; measure once more.")
    yield wrapped(" ".join(lines), "")


def _leaning(job: Job, mm: float, longer: str) -> str:
    return f"{_length(job, mm)} {job.unit}, {'neither side' if longer == 'neither' else longer} longer"


def _are(names: Sequence[str]) -> str:
    return "is" if len(names) == 1 else "are"


def _bridge(job: Job, layout: Layout) -> Iterator[str]:
    """How well the bridge's corners and pin holes are known: the worst of them."""
    bridge = layout.bridge
    if bridge is None:
        return
    said = [f"{_worst(job, bridge.corners_pm95)} at its corners"]
    said += [f"{_worst(job, bridge.pins_pm95)} at the pin holes"] * bool(bridge.pins_pm95)
    lines = (
        f"Bridge, {job.unit}: a sheet laid to the board’s end puts it, along the neck and across it from the middle "
        "between the edges, where it belongs to"
    )
    more = "" if bridge.across_checked else " Across it is not checked: measure the board’s width again."
    yield wrapped(f"{lines} {'; '.join(said)}.{more}", "")


def _solids(job: Job, layout: Layout) -> Iterator[str]:
    """Saddle and nut under each string, as the job sheet has them."""
    if layout.saddle_blank is None and layout.nut_blank is None and layout.floating is None:
        return
    from export.templates.written import solid_tables

    heads = ("", "from bass end", "over top", "over bridge", "over floor", "breaks by", "presses")
    saddle = _named(solid_tables.saddle(job, layout))
    if saddle:
        yield table(f"Saddle, {job.unit}", heads, saddle)
    crown = _named(solid_tables.crown(job, layout))
    if crown:
        yield table(f"Crown, {job.unit}", ("", "from bass end", "over top", "breaks by", "presses"), crown)
    heads = ("", "from bass end", "width", "over board", "over bottom", "deep", "set back")
    nut = _named(solid_tables.nut(job, layout))
    if nut:
        yield table(f"Nut, {job.unit}", heads, nut)


def _named(rows: Sequence[Row]) -> list[Row]:
    return [[terminal.one_line(f"String {name}"), *cells] for name, *cells in rows]


def _worst(job: Job, pm95s: Sequence[XY]) -> str:
    return " and ".join(_pm(job, max(pm95s_of)) for pm95s_of in zip(*pm95s, strict=True))


def _margins(job: Job, layout: Layout) -> Iterator[str]:
    """The outer strings' margins: one line a place, bass and treble beside each other."""
    rows = [
        (f"{row.at}{'' if row.checked else ', not checked'}", *_margin(job, row.bass), *_margin(job, row.treble))
        for row in margin_rows(job, layout)
    ]
    if rows:
        yield table(f"Outer strings to the board’s edges, {job.unit}", ("", "bass", "±", "treble", "±"), rows)


def _margin(job: Job, margin: Margin) -> Row:
    return _length(job, margin.mm), _pm(job, margin.pm95)


def _checks(job: Job, layout: Layout) -> Iterator[str]:
    """The distances to check before the glue, as the sheets ask for them; then what else is worked out to be read."""
    from export.templates.written import job_tables

    before = f"Check before {how_held(job).before}"
    asked = [
        (terminal.one_line(f"{from_} to {to}"), distance.removesuffix(f" {job.unit}"), band)
        for from_, to, distance, band, *_ in job_tables.proof_rows(job, proof.prove(job, "clamped"))
    ]
    if asked:
        yield table(f"{before}, {job.unit}", ("", "", "good within"), asked)
    others = [check for check in layout.checks if not check.code.startswith("margin.")]  # these have their own table
    rows = [(words.check(check), _length(job, check.distance), _pm(job, check.pm95)) for check in others]
    told = {name for name, *_ in asked}
    rows = [row for row in rows if row[0] not in told]
    if rows:
        yield table(f"{'Other distances' if asked else before}, {job.unit}", ("", "", "±"), rows)


def _kept(job: Job, layout: Layout) -> Iterator[str]:
    """The present placement beside each that is kept."""
    for kept in job.kept:
        found = kept_placements.compare(job, layout, kept)
        if found is None:
            continue
        title = terminal.one_line(kept_told.title(job, kept))
        places, checks = kept_told.place_rows(job, found), kept_told.check_rows(job, found)
        yield table(title, BESIDE, [(name, then, says) for name, then, _, says in places])
        if checks:
            yield table("Its check distances", BESIDE, [(name, then, says) for name, then, _, says in checks])
        said = kept_told.below(job, found)
        if said:
            yield wrapped(" ".join(said), "")


def _findings(layout: Layout) -> Iterator[str]:
    found = sorted(layout.findings, key=lambda finding: GRADES.index(_graded(finding)))
    if found:
        lines = [wrapped(f"{_graded(finding):6} {finding.text}", " " * 7) for finding in found]
        yield "\n".join(["Findings", *indented(lines)])


def _graded(finding: Finding) -> str:
    """As the window's signs have it: what is only estimated or unchecked is nothing wrong."""
    if finding.grade == "stop":
        return "STOP"
    if finding.grade == "look":
        return "waits" if finding.code in ASKED else "unsure" if is_unsure(finding) else "look"
    return "" if finding.code in STATED else "begun" if finding.code in BEGUN else "good"


def _length(job: Job, value: float, decimals: int = 1) -> str:
    return show(value, job.unit, decimals)


def _pm(job: Job, value: float) -> str:
    return f"±{show_pm(value, job.unit)}"
