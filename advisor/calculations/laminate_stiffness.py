"""Stiffness of a laminate from its plies: classical laminate theory."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from advisor.calculations.valid_range import positive, within

Matrix = NDArray[np.float64]

_SOFTEST_PA = 1e4
_STIFFEST_PA = 2e12
_MOST_PLIES = 2000


@dataclass(frozen=True)
class Ply:
    """A ply of straight fibres, or a woven one with its warp for the fibre direction.

    Attributes
    ----------
    along_pa, across_pa : float
        Young's moduli along and across the fibres, E1 and E2 [Pa]
    poisson_ratio : float
        Major Poisson's ratio nu12, contraction across under load along [-]
    shear_pa : float
        Shear modulus in the plane, G12 [Pa]
    along_per_k, across_per_k : float
        Expansion along and across the fibres [1/K]

    Raises
    ------
    ValueError
        If a modulus is outside 10 kPa to 2 TPa, an expansion outside -5e-5 to
        5e-4 1/K, or Poisson's ratio outside -1 to ``sqrt(E1 / E2)``, where the ply would
        be no stable solid.
    """

    along_pa: float
    across_pa: float
    poisson_ratio: float
    shear_pa: float
    along_per_k: float
    across_per_k: float

    def __post_init__(self) -> None:
        """Refuse a ply that cannot be."""
        for name in ("along_pa", "across_pa", "shear_pa"):
            value = getattr(self, name)
            within(name, value, _SOFTEST_PA, _STIFFEST_PA, "Pa", "Was it given in GPa?")
        most = 0.999 * math.sqrt(self.along_pa / self.across_pa)
        within("poisson_ratio", self.poisson_ratio, -min(most, 0.999), most, "")
        for name in ("along_per_k", "across_per_k"):
            within(name, getattr(self, name), -5e-5, 5e-4, "1/K", "Was it in um/(m K)?")


@dataclass(frozen=True)
class Moduli:
    """Stiffness of a symmetric laminate in its plane, as of one plate.

    Attributes
    ----------
    along_pa, across_pa : float
        Young's moduli in the 0 and 90 degree directions, Ex and Ey [Pa]
    poisson_ratio : float
        Contraction in the 90 direction under load in the 0 direction, nuxy [-]
    shear_pa : float
        Shear modulus in the plane, Gxy [Pa]
    """

    along_pa: float
    across_pa: float
    poisson_ratio: float
    shear_pa: float


def check_plies(angles_deg: tuple[float, ...]) -> None:
    """Refuse a lay-up without plies, with too many or with an angle beyond 360 degrees.

    Parameters
    ----------
    angles_deg : tuple of float
        Angle of each ply [degree]

    Raises
    ------
    ValueError
        If there are not 1 to 2000 plies, or an angle is outside -360 to 360 degrees.

    Examples
    --------
    >>> check_plies((0.0, 90.0))
    """
    within("number of plies", len(angles_deg), 1, _MOST_PLIES, "")
    for angle_deg in angles_deg:
        within("angle", angle_deg, -360.0, 360.0, "degrees")


def ply_stiffness_pa(ply: Ply, angle_deg: float) -> Matrix:
    """Return the stiffness of a ply in plane stress, in the axes of the laminate.

    ``Q = T^-1 Q12 T^-T``, the reduced stiffness turned by the angle of the ply, for
    stresses and strains in the order x, y, xy with engineering shear [1]_.

    Parameters
    ----------
    ply : Ply
        Ply
    angle_deg : float
        Angle of its fibres from the x axis [degree]

    Returns
    -------
    numpy.ndarray
        Three by three, symmetric [Pa]

    Raises
    ------
    ValueError
        If the angle is outside -360 to 360 degrees.

    Examples
    --------
    >>> ply = Ply(181e9, 10.3e9, 0.28, 7.17e9, 0.02e-6, 22.5e-6)
    >>> round(float(ply_stiffness_pa(ply, 90.0)[0, 0]) / 1e9, 2)
    10.35

    References
    ----------
    .. [1] Kaw, Mechanics of Composite Materials, chapter 2 (from memory).
    """
    within("angle_deg", angle_deg, -360.0, 360.0, "degrees")
    minor = ply.poisson_ratio * ply.across_pa / ply.along_pa
    shrink = 1.0 - ply.poisson_ratio * minor
    q12 = ply.poisson_ratio * ply.across_pa / shrink
    own = np.array(
        [
            [ply.along_pa / shrink, q12, 0.0],
            [q12, ply.across_pa / shrink, 0.0],
            [0.0, 0.0, ply.shear_pa],
        ]
    )
    turn = strain_turn(angle_deg)
    turned: Matrix = turn.T @ own @ turn
    return turned


def strain_turn(angle_deg: float) -> Matrix:
    """Return the matrix that turns strains of the laminate's axes into those of a ply.

    Parameters
    ----------
    angle_deg : float
        Angle of the ply's fibres from the x axis [degree]

    Returns
    -------
    numpy.ndarray
        Three by three, for x, y and engineering shear xy [-]

    Examples
    --------
    >>> import numpy as np
    >>> bool(np.allclose(strain_turn(90.0) @ [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]))
    True
    """
    c, s = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    return np.array(
        [
            [c * c, s * s, c * s],
            [s * s, c * c, -c * s],
            [-2.0 * c * s, 2.0 * c * s, c * c - s * s],
        ]
    )


def laminate_stiffness(
    ply: Ply, angles_deg: tuple[float, ...], ply_thickness_m: float
) -> Matrix:
    """Return the stiffness of a laminate: the A, B and D matrices in one.

    ``A = sum Q h``, ``B = sum Q h z`` and ``D = sum Q (h z^2 + h^3 / 12)`` over the plies,
    z the height of a ply's middle over the middle of the laminate [1]_.

    Parameters
    ----------
    ply : Ply
        Ply, the same throughout
    angles_deg : tuple of float
        Angle of each ply, from the tool up [degree]
    ply_thickness_m : float
        Thickness of a cured ply [m]

    Returns
    -------
    numpy.ndarray
        Six by six: A [N/m] upper left, B [N] beside and below it, D [N m] lower right

    Raises
    ------
    ValueError
        If there are not 1 to 2000 plies, an angle is outside -360 to 360 degrees or the
        thickness not above 0 and at most 0.05 m.

    Notes
    -----
    Thin plates, plies bonded without slip; no shear through the thickness.

    Examples
    --------
    >>> ply = Ply(181e9, 10.3e9, 0.28, 7.17e9, 0.02e-6, 22.5e-6)
    >>> a_n_m = laminate_stiffness(ply, (0.0, 90.0, 90.0, 0.0), 0.25e-3)[0, 0]
    >>> round(float(a_n_m) / 1e6, 1)
    96.1

    References
    ----------
    .. [1] Kaw, Mechanics of Composite Materials, chapter 4 (from memory).
    """
    check_plies(angles_deg)
    positive("ply_thickness_m", ply_thickness_m, 0.05, "m", "Was it given in millimetres?")
    total = np.zeros((6, 6))
    bottom_m = -len(angles_deg) * ply_thickness_m / 2.0
    for index, angle_deg in enumerate(angles_deg):
        stiffness = ply_stiffness_pa(ply, angle_deg) * ply_thickness_m
        middle_m = bottom_m + (index + 0.5) * ply_thickness_m
        total[:3, :3] += stiffness
        total[:3, 3:] += stiffness * middle_m
        total[3:, :3] += stiffness * middle_m
        total[3:, 3:] += stiffness * (middle_m**2 + ply_thickness_m**2 / 12.0)
    return total


def laminate_moduli(ply: Ply, angles_deg: tuple[float, ...]) -> Moduli:
    """Return the moduli of a laminate in its plane, held flat.

    ``Ex = 1 / a11``, ``Ey = 1 / a22``, ``nuxy = -a12 / a11`` and ``Gxy = 1 / a66`` with
    ``a`` the inverse of the mean stiffness A / h.

    Parameters
    ----------
    ply : Ply
        Ply, the same throughout
    angles_deg : tuple of float
        Angle of each ply, in any order [degree]

    Returns
    -------
    Moduli
        Moduli in the axes of the laminate

    Raises
    ------
    ValueError
        If there are not 1 to 2000 plies or an angle is outside -360 to 360 degrees.

    Notes
    -----
    Exact for a symmetric lay-up; an unsymmetric one also bends and is softer.

    Examples
    --------
    >>> ply = Ply(181e9, 10.3e9, 0.28, 7.17e9, 0.02e-6, 22.5e-6)
    >>> moduli = laminate_moduli(ply, (0.0, 45.0, -45.0, 90.0))
    >>> round(moduli.along_pa / 1e9, 2), round(moduli.poisson_ratio, 3)
    (69.68, 0.296)
    """
    check_plies(angles_deg)
    mean = sum(
        (ply_stiffness_pa(ply, angle_deg) for angle_deg in angles_deg), np.zeros((3, 3))
    )
    soft = np.linalg.inv(mean / len(angles_deg))
    return Moduli(
        along_pa=float(1.0 / soft[0, 0]),
        across_pa=float(1.0 / soft[1, 1]),
        poisson_ratio=float(-soft[0, 1] / soft[0, 0]),
        shear_pa=float(1.0 / soft[2, 2]),
    )
