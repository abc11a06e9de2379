"""How a bridge is held, as the Bridge card asks and puts it back, and the fields of bridges that are not glued."""

from collections.abc import Callable
from typing import Any

from app.edit import edits, saddle_that_goes
from app.edit.edits import Get, Put, replace
from geometry.bridge.how_held import HOW_HELD
from geometry.job import Floating, Held, Job, Separate

ANSWERS = [(held, entry.answer) for held, entry in HOW_HELD.items()]
_BLOCKS: dict[Held, tuple[str, Callable[[], Any]]] = {
    "strings": ("floating", Floating),
    "screws": ("separate", Separate),
}


def held(job: Job) -> Held:
    return job.held


def hold(job: Job, how: Held) -> Job:
    """The job with its bridge held so: begun with usual sizes, and without the bridge that it had. A glued one is not
    begun until its sizes are taken.
    """
    if how == job.held:
        return job
    without = {"bridge": None, "floating": None, "separate": None}
    if how in _BLOCKS:
        name, usual = _BLOCKS[how]
        without[name] = usual()
    saddle = saddle_that_goes.in_one_piece(job.saddle) if how != "glue" else job.saddle
    if how == "screws" and saddle is not None:
        saddle = replace(saddle, made="one")
    return replace(job, saddle=saddle, **without)


def field(block: str, name: str) -> tuple[Get, Put]:
    """What reads and puts a field of the block of a bridge that is not glued."""
    usual = {name: make for name, make in _BLOCKS.values()}[block]

    def get(job: Job) -> Any:
        return getattr(getattr(job, block) or usual(), name)

    def put(job: Job, value: Any) -> Job:
        return edits.in_block(job, block, usual, **{name: value})

    return get, put
