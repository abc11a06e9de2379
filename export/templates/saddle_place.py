"""The saddle's place as numbers beside the bridge's, each with its own ±; and what may be done now."""

from export.hole_table import Table
from geometry import go_or_wait, proof, words
from geometry.go_or_wait.told_once import told_of
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import Check, Layout
from geometry.saddle.slot_leaning import nut_aslant, slot_apart
from geometry.units import show, show_pm

REAMED = "Pin holes are drawn as reamed: drill undersize, then ream."
FROM = {"end": "board end", "fret12": "fret 12"}
"""The datum lines by the codes of their checks."""


def table(job: Job, layout: Layout, start: str) -> Table:
    """Along both edges from the start (a check's code, `end` or `fret12`) to slot and bridge, and from the nut to the
    saddle; below it what may be done now and what must wait.
    """
    rows = [
        (f"{FROM[start]} to {to}", *(_check(job, checks[hand]) for hand in ("bass", "treble")))
        for target, to in (("slot", how_held(job).stop), ("bridge", "bridge front"))
        if len(checks := _by_hand(layout, f"{start}.{target}.")) == 2
    ]
    if layout.saddle is not None:
        ends = dict(
            zip(("left", "right"), zip(layout.saddle.from_nut, layout.saddle.by_sheet.pm95, strict=True), strict=True)
        )
        by_hand = {job.bass_or_treble(side): _pm(job, *end) for side, end in ends.items()}
        to = (
            how_held(job).line if job.held == "strings" else how_held(job).ridge
        )  # a crown's front is not where it breaks
        rows.append((f"nut to {to}, along neck", by_hand["bass"], by_hand["treble"]))
    return Table(
        title=f"The {how_held(job).ridge}’s place, {job.unit}",
        head=("along the edges", "bass", "treble"),
        rows=tuple(rows),
        sides="see",
        below=(
            *((line, True) for line in go_or_wait.in_short(job, told_of(job, layout).steps)),
            *((line, False) for line in (*_askew(job, layout), *_reamed(layout))),
        ),
    )


def proof_table(job: Job, layout: Layout, title: str = "Read before the glue") -> tuple[Table, ...]:
    """The distances to read before the glue, each with the band that is good and room to write."""
    proved = told_of(job, layout).clamped
    if proved is None:
        return ()
    rows = tuple(
        (proof.ends_in_short(row.reading, job.hand), proof.band_words(job, row).removesuffix(f" {job.unit}"), "______")
        for row in proved.rows
        if row.good in ("to read", "good", "not good")
    )
    return (Table(title=f"{title}, {job.unit}", head=("", "good", "on wood"), rows=rows, sides="see"),)


def _askew(job: Job, layout: Layout) -> tuple[str, ...]:
    """Why the places from the nut differ by another length than the sheet says that the saddle leans."""
    frets, saddle = layout.frets, layout.saddle
    if saddle is None or frets is None or frets.slants is not None or slot_apart(job, saddle) is not None:
        return ()
    return (f"{words.first_large(nut)}.",) if (nut := nut_aslant(job, saddle)) else ()


def _reamed(layout: Layout) -> tuple[str, ...]:
    return (REAMED,) if layout.bridge and layout.bridge.pins else ()


def _by_hand(layout: Layout, code: str) -> dict[str, Check]:
    return {check.code.rsplit(".", 1)[1]: check for check in layout.checks if check.code.startswith(code)}


def _check(job: Job, check: Check) -> str:
    return _pm(job, check.distance, check.pm95)


def _pm(job: Job, length: float, pm95: float) -> str:
    return f"{show(length, job.unit)} ±{show_pm(pm95, job.unit)}"
