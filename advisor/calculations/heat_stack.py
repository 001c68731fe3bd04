"""Layers of a cure stack, from the bag down to the oven shelf, cut into cells."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from advisor.calculations.valid_range import positive, whole, within

FloatArray = NDArray[np.float64]

# Share of the mean cell by which the cells at the faces of a layer are thinner.
_GRADING = 0.5
# A cell is about a third of the depth that heat reaches in this time.
_FASTEST_CHANGE_S = 60.0
_MOST_CELLS = 31


@dataclass(frozen=True)
class Layer:
    """One layer of the stack, such as the breather, the laminate or the tool.

    Attributes
    ----------
    name : str
        What the layer is; each name stands once in a stack [-]
    thickness_m : float
        Thickness [m]
    conductivity_w_per_m_k : float
        Thermal conductivity through the thickness [W/(m K)]
    density_kg_per_m3 : float
        Density [kg/m3]
    heat_capacity_j_per_kg_k : float
        Specific heat capacity [J/(kg K)]
    resistance_below_m2_k_per_w : float
        Thermal resistance of the contact with the next layer [m2 K/W]
    cells : int or None
        Number of cells to cut the layer into; None leaves it to `cell_count` [-]

    Raises
    ------
    ValueError
        If the thickness is not above 0 and at most 2 m, the conductivity not above 0 and
        at most 2000 W/(m K), the density not above 0 and at most 25 000 kg/m3, the heat
        capacity not above 0 and at most 5000 J/(kg K), the resistance outside 0 to
        10 m2 K/W, or `cells` not a whole number from 1.

    Notes
    -----
    Properties do not change with temperature; take those at the middle of the cure.
    """

    name: str
    thickness_m: float
    conductivity_w_per_m_k: float
    density_kg_per_m3: float
    heat_capacity_j_per_kg_k: float
    resistance_below_m2_k_per_w: float = 0.0
    cells: int | None = None

    def __post_init__(self) -> None:
        """Refuse what no layer of a cure stack has."""
        positive(
            f"{self.name}: thickness_m",
            self.thickness_m,
            2.0,
            "m",
            "Was it given in millimetres?",
        )
        conductivity = self.conductivity_w_per_m_k
        positive(f"{self.name}: conductivity_w_per_m_k", conductivity, 2000.0, "W/(m K)")
        hint = "Was it given in g/cm3 or kJ/(kg K)?"
        density, heat_capacity = self.density_kg_per_m3, self.heat_capacity_j_per_kg_k
        within(f"{self.name}: density_kg_per_m3", density, 5.0, 25_000.0, "kg/m3", hint)
        within(
            f"{self.name}: heat_capacity_j_per_kg_k",
            heat_capacity,
            50.0,
            5000.0,
            "J/(kg K)",
            hint,
        )
        within(
            f"{self.name}: resistance_below_m2_k_per_w",
            self.resistance_below_m2_k_per_w,
            0.0,
            10.0,
            "m2 K/W",
        )
        if self.cells is not None:
            whole(f"{self.name}: cells", self.cells, 1)

    @property
    def diffusivity_m2_per_s(self) -> float:
        """Return conductivity over density and heat capacity [m2/s]."""
        volumetric = self.density_kg_per_m3 * self.heat_capacity_j_per_kg_k
        return self.conductivity_w_per_m_k / volumetric

    @property
    def cell_count(self) -> int:
        """Return `cells`, or an odd number that shows changes within a minute [-]."""
        if self.cells is not None:
            return self.cells
        reach_m = math.sqrt(self.diffusivity_m2_per_s * _FASTEST_CHANGE_S)
        return min(_MOST_CELLS, math.ceil(3.0 * self.thickness_m / reach_m) | 1)


@dataclass(frozen=True)
class Stack:
    """Layers one on another, with oven air on both sides.

    Attributes
    ----------
    layers : tuple of Layer
        Layers from the bag down [-]
    film_top_w_per_m2_k : float
        Coefficient of heat transfer from the air to the first layer, radiation
        included [W/(m2 K)]
    film_bottom_w_per_m2_k : float
        The same to the last layer; 0 where it is insulated [W/(m2 K)]

    Raises
    ------
    ValueError
        If there is no layer, a name stands twice, a coefficient is outside 0 to
        100 000 W/(m2 K), or both are 0.

    Examples
    --------
    >>> block = Layer("block", 0.15, 0.12, 500.0, 1000.0)
    >>> Stack((block,), 20.0, 20.0).resistance_to_m2_k_per_w("block")
    0.05

    Notes
    -----
    Heat flows through the thickness only, so edges, corners and ribs heat faster.
    """

    layers: tuple[Layer, ...]
    film_top_w_per_m2_k: float
    film_bottom_w_per_m2_k: float

    def __post_init__(self) -> None:
        """Refuse a stack that no heat can enter, or whose layers cannot be told apart."""
        if not self.layers:
            raise ValueError("layers is empty; give at least one layer.")
        names = [layer.name for layer in self.layers]
        if len(set(names)) < len(names):
            raise ValueError(f"layers are named {', '.join(names)}; name each one once.")
        for side in ("film_top_w_per_m2_k", "film_bottom_w_per_m2_k"):
            within(side, getattr(self, side), 0.0, 1e5, "W/(m2 K)")
        if self.film_top_w_per_m2_k + self.film_bottom_w_per_m2_k <= 0.0:
            raise ValueError("both films are 0 W/(m2 K); no heat can reach the stack.")

    def place_of(self, name: str) -> int:
        """Return where the layer stands, counted from 0 at the top [-].

        Raises
        ------
        ValueError
            If the stack has no such layer.
        """
        names = [layer.name for layer in self.layers]
        if name not in names:
            raise ValueError(f"layer {name!r} is not in the stack of {', '.join(names)}.")
        return names.index(name)

    def resistance_to_m2_k_per_w(self, name: str) -> float:
        """Return the thermal resistance between the air above and a layer's top [m2 K/W].

        ``1/h + sum (L / k + R)``; infinite under an insulated top.
        """
        if self.film_top_w_per_m2_k <= 0.0:
            return math.inf
        return 1.0 / self.film_top_w_per_m2_k + sum(
            layer.thickness_m / layer.conductivity_w_per_m_k
            + layer.resistance_below_m2_k_per_w
            for layer in self.layers[: self.place_of(name)]
        )


@dataclass(frozen=True)
class Cells:
    """A stack cut into cells: a chain of heat capacities and conductances.

    Attributes
    ----------
    widths_m : array
        Thickness of each cell, from the top [m]
    capacities_j_per_m2_k : array
        Heat capacity of each cell [J/(m2 K)]
    halves_m2_k_per_w : array
        Thermal resistance of half of each cell [m2 K/W]
    links_w_per_m2_k : array
        Conductance from the air to the first cell, between cells, and from the last cell
        to the air: one more than there are cells [W/(m2 K)]
    starts : tuple of int
        First cell of each layer, and the number of cells [-]
    """

    widths_m: FloatArray
    capacities_j_per_m2_k: FloatArray
    halves_m2_k_per_w: FloatArray
    links_w_per_m2_k: FloatArray
    starts: tuple[int, ...]


def cells_of(stack: Stack) -> Cells:
    """Return the stack cut into cells, thinner towards the faces of each layer.

    Faces within a layer of n cells stand at ``L (s - g sin(2 pi s) / (2 pi))`` with
    ``s = i / n`` and ``g = 0.5``; a link is the inverse of the two half cells' resistance
    and of the contact or film between them.

    Parameters
    ----------
    stack : Stack
        Layers and films [-]

    Returns
    -------
    Cells
        Chain of capacities and conductances [-]

    Notes
    -----
    Temperatures stand at the middle of cells and what leaves a cell enters the next, so
    heat is conserved exactly; the error falls with the square of the number of cells.

    Examples
    --------
    >>> sheet = Layer("sheet", 0.01, 200.0, 2700.0, 900.0, cells=2)
    >>> links = cells_of(Stack((sheet,), 20.0, 0.0)).links_w_per_m2_k
    >>> [round(float(link), 3) for link in links]
    [19.995, 40000.0, 0.0]
    """
    widths, capacities, halves, gaps, starts = [], [], [], [], [0]
    for layer in stack.layers:
        share = np.linspace(0.0, 1.0, layer.cell_count + 1)
        if layer.cell_count > 2:
            share = share - _GRADING * np.sin(2.0 * np.pi * share) / (2.0 * np.pi)
        width = layer.thickness_m * np.diff(share)
        widths.append(width)
        capacities.append(width * layer.density_kg_per_m3 * layer.heat_capacity_j_per_kg_k)
        halves.append(width / (2.0 * layer.conductivity_w_per_m_k))
        gaps.append(np.zeros(layer.cell_count))
        gaps[-1][-1] = layer.resistance_below_m2_k_per_w
        starts.append(starts[-1] + layer.cell_count)
    half = np.concatenate(halves)
    links = np.empty(half.size + 1)
    links[1:-1] = 1.0 / (half[:-1] + half[1:] + np.concatenate(gaps)[:-1])
    # h / (1 + h R) is the conductance of film and half cell, and 0 where h is 0.
    top, bottom = stack.film_top_w_per_m2_k, stack.film_bottom_w_per_m2_k
    links[0] = top / (1.0 + top * half[0])
    links[-1] = bottom / (1.0 + bottom * half[-1])
    return Cells(
        np.concatenate(widths), np.concatenate(capacities), half, links, tuple(starts)
    )
