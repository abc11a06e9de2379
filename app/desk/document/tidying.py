"""Python's search for what holds itself in circles: while the hands rest, not between a key and its picture.

Left to itself it comes up every few edits, and once in a while goes through all that is loaded: a twelfth of the way to
the job on the plan, and the slowest twentieth of all edits. What the program is made of is put out of its sight.
"""

import gc

from PySide6.QtCore import QObject, QTimer, SignalInstance

REST = 700
"""How long nothing has been edited before it looks, ms; common practice, no source."""
MANY = 200_000
"""So many new objects, and it looks all the same: thirty edits or more."""

USUAL = gc.get_threshold()


def hold_off() -> None:
    """Do not look while the program starts."""
    gc.disable()


def as_usual() -> None:
    """Leave the search to Python again, as it was before the program started."""
    gc.unfreeze()
    gc.set_threshold(*USUAL)
    gc.enable()


def tidy_at_rest(changed: SignalInstance, owner: QObject) -> None:
    """From now on look whenever nothing has changed for a while."""
    gc.freeze()
    gc.set_threshold(MANY, 10, 10)
    gc.enable()
    rest = QTimer(owner)
    rest.setSingleShot(True)
    rest.setInterval(REST)
    rest.timeout.connect(gc.collect)
    changed.connect(rest.start)
