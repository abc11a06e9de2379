"""A proof's distances in words: what their ends are called, what each should read, and whether it is good."""

from geometry import words
from geometry.job import Job, Reading
from geometry.job.job import Hand
from geometry.proof.proof_at_stage import Row
from geometry.units import good_within, show
from geometry.units import said as length

ENDS = {
    "nut": "nut, {} corner",
    "end": "board end, {} corner",
    "fret12": "fret 12, {} edge",
    "bridge.front": "bridge front, {} corner",
    "bridge.back": "bridge back, {} corner",
    "bridge.slot": "slot front, {} end",
    "base.front": "base front, {} corner",
    "base.back": "base back, {} corner",
}


def end_called(name: str, hand: Hand) -> str:
    """A place of the proof in a table: “nut, bass corner”, “slot front, treble end”, “pin hole 6”."""
    if name.startswith("bridge.pin."):
        return f"pin hole {name.removeprefix('bridge.pin.')}"
    at, _, side = name.rpartition(".")
    return ENDS[at].format(words.side(side, hand)) if at in ENDS else words.point(name, hand)


def ends_called(reading: Reading, hand: Hand) -> tuple[str, str]:
    """Both ends of a distance."""
    return end_called(reading.of[0], hand), end_called(reading.of[1], hand)


SHORT = {
    "end": "end",
    "fret12": "fret 12",
    "bridge.front": "front",
    "bridge.back": "back",
    "bridge.slot": "slot",
    "base.front": "front",
    "base.back": "back",
}
"""Places where there is little room; all others are called as ever."""


def ends_in_short(reading: Reading, hand: Hand) -> str:
    """Both ends of a distance where there is little room: “end bass – slot treble”."""
    return " – ".join(_in_short(name, hand) for name in reading.of)


def _in_short(name: str, hand: Hand) -> str:
    if name.startswith("bridge.pin."):
        return f"pin {name.removeprefix('bridge.pin.')}"
    at, _, side = name.rpartition(".")
    return f"{SHORT[at]} {words.side(side, hand)}" if at in SHORT else words.called(name, hand)


def distance_called(reading: Reading, hand: Hand) -> str:
    """A distance in a sentence: “nut, bass corner to slot front, treble end”."""
    return f"“{' to '.join(ends_called(reading, hand))}”"


def what_is_placed(job: Job) -> str:
    """What is placed and read to."""
    if job.separate is None:
        return "bridge"
    return "base" if job.separate.bases == "one" else "row of bases"


def row_words(job: Job, row: Row) -> str:
    """Whether one distance is good, and why not."""
    match row.good:
        case "to read" | "struck":
            return "" if row.good == "to read" else "left out"
        case "no place":
            return f"has no place on this {what_is_placed(job)}"
        case "good":
            return "good"
        case "not good":
            blamed = f"; {row.blamed} misread" if row.blamed else ""
            more = "more" if row.off > 0 else "less"
            return f"not good: {_beyond(job, row)} {more}{blamed}"


def _beyond(job: Job, row: Row) -> str:
    """How far a distance is off that is not good: more than its band, also where both would read alike."""
    off, band = (length(value, job.unit) for value in (abs(row.off), good_within(row.band, job.unit)))
    return f"just over {band}" if off == band else off


def band_words(job: Job, row: Row) -> str:
    """What a distance should read: “324.2 ±0.8 mm”."""
    if row.good == "no place":
        return "–"
    return f"{show(row.wanted, job.unit)} ±{within_words(job, row)} {job.unit}"


def within_words(job: Job, row: Row) -> str:
    """How far from that it may be and is good: “0.8”."""
    return show(good_within(row.band, job.unit), job.unit)
