"""Cautions where the hand is: which belong to a template, a file for a machine, a step of the work.

Short, and no instruction: makers' instructions, local rules and those licensed for the work stand above them. Common
practice, no source.
"""

from collections.abc import Collection
from typing import Literal

import msgspec

from geometry import words
from geometry.job import Held
from geometry.layout import Layout

Step = Literal[
    "scales",
    "take off",
    "clean",
    "tape",
    "mark",
    "clear",
    "fit",
    "dowels",
    "dry clamp",
    "glue",
    "tie holes",
    "pin holes",
    "rout",
    "saddle",
    "nut",
    "headstock",
    "string up",
    "slacken",
    "crown",
    "tail",
]


BaseStep = Literal["base off", "base drill", "base through", "base back", "base on", "base strings"]
"""Steps where saddles of their own stand on a base that is screwed down."""
Work = tuple[tuple[Step | BaseStep, str], ...]
"""What is done, in order: the kind of each step, and what it says."""


class Caution(msgspec.Struct, frozen=True):
    """What it is about, and what it says."""

    title: str
    text: str


PROBE = "Probe for metal with a magnet before you drill or rout."
DRILL = "Probe for metal with a magnet before you drill; take the drilling’s dust away, wear eye protection."
_CATCHES = "A drill throws chips and can catch: {}, wear eye protection."
CATCHES = _CATCHES.format("clamp the work")
"""Where new wood is drilled, which has no metal in it."""
HELD = "Hold the neck, wear eye protection."
"""Where the neck itself is drilled."""
SLACK = "Slacken by degrees, and hold the bridge: it falls when the strings go slack."
STRINGS_OFF = Caution("Strings off", "Slacken all strings first, by degrees: a bridge under pull lets go at once.")
HEAT = Caution(
    "Heat and steam", "Heat and steam scald, and loosen old glue and braces that were to hold: a little at a time."
)
KNIFE = Caution("Knives", "A knife slips: keep your other hand behind its edge.")
SOLVENTS = Caution(
    "Solvents and bleaches",
    "Solvents and bleaches harm skin and lungs, some burn, some must never meet: read the maker’s data sheet, air the "
    "room.",
)
DUST = Caution(
    "Dust",
    "Dust of hardwood, shell, bone, ivory and old finish harms the lungs: take it away, wear a mask made for it.",
)
PROBED = Caution("Metal", PROBE)
PIECES = Caution("Flying pieces", "A cutter that meets metal throws pieces: clamp the work, wear eye protection.")
METAL = Caution(PROBED.title, f"{PROBE} {PIECES.text}")
MACHINES = Caution(
    "Machines", "Follow the machine’s own instructions, never leave it alone, make the first cut in scrap."
)
LASERS = Caution(
    "Lasers", "A laser blinds and burns: cover its path, draw its smoke off, cut nothing whose smoke you don’t know."
)
_PULLS = "A set can pull with the weight of a grown person: bring it up by degrees, face out of its way, and watch {}."
TENSION = Caution("String tension", _PULLS.format("the bridge"))
LAW = Caution(
    "Protected woods, ivory, shell",
    "The law says what protected wood, ivory or shell may be kept, replaced, sold or sent: ask first.",
)
ABOVE_ALL = Caution(
    "Above all of this",
    "Makers’ instructions, local rules and those licensed for the work stand above anything this program says.",
)
ALL = (STRINGS_OFF, HEAT, KNIFE, SOLVENTS, DUST, METAL, MACHINES, LASERS, TENSION, LAW, ABOVE_ALL)
"""All of them, in the order of the work."""

BEFORE = (
    "Loose braces, an open seam, a lifting plate: mend them first, for they move the bridge.",
    "A belly behind the bridge or a hollow before it: flatten it, or measure on it and know what it costs.",
    "Neck angle: sight along the frets. Where the neck needs a reset, reset it before anything is placed.",
    PROBE,
)
"""What is looked at before a bridge is moved."""
BEFORE_SCREWS = (
    "Neck joint: its screws tight, the neck straight in its pocket. A neck that shifts moves every string.",
    "Neck angle and relief: set both first, for they move the saddles.",
    "What lies beneath: openings, leads, metal. Measure what the base or a hole may meet.",
    PROBE,
)
"""The same where a base is screwed to a body."""

DRILLING = (
    f"{PROBE} A drill throws chips of metal and of wood and can catch: clamp the work, wear eye protection. Take the "
    "electrics off their supply first."
)
"""Where holes are drilled in a body for a base and its saddles."""

BEFORE_STANDING = (
    "Loose braces, an open seam, a torn skin or one gone slack: mend or draw it first, for it moves the bridge.",
    "A top or a head that has sunk under the feet: measure on it with the strings at pitch, and know what it costs.",
    BEFORE[2],
)
"""What is looked at before a bridge that only stands on the top is moved."""


DRILL_CHIPS = Caution("Chips", CATCHES)
TAIL_CHIPS = Caution("Chips, a firm hold", _CATCHES.format("hold the instrument firmly"))
"""Where the instrument itself is drilled at its end; its title is its own, for what is said of clamps does not do."""
DRILLED = Caution(PROBED.title, "Probe for metal with a magnet before you drill.")
SLACKENED = Caution("Slackening", SLACK)
UNPLUGGED = Caution("Electrics", "Take the electrics off their supply.")
BASE_OFF = Caution("Slackening", "Slacken all strings first, by degrees.")
BASE_TENSION = Caution(TENSION.title, _PULLS.format("the base"))
CHIPS = Caution(
    "Chips",
    "Chips of metal and of wood fly: clamp the work, wear eye protection, keep the chips out of the electrics.",
)
_EVERY: dict[Held, tuple[Caution, ...]] = {
    "glue": ALL,
    "strings": (SLACKENED, *(one for one in ALL if one not in (STRINGS_OFF, HEAT, KNIFE, SOLVENTS))),
    "screws": (BASE_OFF, UNPLUGGED, DUST, METAL, CHIPS, MACHINES, LASERS, BASE_TENSION, LAW, ABOVE_ALL),
}


def every(held: Held) -> tuple[Caution, ...]:
    """All cautions of the work on a bridge that is held so, in the order of the work."""
    return _EVERY[held]


_BEFORE: dict[Held, tuple[str, ...]] = {"glue": BEFORE, "strings": BEFORE_STANDING, "screws": BEFORE_SCREWS}


def before(held: Held) -> tuple[str, ...]:
    """What is looked at first, by how the bridge is held."""
    return _BEFORE[held]


METAL_HERE = "There is metal in this wood: keep the cutter clear of it."
MACHINE = f"{MACHINES.text} {LASERS.text}"
"""Beside files for a machine."""

_TEMPLATES = {
    "placement": (PROBE,),
    "full-length": (PROBE,),
    "bridge": (METAL.text, DUST.text),
    "clearing": (KNIFE.text, SOLVENTS.text, DUST.text),
    "plate": (METAL.text, DUST.text),
    "tie-block": (CATCHES, DUST.text),
    "crown": (DUST.text,),
    "tailpiece": (DRILL,),
    "nut-slots": (DUST.text,),
    "nut-blank": (DUST.text, LAW.text),
    "saddle-blank": (DUST.text, LAW.text),
    "headstock": (METAL.text, DUST.text),
    "headstock-back": (METAL.text, DUST.text),
    "headstock-sides": (METAL.text, DUST.text),
    "post-jig": (CATCHES, DUST.text),
    "saddle-bases": (DRILLING, DUST.text),
    "saddle-bases-back": (DRILLING, DUST.text),
    "side-markers": (HELD, DUST.text),
    "face-markers": (HELD, DUST.text),
}
OF_OTHER_WOOD = frozenset(
    (
        *("tie-block", "crown", "nut-slots", "nut-blank", "saddle-blank"),
        *("headstock", "headstock-back", "headstock-sides", "post-jig", "side-markers", "face-markers"),
    )
)
"""Templates of parts and of the neck, where no metal of the top is."""
TO_BE_PROBED = frozenset((PROBE, METAL.text, DRILL, DRILLING))
"""What a template says where metal is to be looked for first."""
_STEPS: dict[Step | BaseStep, tuple[Caution, ...]] = {
    "take off": (STRINGS_OFF, HEAT, LAW),
    "clean": (HEAT, LAW),
    "clear": (KNIFE, SOLVENTS, DUST),
    "dowels": (PROBED, DRILL_CHIPS, DUST),
    "tie holes": (DRILL_CHIPS, DUST),
    "pin holes": (PROBED, DRILL_CHIPS, DUST),
    "headstock": (PROBED, DRILL_CHIPS, DUST),
    "rout": (PROBED, PIECES, DUST),
    "saddle": (DUST, LAW),
    "nut": (DUST, LAW),
    "string up": (TENSION,),
    "slacken": (SLACKENED,),
    "crown": (DUST,),
    "tail": (DRILLED, TAIL_CHIPS, DUST),
    "base off": (BASE_OFF, UNPLUGGED),
    "base drill": (PROBED, CHIPS, DUST),
    "base through": (PROBED, CHIPS, DUST),
    "base back": (PROBED, CHIPS, DUST),
    "base strings": (BASE_TENSION,),
}


def of_template(name: str, held: Held = "glue") -> tuple[str, ...]:
    """What stands on a template that cuts, drills, routs or clears; nothing on others, such as one that only shows
    where a bridge is to stand.
    """
    return () if held == "strings" and name in ("placement", "full-length") else _TEMPLATES.get(name, ())


def of_file(layout: Layout, template: str = "", held: Held = "glue") -> tuple[str, ...]:
    """What stands in a file for a machine: of metal that was found in the top, or else that it is to be probed for
    where the template's sheet says so; of the top's nothing where the template is of other wood.
    """
    if layout.old.metal and template not in OF_OTHER_WOOD:
        return METAL_HERE, MACHINES.text
    probed = not TO_BE_PROBED.isdisjoint(of_template(template, held))
    return (PROBE, MACHINES.text) if probed else (MACHINES.text,)


def of_machine_files(layout: Layout, files: Collection[str]) -> str:
    """What is said once files of these names were written for a machine; nothing where none was."""
    of_top = any(not name.startswith(tuple(OF_OTHER_WOOD)) for name in files)
    metal = f"{METAL_HERE} " if layout.old.metal and of_top else ""
    return f"{metal}{MACHINE}" if files else ""


def of_step(step: Step | BaseStep) -> tuple[Caution, ...]:
    """What is said behind a step of the job sheet that can hurt; nothing behind others."""
    return _STEPS.get(step, ())


def told(work: Work, held: Held) -> tuple[str, ...]:
    """Each step of the work with its cautions: in full where what they are about is first met, on the list of what is
    looked at first or behind a step, and by its title from then on.
    """
    said = {caution.title for caution in every(held) if caution.text.startswith(before(held))}
    found: list[str] = []
    for step, does in work:
        new = [caution for caution in of_step(step) if caution.title not in said]
        again = [words.first_small(caution.title) for caution in of_step(step) if caution.title in said]
        said.update(caution.title for caution in new)
        as_above = (f"{words.first_large(words.joined(again))}: as above.",) if again else ()
        found.append(" ".join((does, *(caution.text for caution in new), *as_above)))
    return tuple(found)
