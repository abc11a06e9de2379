"""The survey in words for the person at the bench: what each reading is, what is wrong with it, and the mend."""

from geometry import units
from geometry.job import Reading
from geometry.units import Unit

INCH = units.MM_PER["in"]
STATIONS = {"nut": "nut", "end": "board end", "fret12": "12th fret"}


def point(name: str) -> str:
    """A point in words: `end.right` is “board end right”; names without words of their own stay as they are."""
    station, _, side = name.partition(".")
    return f"{STATIONS[station]} {side}" if station in STATIONS and side in ("left", "right") else name


def reading(taken: Reading) -> str:
    """What a reading is, in words."""
    of = [point(name) for name in taken.of]
    match taken.kind:
        case "distance":
            return f"{of[0]} to {of[1]}"
        case "same":
            return f"{of[0]} – {of[1]} the same as {of[2]} – {of[3]}"
        case "square":
            return f"{of[0]} – {of[1]} square to {of[2]} – {of[3]}"
        case "rims":
            return f"{of[0]} to the rims of {of[1]}"
        case "fret":
            return f"fret {taken.fret}, {taken.on}"
        case "height":
            return f"height at {taken.at}, {taken.on}"
        case "at":
            return f"{of[0]} off the sheet"
        case _:
            return _by_straightedge(taken, of)


def _by_straightedge(taken: Reading, of: list[str]) -> str:
    laid = [point(name) for name in taken.from_]
    edge = " – ".join(laid)
    match taken.kind:
        case "along":
            return f"along {edge} to {of[0]}"
        case "off":
            return f"{of[0]} {taken.side} of {edge}"
        case "across":
            return f"{of[0]} to {of[1]} across {edge}"
        case "meets":
            return f"along {edge} to the line {of[0]} – {of[1]}"
        case _:
            return f"{of[0]} in line with {' and '.join(laid)}"


FAR_OUT = 1000.0
"""An error beyond this (mm) is longer than most instruments: its size tells nothing any more."""


def length(value: float, unit: Unit) -> str:
    """A length with its unit, without a sign."""
    return f"{units.show(abs(value), unit)} {unit}"


def at_least(error: float, unit: Unit) -> str:
    """How far out something is at least, as far as its size tells anything."""
    return f"by {length(error, unit)} or more" if abs(error) <= FAR_OUT else "by more than the whole instrument"


def complaint(taken: Reading, error: float, unit: Unit, pm95: float | None = None) -> str:
    """What is wrong with a reading that is out by `error` mm (reading less truth), and the mend.

    `pm95`: the ± of what the others say of it, mm.
    """
    what, much = f"Reading {taken.id}, {reading(taken)}", length(error, unit)
    if taken.kind == "inline":
        return f"{what}: it lies {much} off the line. Sight along it again, or strike it out."
    if taken.kind == "same":
        return f"{what}: they differ by {much}. Measure both again, or strike it out."
    if taken.kind == "square":
        return f"{what}: it leans {much} from square. Lay the square on again, or strike it out."
    more = "more" if error > 0 else "less"
    says = f": they say {_value(units.mm(taken.parts[0]) - error, unit, pm95)}" if _says(taken, error) else ""
    reads = f"{much} {more}" if abs(error) <= FAR_OUT else f"far {more}"
    return f"{what}: reads {reads} than the others allow{says}.{_slip(taken, error, unit)}"


def _value(value: float, unit: Unit, pm95: float | None) -> str:
    return length(value, unit) if pm95 is None else f"{units.show(value, unit)} ±{units.show_pm(pm95, unit)} {unit}"


def _says(taken: Reading, error: float) -> bool:
    """Whether what the others say of a reading is a length at all, and one number."""
    return len(taken.parts) == 1 and 0 < units.mm(taken.parts[0]) - error < FAR_OUT


def _slip(taken: Reading, error: float, unit: Unit) -> str:
    value = units.mm(taken.parts[0])
    truth = value - error
    if taken.kind == "off" and truth < 0 and abs(value + truth) < 0.1 * value:
        other = "right" if taken.side == "left" else "left"
        return f" It fits if it lies on the {other}. Look at the side again, or strike it out."
    for factor, wrong in ((10.0, "one place too far right"), (0.1, "one place too far left")):
        if truth > 0 and abs(value / truth / factor - 1) < 0.02:
            return f" Its decimal point may be {wrong}. Look at it again, or strike it out."
    if abs(value - INCH * truth) < 0.02 * abs(value) or abs(value * INCH - truth) < 0.02 * abs(truth):
        return " Its unit may be the wrong one, mm or inches. Look at it again, or strike it out."
    for step, text in ((INCH, "an inch"), (10.0, "a whole centimetre")):
        if (unit == "in") == (step == INCH) and abs(abs(error) - step) < 0.06 * step:
            return f" That is near {text}: a slip in counting. Read it again, or strike it out."
    return " Read it again, or strike it out."
