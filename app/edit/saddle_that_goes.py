"""The saddle that still goes with other strings or another bridge: editing these never fails for how it is made."""

from app.edit.edits import replace
from geometry.job import NotAJob, Saddle, Strings
from geometry.job.bridges.saddle_made import check_made


def with_strings(saddle: Saddle | None, before: Strings | None, after: Strings) -> Saddle | None:
    """The saddle with the splits that it had, by the strings' new names where as many are there; else parted where that
    is best, or of one piece where the strings are too few.
    """
    if saddle is None or saddle.made == "one":
        return saddle
    old, new = [string.name for string in before.list] if before else [], [string.name for string in after.list]
    splits = saddle.splits
    if splits is not None and len(old) == len(new) and set(splits) <= set(old):
        splits = tuple(new[old.index(name)] for name in splits)
    for made in (replace(saddle, splits=splits), replace(saddle, splits=None)):
        try:
            check_made(made, after.list, None, "glue")
        except NotAJob:
            continue
        return made
    return in_one_piece(saddle)


def in_one_piece(saddle: Saddle | None) -> Saddle | None:
    """The saddle for a bridge that has one slot, or none."""
    if saddle is None or saddle.made in ("one", "steps"):
        return saddle
    return replace(saddle, made="one", splits=None)
