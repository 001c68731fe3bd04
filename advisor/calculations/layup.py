r"""Lay-ups as they are written: "[0/45/-45/90]s" read into one angle a ply."""

import re

from advisor.calculations.valid_range import whole

_MOST_PLIES = 2000
_BRACKETS = re.compile(r"\[(?P<plies>[^\[\]]*)\]_?(?P<times>[0-9]*)(?P<symmetric>[sS]?)")
_PLY = re.compile(
    r"(?P<sign>\+/?-|±|∓|[+\-−]?)(?P<angle>[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:_(?P<times>[0-9]+))?"
)
_EXAMPLE = 'Write it as "[0/45/-45/90]s", "[0/90]2s", "[±45/0_3]" or "[0/90/0]".'


def _refuse(layup: str, why: str) -> ValueError:
    return ValueError(f"layup is {layup!r}: {why}. {_EXAMPLE}")


def _count(layup: str, text: str | None) -> int:
    if not text:
        return 1
    digits = text.lstrip("0")
    if not digits:
        raise _refuse(layup, "a count of 0 leaves no ply")
    if len(digits) > len(str(_MOST_PLIES)):
        raise _refuse(layup, f"it has more than {_MOST_PLIES} plies")
    return int(digits)


def _plies(layup: str, item: str) -> list[float]:
    """Return the angles that one item between slashes stands for."""
    found = _PLY.fullmatch(item)
    if not found:
        raise _refuse(layup, f"{item!r} is not an angle")
    angle = float(found["angle"])
    if angle > 180.0:
        raise _refuse(layup, f"the angle {item} is beyond 180 degrees")
    sign = found["sign"]
    if sign in ("±", "+-", "+/-"):
        angles = [angle, -angle]
    elif sign == "∓":
        angles = [-angle, angle]
    else:
        angles = [-angle if sign in ("-", "−") else angle]
    return angles * _count(layup, found["times"])


def ply_angles_deg(layup: str) -> tuple[float, ...]:
    """Return the angle of each ply of a lay-up, from the tool up.

    Parameters
    ----------
    layup : str
        Angles in degrees between slashes, in square brackets; behind the bracket, a count
        repeats it and "s" mirrors it; ``±`` or ``+-`` stands for two plies, ``_3`` behind
        an angle for three [-]

    Returns
    -------
    tuple of float
        Angle of each ply [degree]

    Raises
    ------
    ValueError
        If it cannot be read, a count is 0, an angle is beyond 180 degrees or there are
        more than 2000 plies.

    Notes
    -----
    The count is taken first, then the mirror: "[0/90]2s" is 0/90/0/90/90/0/90/0.  Round
    brackets are refused: some write them for a woven ply, others for a group.  A mirror
    about the middle of a ply, often marked with a bar, is to be written in full.

    Examples
    --------
    >>> ply_angles_deg("[0/±45/90]s")
    (0.0, 45.0, -45.0, 90.0, 90.0, -45.0, 45.0, 0.0)
    """
    text = re.sub(r"\s|°", "", layup).replace("+/-", "±")
    if "(" in text or ")" in text:
        raise _refuse(layup, "round brackets are not read; write out each ply")
    found = _BRACKETS.fullmatch(text)
    if not found:
        raise _refuse(layup, "it is not one pair of square brackets")
    angles: list[float] = []
    for item in found["plies"].split("/"):
        angles += _plies(layup, item)
        if len(angles) > _MOST_PLIES:
            break
    angles *= _count(layup, found["times"])
    if found["symmetric"]:
        angles += angles[::-1]
    if len(angles) > _MOST_PLIES:
        raise _refuse(layup, f"it has more than {_MOST_PLIES} plies")
    return tuple(angles)


def _same_direction(a_deg: float, b_deg: float) -> bool:
    turn = (a_deg - b_deg) % 180.0
    return min(turn, 180.0 - turn) < 1e-9


def _check_plies(angles_deg: tuple[float, ...]) -> None:
    whole("number of plies", len(angles_deg), 1)


def is_symmetric(angles_deg: tuple[float, ...]) -> bool:
    """Return whether the lower half of the plies mirrors the upper half.

    Parameters
    ----------
    angles_deg : tuple of float
        Angle of each ply [degree]

    Returns
    -------
    bool
        True if it stays flat when it is heated or cooled [-]

    Raises
    ------
    ValueError
        If there is no ply.

    Notes
    -----
    All plies alike in material and thickness; 90 and -90 degrees are one direction.

    Examples
    --------
    >>> is_symmetric((0.0, 90.0, -90.0, 0.0)), is_symmetric((0.0, 90.0))
    (True, False)
    """
    _check_plies(angles_deg)
    return all(map(_same_direction, angles_deg, reversed(angles_deg)))


def is_balanced(angles_deg: tuple[float, ...]) -> bool:
    """Return whether each ply off the axes has its opposite.

    Parameters
    ----------
    angles_deg : tuple of float
        Angle of each ply [degree]

    Returns
    -------
    bool
        True if it does not shear when it is stretched, heated or cooled [-]

    Raises
    ------
    ValueError
        If there is no ply.

    Notes
    -----
    All plies alike in material and thickness; 0 and 90 degrees need no opposite.

    Examples
    --------
    >>> is_balanced((0.0, 45.0, -45.0)), is_balanced((0.0, 45.0))
    (True, False)
    """
    _check_plies(angles_deg)
    return all(
        sum(_same_direction(other, angle) for other in angles_deg)
        == sum(_same_direction(other, -angle) for other in angles_deg)
        for angle in set(angles_deg)
    )
