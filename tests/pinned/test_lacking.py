"""What the templates draw, or say that they lack, where a block of the job or a part of the readings is missing; and
what the move does to the old work, line by line.
"""

from typing import Any

import pytest

from geometry.old_work import what_it_does
from tests.export.golden_drawings import RECORD
from tests.pinned import drawn, jobs, kept, told
from tests.pinned.changes import GONE
from tests.pinned.test_changes import NEAR

Changes = tuple[tuple[jobs.Path, Any], ...]
WITHOUT: dict[str, Changes] = {
    "strings": ((("strings",), GONE),),
    "saddle's spread": ((("strings", "saddle"), GONE),),
    "bridge": ((("bridge",), GONE),),
    "old work": ((("old",), GONE),),
    "pins": ((("bridge", "pins"), GONE),),
    "belly": ((("bridge", "outline"), "straight"),),
    "wings": ((("bridge", "outline"), "stepped wings"),),
    "taper": ((("bridge", "outline"), "tapered wings"),),
    "window": ((("sheets", "window"), True),),
    "end": ((("board", "end"), "corners"),),
    "inch": ((("unit",), "in"),),
    "hand": ((("hand",), "right"),),
    "twelve frets": ((("frets", "count"), 12), (("hardware", "markers"), GONE)),
    "outline": ((("old", "outline"), ["old.1", "old.2", "old.3"]),),
}


SOME = {
    "placement": ("strings", "bridge", "window", "end", "inch", "hand"),
    "headstock": ("strings", "inch", "hand"),
    "side-markers": ("twelve frets", "inch", "hand"),
    "face-markers": ("twelve frets", "inch"),
    "before-and-after": ("bridge", "inch"),
    "job-sheet": ("bridge", "inch"),
}
"""Templates that few of these touch, and by which."""
OFTEN = ("bridge", "clearing", "plate", "nut-slots", "stock")
LACKING = [
    *((template, lacking) for template in OFTEN for lacking in WITHOUT),
    *((template, lacking) for template, some in SOME.items() for lacking in some),
]


@pytest.mark.parametrize(("template", "lacking"), LACKING)
def test_a_template_without(template: str, lacking: str) -> None:
    job = jobs.made(jobs.change(jobs.plain(jobs.FULL), *WITHOUT[lacking]))
    layout = jobs.laid_out(jobs.FULL, job)
    found = drawn.template_of(drawn.ALL[template], job, layout)
    assert kept.differences_of(f"lacking/{template}", lacking, found, NEAR) == []


@pytest.mark.parametrize("template", [*OFTEN, "placement", "full-length"])
@pytest.mark.parametrize("points", [("end.",), ("nut.",), ("fret12.", "seam.")])
def test_a_template_where_points_are_not_read(points: tuple[str, ...], template: str) -> None:
    readings = jobs.plain("leaning-neck")["readings"]
    struck: Changes = tuple(
        (("readings", at, "struck"), True)
        for at, reading in enumerate(readings)
        if any(name.startswith(points) for name in (*reading.get("of", ()), *reading.get("from", ())))
    )
    job = jobs.made(jobs.change(jobs.plain("leaning-neck"), *struck, (("sheets", "stock"), [300, 200])))
    found = drawn.template_of(drawn.ALL[template], job, jobs.laid_out("leaning-neck", job))
    assert kept.differences_of(f"lacking/{template}", f"{', '.join(points)} struck out", found, NEAR) == []


OLD: dict[str, Changes] = {
    "as it is": (),
    "toward the nut": ((("bridge", "moved"), {"along": -6.0, "across": -4.0, "turn": -3.0}),),
    "toward the tail": ((("bridge", "moved"), {"along": 7.0, "across": 5.0, "turn": 4.0}),),
    "too wide for a plug": ((("old", "holes", "hole.1", "diameter"), 30),),
    "a hole of no depth to speak of": ((("old", "holes", "hole.1", "depth"), 1.0),),
    "metal within reach": ((("old", "metal", "metal.1", "keep_out"), 30.0),),
    "pins far behind": ((("bridge", "pins", "behind_slot"), 14.0),),
    "pins wide": ((("bridge", "pins", "diameter"), 9.0),),
    "braces wide": ((("old", "braces", "1", "width"), 40), (("old", "braces", "2", "width"), 40)),
    "an old slot": ((("old", "slot"), {"of": ["pin.1", "pin.6"], "width": 3}),),
    "short": ((("bridge", "length"), 100.0), (("saddle", "slot_length"), 66.0), (("bridge", "belly_depth"), 4.0)),
    "long": ((("bridge", "length"), 190.0), (("bridge", "width"), 50.0)),
    "inch": ((("unit",), "in"),),
    "right": ((("hand",), "right"),),
}


@pytest.mark.parametrize("change", OLD)
@pytest.mark.parametrize("name", ["bolted-left", "small-askew"])
def test_what_the_move_does_to_the_old_work(name: str, change: str) -> None:
    if name == "small-askew" and any(path[0] == "old" for path, _ in OLD[change]):
        return
    job = jobs.made(jobs.change(jobs.plain(name), *OLD[change]))
    lines = what_it_does.told(job, jobs.laid_out(name, job))
    found = {f"{at} {line.part}": line for at, line in enumerate(lines)}
    assert kept.differences_of(f"old work/{name}", change, told.lines_of(found), 1e-5) == []


@pytest.mark.skipif(RECORD, reason="recording")
def test_a_word_that_is_not_written_any_more_is_seen() -> None:
    job = jobs.made(jobs.change(jobs.plain(jobs.FULL), *WITHOUT["pins"]))
    found = drawn.template_of(drawn.ALL["bridge"], job, jobs.laid_out(jobs.FULL, job))
    word = next(line for line in found if line.startswith("word"))
    less = {line: what for line, what in found.items() if line != word}
    assert len(kept.differences_of("lacking/bridge", "pins", less, NEAR)) == 1
