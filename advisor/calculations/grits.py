"""Sandpaper: grain, the roughness it leaves and the grits to go through."""

from dataclasses import dataclass

from advisor.calculations.valid_range import positive, within

# Mean grain of the FEPA P grits [um].  P12 to P120 and P2500 as printed; P150 to P2000
# from memory.
_GRAIN_UM = {
    12: 1815.0,
    16: 1324.0,
    20: 1000.0,
    24: 764.0,
    30: 642.0,
    36: 538.0,
    40: 425.0,
    50: 336.0,
    60: 269.0,
    80: 201.0,
    100: 162.0,
    120: 125.0,
    150: 100.0,
    180: 82.0,
    220: 68.0,
    240: 58.5,
    280: 52.2,
    320: 46.2,
    360: 40.5,
    400: 35.0,
    500: 30.2,
    600: 25.8,
    800: 21.8,
    1000: 18.3,
    1200: 15.3,
    1500: 12.6,
    2000: 10.3,
    2500: 8.4,
}
# Roughness over grain of a table of belt-ground metal plate: lowest and highest.
_ROUGHNESS_SHARE = (0.0054, 0.0160)


@dataclass(frozen=True)
class Band:
    """Range in which a rough estimate lies.

    Attributes
    ----------
    low_m, high_m : float
        Ends of the range [m]
    """

    low_m: float
    high_m: float


def grain_size_m(grit: int) -> float:
    """Return the mean grain of a FEPA P grit.

    Parameters
    ----------
    grit : int
        Number after the P [-]

    Returns
    -------
    float
        Mean grain [m]

    Raises
    ------
    ValueError
        If the grit is not one of the table.

    Examples
    --------
    >>> round(grain_size_m(80) * 1e6)
    201
    """
    if grit not in _GRAIN_UM:
        grits = ", ".join(str(known) for known in _GRAIN_UM)
        raise ValueError(f"grit is {grit}; it must be one of {grits}.")
    return _GRAIN_UM[grit] * 1e-6


def sanded_roughness(grit: int, surface_factor: float = 1.0) -> Band:
    """Return the roughness Ra that a grit leaves.

    ``Ra = 0.0054 to 0.0160 grain``, the spread of one trade table of belt-ground plate.

    Parameters
    ----------
    grit : int
        Number of the FEPA P grit, 60 or finer [-]
    surface_factor : float
        1 for hard, dense faces; common practice 2 to 3 for soft or porous ones [-]

    Returns
    -------
    Band
        Roughness Ra

    Raises
    ------
    ValueError
        If the grit is not one of the table or coarser than 60, or the factor outside 1 to
        10.

    Notes
    -----
    Good to a factor of two.  The high end suits P80 to P400; finer grits come nearer to
    the low one.  The table's grits may not be FEPA P, which differ little down to P240.

    Examples
    --------
    >>> round(sanded_roughness(240).high_m * 1e6, 2)
    0.94
    """
    grain_m = grain_size_m(grit)
    within("grit", grit, 60, 2500, "")
    within("surface_factor", surface_factor, 1.0, 10.0, "")
    low, high = _ROUGHNESS_SHARE
    return Band(low * grain_m * surface_factor, high * grain_m * surface_factor)


def grit_for_roughness(target_ra_m: float, surface_factor: float = 1.0) -> int:
    """Return the coarsest grit that leaves no more than a roughness.

    Parameters
    ----------
    target_ra_m : float
        Roughness Ra wanted [m]
    surface_factor : float
        1 for hard, dense faces; common practice 2 to 3 for soft or porous ones [-]

    Returns
    -------
    int
        Number of the FEPA P grit [-]

    Raises
    ------
    ValueError
        If the target is not above 0 and at most 100 um, the factor outside 1 to 10, or no
        grit down to P2500 is fine enough.

    Notes
    -----
    By the high end of `sanded_roughness`: it errs towards a finer grit than is needed.

    Examples
    --------
    >>> grit_for_roughness(1.6e-6)
    150
    """
    positive("target_ra_m", target_ra_m, 1e-4, "m", "Was it given in micrometres?")
    for grit in _GRAIN_UM:
        if grit >= 60 and sanded_roughness(grit, surface_factor).high_m <= target_ra_m:
            return grit
    raise ValueError(
        f"target_ra_m is {target_ra_m} m; sanding down to P2500 does not reach it. Polish."
    )


def grit_sequence(
    first_grit: int, last_grit: int, largest_step: float = 1.75
) -> tuple[int, ...]:
    """Return the grits to sand through, from the first to the last.

    Each is the finest whose grain is no less than that of the one before over
    `largest_step`, so that it can take out the scratches before it.

    Parameters
    ----------
    first_grit : int
        Number of the FEPA P grit that the face starts from [-]
    last_grit : int
        Number of the grit to end with [-]
    largest_step : float
        Largest ratio of grains from one grit to the next; common practice 1.5 to 2 [-]

    Returns
    -------
    tuple of int
        Numbers of the grits, the first and the last among them [-]

    Raises
    ------
    ValueError
        If a grit is not one of the table, the last is coarser than the first, or the step
        is outside 1.3 to 3, or so small that the table has no grit in reach.

    Examples
    --------
    >>> grit_sequence(80, 240)
    (80, 120, 180, 240)
    """
    grain_size_m(first_grit)
    grain_size_m(last_grit)
    within("last_grit", last_grit, first_grit, 2500, "")
    within("largest_step", largest_step, 1.3, 3.0, "")
    grits = [first_grit]
    while grits[-1] < last_grit:
        finest_um = _GRAIN_UM[grits[-1]] / largest_step
        reach = [g for g in _GRAIN_UM if grits[-1] < g <= last_grit]
        within_reach = [g for g in reach if _GRAIN_UM[g] >= finest_um]
        if not within_reach:
            raise ValueError(
                f"largest_step is {largest_step}; no grit follows P{grits[-1]} within it."
            )
        grits.append(within_reach[-1])
    return tuple(grits)
