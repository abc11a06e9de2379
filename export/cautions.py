"""Cautions where the hand is: which belong to a template, a file for a machine, a step of the work.

Short, and no instruction: makers' instructions, local rules and those licensed for the work stand above them. Common
practice, no source.
"""

from typing import Literal

import msgspec

from geometry.layout import Layout

Step = Literal[
    "scales", "take off", "tape", "mark", "clear", "fit", "dry clamp", "glue", "drill", "rout", "headstock", "string up"
]


BaseStep = Literal["base off", "base drill", "base on", "base strings"]
"""Steps where saddles of their own stand on a base that is screwed down."""


class Caution(msgspec.Struct, frozen=True):
    """What it is about, and what it says."""

    title: str
    text: str


PROBE = "Probe for metal with a magnet before you drill or rout."
STRINGS_OFF = Caution("Strings off", "Slacken all strings first, by degrees: a bridge under pull lets go at once.")
HEAT = Caution(
    "Heat and steam", "Heat and steam scald, and loosen old glue and braces that were to hold: a little at a time."
)
SOLVENTS = Caution(
    "Solvents and bleaches",
    "Solvents and bleaches harm skin and lungs, some burn, some must never meet: read the maker's data sheet, air the "
    "room.",
)
DUST = Caution(
    "Dust",
    "Dust of hardwood, shell, bone, ivory and old finish harms the lungs: take it away, wear a mask made for it.",
)
METAL = Caution("Metal", f"{PROBE} A cutter that meets metal throws pieces: clamp the work, wear eye protection.")
MACHINES = Caution(
    "Machines", "Follow the machine's own instructions, never leave it alone, make the first cut in scrap."
)
LASERS = Caution(
    "Lasers", "A laser blinds and burns: cover its path, draw its smoke off, cut nothing whose smoke you don't know."
)
TENSION = Caution(
    "String tension",
    "A set pulls with the weight of a grown person: bring it up by degrees, face out of its way, and watch the bridge.",
)
LAW = Caution(
    "Protected woods, ivory, shell",
    "The law says what protected wood, ivory or shell may be kept, replaced, sold or sent: ask first.",
)
ABOVE_ALL = Caution(
    "Above all of this",
    "Makers' instructions, local rules and those licensed for the work stand above anything this program says.",
)
ALL = (STRINGS_OFF, HEAT, SOLVENTS, DUST, METAL, MACHINES, LASERS, TENSION, LAW, ABOVE_ALL)
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

METAL_HERE = "There is metal in this wood: keep the cutter clear of it."
MACHINE = f"{MACHINES.text} {LASERS.text}"
"""Beside files for a machine."""

_TEMPLATES = {
    "placement": (PROBE,),
    "full-length": (PROBE,),
    "bridge": (METAL.text, DUST.text),
    "clearing": (SOLVENTS.text, DUST.text),
    "plate": (METAL.text, DUST.text),
    "nut-slots": (DUST.text,),
    "headstock": (METAL.text, DUST.text),
    "headstock-back": (METAL.text, DUST.text),
    "post-jig": (DUST.text,),
    "saddle-bases": (DRILLING, DUST.text),
    "saddle-bases-back": (DRILLING, DUST.text),
    "side-markers": (DUST.text,),
    "face-markers": (DUST.text,),
}
_STEPS: dict[Step | BaseStep, tuple[str, ...]] = {
    "take off": (STRINGS_OFF.text, HEAT.text, LAW.text),
    "clear": (SOLVENTS.text, DUST.text),
    "fit": (PROBE,),
    "rout": (METAL.text, DUST.text),
    "string up": (TENSION.text,),
    "base off": ("Slacken all strings first, by degrees. Take the electrics off their supply.",),
    "base drill": (
        f"{PROBE} Chips of metal and of wood fly: clamp the work, wear eye protection, keep the chips out of the "
        "electrics.",
    ),
    "base strings": (
        "A set pulls with the weight of a grown person: bring it up by degrees, face out of its way, and watch the "
        "base.",
    ),
}


def of_template(name: str) -> tuple[str, ...]:
    """What stands on a template that cuts, drills, routs or clears; nothing on others."""
    return _TEMPLATES.get(name, ())


def of_file(layout: Layout) -> tuple[str, ...]:
    """What stands in each file for a machine."""
    return (*((METAL_HERE,) if layout.old.metal else ()), MACHINES.text)


def of_step(step: Step | BaseStep) -> tuple[str, ...]:
    """What is said behind a step of the job sheet that can hurt; nothing behind others."""
    return _STEPS.get(step, ())
