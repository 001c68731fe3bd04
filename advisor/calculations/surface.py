"""Filling and coating: filler that sinks, coats against what sanding takes."""

import math

from advisor.calculations.grits import Band
from advisor.calculations.valid_range import positive, within


def filler_sink(depth_m: float, linear_shrinkage: float) -> Band:
    """Return how far the filler in a pore sinks below the face as it cures.

    ``s = e z`` where the filler shrinks freely, ``3 e z`` where it is bonded to the walls
    and the whole loss of volume shows on top.

    Parameters
    ----------
    depth_m : float
        Depth of the pore or hollow that is filled [m]
    linear_shrinkage : float
        Linear shrinkage of the filler on curing [-]

    Returns
    -------
    Band
        Sink at the middle of the filled pore

    Raises
    ------
    ValueError
        If the depth is not above 0 and at most 100 mm or the shrinkage outside 0 to 0.1.

    Notes
    -----
    An order of magnitude.  Solvent that leaves later adds to it.

    Examples
    --------
    >>> sink = filler_sink(1e-3, 0.01)
    >>> round(sink.low_m * 1e6), round(sink.high_m * 1e6)
    (10, 30)
    """
    positive("depth_m", depth_m, 0.1, "m", "Was it given in millimetres?")
    within("linear_shrinkage", linear_shrinkage, 0.0, 0.1, "", "Was it given in per cent?")
    return Band(linear_shrinkage * depth_m, 3.0 * linear_shrinkage * depth_m)


def fills_needed(depth_m: float, linear_shrinkage: float, allowed_sink_m: float) -> int:
    """Return how often a pore is filled before it sinks no further than allowed.

    ``z (3 e)^n <= allowed``: each fill closes the sink that the one before has left.

    Parameters
    ----------
    depth_m : float
        Depth of the pore or hollow [m]
    linear_shrinkage : float
        Linear shrinkage of the filler on curing [-]
    allowed_sink_m : float
        Sink that the finish allows [m]

    Returns
    -------
    int
        Number of fills, 1 or more [-]

    Raises
    ------
    ValueError
        If the allowed sink is not above 0 and at most 10 mm, or as for `filler_sink`.

    Notes
    -----
    By the high end of `filler_sink`.  Holes with no way out for the air need a fill more.

    Examples
    --------
    >>> fills_needed(1e-3, 0.01, 5e-6)
    2
    """
    positive("allowed_sink_m", allowed_sink_m, 0.01, "m", "Was it given in micrometres?")
    fills = 1
    sink_m = filler_sink(depth_m, linear_shrinkage).high_m
    while sink_m > allowed_sink_m:
        fills += 1
        sink_m = filler_sink(sink_m, linear_shrinkage).high_m
    return fills


def coats_needed(build_m: float, sanding_loss_m: float, left_m: float) -> int:
    """Return the number of coats that leave enough after sanding.

    ``ceil((loss + left) / build)``.

    Parameters
    ----------
    build_m : float
        Dry thickness of one coat, the low end of its range [m]
    sanding_loss_m : float
        Deepest that sanding takes, over all grits [m]
    left_m : float
        Thickness to be left; common practice 0.3 mm of a filler skim on a soft block [m]

    Returns
    -------
    int
        Number of coats [-]

    Raises
    ------
    ValueError
        If the build is not above 0 and at most 50 mm, the loss is outside 0 to 50 mm or
        what is left not above 0 and at most 50 mm.

    Examples
    --------
    >>> coats_needed(0.5e-3, 0.4e-3, 0.3e-3)
    2
    """
    hint = "Was it given in millimetres?"
    positive("build_m", build_m, 0.05, "m", hint)
    within("sanding_loss_m", sanding_loss_m, 0.0, 0.05, "m", hint)
    positive("left_m", left_m, 0.05, "m", hint)
    return math.ceil((sanding_loss_m + left_m) / build_m - 1e-9)
