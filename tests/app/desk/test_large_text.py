"""Large text, by choice or by the system: the desk gives way and nothing is cut."""

import pytest
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication

from app.desk.bench import TEXT_SIZES
from app.desk.desk import Desk


@pytest.mark.parametrize("size", TEXT_SIZES)
def test_the_desk_fits_a_screen_of_1280_by_800_at_every_size(desk: Desk, size: float) -> None:
    desk.frame.resize(1280, 800)
    desk.bench.set_text(size)
    for name in ("Measure", "Strings", "Bridge", "Sheets"):
        desk.open_card(name)
        QApplication.processEvents()
        needs = desk.frame.minimumSizeHint()
        assert needs.width() <= 1280
        assert needs.height() <= 800


def test_the_figures_along_the_bottom_grow_with_the_text_while_running(desk: Desk) -> None:
    desk.bench.set_text(1.0)
    QApplication.processEvents()
    low = desk.strip.cells[0].height()
    desk.bench.set_text(1.5)
    QApplication.processEvents()
    assert desk.strip.cells[0].height() == pytest.approx(1.5 * low, abs=1)


def test_a_larger_system_font_makes_all_text_larger(desk: Desk, qapp: QApplication) -> None:
    desk.bench.follow_system()
    before, scales = qapp.font(), {}
    try:
        for points in (9, 11, 14, 18):
            font = QFont("Source Sans Pro")
            font.setPointSizeF(points)
            qapp.setFont(font)
            scales[points] = desk.look.text_scale
    finally:
        qapp.setFont(before)
    assert scales[9] == scales[11]
    assert scales[11] < scales[14] < scales[18]
    assert scales[18] == pytest.approx(18 / 11, abs=0.05)
