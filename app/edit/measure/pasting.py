"""Readings pasted as text: one a line, as a spreadsheet or a notebook gives them.

A line is a value, or a name and a value parted by a tab, a comma with a space, or a semicolon. Names are a reading's id
or its words; lines with a value alone go down the table from the reading in hand.
"""

import csv
import io

from app.edit import edits
from app.edit.measure.reading_groups import in_groups
from geometry import units, words
from geometry.job import Job, NotAJob


def paste(job: Job, text: str, chosen: str | None) -> Job:
    """The job with the pasted values. Raises `NotAJob` naming the line that cannot be taken."""
    rows = [(at, cells) for at, cells in enumerate(_cells(text), start=1) if any(cells)]
    if not rows:
        raise NotAJob("There is nothing to paste; copy lines with a value, or with a name and a value")
    ids = [r.id for r in in_groups(job.readings)]
    place = ids.index(chosen) if chosen in ids else 0
    for at, cells in rows:
        if len(cells) == 1 or not cells[1]:
            if place >= len(ids):
                raise NotAJob(f"Line {at} of what was pasted has no reading left to go to; the table ends before it")
            target, value = ids[place], cells[0]
        else:
            target, value = _named(job, cells[0], at), cells[1]
        place = ids.index(target) + 1
        try:
            job = edits.set_value(job, target, value)
        except (NotAJob, units.NotALength) as error:
            raise NotAJob(f"Line {at} of what was pasted: {error}") from None
    return job


def _cells(text: str) -> list[list[str]]:
    """The cells of each line, by whichever of tab, semicolon or comma parts them; a decimal comma parts nothing."""
    lines = text.strip().splitlines()
    if any("\t" in line for line in lines):
        mark = "\t"
    elif all(";" in line for line in lines):
        mark = ";"
    elif all(line.count(",") == 1 and not line.replace(",", "").replace(" ", "").isdecimal() for line in lines):
        mark = ","
    else:
        return [[line.strip()] for line in lines]
    try:
        return [[cell.strip() for cell in row] for row in csv.reader(io.StringIO("\n".join(lines)), delimiter=mark)]
    except csv.Error:
        raise NotAJob(
            "One cell of what was pasted is longer than 131,072 characters; copy names and values alone"
        ) from None


def _named(job: Job, name: str, at: int) -> str:
    wanted = name.casefold()
    for r in job.readings:
        if wanted in (r.id.casefold(), words.reading(r, job.hand).casefold()):
            return r.id
    raise NotAJob(f"Line {at} of what was pasted names “{name}”, and no reading is called so; use its id, such as r1")
