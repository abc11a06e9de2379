"""While something moves, a label stays where it stands by what it names; another in sight makes all look anew."""

import msgspec
import pytest

from export.drawing.flatten import Box
from export.drawing.marks import Mark, Text
from export.plan import PlanView, compose, compose_with
from export.plan.label_obstacles import occupied
from export.plan.labels import Grounds, Label, kept_labels, labels_by_key, place_labels
from geometry.job import Job
from geometry.layout import Layout

VIEW = PlanView(scale=0.5)
TWO = (Label(at=(100.0, 0.0), words="seam", of="seam"), Label(at=(200.0, 0.0), words="saddle", of="saddle"))


def ats(marks: list[Mark]) -> dict[str, tuple[float, float]]:
    return {mark.of: mark.shape.at for mark in marks if isinstance(mark.shape, Text)}


@pytest.mark.parametrize("view", [VIEW, PlanView(scale=0.5, turn=1), PlanView(scale=0.5, inside=True)])
def test_a_label_goes_with_what_it_names(view: PlanView) -> None:
    labels = labels_by_key(TWO)
    marks, stands = place_labels(labels, view, Grounds(occupied(view, [], [])))
    moved = {key: msgspec.structs.replace(label, at=(label.at[0] + 3.0, -2.0)) for key, label in labels.items()}
    after = ats(kept_labels(moved, view, stands))
    for of, (x, y) in ats(marks).items():
        assert after[of] == pytest.approx((x + 3.0, y - 2.0))


def test_a_label_that_stays_asks_nobody_for_room() -> None:
    labels = labels_by_key(TWO)
    _, stands = place_labels(labels, VIEW, Grounds(occupied(VIEW, [], [])))
    onto = {key: msgspec.structs.replace(label, at=(100.0, 0.0)) for key, label in labels.items()}
    assert len(ats(kept_labels(onto, VIEW, stands))) == 2
    assert stands != place_labels(onto, VIEW, Grounds(occupied(VIEW, [], [])))[1]


def test_a_label_without_room_stays_away() -> None:
    everywhere = occupied(VIEW, [[(30.0, y, 0.0), (180.0, y, 0.0)] for y in range(-60, 60)], [])
    marks, stands = place_labels(labels_by_key(TWO[:1]), VIEW, Grounds(everywhere))
    assert marks == []
    assert stands == {("seam", 0): None}
    assert kept_labels(labels_by_key(TWO[:1]), VIEW, stands) == []


def test_short_words_stay_short() -> None:
    said = "saddle, 2.6 mm farther at bass"
    label = Label(at=(100.0, 0.0), words=said, of="saddle", short="saddle", leader=False)
    narrow = occupied(VIEW, [[(x, -80.0, 0.0), (x, 80.0, 0.0)] for x in (70.0, 130.0)], [])
    marks, stands = place_labels(labels_by_key([label]), VIEW, Grounds(narrow))
    assert [mark.shape.text for mark in marks if isinstance(mark.shape, Text)] == ["saddle"]
    assert kept_labels(labels_by_key([label]), VIEW, stands) == marks


def test_labels_of_one_thing_keep_apart() -> None:
    both = [Label(at=(x, 0.0), words="treble", of="side") for x in (0.0, 300.0)]
    assert list(labels_by_key(both)) == [("side", 0), ("side", 1)]


def test_the_plan_with_the_same_labels_keeps_their_stands(job: Job, layout: Layout) -> None:
    drawing, stands = compose_with(job, layout, VIEW)
    again, kept = compose_with(job, layout, VIEW, stands)
    assert kept is stands
    assert again == drawing == compose(job, layout, VIEW)


def test_the_plan_with_more_labels_looks_anew(job: Job, layout: Layout) -> None:
    fewer = msgspec.structs.replace(VIEW, overlays=VIEW.overlays - {"seam"})
    _, stands = compose_with(job, layout, fewer)
    drawing, found = compose_with(job, layout, VIEW, stands)
    assert found.keys() > stands.keys()
    assert drawing == compose(job, layout, VIEW)


def test_labels_that_are_left_stay_when_others_go(job: Job, layout: Layout) -> None:
    drawing, stands = compose_with(job, layout, VIEW)
    fewer = msgspec.structs.replace(VIEW, overlays=VIEW.overlays - {"seam"})
    left, kept = compose_with(job, layout, fewer, stands)
    assert kept is stands
    assert {*left.marks} == {mark for mark in drawing.marks if mark.of != "seam"}


def test_a_label_out_of_sight_makes_nobody_look_anew(job: Job, layout: Layout) -> None:
    near = msgspec.structs.replace(VIEW, window=Box(-40.0, -60.0, 300.0, 60.0))  # the seam's word stands at the tail
    _, stands = compose_with(job, layout, msgspec.structs.replace(near, overlays=VIEW.overlays - {"seam"}))
    _, kept = compose_with(job, layout, near, stands)
    assert kept is stands
