"""Where a file's zero can be set on the work: at what the template is laid against, not far off it; and every hole it
drills is listed with its drill."""

from pathlib import Path as File

import msgspec
import pytest

from export import write_all
from export.hole_table import Bored
from export.machine.machine_file import MachineSettings
from export.records import Stamp
from export.templates import TEMPLATES, figure_of
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export import readers
from tests.export.templates.glued.test_working_drawings import dxf_datum

AT = {
    ("redrilled-left", "headstock"): "nut",
    ("redrilled-left", "headstock-back"): "nut",
    ("floating-five", "tailpiece"): "crown line on the neck centre line",
    ("slanted-separate", "saddle-bases-back"): "hole of string 1",
}
DRILLED = (
    *AT,
    ("redrilled-left", "post-jig"),
    ("redrilled-left", "side-markers"),
    ("slotted-neck-screw", "face-markers"),
    ("slotted-neck-screw", "headstock-sides"),
    ("slanted-separate", "saddle-bases"),
    ("five-pairs", "tie-block"),
)


def written(name: str, template: str, stamp: Stamp, folder: File, machine: MachineSettings | None = None) -> File:
    job = sample(name)
    asked = msgspec.structs.replace(stamp, templates=(template,))
    (file,) = write_all(job, work_out(job), asked, folder, ("dxf",), machine=machine)
    return file


@pytest.mark.parametrize(("name", "template"), AT)
def test_its_own_datum_lies_on_the_template(name: str, template: str, stamp: Stamp, tmp_path: File) -> None:
    file = written(name, template, stamp, tmp_path)
    (note,) = [text for text in readers.dxf_texts(file) if text.startswith("Units mm. Datum: ")]
    assert note.startswith(f"Units mm. Datum: {AT[name, template]}, X ")
    (outline,) = [item.points for item in readers.dxf_items(file) if item.where == "CUT_OUTSIDE"]
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    x, y = dxf_datum(file)
    assert min(xs) < x < max(xs)
    assert min(ys) < y < max(ys)


@pytest.mark.parametrize(
    ("name", "template", "says"),
    [
        ("leaning-neck", "bridge", "As seen from outside: do not mirror it."),
        ("five-pairs", "tie-block", "As seen from behind: do not mirror it."),
        ("redrilled-left", "headstock", "As seen from the face: do not mirror it."),
        ("leaning-neck", "plate", "Mirrored already: seen from inside. Do not mirror it again."),
        ("floating-five", "crown", "Do not mirror it."),
        ("five-pairs", "nut-slots", "Do not mirror it."),
        ("redrilled-left", "post-jig", "Do not mirror it."),
    ],
)
def test_the_file_says_which_face_it_shows(name: str, template: str, says: str, stamp: Stamp, tmp_path: File) -> None:
    """As the drawing and its datum have it; what is drawn from several sides names none."""
    texts = readers.dxf_texts(written(name, template, stamp, tmp_path))
    assert [text for text in texts if "mirror it" in text] == [says]


@pytest.mark.parametrize(("name", "template"), AT)
def test_another_datum_that_is_asked_for_is_taken(name: str, template: str, stamp: Stamp, tmp_path: File) -> None:
    file = written(name, template, stamp, tmp_path, MachineSettings(datum="lower left"))
    assert any(text.startswith("Units mm. Datum: lower left corner, X ") for text in readers.dxf_texts(file))


def holes(name: str, template: str, stamp: Stamp) -> tuple[Bored, ...]:
    job = sample(name)
    return figure_of(TEMPLATES[template], job, work_out(job), stamp).bored


@pytest.mark.parametrize(("name", "template"), DRILLED)
def test_each_hole_is_listed_with_its_drill(name: str, template: str, stamp: Stamp) -> None:
    listed = holes(name, template, stamp)
    assert listed
    assert all(one.drill is not None for one in listed)


def test_only_what_goes_through_the_headstock_is_told_so(stamp: Stamp) -> None:
    """A plate's screw is no through hole, and a bushing's hole ends where it is told; both out of the sample's file."""
    said = {one.name: one.depth for one in holes("redrilled-left", "headstock-back", stamp)}
    assert said["plate screw"] == "as its screw"
    assert said["post"] == "through; bushing 8.70 wide, 6.00 mm deep"


def test_the_back_of_a_headstock_says_from_where_it_is_seen(stamp: Stamp, tmp_path: File) -> None:
    assert "Mirrored already: seen from the back. Do not mirror it again." in readers.dxf_texts(
        written("redrilled-left", "headstock-back", stamp, tmp_path)
    )
