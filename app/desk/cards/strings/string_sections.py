"""The parts of the Strings card below its table: spread, height, frets, and what is seldom needed."""

from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtWidgets import QLabel

from app.desk.cards.card import words as label
from app.desk.cards.form import Form, Get, Name, Put
from app.desk.widgets.inputs.fields import Field
from app.edit.strings import slanted_entries, spread_entries, string_entries, string_starts
from app.say.usual_heights import usual_heights
from geometry import units, words
from geometry.job import Job
from geometry.job.sides import SIDES, Side
from geometry.job.stringing import WORKED_OUT
from geometry.layout import Layout
from geometry.neck.string_paths import PAIR_AT_NUT, PAIR_AT_SADDLE, in_pairs

COUNTED_PAST = ("frets.count_usual", "frets.counted_past_end")
"""What is found where the last fret counted would lie past the board's end."""
Place = tuple[str, str]
"""Where a height is read: at which fret, on which side."""
HEIGHTS = (
    "String over the top of the fret, open, as the feeler or the rule shows it, or as it is wanted where no strings "
    "are on. What is left empty is assumed, with a wider ±."
)


def pair_as_begun(job: Job) -> str:
    """What is taken where nothing is typed of how far two of a pair lie apart."""
    nut, saddle = (_as_taken(apart, job.unit) for apart in (PAIR_AT_NUT, PAIR_AT_SADDLE))
    ridge = words.first_small(_at_ridge(job))
    return f"Two of a pair, middle to middle. Empty: {nut} at the nut, {saddle} {ridge}."


def _as_taken(apart: float, unit: units.Unit) -> str:
    """A length (mm) that is taken as it is, though a rule of inches has no mark there."""
    return f"{'about ' if unit == 'in' else ''}{units.said(apart, unit)}"


class PairRows:
    """What is asked of strings that lie in pairs, and of no others. `between`: whose spread it is, where some strings
    start at a fret.
    """

    def __init__(self, form: Form, between: QLabel) -> None:
        self.between = between
        form.only(lambda job: any(in_pairs(string_entries.block(job))), self._rows)

    def _rows(self, form: Form) -> None:
        for where, name in (("nut", _at_nut), ("saddle", _at_ridge)):
            get, put = spread_entries.pair_of(where), spread_entries.pair_put(where)
            key = f"strings.{where}.pair"
            says = pair_as_begun if where == "saddle" else ""
            form.length(_of_pair(name), get, put, optional=True, says=says, key=key)

    def refresh(self, job: Job) -> None:
        self.between.setText(string_starts.spread_said(job))
        self.between.setVisible(bool(self.between.text()))


def spread_rows(form: Form) -> PairRows:
    """How wide the strings lie at nut and saddle; what is asked of pairs alone is returned."""
    form.section("Spread", "From the first string’s middle to the last one’s, square across.")
    between = label("", "label", form.parent)
    form.column.addWidget(between)
    nut = "Empty: as wide as the nut leaves room for."
    for where, name, says in (("nut", _at_nut, nut), ("saddle", _at_ridge, "")):
        key, get, put = f"strings.{where}.spread", spread_entries.spread_of(where), spread_entries.spread_put(where)
        form.length(name, get, put, optional=True, says=says, key=key)
    options = [("centres", "equal centres"), ("gaps", "equal gaps")]
    for where, at in (("nut", _at_nut), ("saddle", _at_ridge)):
        form.choice(
            _shared_out(at),
            options,
            spread_entries.spacing_of(where),
            spread_entries.spacing_put(where),
            key=f"strings.{where}.spacing",
        )
    pairs = PairRows(form, between)
    form.length(
        lambda job: f"Shifted to the {words.side('left', job.hand)} side",
        lambda job: string_entries.block(job).shift,
        lambda job, value: string_entries.put(job, shift=value),
        says="All strings at the bridge, from the middle of the neck; minus: to the other side.",
        key="strings.shift",
    )
    return pairs


def _shared_out(at: Callable[[Job], str]) -> Callable[[Job], str]:
    return lambda job: f"{at(job)}, shared out by"


def _at_nut(_job: Job) -> str:
    return "At the nut"


def _at_ridge(job: Job) -> str:
    """Where the strings break, as it is called by how the bridge is held."""
    return "At the crown" if job.held == "strings" else "At the saddle"


def _of_pair(name: Callable[[Job], str]) -> Callable[[Job], str]:
    return lambda job: f"{name(job)}, the two of a pair"


class HeightRows:
    """How high the strings lie, unless that was read on the Measure card."""

    def __init__(self, form: Form) -> None:
        self.how = form.section("Height", HEIGHTS).findChildren(QLabel)[-1]
        self.places: list[Place] = []
        self.fields: dict[Place, Field] = {}
        self.read = label("", "text", form.parent)
        form.column.addWidget(self.read)
        for fret, said in (("fret1", "Fret 1"), ("fret12", "Fret 12")):
            for side, which in ((0, "left"), (1, "right")):
                get, put = spread_entries.action_of(fret, side), spread_entries.action_put(fret, side)
                place, key = (said.lower(), which), f"strings.action.{fret}.{which}"
                self.places.append(place)
                field = _at_side(said, which), get, put
                form.only(partial(_not_read, place), partial(self._field, place, field, key))
        form.length(
            "Relief",
            lambda job: string_entries.block(job).relief,
            lambda job, value: string_entries.put(job, relief=value),
            says="How hollow the board is in its middle.",
            key="strings.relief",
        )

    def _field(self, place: Place, field: tuple[Name, Get, Put], key: str, form: Form) -> None:
        self.fields[place] = form.length(*field, optional=True, key=key)

    def refresh(self, job: Job, layout: Layout | None) -> None:
        """Heights that were read on the Measure card stand before what is typed here: no field for these. What is
        assumed for those that nobody read or typed stands under their fields, never in them.
        """
        usual = usual_heights(job, layout)
        for place, field in self.fields.items():
            field.show_usual(usual.get(place, ""))
        read = [place for place in self.places if not _not_read(place, job)]
        names = [f"{place}, {words.side(on, job.hand)}" for place, on in read]
        every = len(names) == len(self.places)
        which = "at all four places" if every else words.joined(names)
        self.read.setText(f"Read on the Measure card {which}: what was read is in force.")
        self.read.setVisible(bool(names))
        self.how.setVisible(not every)


class FretRows:
    """The frets: their spacing, number and scale; of slanted ones both scales, the square fret, and how they lie."""

    def __init__(self, form: Form) -> None:
        _spacing_rows(form)
        form.only(lambda job: job.frets.slanted, self._slanted)
        form.number(
            "Number of frets",
            lambda j: j.frets.count,
            lambda j, v: string_entries.put_frets(j, count=v),
            whole=True,
            key="frets.count",
        )
        self.past = label("", "wrong", form.parent)
        form.explain(self.past)
        says = "Leave it empty to have it from the frets as read."
        form.only(
            lambda job: not job.frets.slanted or job.frets.scale is not None,
            lambda rows: rows.length("Scale, if given", *_frets("scale"), optional=True, says=says, key="frets.scale"),
        )
        form.number(
            "A4 in hertz",
            lambda j: string_entries.block(j).a4,
            lambda j, v: string_entries.put(j, a4=v),
            key="strings.a4",
        )

    def _slanted(self, form: Form) -> None:
        """Slanted frets have two scales, all others one."""
        for side in SIDES:
            form.length(
                _scale_at(side),
                slanted_entries.scale_of(side),
                slanted_entries.scale_put(side),
                optional=True,
                key=f"frets.scales.{side}",
            )
        says = "The fret that lies square to the neck, 0 for the nut."
        form.optional_number("Square fret", *_frets("square_fret"), whole=True, says=says, key="frets.square_fret")
        self.lie = label("", "label", form.parent)
        form.column.addWidget(self.lie)

    def refresh(self, job: Job, layout: Layout | None) -> None:
        """What is found of the frets."""
        self._say_past(job, layout)
        if not job.frets.slanted:
            return
        found = layout.frets.slants if layout is not None and layout.frets is not None else None
        self.lie.setVisible(found is not None)
        if layout is not None and found is not None:
            from geometry.frets.slants import in_a_line  # it loads numpy, which the first picture does not wait for

            self.lie.setText(in_a_line(job, found, layout.saddle))

    def _say_past(self, job: Job, layout: Layout | None) -> None:
        """Under the number of frets: that the last would lie past the board's end."""
        findings = layout.findings if layout is not None else ()
        over = next((one.values for one in findings if one.code in COUNTED_PAST), None)
        self.past.setVisible(over is not None)
        if over is not None:
            past = units.said(over["mm"], job.unit)
            self.past.setText(f"{over['on_board']:.0f} lie on the board; the last would lie {past} past its end.")


def _not_read(place: Place, job: Job) -> bool:
    """Whether a height is not one of those that were read on the Measure card."""
    return not any(r.kind == "height" and r.taken and (r.at, r.on) == place for r in job.readings)


def _scale_at(side: Side) -> Name:
    return lambda job: f"Scale at the {words.side(side, job.hand)} string"


def _spacing_rows(form: Form) -> None:
    form.section("Frets")
    spacings = [("equal", "equal tempered"), ("eighteen", "rule of eighteen"), ("measured", "as measured")]
    form.choice("Spacing", spacings, *_frets("spacing"), key="frets.spacing")
    nominal = [("octave", "twice nut to fret 12"), ("best", "least cents over all frets")]
    form.choice(
        "Nominal place",
        nominal,
        lambda j: j.frets.nominal,
        lambda j, v: string_entries.put_frets(j, nominal=v),
        key="frets.nominal",
    )
    form.tick(
        "Slanted on purpose",
        lambda j: j.frets.slanted,
        slanted_entries.put_slanted,
        says="Each outer string then has a scale of its own; else both have one, unless the readings show two.",
        key="frets.slanted",
    )


def seldom_rows(form: Form) -> None:
    """What most jobs leave as it is."""
    form.section("Seldom needed")
    count = len(string_entries.block(form.document.job).list) or 6
    sets = [("", "not told"), ("now", "the strings above"), *string_entries.sets_for(count), ("own", "others")]
    says = "Where it is told the pull of both is compared: a caution for light old tops."
    form.choice(
        "Replaces the set",
        sets,
        string_entries.replaced,
        string_entries.put_replaced,
        says=says,
        wide=True,
        key="strings.replaces",
    )
    ways = [("typed", "where it is, or typed"), (WORKED_OUT, "moved as the strings want")]
    form.choice("The nut", ways, string_entries.nut_moves, string_entries.put_nut_moves, key="strings.nut_compensation")
    form.length(
        "Nut set back by",
        string_entries.nut_moved,
        string_entries.put_nut_moved,
        optional=True,
        says="For all strings; minus brings it nearer to fret 1. Empty: worked out, or typed for each string.",
    )
    says = "Those that the compensation is worked out for: 1-12; or 1-5, 7: 2 (fret 7 twice). Empty: the first 12."
    form.text("Frets that count", string_entries.weighed, string_entries.put_weighed, says=says, key="strings.weights")
    form.length(
        "Finger behind the fret",
        lambda job: string_entries.block(job).press_behind,
        lambda job, value: string_entries.put(job, press_behind=value),
        says="From the fret’s top to where the finger presses; 0 for right over it.",
        key="strings.press_behind",
    )


def _frets(name: str) -> tuple[Get, Put]:
    def put(job: Job, value: Any) -> Job:
        return string_entries.put_frets(job, **{name: value})

    return (lambda job: getattr(job.frets, name)), put


def _at_side(said: str, which: str) -> Name:
    """A place with its side as the job's hand calls it."""
    return lambda job: f"{said}, {words.side(which, job.hand)}"
