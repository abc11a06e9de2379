"""How the strings are spread and how high they lie, as the Strings card says it and puts it back."""

from app.edit.edits import Get, Put, replace
from app.edit.strings.string_entries import block, put
from geometry.job import Action, Job, NotAJob, Spread
from geometry.units import Length


def spread_of(where: str) -> Get:
    """What reads the spread at the nut or the saddle."""

    def get(job: Job) -> Length | None:
        found: Spread | None = getattr(block(job), where)
        return found.spread if found else None

    return get


def spread_put(where: str) -> Put:
    """What puts the spread at the nut or the saddle; none given takes it away."""

    def put_it(job: Job, value: Length | None) -> Job:
        old: Spread | None = getattr(block(job), where)
        made = None if value is None else replace(old, spread=value) if old else Spread(spread=value)
        return put(job, **{where: made})

    return put_it


def spacing_of(where: str) -> Get:
    """What reads how a spread is shared out."""

    def get(job: Job) -> str:
        found: Spread | None = getattr(block(job), where)
        return found.spacing if found else "centres"

    return get


def spacing_put(where: str) -> Put:
    """What puts how a spread is shared out; without a spread there is nothing to share yet."""

    def put_it(job: Job, spacing: str) -> Job:
        old: Spread | None = getattr(block(job), where)
        return job if old is None else put(job, **{where: replace(old, spacing=spacing)})

    return put_it


def pair_of(where: str) -> Get:
    """What reads how far the two strings of a pair lie apart at the nut or the saddle."""

    def get(job: Job) -> Length | None:
        found: Spread | None = getattr(block(job), where)
        return found.pair if found else None

    return get


def pair_put(where: str) -> Put:
    """What puts how far the two strings of a pair lie apart. Raises `NotAJob` as long as no spread is given there."""

    def put_it(job: Job, value: Length | None) -> Job:
        old: Spread | None = getattr(block(job), where)
        if old is None and value is not None:
            raise NotAJob(f"The pairs belong to the spread at the {where}; type that one first")
        return job if old is None else put(job, **{where: replace(old, pair=value)})

    return put_it


def action_of(fret: str, side: int) -> Get:
    """What reads the action at a fret, 0 left and 1 right."""

    def get(job: Job) -> Length | None:
        found = block(job).action
        return None if found is None else getattr(found, fret)[side]

    return get


def action_put(fret: str, side: int) -> Put:
    """What puts the action at a fret; what nobody typed stays empty, and is assumed."""

    def put_it(job: Job, value: Length | None) -> Job:
        old = block(job).action or Action()
        left, right = getattr(old, fret)
        made = replace(old, **{fret: (value, right) if side == 0 else (left, value)})
        return put(job, action=None if made == Action() else made)

    return put_it
