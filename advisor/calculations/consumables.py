"""Bag film, sealant tape, breather and release film for one cure."""

from dataclasses import dataclass

from advisor.calculations.valid_range import positive, whole, within

_LONGEST_M = 30.0
_LARGEST_M2 = 2000.0


@dataclass(frozen=True)
class BagMaterials:
    """What one vacuum bag uses up.

    Attributes
    ----------
    bag_area_m2 : float
        Bag film [m2]
    tape_length_m : float
        Sealant tape [m]
    breather_area_m2 : float
        Breather cloth [m2]
    release_area_m2 : float
        Release film or peel ply over the laminate, of each that is used [m2]
    """

    bag_area_m2: float
    tape_length_m: float
    breather_area_m2: float
    release_area_m2: float


def _check_box(length_m: float, width_m: float, height_m: float, margin_m: float) -> None:
    hint = "Was it given in millimetres?"
    positive("length_m", length_m, _LONGEST_M, "m", hint)
    positive("width_m", width_m, _LONGEST_M, "m", hint)
    within("height_m", height_m, 0.0, _LONGEST_M, "m", hint)
    within("margin_m", margin_m, 0.0, 2.0, "m", hint)


def _check_pleat_share(pleat_share: float) -> None:
    within("pleat_share", pleat_share, 0.0, 2.0, "", "Was it given in per cent?")


def surface_bag_area_m2(
    length_m: float,
    width_m: float,
    height_m: float,
    margin_m: float,
    pleat_share: float = 0.25,
) -> float:
    """Return the film of a bag that is sealed down on the tool or the table.

    ``(L + 2 H + 2 m) (W + 2 H + 2 m) (1 + p)``.

    Parameters
    ----------
    length_m, width_m : float
        Plan size of what lies under the bag [m]
    height_m : float
        Its height, or its depth if hollow [m]
    margin_m : float
        Film beside it on each side, out to the tape [m]
    pleat_share : float
        Film in pleats over the film that covers; common practice 0.2 to 0.4 [-]

    Returns
    -------
    float
        Area of bag film [m2]

    Raises
    ------
    ValueError
        If `length_m` or `width_m` is not above 0 and at most 30 m, `height_m` outside 0
        to 30 m, `margin_m` outside 0 to 2 m, or `pleat_share` outside 0 to 2.

    Notes
    -----
    The geometry is that of a box; the pleats are an allowance, for stretch is not relied
    on.  Round shapes need less film.

    Examples
    --------
    >>> round(surface_bag_area_m2(0.6, 0.4, 0.15, 0.075), 3)
    1.116
    """
    _check_box(length_m, width_m, height_m, margin_m)
    _check_pleat_share(pleat_share)
    along_m, across_m = (
        side + 2.0 * height_m + 2.0 * margin_m for side in (length_m, width_m)
    )
    return along_m * across_m * (1.0 + pleat_share)


def envelope_bag_area_m2(
    length_m: float,
    width_m: float,
    height_m: float,
    margin_m: float,
    pleat_share: float = 0.25,
) -> float:
    """Return the film of a bag that goes all round tool and part.

    ``2 (L + H + 2 m) (W + H + 2 m) (1 + p)``.

    Parameters
    ----------
    length_m, width_m : float
        Plan size of the tool [m]
    height_m : float
        Height of the tool [m]
    margin_m : float
        Film beside it on each side, out to the tape [m]
    pleat_share : float
        Film in pleats over the film that covers; common practice 0.2 to 0.4 [-]

    Returns
    -------
    float
        Area of bag film, both sheets [m2]

    Raises
    ------
    ValueError
        As for `surface_bag_area_m2`.

    Notes
    -----
    Hollows of the tool's face are not in it beyond the pleats.

    Examples
    --------
    >>> round(envelope_bag_area_m2(0.6, 0.4, 0.15, 0.075), 3)
    1.575
    """
    _check_box(length_m, width_m, height_m, margin_m)
    _check_pleat_share(pleat_share)
    along_m, across_m = (side + height_m + 2.0 * margin_m for side in (length_m, width_m))
    return 2.0 * along_m * across_m * (1.0 + pleat_share)


def _check_tape(pleat_height_m: float, pleats: int, ports: int) -> None:
    within("pleat_height_m", pleat_height_m, 0.0, _LONGEST_M, "m")
    whole("pleats", pleats, 0)
    whole("ports", ports, 0)


def surface_tape_length_m(
    length_m: float,
    width_m: float,
    margin_m: float,
    pleat_height_m: float,
    pleats: int = 4,
    ports: int = 0,
    tape_per_port_m: float = 0.2,
) -> float:
    """Return the sealant tape of a bag that is sealed down on the tool or the table.

    ``2 [(L + 2 m) + (W + 2 m)] + 2 n h + 0.2 m`` for each port, n pleats of height h.

    Parameters
    ----------
    length_m, width_m : float
        Plan size of what lies under the bag [m]
    margin_m : float
        Film beside it on each side, out to the tape [m]
    pleat_height_m : float
        Height of a pleat, at least the height or depth it has to follow [m]
    pleats : int
        Number of pleats, at least one for each corner or step of height [-]
    ports : int
        Number of vacuum ports and probes led through the tape [-]
    tape_per_port_m : float
        Extra tape for each; common practice [m]

    Returns
    -------
    float
        Length of tape [m]

    Raises
    ------
    ValueError
        If `length_m` or `width_m` is not above 0 and at most 30 m, `margin_m` outside 0
        to 2 m, `pleat_height_m` outside 0 to 30 m, `tape_per_port_m` outside 0 to 5 m, or
        a number of pleats or ports negative or not whole.

    Examples
    --------
    >>> round(surface_tape_length_m(0.6, 0.4, 0.075, 0.15), 2)
    3.8
    """
    _check_box(length_m, width_m, 0.0, margin_m)
    _check_tape(pleat_height_m, pleats, ports)
    within("tape_per_port_m", tape_per_port_m, 0.0, 5.0, "m")
    perimeter_m = 2.0 * (length_m + width_m + 4.0 * margin_m)
    return perimeter_m + 2.0 * pleats * pleat_height_m + ports * tape_per_port_m


def envelope_tape_length_m(
    length_m: float,
    width_m: float,
    height_m: float,
    margin_m: float,
    ports: int = 0,
    tape_per_port_m: float = 0.2,
) -> float:
    """Return the sealant tape of a bag of two sheets, open on all four edges.

    ``2 [(L + H + 2 m) + (W + H + 2 m)] + 0.2 m`` for each port.

    Parameters
    ----------
    length_m, width_m : float
        Plan size of the tool [m]
    height_m : float
        Height of the tool [m]
    margin_m : float
        Film beside it on each side, out to the tape [m]
    ports : int
        Number of vacuum ports and probes led through the tape [-]
    tape_per_port_m : float
        Extra tape for each; common practice [m]

    Returns
    -------
    float
        Length of tape [m]

    Raises
    ------
    ValueError
        As for `surface_tape_length_m`, and if `height_m` is outside 0 to 30 m.

    Notes
    -----
    Film folded over or bought as a tube has fewer open edges and needs less.

    Examples
    --------
    >>> round(envelope_tape_length_m(0.6, 0.4, 0.15, 0.075), 2)
    3.2
    """
    _check_box(length_m, width_m, height_m, margin_m)
    whole("ports", ports, 0)
    within("tape_per_port_m", tape_per_port_m, 0.0, 5.0, "m")
    edges_m = 2.0 * (length_m + width_m + 2.0 * height_m + 4.0 * margin_m)
    return edges_m + ports * tape_per_port_m


def breather_area_m2(developed_area_m2: float, overlap_factor: float = 1.1) -> float:
    """Return the breather, or the release film, that covers a face.

    Parameters
    ----------
    developed_area_m2 : float
        Developed area to be covered [m2]
    overlap_factor : float
        Area used over area covered; common practice [-]

    Returns
    -------
    float
        Area of cloth or film [m2]

    Raises
    ------
    ValueError
        If `developed_area_m2` is not above 0 and at most 2000 m2 or `overlap_factor`
        outside 1 to 3.

    Examples
    --------
    >>> round(breather_area_m2(0.5), 3)
    0.55
    """
    positive(
        "developed_area_m2",
        developed_area_m2,
        _LARGEST_M2,
        "m2",
        "Was it given in square millimetres?",
    )
    within("overlap_factor", overlap_factor, 1.0, 3.0, "")
    return developed_area_m2 * overlap_factor


def surface_bag_materials(
    length_m: float,
    width_m: float,
    height_m: float,
    margin_m: float,
    developed_area_m2: float,
    pleat_share: float = 0.25,
    pleats: int = 4,
    ports: int = 0,
) -> BagMaterials:
    """Return what a bag uses up that is sealed down on the tool or the table.

    Parameters
    ----------
    length_m, width_m : float
        Plan size of what lies under the bag [m]
    height_m : float
        Its height, or its depth if hollow; the pleats are as high [m]
    margin_m : float
        Film beside it on each side, out to the tape [m]
    developed_area_m2 : float
        Developed area that breather and release film cover [m2]
    pleat_share : float
        Film in pleats over the film that covers; common practice 0.2 to 0.4 [-]
    pleats : int
        Number of pleats [-]
    ports : int
        Number of vacuum ports and probes led through the tape [-]

    Returns
    -------
    BagMaterials
        Film, tape, breather and release film [m2 and m]

    Raises
    ------
    ValueError
        As for `surface_bag_area_m2`, `surface_tape_length_m` and `breather_area_m2`.

    Examples
    --------
    >>> used = surface_bag_materials(0.6, 0.4, 0.15, 0.075, 0.54)
    >>> round(used.bag_area_m2, 3), round(used.tape_length_m, 2)
    (1.116, 3.8)
    """
    cloth_m2 = breather_area_m2(developed_area_m2)
    return BagMaterials(
        bag_area_m2=surface_bag_area_m2(length_m, width_m, height_m, margin_m, pleat_share),
        tape_length_m=surface_tape_length_m(
            length_m, width_m, margin_m, height_m, pleats, ports
        ),
        breather_area_m2=cloth_m2,
        release_area_m2=cloth_m2,
    )


def envelope_bag_materials(
    length_m: float,
    width_m: float,
    height_m: float,
    margin_m: float,
    developed_area_m2: float,
    pleat_share: float = 0.25,
    ports: int = 0,
) -> BagMaterials:
    """Return what a bag uses up that goes all round tool and part.

    Parameters
    ----------
    length_m, width_m : float
        Plan size of the tool [m]
    height_m : float
        Height of the tool [m]
    margin_m : float
        Film beside it on each side, out to the tape [m]
    developed_area_m2 : float
        Developed area that breather and release film cover [m2]
    pleat_share : float
        Film in pleats over the film that covers; common practice 0.2 to 0.4 [-]
    ports : int
        Number of vacuum ports and probes led through the tape [-]

    Returns
    -------
    BagMaterials
        Film, tape, breather and release film [m2 and m]

    Raises
    ------
    ValueError
        As for `envelope_bag_area_m2`, `envelope_tape_length_m` and `breather_area_m2`.

    Notes
    -----
    Breather that also pads the tool's edges and underside is not in it.

    Examples
    --------
    >>> used = envelope_bag_materials(0.6, 0.4, 0.15, 0.075, 0.54)
    >>> round(used.bag_area_m2, 3), round(used.tape_length_m, 2)
    (1.575, 3.2)
    """
    cloth_m2 = breather_area_m2(developed_area_m2)
    return BagMaterials(
        bag_area_m2=envelope_bag_area_m2(
            length_m, width_m, height_m, margin_m, pleat_share
        ),
        tape_length_m=envelope_tape_length_m(length_m, width_m, height_m, margin_m, ports),
        breather_area_m2=cloth_m2,
        release_area_m2=cloth_m2,
    )
