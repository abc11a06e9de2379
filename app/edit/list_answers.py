"""Answers to the **questions** of a measuring list (in line? the same? square?): yes, or off by so much.

A point that does not lie in line is worth more than a no: how far it lies off, and to which side, is a reading.
"""

import re

import msgspec

from app.say.how_to import LIKE, TAKING, one_side
from geometry import units, words
from geometry.job import Job, NotAJob, Reading
from geometry.job.job import Hand
from geometry.job.measured.kinds import Kind
from geometry.job.sides import SIDES, Side

YES = ("yes", "y", "✓", "√")
NO = ("no", "n", "-", "−", "✗")
NAMES: dict[units.Unit, str] = {"mm": "millimetres", "cm": "centimetres", "in": "inches"}
MOST_OFF = 5.0
"""A point that lies farther off its line is not asked about; the length has another unit, mm (common practice, no
source)."""
_SIDED = re.compile(r"(?P<length>.*?[\d\"″”a-z])\s*(?P<side>[A-Za-z]+)", re.IGNORECASE | re.DOTALL)


def takes(kind: Kind, unit: units.Unit, side: str = "bass") -> str:
    """What may be typed where a question is asked, in the job's unit; nothing for what is no question."""
    return f"yes, or {LIKE[unit]} {side}" if kind == "inline" else "yes, or no" if TAKING[kind].question else ""


def hint(kind: Kind) -> str:
    """The same in the empty cell itself, where a length would look like one that was read."""
    return "yes, or how far off" if kind == "inline" else takes(kind, "mm")


def question(reading: Reading) -> str:
    """What is still asked in a reading's cell; nothing where nothing is."""
    return TAKING[reading.kind].question if reading.asked and not reading.struck else ""


def answered(reading: Reading, text: str, job: Job) -> Reading:
    """The reading as the typed answer makes it; nothing typed makes it a question again.

    Raises `NotAJob`, `NotALength`.
    """
    said = " ".join(text.split())
    if not said:
        return msgspec.structs.replace(reading, asked=True, struck=False, why="")
    if reading.kind == "inline":
        return in_line_or_off(reading, said, job)
    if said.casefold() in YES or _nothing(said):
        return msgspec.structs.replace(reading, asked=False, struck=False, why="")
    # brought back, it is a question again: no distance stands for the condition
    why = "does not hold" if said.casefold() in NO else f"off by {_with_unit(said, job.unit)}"
    return msgspec.structs.replace(reading, asked=True, struck=True, why=why)


def in_line_or_off(reading: Reading, said: str, job: Job) -> Reading:
    """Yes makes a reading `inline`, a length with a side makes it `off`; of an `off` a bare length keeps its side, and
    needs one while that is open.
    """
    if said.casefold() in YES:
        return _line(reading)
    if said.casefold() in NO:
        raise NotAJob(f"That is only half an answer: {_off_by(reading, job.unit)}")
    length, side = sided_of(reading.from_, said, job.hand)
    if reading.kind == "inline" and _nothing(length):
        return _line(reading)
    kept = units.keep(length, job.unit)
    if side is None and reading.kind == "off" and reading.side is None:
        a, b = reading.from_
        one, other = words.sides_typed(a, b, job.hand)
        line = words.line_called(a, b, job.hand)
        raise NotAJob(f"“{said}” does not say on which side of {line}; add {one} or {other}, like {said} {other}")
    if side is None and reading.kind == "off":
        return msgspec.structs.replace(reading, value=kept)
    if reading.kind == "inline":
        _believable(kept, job.unit)
    if side is None:
        raise NotAJob(f"“{said}” does not say to which side; {_off_by(reading, job.unit)}")
    return msgspec.structs.replace(reading, kind="off", side=side, value=kept, asked=False)


def with_its_length(side: str, before: str, hand: Hand) -> str:
    """A side that was typed by itself, behind the length that stood there `before`, for none types that twice; all else
    as it was typed.
    """
    word = side.strip()
    length, _ = sided(before.strip(), hand)
    alone = word.isalpha() and sided(f"1 {word}", hand)[1] is not None
    return f"{length} {word}" if alone and any(sign.isdigit() for sign in length) else side


def sided(text: str, hand: Hand) -> tuple[str, Side | None]:
    """A typed length and the side that stands behind it, as far as one does: “0.8 bass”, “1/32 in t”, “0.8 left”."""
    bass: Side = "right" if hand == "right" else "left"
    treble: Side = "left" if hand == "right" else "right"
    return _side_among(text, {"bass": bass, "treble": treble, "left": "left", "right": "right"})


def sided_of(line: tuple[str, ...], text: str, hand: Hand) -> tuple[str, Side | None]:
    """The same off a line through two points, with the side as one sights along it: of one that lies across the neck
    “35 headstock” or “35 body”.
    """
    a, b = line
    if words.across_neck(a, b):
        return _side_among(text, {words.side_typed(side, a, b, hand): side for side in SIDES})
    length, side = sided(text, hand)
    return length, words.sighted(side, a, b) if side is not None else None


def _side_among(text: str, sides: dict[str, Side]) -> tuple[str, Side | None]:
    found = _SIDED.fullmatch(text)
    typed = found["side"].casefold() if found is not None else ""
    length = found["length"] if found is not None else text
    return next(((length, side) for word, side in sides.items() if typed and word.startswith(typed)), (text, None))


def _believable(kept: units.Length, unit: units.Unit) -> None:
    if abs(units.mm(kept)) > MOST_OFF:
        read, most = kept if isinstance(kept, str) else f"{units.show_number(kept)} mm", units.said(MOST_OFF, unit)
        raise NotAJob(
            f"{read} is more than the {most} that a point may lie off: look at the unit, this job is in {NAMES[unit]}"
        )


def _off_by(reading: Reading, unit: units.Unit) -> str:
    return (
        f"say how far it lies off and to which side, like {LIKE[unit]} {unit} {one_side(reading)}; where that "
        "cannot be read, strike it out"
    )


def _line(reading: Reading) -> Reading:
    return msgspec.structs.replace(reading, kind="inline", side=None, value=None, asked=False)


def _nothing(text: str) -> bool:
    """Whether a typed length is 0; what is no length is none of ours to refuse."""
    try:
        return units.parse(text) == 0
    except units.NotALength:
        return False


def _with_unit(text: str, unit: units.Unit) -> str:
    return f"{units.typed(units.keep(text, unit), unit)} {unit}"
