"""What the command line says of sheets and files for machines, in place of what the job says of them."""

import argparse
from typing import Any, get_args

import msgspec

from app.edit.sheet_entries import stock_from
from geometry import units
from geometry.job import Job, NotAJob
from geometry.job.sheets import Operation, Sheets, Work

ALL = "all"
CHOICES = ("turn", "dxf", "arcs", "datum", "text", "grain", "pin_holes")
LENGTHS = ("margin", "ledge", "kerf", "pilot")
NONE = "none"


def add_to(parser: argparse.ArgumentParser) -> None:
    """The options. A length takes any unit; a bare number is in the job's."""
    takes = {field.name: get_args(field.type) for field in msgspec.structs.fields(Sheets)}
    own = "instead of the job’s own"
    paper = parser.add_argument_group("on paper", own)
    paper.add_argument("--template", action="append", metavar="NAME", help="may be repeated; “all”: all that can be")
    paper.add_argument("--sheets", metavar="NAMES", help="only some of the PDFs’ sheets, such as A1,A2")
    paper.add_argument("--paper", metavar="NAME", help="A4, A3, Letter …, a size such as 320x450, “roll 610”")
    paper.add_argument("--turn", choices=takes["turn"])
    paper.add_argument("--margin", metavar="LENGTH", help="what the printer leaves blank")
    paper.add_argument("--ledge", metavar="LENGTH", help="the finish that stays under the bridge’s edge")
    window = "the bridge’s place as a window in the placement templates"
    paper.add_argument("--window", action=argparse.BooleanOptionalAction, help=window)
    files = parser.add_argument_group("in DXF and SVG", own)
    files.add_argument("--purposes", metavar="NAMES", help=f"only lines for some of {', '.join(get_args(Work))}")
    files.add_argument("--kerf", metavar="LENGTH", help="what a beam takes away")
    cutters = "a tool’s diameter, or one for an operation, such as slot=2 or holes=3; may be repeated; before the kerf"
    files.add_argument("--cutter", action="append", metavar="[FOR=]LENGTH", help=cutters)
    files.add_argument("--edge", metavar="LENGTH", help="round a placement template that is to be cut; “none”: no edge")
    files.add_argument("--pilot", metavar="LENGTH", help="the pilot holes of such a template")
    pins = "undersize, to ream to the pins’ taper, or at their finished size"
    files.add_argument("--pin-holes", choices=takes["pin_holes"], help=pins)
    turning = "two holes beside bridge and plate, to turn them over on"
    files.add_argument("--turning", action=argparse.BooleanOptionalAction, help=turning)
    stock = "a piece to lay bridge, plate and nut strip on, such as 300x120; “none”: no such file"
    files.add_argument("--stock", metavar="WIDTHxHEIGHT", help=stock)
    files.add_argument("--grain", choices=takes["grain"], help="which way the stock’s grain runs")
    files.add_argument("--datum", choices=takes["datum"])
    files.add_argument("--text", choices=takes["text"], help="words as they are, or as outlines")
    files.add_argument("--dxf", choices=takes["dxf"], help="the release; R12 for old readers")
    files.add_argument("--arcs", choices=takes["arcs"], help="chords for readers that ignore bulges")


def put(job: Job, asked: argparse.Namespace) -> Job:
    """The job with what was asked for. Raises `NotAJob`."""
    if asked.sheets is not None and not names(asked.sheets):
        raise NotAJob("--sheets names no sheet; name some, such as A1,A2, or leave it out to have them all")
    said = {name: getattr(asked, name) for name in ("paper", "window", "turning", *CHOICES)}
    given: dict[str, Any] = {name: value for name, value in said.items() if value is not None}
    for name in LENGTHS:
        text = getattr(asked, name)
        if text is not None:
            given[name] = _length(f"--{name}", text, job)
    if asked.edge is not None:
        given["edge"] = None if asked.edge.strip().casefold() == NONE else _length("--edge", asked.edge, job)
    if asked.stock is not None:
        given["stock"] = _stock(asked.stock, job)
    if asked.cutter:
        given |= _cutters(asked.cutter, job)
    if asked.template:
        given["templates"] = _templates(asked.template)
    if asked.purposes is not None:
        given["purposes"] = _purposes(asked.purposes)
    return msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, **given))


def names(text: str | None) -> tuple[str, ...]:
    """Names with commas between them."""
    return tuple(name.strip() for name in (text or "").split(",") if name.strip())


def _length(option: str, text: str, job: Job) -> units.Length:
    try:
        return units.keep(text, job.unit)
    except units.NotALength as error:
        raise NotAJob(f"{option}: {error}") from None


def _stock(text: str, job: Job) -> tuple[units.Length, units.Length] | None:
    """Width and height, an x between them."""
    return None if text.strip().casefold() == NONE else stock_from(text, job.unit, "--stock")


def _cutters(asked: list[str], job: Job) -> dict[str, Any]:
    """The cutter for all, and those for an operation; an operation that is not known is `NotAJob`."""
    given: dict[str, Any] = {}
    own = dict(job.sheets.cutters)
    known: tuple[Operation, ...] = get_args(Operation)
    for text in asked:
        name, has_name, length = text.rpartition("=")
        operation = next((known_one for known_one in known if known_one == name.strip().casefold()), None)
        if operation is not None:
            own[operation] = _length(f"--cutter {operation}", length, job)
        elif has_name:
            raise NotAJob(f"--cutter takes one for {', '.join(known)}, not for “{name.strip()}”")
        else:
            given["cutter"] = _length("--cutter", length, job)
    return {**given, "cutters": own}


def _templates(asked: list[str]) -> tuple[str, ...]:
    if ALL not in asked:
        return tuple(asked)
    from export.templates import TEMPLATES

    return tuple(TEMPLATES)


def _purposes(text: str) -> tuple[Work, ...] | None:
    known: tuple[Work, ...] = get_args(Work)
    asked = names(text)
    for name in asked:
        if name not in (*known, ALL):
            raise NotAJob(f"--purposes takes some of {', '.join(known)}, not “{name}”")
    return None if ALL in asked else tuple(name for name in known if name in asked)
