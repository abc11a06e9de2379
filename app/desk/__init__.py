"""The window, and the only place with Qt.

Qt's binding puts an import of its own in Python's place, for spellings of its names that nothing here uses; it then
reads the source of every module that is loaded, looking for its own name in it, which was a sixth of the way to the
job on the plan. The import that was there before is put back.
"""

import builtins

from PySide6 import QtCore as QtCore

builtins.__import__ = getattr(builtins, "__orig_import__", builtins.__import__)
