"""How a bridge is held, as the Bridge card asks and puts it back, and the fields of bridges that are not glued."""

from collections.abc import Callable
from typing import Any

from app.edit import edits, saddle_that_goes
from app.edit.edits import Get, Put, replace
from app.edit.usual_sizes import usual
from geometry.job import Floating, Held, Job, Separate
from geometry.job.bridges.how_held import HOW_HELD

ANSWERS = [(held, entry.answer) for held, entry in HOW_HELD.items()]
_BLOCKS: dict[Held, tuple[str, Callable[[], Any]]] = {
    "strings": ("floating", Floating),
    "screws": ("separate", Separate),
}


def held(job: Job) -> Held:
    return job.held


def hold(job: Job, how: Held) -> Job:
    """The job with its bridge held so: begun with usual sizes, and without the bridge that it had. A glued one is not
    begun until its sizes are taken. Where nothing but the usual template was chosen, it is the one of that kind now.
    """
    if how == job.held:
        return job
    without: dict[str, Any] = {"bridge": None, "floating": None, "separate": None}
    if how in _BLOCKS:
        name, make = _BLOCKS[how]
        without[name] = usual(make(), job.unit)
    if job.sheets.templates == _usual_templates(job.held):
        without["sheets"] = replace(job.sheets, templates=_usual_templates(how))
    saddle = saddle_that_goes.in_one_piece(job.saddle) if how != "glue" else job.saddle
    if how == "screws" and saddle is not None:
        saddle = replace(saddle, made="one")
    return replace(job, saddle=saddle, **without)


def _usual_templates(how: Held) -> tuple[str, ...]:
    return (HOW_HELD[how].placed_by,)


def field(block: str, name: str) -> tuple[Get, Put]:
    """What reads and puts a field of the block of a bridge that is not glued."""
    make = {name: make for name, make in _BLOCKS.values()}[block]

    def get(job: Job) -> Any:
        return getattr(getattr(job, block) or usual(make(), job.unit), name)

    def put(job: Job, value: Any) -> Job:
        return edits.in_block(job, block, lambda: usual(make(), job.unit), **{name: value})

    return get, put
