"""Dryness by weighing: when a block is dry, and how much water it still holds."""

import math

from advisor.calculations.valid_range import positive, within


def mass_loss_share_per_h(before_kg: float, after_kg: float, hours: float) -> float:
    """Return how fast a block loses mass.

    ``(m1 - m2) / (m2 h)``, over the later mass.

    Parameters
    ----------
    before_kg, after_kg : float
        Two weighings of the block [kg]
    hours : float
        Time in the oven between them [h]

    Returns
    -------
    float
        Share of its mass lost in an hour; negative if it gained [1/h]

    Raises
    ------
    ValueError
        If a mass is not above 0 and at most 10 000 kg or `hours` not above 0 and at most
        1000 h.

    Examples
    --------
    >>> round(mass_loss_share_per_h(18.05, 18.0, 4.0), 5)
    0.00069
    """
    positive("before_kg", before_kg, 1e4, "kg", "Was it given in grams?")
    positive("after_kg", after_kg, 1e4, "kg", "Was it given in grams?")
    positive("hours", hours, 1000.0, "h")
    return (before_kg - after_kg) / (after_kg * hours)


def is_dry(
    before_kg: float,
    after_kg: float,
    hours: float,
    highest_loss_share_per_h: float,
    scale_step_kg: float,
) -> bool:
    """Return whether two weighings show that a block is dry.

    The loss, with one step of the scale added to it, must stay below the limit: a coarse
    scale then asks for a longer wait and cannot pass a wet block.

    Parameters
    ----------
    before_kg, after_kg : float
        Two weighings of the block [kg]
    hours : float
        Time in the oven between them [h]
    highest_loss_share_per_h : float
        Share of its mass that a dry block may still lose in an hour [1/h]
    scale_step_kg : float
        Smallest step of the scale [kg]

    Returns
    -------
    bool
        True if it is dry [-]

    Raises
    ------
    ValueError
        If the limit is not above 0 and at most 0.1 1/h, `scale_step_kg` outside 0 to
        10 kg, or as for `mass_loss_share_per_h`.

    Notes
    -----
    At the temperature at which it will be dried, not in the room.  A block that gains
    mass was weighed hot and cold, or by a scale that drifts: it does not count as dry if
    the gain is more than one step.

    Examples
    --------
    >>> is_dry(18.02, 18.0, 4.0, 0.001, 0.005), is_dry(18.02, 18.0, 4.0, 0.001, 0.1)
    (True, False)
    """
    positive("highest_loss_share_per_h", highest_loss_share_per_h, 0.1, "1/h")
    within("scale_step_kg", scale_step_kg, 0.0, 10.0, "kg", "Was it given in grams?")
    loss = mass_loss_share_per_h(before_kg, after_kg, hours)
    step = scale_step_kg / (after_kg * hours)
    return loss >= -step * (1.0 + 1e-9) and loss + step <= highest_loss_share_per_h


def weighing_wait_h(
    mass_kg: float, highest_loss_share_per_h: float, scale_step_kg: float
) -> int:
    """Return how long to wait between two weighings for the scale to see the limit.

    The fewest whole hours in which a block at its limit loses two steps of the scale:
    with one step taken off by `is_dry` one step is left to read.

    Parameters
    ----------
    mass_kg : float
        Mass of the block [kg]
    highest_loss_share_per_h : float
        Share of its mass that a dry block may still lose in an hour [1/h]
    scale_step_kg : float
        Smallest step of the scale [kg]

    Returns
    -------
    int
        Wait, at least 1 [h]

    Raises
    ------
    ValueError
        If the mass is not above 0 and at most 10 000 kg, the limit not above 0 and at
        most 0.1 1/h or `scale_step_kg` outside 0 to 10 kg.

    Examples
    --------
    >>> weighing_wait_h(18.0, 0.001, 0.005), weighing_wait_h(18.0, 0.001, 0.1)
    (1, 12)
    """
    positive("mass_kg", mass_kg, 1e4, "kg", "Was it given in grams?")
    positive("highest_loss_share_per_h", highest_loss_share_per_h, 0.1, "1/h")
    within("scale_step_kg", scale_step_kg, 0.0, 10.0, "kg", "Was it given in grams?")
    steps = 2.0 * scale_step_kg / (highest_loss_share_per_h * mass_kg)
    return max(1, math.ceil(steps - 1e-9))


def scale_step_kg(mass_kg: float, highest_loss_share_per_h: float, hours: float) -> float:
    """Return the coarsest step of a scale that sees the limit within a wait.

    ``m h L / 2``: a block at its limit loses two steps, as in `weighing_wait_h`.

    Parameters
    ----------
    mass_kg : float
        Mass of the block [kg]
    highest_loss_share_per_h : float
        Share of its mass that a dry block may still lose in an hour [1/h]
    hours : float
        Time in the oven between two weighings [h]

    Returns
    -------
    float
        Smallest step of the scale [kg]

    Raises
    ------
    ValueError
        If the mass is not above 0 and at most 10 000 kg, the limit not above 0 and at
        most 0.1 1/h or `hours` not above 0 and at most 1000 h.

    Examples
    --------
    >>> round(scale_step_kg(18.0, 0.001, 12.0), 3)
    0.108
    """
    positive("mass_kg", mass_kg, 1e4, "kg", "Was it given in grams?")
    positive("highest_loss_share_per_h", highest_loss_share_per_h, 0.1, "1/h")
    positive("hours", hours, 1000.0, "h")
    return mass_kg * hours * highest_loss_share_per_h / 2.0


def accepted_loss_kg(
    mass_kg: float, hours: float, highest_loss_share_per_h: float, scale_step_kg: float
) -> float:
    """Return the largest loss between two weighings that `is_dry` accepts.

    ``m h L - s``: the limit L over the wait, less one step of the scale.

    Parameters
    ----------
    mass_kg : float
        Mass of the block at the later weighing [kg]
    hours : float
        Time in the oven between them [h]
    highest_loss_share_per_h : float
        Share of its mass that a dry block may still lose in an hour [1/h]
    scale_step_kg : float
        Smallest step of the scale [kg]

    Returns
    -------
    float
        Loss [kg]

    Raises
    ------
    ValueError
        If `hours` is shorter than `weighing_wait_h`, or as for it.

    Examples
    --------
    >>> round(accepted_loss_kg(18.0, 12.0, 0.001, 0.1), 3)
    0.116
    """
    least = weighing_wait_h(mass_kg, highest_loss_share_per_h, scale_step_kg)
    within("hours", hours, least, 1000.0, "h", "The scale is too coarse for less.")
    return mass_kg * hours * highest_loss_share_per_h - scale_step_kg
