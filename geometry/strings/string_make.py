"""What a string is made of, turned into the three numbers that matter: mass, stretch and the radius that bends.

What the person knows is taken as it is; what is not known is estimated from the material, with a stated spread, and
named. **Stretch** is the force E·A (N) that would double the string's length, or where it was measured directly the
stretch ratio R = dln f/dln L of the open string. Spreads are one standard deviation, relative.
"""

import math
from functools import lru_cache

import msgspec

from geometry.job.stringing import String
from geometry.spacing import CENTS
from geometry.units import mm

E_STEEL = 203.4e9
"""Pa, music wire under 0.032 in: Shigley, Mechanical Engineering Design, 9th ed., table 10-5; 1.5 % (200-206 GPa)."""
STEEL = 7850.0
"""kg/m³, from memory; 0.4 %."""
BRONZE = 8700.0
"""kg/m³, windings of 80/20 or phosphor bronze, 8670 and 8860; from memory. 4 % allows for other metals."""
COPPER = 8960.0
"""kg/m³, the silvered copper of windings on nylon, gut and silk; from memory."""
CLOSE_WOUND = math.pi**2 / 16
"""Round wire laid turn to turn fills this part of D² - d² (derived: (pi/4)² of the annulus; turns touching)."""
NYLON, GUT, FLUOROCARBON = 970.0, 1300.0, 1780.0
"""kg/m³ over the diameter on the packet. Nylon derived: mass and radius of six plain strings in Anderson & Beausoleil
2024 give 937-1015. Gut and fluorocarbon from memory: 1780 is that of the bulk material, and beside the tensions that
packets print it makes fluorocarbon pull 4 to 15 % too hard (from memory)."""
DENSITY_SD = {"nylon": 0.05, "gut": 0.08, "fluorocarbon": 0.1}
"""Of a plain string's mass: nylon as the six strings above, gut and fluorocarbon as what is from memory is worth."""
E_GUT = 6e9
"""Pa, from memory; 25 % for all of a set, and as much from string to string as other soft ones."""
E_GUT_SD = 0.25
R_NYLON, R_NYLON_WOUND = 25.7, 24.5
"""Derived: means of R measured on six plain and six wound nylon strings (Anderson & Beausoleil 2024), sd 2.4 and 2.2.
Nearly the same at every pitch and gauge, so R is taken and not E."""
R_FLUOROCARBON = 25.0
"""Derived: the paper's mean set-back over radius, 4.4 ± 0.2, holds for its carbon sets too."""
R_SD, R_SET_SD = 0.12, 0.2
"""How far R of one string of soft material lies from its set's (derived: 10 % within the two sets measured, rounded
up), and how far a whole set's lies from these means: two sets of one make show next to nothing of it, and their authors
left a third, light set out of their means (estimate)."""
SILK = 0.15
"""mm that the silk adds to the core's diameter under the winding; from memory. Its mass, up to 5 %, is left out, and
the mass's spread of 12 % carries it."""
ENDS_SD, ENDS_SD_SOFT = math.sqrt(1 / 6), 0.15
"""How many of a string's ends are clamped, one standard deviation about the one of `stretch.CLAMPED`. Derived: each end
lies anywhere between hinged and clamped, alike likely, so that their sum is triangular from 0 to 2 (JCGM 100:2008,
4.3.9); nothing measured on steel narrows that. Soft strings were heard on a real instrument: both ends hinged or both
clamped move fret 12 by 3.3 to 5.7 cents there, and what was measured lies within 0.6 of what one clamped end gives."""
WINDING_BENDS_SD = 0.25
"""A wound steel string bends as its core does, for the core sets the stiffness and the winding adds mass (M. Zollner,
Physics of the Electric Guitar, section 1.2). Turns that are free to slide make the bending radius up to 3 % larger
(derived: a close coil's stiffness); turns pressed together more, and no measurement that could be used tells how much:
a quarter (estimate)."""


class Make(msgspec.Struct, frozen=True, kw_only=True):
    """One string's mass (kg/m), stretch and bending radius `rho` (mm), with relative spreads.

    Exactly one of `stretch_n` (E·A, N) and `ratio` (R) is given; `stretch_sd` is each string's own spread of it, and
    `set_sd` what all strings of one material and build share. `ends_sd` is in clamped ends. `core` is the load-bearing
    diameter (mm), with the spread that acts on stretch (twice) and on bending (once) together. `estimated` names what
    was not known.
    """

    mass: float
    mass_sd: float
    rho: float
    rho_sd: float
    stretch_n: float | None = None
    ratio: float | None = None
    stretch_sd: float = 0.0
    set_sd: float = 0.0
    ends_sd: float = ENDS_SD
    core: float | None = None
    core_sd: float = 0.0
    steel_core: bool = False
    estimated: tuple[str, ...] = ()

    def kappa(self, tension: float) -> float:
        """E A / T, which is 2 R + 1 (Anderson & Beausoleil 2024)."""
        return 2 * self.ratio + 1 if self.ratio is not None else (self.stretch_n or 0.0) / tension


@lru_cache(maxsize=512)
def make(string: String) -> Make | None:
    """The make of a string, or None where neither diameter nor mass is known."""
    diameter = _diameter(string)
    if diameter is None:
        return None
    made = _wound(string, diameter) if string.build == "wound" else _plain(string, diameter)
    named = [*made.estimated]
    if string.kg_per_m is not None:
        made = msgspec.structs.replace(made, mass=string.kg_per_m, mass_sd=min(0.01, made.mass_sd))
        named = [name for name in named if name != "mass"]
    if string.stretch_ratio is not None:
        # a core that is not known still bends: its spread stays on the radius
        bend = math.hypot(made.rho_sd, made.core_sd)
        made = msgspec.structs.replace(made, ratio=string.stretch_ratio, stretch_n=None, stretch_sd=0.02, set_sd=0.0)
        made = msgspec.structs.replace(made, rho_sd=bend, core_sd=0.0)
        named = [name for name in named if name not in ("stretch ratio", "core")]
    if string.diameter is None:
        named.append("diameter")
        made = _unmeasured(made)
    return msgspec.structs.replace(made, estimated=tuple(named))


def _unmeasured(made: Make) -> Make:
    """A make whose diameter was reckoned from its mass: 10 % of it may be wrong, a fifth of the section."""
    stretch = 0.2 if made.ratio is None else 0.0
    return msgspec.structs.replace(
        made, rho_sd=math.hypot(made.rho_sd, 0.1), stretch_sd=math.hypot(made.stretch_sd, stretch)
    )


@lru_cache(maxsize=512)
def of_usual_make(string: String) -> Make | None:
    """The make such a string has as a rule, by its material and its diameter alone; None where that is not known."""
    diameter = _diameter(string)
    if diameter is None:
        return None
    bare = msgspec.structs.replace(string, core=None)
    return _wound(bare, diameter) if string.build == "wound" else _plain(bare, diameter)


def stretch_ratio(let_out: float, length: float, cents: float) -> float:
    """R from a retuning: a string `length` mm long, drawn `let_out` mm farther over the nut, rose by `cents`.

    R = dln f / dln L (Anderson & Beausoleil 2024, section II.E).
    """
    return cents / CENTS * length / let_out


def _diameter(string: String) -> float | None:
    """The outer diameter in mm: as given, or for a plain string from its mass."""
    if string.diameter is not None:
        return mm(string.diameter)
    if string.kg_per_m is None or string.build == "wound":
        return None
    return 1000 * math.sqrt(4 * string.kg_per_m / (math.pi * _density(string)))


def _density(string: String) -> float:
    return {"nylon": NYLON, "gut": GUT, "fluorocarbon": FLUOROCARBON}.get(string.material, STEEL)


def _area(diameter: float) -> float:
    """Area of a round section: mm in, m² out."""
    return math.pi / 4 * (diameter / 1000) ** 2


def _plain(string: String, diameter: float) -> Make:
    area = _area(diameter)
    mass, rho = _density(string) * area, diameter / 2
    match string.material:
        case "steel" | "silk and steel":
            # the spread of the mass is the density's; a gauge holds to within 0.01 mm
            return Make(
                mass=mass,
                mass_sd=0.005,
                rho=rho,
                rho_sd=0.02,
                stretch_n=E_STEEL * area,
                stretch_sd=0.015,
                core=diameter,
                steel_core=True,
            )
        case "gut":
            return Make(
                mass=mass,
                mass_sd=DENSITY_SD["gut"],
                rho=rho,
                rho_sd=0.1,
                stretch_n=E_GUT * area,
                stretch_sd=R_SD,
                set_sd=E_GUT_SD,
                ends_sd=ENDS_SD_SOFT,
                estimated=("mass", "stretch ratio"),
            )
        case "nylon" | "fluorocarbon":
            return Make(
                mass=mass,
                mass_sd=DENSITY_SD[string.material],
                rho=rho,
                rho_sd=0.03,
                ratio=R_NYLON if string.material == "nylon" else R_FLUOROCARBON,
                stretch_sd=R_SD,
                set_sd=R_SET_SD,
                ends_sd=ENDS_SD_SOFT,
                estimated=("mass", "stretch ratio"),
            )


def _wound(string: String, diameter: float) -> Make:
    core, given = usual_core(string, diameter), string.core is not None
    estimated = ("mass", "stretch ratio") if given else ("core", "mass", "stretch ratio")
    if string.material in ("steel", "silk and steel"):
        winding, spread, under = (BRONZE, 0.05, core) if string.material == "steel" else (COPPER, 0.12, core + SILK)
        return Make(
            mass=STEEL * _area(core) + _winding(winding, min(under, diameter), diameter),
            mass_sd=spread,
            rho=core / 2,
            rho_sd=WINDING_BENDS_SD,
            stretch_n=E_STEEL * _area(core),
            # no measured R of a wound steel string could be found to check this against: wrong for all of them alike
            set_sd=0.1,
            core=core,
            core_sd=0.03 if given else 0.08 if string.material == "steel" else 0.2,
            steel_core=True,
            estimated=estimated,
        )
    mass = _density(string) * _area(core) + _winding(COPPER, core, diameter)
    return Make(
        mass=mass,
        mass_sd=0.06,
        rho=diameter / 2,
        rho_sd=0.05,
        ratio=R_NYLON_WOUND if string.material == "nylon" else R_FLUOROCARBON,
        stretch_sd=R_SD,
        set_sd=R_SET_SD,
        ends_sd=ENDS_SD_SOFT,
        core=core,
        estimated=estimated,
    )


def usual_core(string: String, diameter: float) -> float:
    """The core (mm) as given, or the usual one for a wound string of that outer diameter (mm).

    Steel: 0.18 mm + 0.206 D (from memory; 0.012 in under 0.024 in, 0.018 in under 0.053 in). Silk and steel: 0.20 mm +
    0.08 D (from memory). Nylon and the like: 0.485 mm, at most 0.66 D (derived: it reproduces the mass of three wound
    nylon strings in Anderson & Beausoleil 2024 to 3 %).
    """
    if string.core is not None:
        return mm(string.core)
    if string.material == "steel":
        return min(0.18 + 0.206 * diameter, 0.8 * diameter)
    if string.material == "silk and steel":
        return min(0.2 + 0.08 * diameter, 0.6 * diameter)
    return min(0.485, 0.66 * diameter)


def _winding(density: float, core: float, diameter: float) -> float:
    """The winding's mass (kg/m); mm in."""
    return density * CLOSE_WOUND * (diameter**2 - core**2) * 1e-6
