"""The strip: where room is short the ± of a figure is the last to go."""

from app.desk.frame.strip import shorter_and_shorter


def test_parts_are_left_off_from_the_end() -> None:
    said = shorter_and_shorter("±1.8 mm, bass longer, the slot leans the wrong way")
    assert said == ["±1.8 mm, bass longer, the slot leans the wrong way", "±1.8 mm, bass longer", "±1.8 mm"]


def test_cents_go_before_millimetres() -> None:
    assert shorter_and_shorter("±2.3 mm · 5.9 cents · not settled")[1:] == ["±2.3 mm · 5.9 cents", "±2.3 mm"]
