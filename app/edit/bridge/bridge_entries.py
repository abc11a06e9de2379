"""What the Bridge card says and puts back: saddle, bridge, pin holes, and a cut slot."""

from typing import Any

from app.edit import edits, saddle_that_goes
from app.edit.edits import Get, Put, replace
from app.edit.usual_sizes import usual
from geometry import units, words
from geometry.bridge.belly import STANDS_OUT
from geometry.bridge.bridge_told import where_left
from geometry.job import Bridge, Job, Pins, Saddle, SlotFront, TieBlock
from geometry.layout import Layout
from geometry.neck.string_paths import in_pairs
from geometry.solids.fineness import told_saddle
from geometry.strings.usual_sets import TIED
from geometry.units import Length

USUAL_FRONT = 6.0
"""mm from a bridge's front to its slot, where a cut slot is begun (common practice, no source)."""


def block(job: Job, name: str) -> Any:
    """The saddle or bridge block, or one with usual values."""
    return getattr(job, name) or usual(Saddle() if name == "saddle" else _begun(job), job.unit)


def _begun(job: Job) -> Bridge:
    """A bridge as it is begun: with pins where old pin holes were read; without, and straight, for tied strings."""
    strings = job.strings.list if job.strings else ()
    tied = bool(strings) and strings[0].material in TIED
    read = job.old is not None and bool(job.old.pins)
    return Bridge(outline="straight", length=188.0, width=29.0) if tied and not read else Bridge(pins=_pins(job))


def put(job: Job, name: str, **fields: Any) -> Job:
    """Some fields of the saddle or bridge block changed; a bridge needs a saddle, so that one is begun with it."""
    job = edits.in_block(job, name, lambda: block(job, name), **fields)
    return job if job.saddle is not None else replace(job, saddle=block(job, "saddle"))


def begin(job: Job) -> Job:
    """The job with a bridge and a saddle of the sizes that are shown before there is one."""
    return replace(job, bridge=block(job, "bridge"), saddle=block(job, "saddle"))


MADE = [
    ("one", "yes, one piece"),
    ("steps", "one piece, filed in steps, one a course"),
    ("two", "two pieces, each in its slot"),
    ("three", "three pieces, each in its slot"),
    ("each", "one piece a string, each in its slot"),
]
"""The answers to “Is the saddle one piece?”"""


def made(job: Job) -> str:
    found: Saddle = block(job, "saddle")
    return found.made


def put_made(job: Job, how: str) -> Job:
    """The saddle made so, parted where that is best."""
    return put(job, "saddle", made=how, splits=None)


def splits(job: Job) -> str:
    """The strings after which the saddle is parted, as they are typed; none: where that is best."""
    found: Saddle = block(job, "saddle")
    return ", ".join(found.splits or ())


def put_splits(job: Job, text: str) -> Job:
    names = tuple(filter(None, (part.strip() for part in text.replace(";", ",").split(","))))
    return put(job, "saddle", splits=names or None)


def saddle_field(name: str) -> tuple[Get, Put]:
    """What reads and puts a field of the saddle block."""
    return lambda job: getattr(block(job, "saddle"), name), lambda job, value: put(job, "saddle", **{name: value})


ENDS = [("pins", "in pins"), ("tie", "in a tie block"), ("", "they run on")]
"""The answers to “How do the strings end?”"""


def ends(job: Job) -> str:
    found: Bridge = block(job, "bridge")
    return "pins" if found.pins is not None else "tie" if found.tie is not None else ""


def put_ends(job: Job, how: str) -> Job:
    """The bridge with pins, with a tie block, or with neither, of usual sizes where it had none."""
    if how == ends(job) and job.bridge is not None:
        return job
    return put(
        job,
        "bridge",
        pins=usual(Pins(), job.unit) if how == "pins" else None,
        tie=usual(TieBlock(), job.unit) if how == "tie" else None,
    )


def tie_of(name: str) -> Get:
    """What reads a field of the tie block."""

    def get(job: Job) -> Any:
        return getattr((job.bridge.tie if job.bridge else None) or usual(TieBlock(), job.unit), name)

    return get


def tie_put(name: str) -> Put:
    """What puts a field of the tie block."""

    def put_it(job: Job, value: Any) -> Job:
        old = (job.bridge.tie if job.bridge else None) or usual(TieBlock(), job.unit)
        return put(job, "bridge", tie=replace(old, **{name: value}))

    return put_it


def _pins(job: Job) -> Pins:
    """The bridge's pin holes, or usual ones."""
    return (job.bridge.pins if job.bridge else None) or usual(Pins(), job.unit)


def pins_of(name: str) -> Get:
    """What reads a field of the pins block."""

    def get(job: Job) -> Any:
        return getattr(_pins(job), name)

    return get


def pins_put(name: str) -> Put:
    """What puts a field of the pins block."""

    def put_it(job: Job, value: Any) -> Job:
        return put(job, "bridge", pins=replace(_pins(job), **{name: value}))

    return put_it


def thickness_of(side: int) -> Get:
    """What reads the bridge's thickness at the slot, 0 left and 1 right."""

    def get(job: Job) -> Length | None:
        found: Bridge = block(job, "bridge")
        return found.thicknesses[side]

    return get


def thickness_put(side: int) -> Put:
    """What puts it; two sides that are the same are one length."""

    def put_it(job: Job, value: Length | None) -> Job:
        old: Bridge = block(job, "bridge")
        left, right = (value, old.thicknesses[1]) if side == 0 else (old.thicknesses[0], value)
        return put(job, "bridge", thickness=left if left == right else (left, right))

    return put_it


def stands_out(job: Job) -> bool:
    """Whether the bridge's outline is one whose middle stands out."""
    return block(job, "bridge").outline in STANDS_OUT


def has_wings(job: Job) -> bool:
    """Whether its wings are parted from its middle."""
    return block(job, "bridge").outline in ("stepped wings", "tapered wings")


def has_pairs(job: Job) -> bool:
    """Whether strings lie in pairs, each with a pin hole of its own."""
    return job.strings is not None and any(in_pairs(job.strings))


def has_slot(job: Job) -> bool:
    return bool(job.bridge and job.bridge.slot_front)


def put_has_slot(job: Job, on: bool) -> Job:
    if on:
        job = replace(job, saddle=saddle_that_goes.in_one_piece(job.saddle))
    return put(job, "bridge", slot_front=SlotFront(left=USUAL_FRONT, right=USUAL_FRONT) if on else None)


def slot_of(side: str) -> Get:
    """What reads how far a cut slot stands behind the bridge's front."""

    def get(job: Job) -> Length | None:
        cut = job.bridge.slot_front if job.bridge else None
        return None if cut is None else getattr(cut, side)

    return get


def slot_put(side: str) -> Put:
    """What puts it; none given on either side: the slot is not cut."""

    def put_it(job: Job, value: Length | None) -> Job:
        cut = job.bridge.slot_front if job.bridge else None
        if value is None:
            return put(job, "bridge", slot_front=None)
        made = replace(cut, **{side: value}) if cut else SlotFront(left=value, right=value)
        return put(job, "bridge", slot_front=made)

    return put_it


def saddle_heights(job: Job, layout: Layout | None) -> str:
    """How high the saddle stands under each string, in one line; nothing where it is not known."""
    blank = layout.saddle_blank if layout else None
    if blank is None:
        return ""
    over = "over the slot’s floor" if blank.floor == "slot" else "over the bridge"
    highs = [one.whole if blank.floor == "slot" else one.over_bridge for one in blank.strings]
    known = [(one.string, high) for one, high in zip(blank.strings, highs, strict=True) if high is not None]
    if len(known) < len(highs):
        return ""
    told = told_saddle(job, blank)
    each = ", ".join(told.fine(high) for _, (high, _) in known)
    wide = told.pm(max(pm95 for _, (_, pm95) in known))
    return f"The saddle {over}, string {known[0][0]} to {known[-1][0]}, {job.unit}: {each}; ±{wide} at most."


def wood(job: Job, layout: Layout | None) -> str:
    """The wood that is left, in one line that names the holes it is about; nothing where there is no bridge yet."""
    plan = layout.bridge if layout else None
    if plan is None:
        return ""
    parts = [
        f"{units.show(left, job.unit)} {where_left(place, plan)}"
        for place, left in plan.wood.items()
        if place != "behind" or plan.tie is None
    ]
    if plan.tie is not None:
        from geometry.bridge.tied_told import where_left as where_at_block

        parts += [f"{units.show(left, job.unit)} {where_at_block(place)}" for place, left in plan.tie.wood.items()]
    return f"Wood left, {job.unit}: {words.joined(parts)}."
