"""The new bridge as it comes to lie: where its sheet puts it, which hangs on the board alone. How surely it is known
where the bridge belongs does not part it from what is on the top already.
"""

from geometry.frame import Points
from geometry.job import Bridge
from geometry.neck.find_neck import NeckFrame
from geometry.neck.laid_sheet import Sheet, lay_sheet


def laid_by(bridge: Bridge | None, frame: NeckFrame) -> Sheet | None:
    """The sheet that the new bridge is laid by; None for one that is laid to the old footprint it is seated on."""
    return None if bridge is not None and bridge.seat == "old footprint" else lay_sheet(frame)


def laid(sheet: Sheet | None, places: Points) -> Points:
    """Places of the new bridge (rows, ...) where they come to lie in each row."""
    return places if sheet is None else sheet.carried(places[0])
