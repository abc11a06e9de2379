"""What is to be said of the strings and of the saddle they want."""

from collections.abc import Iterator

from geometry import words
from geometry.findings import Finding
from geometry.job import Held, Job
from geometry.job.bridges.how_held import how_held
from geometry.job.sides import SIDES
from geometry.job.stringing import HIGHEST_ACTION
from geometry.neck.string_paths import outer_at_nut
from geometry.perturbed_states import PerturbedStates
from geometry.saddle import typed_and_asked
from geometry.saddle.heights.read_heights import action_sd
from geometry.saddle.in_pieces.pieces import Peaks, Piece
from geometry.saddle.saddle_line import Strung
from geometry.saddle.string_plans import WantedCompensation
from geometry.saddle.thickness import room_finding
from geometry.strings import list_order
from geometry.strings.causes_of_doubt import SHARED_NAMES
from geometry.strings.compensation import asked_of_saddle, own_frets
from geometry.strings.estimate_findings import estimate_findings, height_findings
from geometry.strings.tension import tension_findings
from geometry.strings.trial_saddles import hearing_findings
from geometry.units import said

SLIP, TELLS = 0.4, 1.5
"""A height read wrong by a digit, and how far that may move the saddle before it is spoken of, mm (our own aim)."""
HEIGHT_12 = SHARED_NAMES.index("heights.1")
HEARD_ON: dict[Held, str] = {
    "glue": "a trial saddle",
    "strings": "the bridge, once it stands,",
    "screws": "each string’s own saddle",
}
"""What the strings break on, and are heard on, by how the bridge is held."""
WRONG_WAY = 1.0
"""How far typed compensation may lean against what the strings ask for, mm (common practice, no source)."""


def missing(job: Job) -> Finding:
    """What is still to be said of the strings before there is a saddle line."""
    if job.strings is None or not job.strings.list:
        text = "The frets are known, the strings are not: say how many strings, and how they are spread."
    else:
        text = (
            f"The strings’ spread at the {how_held(job).ridge} is not given: say how far apart the outer strings are "
            "to lie."
        )
    return Finding(grade="look", code="strings.missing", text=text, where="field:strings.saddle.spread")


def findings(
    job: Job,
    states: PerturbedStates,
    strung: Strung,
    wanted: WantedCompensation,
    peaks: Peaks,
    pieces: tuple[Piece, ...],
    leans: tuple[float, float] | None,
) -> tuple[Finding, ...]:
    """What the strings, their heights, the ear and the saddle's thickness have to say; `leans` as `typed_leans` has
    it.
    """
    if job.strings is None:
        return ()
    ready, strings = wanted.ready, job.strings
    worked = [one for one in wanted.each if one.source == "worked out"]
    return (
        *list_order.findings(strings),
        *_habit(wanted),
        *_no_frets(wanted),
        *_leaning(job, leans),
        *typed_and_asked.findings(job, wanted),
        *room_finding(job, strung, wanted, peaks, pieces),
        *_no_nut(job),
        *tension_findings(strings, ready.places.nominal, job.unit),
        *_slipped(job, states),
        *_decided_by_height(job, states, wanted),
        *height_findings(ready, job.unit),
        *estimate_findings(
            strings,
            [one.name for one in worked],
            [one.pm95 for one in worked],
            job.unit,
            HEARD_ON[job.held],
            shared="" if job.held == "screws" or (job.saddle and job.saddle.made == "each") else how_held(job).ridge,
        ),
        *hearing_findings(strings, wanted.heard, wanted.trials, job.unit),
    )


def _no_nut(job: Job) -> tuple[Finding, ...]:
    """A nut compensation that a zero fret leaves no room for."""
    if not job.board.zero_fret or job.strings is None or job.strings.nut_compensation == 0:
        return ()
    return (
        Finding(
            grade="look",
            code="nut.zero_fret",
            text="With a zero fret the strings start from that fret: the nut’s compensation is not used.",
            where="field:strings.nut_compensation",
        ),
    )


def _slipped(job: Job, states: PerturbedStates) -> tuple[Finding, ...]:
    """Heights of strings over frets that no instrument has; they are left out."""
    return tuple(
        Finding(
            grade="stop",
            code="heights.slip",
            text=f"The {job.bass_or_treble(side)} string over {place} reads {said(value, job.unit)}, but such "
            f"heights lie between 0 and {said(most, job.unit)}: look at the unit and the decimal point. "
            "Until then this height is not used.",
            values={"mm": value},
            where="field:strings.action",
        )
        for place, most in HIGHEST_ACTION.items()
        for side in SIDES
        if (rows := states.unknown(f"height.{place}.{side}")) is not None
        for value in [float(rows[0])]
        if not 0 <= value <= most
    )


def _decided_by_height(job: Job, states: PerturbedStates, wanted: WantedCompensation) -> tuple[Finding, ...]:
    """A height over fret 12, which no other reading checks, where a slip in it would be heard: on a slack string."""
    found = []
    treble, bass = outer_at_nut(wanted.ready.strings)
    for side, sd in zip(SIDES, action_sd(states)[1], strict=True):
        one = wanted.each[bass if side == job.bass else treble]
        if one.source == "worked out" and one.common and sd > 0:
            found.append((abs(one.common[HEIGHT_12]) / float(sd) * SLIP, job.bass_or_treble(side)))
    moves, where = max(found, default=(0.0, ""))
    if moves < TELLS:
        return ()
    text = (
        f"Nothing checks the heights over fret 12, and a slip of {said(SLIP, job.unit)} there moves the "
        f"{how_held(job).ridge} by "
        f"{said(moves, job.unit)} on the {where} side: read them twice."
    )
    values = {"mm": moves, "slip_mm": SLIP}
    return (Finding(grade="look", code="heights.unchecked", text=text, values=values, where="field:strings.action"),)


def _habit(wanted: WantedCompensation) -> tuple[Finding, ...]:
    """Start values that stand on habit alone."""
    if all(one.source != "common practice" for one in wanted.each):
        return ()
    return (
        Finding(
            grade="look",
            code="compensation.habit",
            text="The compensation is a start value by common practice: the pitch or make of the strings is "
            "not given yet.",
            where="step:strings",
        ),
    )


def _no_frets(wanted: WantedCompensation) -> Iterator[Finding]:
    """Strings that start so far up that no fret is left to stop them at."""
    for string, own in zip(wanted.ready.strings.list, own_frets(wanted.ready), strict=True):
        if string.fretted and not own.any():
            text = (
                f"{words.first_large(words.string(string.name))} starts at the last fret, and no note of it can be "
                "fretted: it is taken for a drone, and has no say in where the saddle lies. Look at the fret it starts "
                "at."
            )
            yield Finding(grade="look", code="strings.no_frets", text=text, where=f"string:{string.name}")


def typed_leans(wanted: WantedCompensation) -> tuple[float, float] | None:
    """How much farther the saddle is to stand at the bass than at the treble, mm, as typed and as the strings ask,
    where all of the compensation is typed and leans against what they ask for.
    """
    if len(wanted.each) < 2 or any(one.source != "typed" for one in wanted.each):
        return None
    from_strings = asked_of_saddle(wanted.ready)
    treble, bass = outer_at_nut(wanted.ready.strings)
    asked = float(from_strings[bass] - from_strings[treble])
    typed = wanted.each[bass].saddle - wanted.each[treble].saddle
    return (typed, asked) if asked * typed < 0 and abs(asked - typed) > WRONG_WAY else None


def _leaning(job: Job, leans: tuple[float, float] | None) -> tuple[Finding, ...]:
    """Typed compensation that leans against what the strings ask for."""
    if leans is None:
        return ()
    typed, asked = leans
    return (
        Finding(
            grade="stop",
            code="saddle.leans",
            text=f"The typed saddle leans the wrong way for a {job.hand}-handed instrument: bass less treble is "
            f"{said(typed, job.unit)}, and the strings ask for {said(asked, job.unit)}. Check whether bass and treble "
            "are exchanged.",
            values={"typed": typed, "asked": asked},
            where="saddle",
        ),
    )
