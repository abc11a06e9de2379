"""A floating bridge under its strings: it stands along the saddle line, its crown's middle midway between the outer
strings, and its feet as far before and behind the crown as they are built.
"""

from geometry.bridge.seated_bridge import SeatedBridge
from geometry.job import Floating
from geometry.saddle.saddle_line import Slot


def stand(floating: Floating, crown: Slot) -> SeatedBridge:
    """The bridge in all rows, its `crown` where the saddle line asks for it. The crown's middle lies half its thickness
    behind its front edge.
    """
    middle = crown.middle + crown.tailward * (crown.thickness / 2)
    return SeatedBridge(front=middle - crown.tailward * floating.to_crown, tailward=crown.tailward, slot=crown)
