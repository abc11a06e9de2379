"""A look put on the application: its palette, its type, and the style sheet made of both."""

from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication, QLayout

from app.desk.widgets.look import FAMILY, LABEL, TEXT, TITLE, VALUE, Look, Palette


def apply_look(look: Look) -> None:
    """Put a look on the whole application; one that it has already costs nothing."""
    app, sheet = QApplication.instance(), style_sheet(look)
    if isinstance(app, QApplication):
        app.setPalette(qt_palette(look.palette))
        if app.styleSheet() == sheet:
            return
        app.setStyleSheet("")  # one that takes another's place costs Qt three times what taking off and putting on does
        app.setStyleSheet(sheet)
        for window in app.topLevelWidgets():
            for layout in window.findChildren(QLayout):
                layout.invalidate()  # one within another is not told by itself of a new least height


def qt_palette(p: Palette) -> QPalette:
    """The palette as Qt's own roles, for what the style sheet does not reach."""
    role, made = QPalette.ColorRole, QPalette()
    for where, name in (
        (role.Window, p.card),
        (role.Base, p.card),
        (role.AlternateBase, p.row),
        (role.Button, p.card),
        (role.WindowText, p.ink),
        (role.Text, p.ink),
        (role.ButtonText, p.ink),
        (role.ToolTipBase, p.ink),
        (role.ToolTipText, p.card),
        (role.PlaceholderText, p.quiet),
        (role.Highlight, p.worked_out),
        (role.HighlightedText, p.card),
        (role.Link, p.worked_out),
        (role.Mid, p.field),
        (role.Light, p.row),
        (role.Dark, p.field),
    ):
        made.setColor(where, QColor(name))
    for where in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, where, QColor(p.field))
    return made


def style_sheet(look: Look) -> str:
    """The one style sheet of the application."""
    p = look.palette
    sizes = {"title": look.px(TITLE), "value": look.px(VALUE), "text": look.px(TEXT), "label": look.px(LABEL)}
    wide, line = round(140 * look.text_scale), round(22 * look.text_scale)
    tick = round(16 * look.text_scale)
    pt = {name: f"{size * 0.75:.2f}pt" for name, size in sizes.items()}
    return f"""
* {{ font-family: "{FAMILY}"; font-size: {pt["text"]}; color: {p.ink}; }}
QMainWindow, QDialog, QMessageBox, QWidget#card, QWidget#band {{ background: {p.card}; }}
QLabel[role="title"] {{ font-size: {pt["title"]}; font-weight: 600; }}
QLabel[role="heading"] {{ font-size: {pt["value"]}; font-weight: 600; }}
QLabel[role="label"], QLabel[role="hint"] {{ font-size: {pt["label"]}; color: {p.quiet}; }}
QLabel[role="strong"] {{ font-weight: 600; }}
QLabel[role="strong label"] {{ font-size: {pt["label"]}; font-weight: 600; }}
QLabel[role="quiet"] {{ color: {p.quiet}; }}
QLabel[role="wrong"] {{ font-size: {pt["label"]}; color: {p.look}; }}
QLabel[role="value"] {{ font-size: {pt["value"]}; font-weight: 600; }}
QLineEdit, QComboBox, QPlainTextEdit {{
  background: {p.card}; border: 1px solid {p.field}; border-radius: 4px; padding: 4px 8px; min-height: {line}px;
  selection-background-color: {p.worked_out}; selection-color: {p.card}; }}
QLineEdit, QPlainTextEdit {{ placeholder-text-color: {p.quiet}; }}
QLineEdit[role="cell"], QLineEdit[role="cell"]:focus {{ font-size: {pt["value"]}; font-weight: 600; min-height: 0;
  padding: 0 7px 0 3px; }}
QLineEdit[role="value"] {{ font-size: {pt["value"]}; font-weight: 600; }}
QLineEdit:focus, QComboBox:focus, QPlainTextEdit:focus {{
  border: 2px solid {p.worked_out}; padding: 3px 7px; }}
QComboBox[small="true"] {{ padding-right: 3px; }}
QComboBox[small="true"], QComboBox[small="true"] QLineEdit {{ font-size: {pt["label"]}; }}
QLineEdit[wrong="true"] {{ border: 2px solid {p.look}; padding: 3px 7px; }}
QLineEdit:disabled, QComboBox:disabled {{ color: {p.quiet}; border-color: {p.hair}; }}
QComboBox::drop-down {{ border: none; width: {round(8 + 12 * look.text_scale)}px; }}
QComboBox {{ combobox-popup: 0; }}
QComboBox QAbstractItemView {{ background: {p.card}; border: 1px solid {p.field}; outline: none;
  selection-background-color: {p.row}; selection-color: {p.ink}; padding: 4px; }}
QComboBox QAbstractItemView::item {{ min-height: {line + 6}px; padding: 0 4px; color: {p.ink}; }}
QComboBox QAbstractItemView::item:selected {{ background: {p.row}; color: {p.ink}; }}
QPushButton {{ background: {p.card}; border: 1px solid {p.field}; border-radius: 4px; padding: 5px 16px;
  min-height: {line}px; }}
QPushButton:hover {{ background: {p.row}; }}
QPushButton:focus {{ border: 2px solid {p.worked_out}; padding: 4px 15px; }}
QPushButton:disabled {{ color: {p.quiet}; border-color: {p.hair}; }}
QPushButton[role="main"] {{ background: {p.ink}; color: {p.card}; border-color: {p.ink}; font-weight: 600; }}
QPushButton[role="main"]:focus {{ border: 2px solid {p.worked_out}; padding: 4px 15px; }}
QPushButton[role="main"]:disabled {{ background: {p.hair}; border-color: {p.hair}; color: {p.quiet}; }}
QPushButton[role="plain"] {{ border: 2px solid transparent; padding: 3px 4px; color: {p.worked_out};
  text-align: left; }}
QPushButton[role="plain"]:disabled {{ color: {p.quiet}; }}
QPushButton[role="plain"]:hover, QPushButton[role="plain"]:checked, QPushButton[role="name"]:hover {{
  background: {p.row}; }}
QPushButton[role="plain"]:focus, QPushButton[role="name"]:focus {{ border: 2px solid {p.worked_out}; }}
QPushButton[role="name"] {{ border: 2px solid transparent; padding: 0 4px; min-height: 0; text-align: left;
  font-size: {pt["value"]}; font-weight: 600; }}
QComboBox[in_form="true"] {{ min-width: {wide}px; max-width: {wide}px; }}
QLineEdit[in_form="true"] {{ min-width: {wide}px; max-width: {wide}px; }}
QCheckBox, QRadioButton {{ spacing: {round(8 * look.text_scale)}px; padding: 3px 6px 3px 0; border-radius: 4px;
  border: 2px solid transparent; }}
QCheckBox::indicator, QRadioButton::indicator {{ width: {tick}px; height: {tick}px; background: {p.card};
  border: 1px solid {p.field}; border-radius: 4px; }}
QCheckBox::indicator:checked {{ background: {p.worked_out}; border-color: {p.worked_out}; }}
QRadioButton {{ padding-left: 4px; }}
QRadioButton::indicator, QRadioButton::indicator:checked {{ width: {tick + 2}px; height: {tick + 2}px; border: none;
  background: transparent; }}
QCheckBox:focus, QRadioButton:focus {{ border: 2px solid {p.worked_out}; }}
Ringed QCheckBox, Ringed QCheckBox:focus {{ border: none; padding: 5px 6px 5px 0; }}
Ringed QPushButton[role="plain"], Ringed QPushButton[role="plain"]:focus {{ border: none; padding: 5px 8px 5px 0;
  background: transparent; outline: none; }}
Ringed QPushButton[role="plain"]:hover {{ background: transparent; text-decoration: underline; }}
QTableView {{ background: transparent; border: none; outline: none; selection-background-color: transparent; }}
QHeaderView {{ background: {p.card}; border: none; }}
QHeaderView::section {{ background: {p.card}; border: none; color: {p.quiet};
  font-size: {pt["label"]}; padding: 0 8px 4px 8px; border-bottom: 1px solid {p.hair}; }}
StringTable QHeaderView::section {{ padding: 0 5px 4px 5px; }}
ReadingTable QHeaderView::section:first {{ padding: 0 8px 4px 12px; }}
ReadingTable QHeaderView::section:middle {{ padding: 0 8px 4px 4px; }}
QScrollArea, QScrollArea > QWidget > QWidget#inside {{ background: {p.card}; border: none; }}
QScrollArea[role="read"] {{ border: 2px solid transparent; }}
QScrollArea[role="read"]:focus {{ border: 2px solid {p.worked_out}; }}
QScrollBar:vertical {{ background: transparent; width: 10px; margin: 0; }}
QScrollBar:horizontal {{ background: transparent; height: 10px; margin: 0; }}
QScrollBar::handle {{ background: {p.field}; border-radius: 5px; min-height: 32px; min-width: 32px; }}
QScrollBar::handle:hover {{ background: {p.quiet}; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
QMenuBar {{ background: {p.card}; border: none; padding: 2px 16px; }}
QMenuBar::item {{ background: transparent; padding: 4px 8px; border-radius: 4px; color: {p.quiet}; }}
QMenuBar::item:selected, QMenuBar::item:pressed {{ background: {p.row}; color: {p.ink}; }}
QMenu {{ background: {p.card}; border: 1px solid {p.hair}; padding: 8px 0; }}
QMenu::item {{ padding: 6px 32px 6px {tick + 20}px; }}
QMenu::indicator, QMenu::right-arrow {{ width: {tick}px; height: {tick}px; left: 10px; border: 0 solid transparent; }}
QMenu::item:selected {{ background: {p.row}; }}
QMenu::item:disabled {{ color: {p.quiet}; }}
QMenu::separator {{ height: 1px; background: {p.hair}; margin: 8px 0; }}
QSlider {{ border: 2px solid transparent; border-radius: 4px; min-height: {tick + 8}px; }}
QSlider:focus {{ border-color: {p.worked_out}; }}
QSlider::groove:horizontal {{ height: 4px; background: {p.field}; border-radius: 2px; }}
QSlider::handle:horizontal {{ width: {tick}px; height: {tick}px; margin: -{tick // 2}px 0; background: {p.card};
  border: 2px solid {p.worked_out}; border-radius: {tick // 2 + 2}px; }}
QSlider::handle:horizontal:disabled {{ border-color: {p.field}; }}
QProgressBar {{ border: none; background: {p.hair}; border-radius: 3px; height: 6px; }}
QProgressBar::chunk {{ background: {p.worked_out}; border-radius: 3px; }}
QToolTip {{ background: {p.ink}; color: {p.card}; border: none; padding: 6px; }}
QFrame[role="hair"] {{ background: {p.hair}; border: none; }}
"""
