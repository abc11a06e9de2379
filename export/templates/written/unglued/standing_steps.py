"""The work on a bridge that stands on the top, in order."""

from export import cautions, plugs_and_drills
from export.drills import either, nearest_names
from export.templates import registration
from geometry.floating.stands_told import is_in_place
from geometry.job import Job
from geometry.layout import Layout
from geometry.tail.tail_told import is_off as is_tail_off


def work(job: Job, layout: Layout) -> cautions.Work:
    """What is done, by the kind of its step: to a bridge that stands, or to one that is to be stood up."""
    if is_in_place(layout) and not _hangs(job, layout):
        return _left_standing(job, layout)
    off = is_off(job, layout)
    stand: tuple[tuple[cautions.Step, str], ...] = (
        ("mark", "Stand the feet on their outlines, then draw the paper out from under the strings."),
    )
    if off:
        says = (
            "Stand the feet on their outlines and hold the bridge while you put the strings on, so tight that they "
            "keep it up. Then draw the paper out from under it."
        )
        stand = (("mark", says),)
    return (
        *(() if off else _slackened(layout)),
        *_tail(layout, off=off),
        *strap_pin(job, layout),
        (
            "tape",
            "Tape the template of the bridge’s place as it says; check both edge distances"
            f"{registration.edges_said(job, layout)}.",
        ),
        ("fit", "Fit the feet to the top where they will stand: nothing else holds the bridge upright."),
        *stand,
        *_tuned(job, layout),
    )


def _left_standing(job: Job, layout: Layout) -> cautions.Work:
    """What is done where a bridge stands in its place already, and its tail does not hang off."""
    return (
        ("mark", "Leave the bridge where it stands: that is where it belongs, as well as that is known."),
        *strap_pin(job, layout),
        *_tuned(job, layout),
    )


def _tuned(job: Job, layout: Layout) -> cautions.Work:
    """What is done to a bridge that stands."""
    return (
        ("string up", "Bring the strings to pitch, and set the bridge upright again as they pull it over."),
        (
            "mark",
            "Tune: flat at fret 12, slide the bridge to the nut; sharp, to the tail; stay in its window.",
        ),
        *_crown(layout),
        *(("headstock", says) for says in plugs_and_drills.steps(job, layout)),
        ("mark", "Mark where the feet stand, so that the bridge finds its place again at the next change of strings."),
    )


def _hangs(job: Job, layout: Layout) -> bool:
    """Whether a tailpiece is still to be hung, or hung anew: not read yet, or not where the strings run true."""
    return layout.tail is not None and (layout.tail.off is None or is_tail_off(job, layout.tail))


def is_off(job: Job, layout: Layout) -> bool:
    """Whether no bridge stands on the top: the old one is off, and where a new one stands was not read yet."""
    return job.is_bridge_off and (layout.floating is None or layout.floating.today is None)


def _slackened(layout: Layout) -> tuple[tuple[cautions.Step, str], ...]:
    """How a bridge that stands is made free to be slid; where it could stay, that the tail is why it may not."""
    says = "Let the strings down until the bridge can just be slid."
    if is_in_place(layout):
        says = f"The bridge stands in its place, but it moves when the tail is hung anew. {says}"
    return (("slacken", says),)


def _tail(layout: Layout, *, off: bool) -> tuple[tuple[cautions.Step, str], ...]:
    """How a tailpiece is held and hung."""
    if layout.tail is None:
        return ()
    hold = "old the tailpiece by its template, its middle on the line; look along a thread to the nut before you drill."
    if off:
        return (("tail", f"H{hold} Hang it."),)
    return (("tail", f"Take the strings off and h{hold} Hang it, and put the strings on again, still slack."),)


def _crown(layout: Layout) -> tuple[tuple[cautions.Step, str], ...]:
    """The crown filed to its heights where they are known, and to its ridge."""
    ridge: tuple[cautions.Step, str] = (
        "crown",
        "Stick the crown’s strip on, file the ridge to each string’s line, and tune again.",
    )
    if layout.floating is None or layout.floating.heights is None:
        return (ridge,)
    return ("crown", "File the crown to its profile from the front, a little high under every string."), ridge


def strap_pin(job: Job, layout: Layout) -> tuple[tuple[cautions.Step, str], ...]:
    """How a strap pin is bored, on a bridge held in whatever way."""
    pin = layout.tail.pin if layout.tail is not None else None
    if pin is None:
        return ()
    size = either(nearest_names(pin.diameter), job.unit)
    says = (
        "Carry the strap pin’s mark over the edge to the middle of the body’s end. Look what is behind it: it must be "
        f"the end block. Bore there square to the end, with {size}."
    )
    return (("tail", says),)
