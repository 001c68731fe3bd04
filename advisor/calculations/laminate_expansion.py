"""Expansion of a laminate from its plies, in plane and through the thickness."""

from dataclasses import dataclass

import numpy as np

from advisor.calculations.laminate_stiffness import (
    Matrix,
    Ply,
    check_plies,
    laminate_stiffness,
    ply_stiffness_pa,
    strain_turn,
)
from advisor.calculations.layup import is_symmetric
from advisor.calculations.valid_range import within


@dataclass(frozen=True)
class PlaneExpansion:
    """Expansion of a laminate in its plane.

    Attributes
    ----------
    along_per_k, across_per_k : float
        Expansion in the 0 and 90 degree directions [1/K]
    shear_per_k : float
        Change of the right angle between them; 0 for a balanced lay-up [1/K]
    """

    along_per_k: float
    across_per_k: float
    shear_per_k: float


@dataclass(frozen=True)
class FreeShape:
    """What an unloaded laminate does when its temperature changes.

    Attributes
    ----------
    strain : tuple of float
        Strains of the middle surface: x, y and engineering shear xy [-]
    curvature_per_m : tuple of float
        Curvatures x, y and twist xy; positive x bends the ends towards the tool [1/m]
    """

    strain: tuple[float, float, float]
    curvature_per_m: tuple[float, float, float]


def _ply_expansion(ply: Ply, angle_deg: float) -> Matrix:
    """Return the free expansion of a turned ply: x, y and engineering shear xy [1/K]."""
    own = np.array([ply.along_per_k, ply.across_per_k, 0.0])
    turned: Matrix = strain_turn(-angle_deg) @ own
    return turned


def _mean_expansion(ply: Ply, angles_deg: tuple[float, ...]) -> Matrix:
    """Return the expansion of a laminate that stays flat [1/K]."""
    stiffness, load = np.zeros((3, 3)), np.zeros(3)
    for angle_deg in angles_deg:
        turned = ply_stiffness_pa(ply, angle_deg)
        stiffness += turned
        load += turned @ _ply_expansion(ply, angle_deg)
    return np.asarray(np.linalg.solve(stiffness, load), dtype=np.float64)


def _check_flat(angles_deg: tuple[float, ...]) -> None:
    check_plies(angles_deg)
    if not is_symmetric(angles_deg):
        raise ValueError(
            f"angles_deg is {angles_deg}; an unsymmetric lay-up bends as it cools and has "
            "no expansion of its own. Use free_shape, or mirror the lay-up."
        )


def plane_expansion(ply: Ply, angles_deg: tuple[float, ...]) -> PlaneExpansion:
    """Return the expansion of a symmetric laminate in its plane.

    ``a = A^-1 sum Q a_ply h``: the strain at which the thermal loads of the plies balance
    [1]_.

    Parameters
    ----------
    ply : Ply
        Ply, the same throughout
    angles_deg : tuple of float
        Angle of each ply, from the tool up [degree]

    Returns
    -------
    PlaneExpansion
        Expansion in the axes of the laminate

    Raises
    ------
    ValueError
        If the lay-up is not symmetric, there are not 1 to 2000 plies or an angle is
        outside -360 to 360 degrees.

    Notes
    -----
    Elastic, constant expansions, no shrinkage by cure, away from free edges.  Errors of
    lay-up of 5 degrees move it by about 1e-6 1/K.

    Examples
    --------
    >>> ply = Ply(181e9, 10.3e9, 0.28, 7.17e9, 0.02e-6, 22.5e-6)
    >>> round(plane_expansion(ply, (0.0, 90.0, 90.0, 0.0)).along_per_k * 1e6, 3)
    1.524

    References
    ----------
    .. [1] Kaw, Mechanics of Composite Materials, chapter 4 (from memory).
    """
    _check_flat(angles_deg)
    along, across, shear = (float(term) for term in _mean_expansion(ply, angles_deg))
    return PlaneExpansion(along, across, shear)


def free_shape(
    ply: Ply, angles_deg: tuple[float, ...], ply_thickness_m: float, change_k: float
) -> FreeShape:
    """Return the strain and curvature that a laminate takes on when it cools or warms.

    ``[A B; B D] [e; k] = [N; M] dT`` with the thermal loads ``N = sum Q a h`` and
    ``M = sum Q a h z`` [1]_.

    Parameters
    ----------
    ply : Ply
        Ply, the same throughout
    angles_deg : tuple of float
        Angle of each ply, from the tool up [degree]
    ply_thickness_m : float
        Thickness of a cured ply [m]
    change_k : float
        Change of temperature; negative on cooling [K]

    Returns
    -------
    FreeShape
        Strains of the middle surface and curvatures

    Raises
    ------
    ValueError
        If `change_k` is outside -500 to 500 K, or as for `laminate_stiffness`.

    Notes
    -----
    Small deflections: a thin unsymmetric sheet that bends by more than its own thickness
    takes on one curvature, not two, and this overstates the bow.

    Examples
    --------
    >>> ply = Ply(181e9, 10.3e9, 0.28, 7.17e9, 0.02e-6, 22.5e-6)
    >>> round(free_shape(ply, (0.0, 90.0), 5e-3, -75.0).curvature_per_m[0], 4)
    -0.1276

    References
    ----------
    .. [1] Kaw, Mechanics of Composite Materials, chapter 4 (from memory).
    """
    within("change_k", change_k, -500.0, 500.0, "K")
    stiffness = laminate_stiffness(ply, angles_deg, ply_thickness_m)
    load = np.zeros(6)
    bottom_m = -len(angles_deg) * ply_thickness_m / 2.0
    for index, angle_deg in enumerate(angles_deg):
        middle_m = bottom_m + (index + 0.5) * ply_thickness_m
        push = ply_stiffness_pa(ply, angle_deg) @ _ply_expansion(ply, angle_deg)
        load[:3] += push * ply_thickness_m
        load[3:] += push * ply_thickness_m * middle_m
    x, y, xy, bend_x, bend_y, twist = (
        float(term) for term in np.linalg.solve(stiffness, load * change_k)
    )
    return FreeShape((x, y, xy), (bend_x, bend_y, twist))
