"""A porous tool under vacuum: what leaks through it, and which bag that asks for."""

from dataclasses import dataclass
from typing import Literal

from advisor.calculations.vacuum import STANDARD_PA
from advisor.calculations.valid_range import positive, within

_HIGHEST_PA = 150_000.0


@dataclass(frozen=True)
class PermeableBlock:
    """A block through which air seeps from its open faces to the bagged face.

    Attributes
    ----------
    permeability_m2 : float
        Permeability to gas [m2]
    area_m2 : float
        Bagged area [m2]
    thickness_m : float
        Distance from the open face to the bagged one [m]

    Raises
    ------
    ValueError
        If the permeability is not above 0 and at most 1e-8 m2, the area not above 0 and at
        most 1000 m2 or the thickness not above 0 and at most 10 m.
    """

    permeability_m2: float
    area_m2: float
    thickness_m: float

    def __post_init__(self) -> None:
        """Refuse a block that cannot be."""
        positive("permeability_m2", self.permeability_m2, 1e-8, "m2", "Is it in darcy?")
        positive("area_m2", self.area_m2, 1e3, "m2", "Was it given in cm2?")
        positive("thickness_m", self.thickness_m, 10.0, "m", "Is it in millimetres?")


def _conductance(block: PermeableBlock, viscosity_pa_s: float) -> float:
    """Return ``k A / (2 mu L)`` [m3/(Pa s)]."""
    positive("viscosity_pa_s", viscosity_pa_s, 1e-3, "Pa s", "That of air is near 1.8e-5.")
    face = block.permeability_m2 * block.area_m2
    return face / (2.0 * viscosity_pa_s * block.thickness_m)


def _check_outside(outside_pa: float) -> None:
    positive("outside_pa", outside_pa, _HIGHEST_PA, "Pa", "Was it given in bar?")


def block_free_air_m3_per_s(
    block: PermeableBlock, outside_pa: float, bag_pa: float, viscosity_pa_s: float
) -> float:
    """Return the air that seeps through a porous block to its bagged face.

    ``Q = k A (p1^2 - p2^2) / (2 mu L p_std)``: Darcy's law for a gas, whose volume grows
    as its pressure falls.

    Parameters
    ----------
    block : PermeableBlock
        Block
    outside_pa : float
        Absolute pressure at the open face [Pa]
    bag_pa : float
        Absolute pressure under the bag [Pa]
    viscosity_pa_s : float
        Viscosity of air [Pa s]

    Returns
    -------
    float
        Flow as air of 101 325 Pa [m3/s]

    Raises
    ------
    ValueError
        If `outside_pa` is not above 0 and at most 150 kPa, `bag_pa` outside 0 to
        `outside_pa` or the viscosity not above 0 and at most 1 mPa s.

    Notes
    -----
    Laminar, steady, one way; no slip along the pore walls, which at low pressure lets
    through more.

    Examples
    --------
    >>> block = PermeableBlock(1e-14, 1.0, 0.15)
    >>> round(block_free_air_m3_per_s(block, 101325.0, 5e3, 1.82e-5) * 6e4, 1)
    11.1
    """
    _check_outside(outside_pa)
    within("bag_pa", bag_pa, 0.0, outside_pa, "Pa")
    squares = (outside_pa - bag_pa) * (outside_pa + bag_pa)
    return _conductance(block, viscosity_pa_s) * squares / STANDARD_PA


def pump_needed_m3_per_s(
    block: PermeableBlock, outside_pa: float, bag_pa: float, viscosity_pa_s: float
) -> float:
    """Return the speed of a pump that holds a pressure against a porous block.

    ``S = c (p1^2 - p2^2) / p2`` with ``c = k A / (2 mu L)``.

    Parameters
    ----------
    block : PermeableBlock
        Block
    outside_pa : float
        Absolute pressure at the open face [Pa]
    bag_pa : float
        Absolute pressure to hold under the bag [Pa]
    viscosity_pa_s : float
        Viscosity of air [Pa s]

    Returns
    -------
    float
        Speed as volume at the inlet of the pump, without any margin [m3/s]

    Raises
    ------
    ValueError
        If `bag_pa` is not above 0 and at most `outside_pa`, or as for
        `block_free_air_m3_per_s`.

    Examples
    --------
    >>> block = PermeableBlock(1e-15, 1.0, 0.15)
    >>> round(pump_needed_m3_per_s(block, 101325.0, 5e3, 1.82e-5) * 3600.0, 2)
    1.35
    """
    _check_outside(outside_pa)
    positive("bag_pa", bag_pa, outside_pa, "Pa")
    free_air = block_free_air_m3_per_s(block, outside_pa, bag_pa, viscosity_pa_s)
    return free_air * STANDARD_PA / bag_pa


def bag_for_block(
    block: PermeableBlock,
    outside_pa: float,
    pump_m3_per_s: float,
    viscosity_pa_s: float,
    highest_bag_pa: float,
    pump_margin: float,
) -> Literal["surface", "envelope"]:
    """Return whether a bag on the face will do, or the whole block must go into one.

    Surface, if the pump is at least `pump_margin` times as fast as the speed that holds
    `highest_bag_pa`.

    Parameters
    ----------
    block : PermeableBlock
        Block, with the permeability as it will be used: bare or sealed
    outside_pa : float
        Absolute pressure at the open face [Pa]
    pump_m3_per_s : float
        Speed of the pump, as volume at its inlet [m3/s]
    viscosity_pa_s : float
        Viscosity of air [Pa s]
    highest_bag_pa : float
        Highest absolute pressure under the bag that the cure allows [Pa]
    pump_margin : float
        Speed of the pump over the speed needed, at least [-]

    Returns
    -------
    {"surface", "envelope"}
        Bag that holds

    Raises
    ------
    ValueError
        If `pump_m3_per_s` is not above 0 and at most 10 m3/s, `pump_margin` outside 1 to
        100, or as for `pump_needed_m3_per_s`.

    Notes
    -----
    Only as good as the permeability, which spans decades within one material: the
    leak test on the tool decides.  An envelope also takes the net bending off the block.

    Examples
    --------
    >>> block = PermeableBlock(1e-14, 1.0, 0.15)
    >>> bag_for_block(block, 101325.0, 10.0 / 3600.0, 1.82e-5, 5e3, 3.0)
    'envelope'
    """
    positive("pump_m3_per_s", pump_m3_per_s, 10.0, "m3/s", "Was it given in m3/h?")
    within("pump_margin", pump_margin, 1.0, 100.0, "")
    needed = pump_needed_m3_per_s(block, outside_pa, highest_bag_pa, viscosity_pa_s)
    return "surface" if pump_m3_per_s >= pump_margin * needed else "envelope"
