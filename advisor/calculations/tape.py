"""Tape wound on a mandrel: how hard it presses, how many layers that takes, how much."""

import math

from advisor.calculations.valid_range import positive, within


def tape_pressure_pa(
    stress_pa: float, thickness_m: float, layers: float, radius_m: float
) -> float:
    """Return the pressure of stretched tape on the round body it is wound on.

    ``p = n s h / r``: the balance of half a thin ring, as in ``s = p r / t``.

    Parameters
    ----------
    stress_pa : float
        Tension in the tape along its length, for its cross-section [Pa]
    thickness_m : float
        Thickness of one layer of tape [m]
    layers : float
        Layers of tape over one another at any place [-]
    radius_m : float
        Radius of the surface under the tape [m]

    Returns
    -------
    float
        Pressure [Pa]

    Raises
    ------
    ValueError
        If the tension is not above 0 and at most 1e9 Pa, the thickness not above 0 and at
        most 0.01 m, the layers not above 0 and at most 1000, the radius not above 0 and
        at most 10 m, or all layers together are more than a fifth as thick as the radius.

    Notes
    -----
    No friction between turns, no bending, wound square to the axis; the tension is that
    which is left when the laminate has given way.  A flat has no radius and gets nothing.

    Examples
    --------
    >>> round(tape_pressure_pa(20e6, 5e-5, 4, 0.02))
    200000

    References
    ----------
    Hoop stress of a thin ring, any textbook on the strength of materials; checked against
    a worked example, see the test.
    """
    _tape(stress_pa, thickness_m, radius_m)
    positive("layers", layers, 1000, "")
    within("layers * thickness_m", layers * thickness_m, 0.0, radius_m / 5, "m")
    return layers * stress_pa * thickness_m / radius_m


def tape_layers(
    pressure_pa: float, stress_pa: float, thickness_m: float, radius_m: float
) -> int:
    """Return the least whole number of layers that press at least so hard.

    ``n >= p r / (s h)``; see `tape_pressure_pa`.

    Parameters
    ----------
    pressure_pa : float
        Pressure wanted [Pa]
    stress_pa, thickness_m, radius_m : float
        As for `tape_pressure_pa`

    Returns
    -------
    int
        Layers, at least 1 [-]

    Raises
    ------
    ValueError
        If the pressure is not above 0 and at most 1e8 Pa, or as `tape_pressure_pa`.

    Examples
    --------
    >>> tape_layers(90e3, 20e6, 5e-5, 0.02)
    2
    """
    positive("pressure_pa", pressure_pa, 1e8, "Pa", "Was it given in bar?")
    _tape(stress_pa, thickness_m, radius_m)
    exact = pressure_pa * radius_m / (stress_pa * thickness_m)
    return max(1, math.ceil(exact - 1e-9))


def tape_length_m(area_m2: float, layers: float, width_m: float) -> float:
    """Return how much tape covers a surface so many layers thick: ``A n / w``.

    Parameters
    ----------
    area_m2 : float
        Surface covered [m2]
    layers : float
        Layers of tape over one another at any place [-]
    width_m : float
        Width of the tape [m]

    Returns
    -------
    float
        Length of tape [m]

    Raises
    ------
    ValueError
        If the area is not above 0 and at most 1e4 m2, the layers not above 0 and at most
        1000, or the width not above 0 and at most 1 m.

    Examples
    --------
    >>> tape_length_m(0.1, 4, 0.02)
    20.0

    References
    ----------
    Area; derived here.
    """
    positive("area_m2", area_m2, 1e4, "m2")
    positive("layers", layers, 1000, "")
    positive("width_m", width_m, 1.0, "m", "Was it given in millimetres?")
    return area_m2 * layers / width_m


def _tape(stress_pa: float, thickness_m: float, radius_m: float) -> None:
    positive("stress_pa", stress_pa, 1e9, "Pa", "Was it given in MPa?")
    positive("thickness_m", thickness_m, 0.01, "m", "Was it given in millimetres?")
    positive("radius_m", radius_m, 10.0, "m", "Was it given in millimetres?")
