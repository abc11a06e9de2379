"""Whether a saddle can be made of so many pieces: checks that take the strings and the bridge as well."""

from geometry.job.bridges import Held
from geometry.job.checks import NotAJob
from geometry.job.seating import Bridge, Made, Saddle
from geometry.job.stringing import String

COUNT: dict[Made, int] = {"two": 2, "three": 3}
SAID: dict[Made, str] = {
    "one": "one piece",
    "two": "two pieces",
    "three": "three pieces",
    "each": "one piece a string",
    "steps": "one piece in steps",
}
"""How a saddle is made, in words."""


def check_made(saddle: Saddle, strings: tuple[String, ...] | None, bridge: Bridge | None, held: Held) -> None:
    """Refuse pieces that no bridge or string is there for. `strings` None: not told yet."""
    if saddle.made in ("one", "steps"):
        if saddle.splits is not None:
            raise NotAJob("The saddle is one piece, but places to part it are given; take out its splits")
        if held == "screws" and saddle.made == "steps":
            raise NotAJob("Each string has a saddle of its own on its base; let the saddle’s made be one")
        return
    said = SAID[saddle.made]
    if held != "glue":
        raise NotAJob(
            f"A saddle of {said} needs slots in a glued bridge; let it be one piece, or hold the bridge by glue"
        )
    if bridge is not None and bridge.slot_front is not None:
        raise NotAJob(f"The bridge has one slot that is cut, and a saddle of {said} needs more; take one of them out")
    _check_splits(saddle, strings)


def _check_splits(saddle: Saddle, strings: tuple[String, ...] | None) -> None:
    count, said, splits = COUNT.get(saddle.made, 0), SAID[saddle.made], saddle.splits
    if splits is not None and not count:
        raise NotAJob("The saddle has one piece a string, so its splits are known; take them out")
    if strings is None:
        return
    if len(strings) < count:
        raise NotAJob(f"A saddle of {said} needs {count} strings, and the job has {len(strings)}; make it of fewer")
    if splits is None:
        return
    names = [string.name for string in strings]
    if len(splits) != count - 1:
        raise NotAJob(
            f"A saddle of {said} is parted after {_strings(count - 1)}, but {len(splits)} are named; mend splits"
        )
    for name in splits:
        if name not in names:
            raise NotAJob(
                f"The saddle is to be parted after the string “{name}”, which is not in the list; mend the name"
            )
    places = [names.index(name) + 1 for name in splits]
    if sorted(set(places)) != places:
        raise NotAJob(
            "The strings after which the saddle is parted are not in the order of the list, or one stands twice, which "
            "leaves a piece without a string; name them from treble to bass, each once"
        )
    if places[-1] == len(names):
        raise NotAJob(
            f"After the last string, “{names[-1]}”, there is none for another piece; part the saddle before it"
        )


def _strings(count: int) -> str:
    return "1 string" if count == 1 else f"{count} strings"
