"""What strings ask of the saddle whatever is typed: the place that they get where nothing is."""

from msgspec.structs import replace

from geometry.job import Action, String, Strings
from geometry.strings.compensation import asked_of_saddle, compensate, strings_as_played
from geometry.strings.usual_sets import SETS
from tests.in_one import in_one
from tests.published.string_cases import equal_frets

STEEL = SETS["steel 12-54"].strings
UNKNOWN = replace(STEEL[2], diameter=None, core=None, kg_per_m=None)
MADE = {
    **{name: Strings(list=one.strings) for name, one in SETS.items()},
    "read heights": Strings(list=STEEL, action=Action(fret1=(0.5, 0.6), fret12=(2.0, 2.6))),
    "a nut worked out": Strings(list=STEEL, nut_compensation="worked out"),
    "a nut typed": Strings(list=STEEL, nut_compensation=(0.1, 0.2, 0.3, 0.4, 0.5, 0.6)),
    "a make unknown": Strings(list=(*STEEL[:2], UNKNOWN, *STEEL[3:])),
    "a drone": Strings(list=(replace(STEEL[0], fretted=False), *STEEL[1:])),
    "nothing known": Strings(list=tuple(String(name=str(at)) for at in range(1, 7))),
}


@in_one("name", MADE)
def test_what_is_typed_changes_nothing_of_what_is_asked(name: str) -> None:
    strings, count = MADE[name], len(MADE[name].list)
    places = equal_frets(645.0, count, 18)
    free = [one.saddle for one in compensate(strings_as_played(strings, "right", places))]
    for typed in (strings, replace(strings, compensation=tuple(float(at) for at in range(count)))):
        ready = strings_as_played(typed, "right", places)
        assert asked_of_saddle(ready).tolist() == free
    assert [one.saddle for one in compensate(ready)] != free
