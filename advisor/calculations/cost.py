"""Cost of a run of parts, tools renewed as they wear out.

Money is in any one currency, the same throughout.
"""

from dataclasses import dataclass

from advisor.calculations.valid_range import whole, within

_DEAREST = 1e12


@dataclass(frozen=True)
class Route:
    """A way to make the parts, by what it costs.

    Attributes
    ----------
    fixed_cost : float
        Spent once, such as a pattern or a tool path [money]
    tool_cost : float
        Each tool, made ready for use [money]
    parts_per_tool : int
        Parts that one tool gives before it is renewed [-]
    part_cost : float
        Each part, without the tool [money]
    """

    fixed_cost: float
    tool_cost: float
    parts_per_tool: int
    part_cost: float


@dataclass(frozen=True)
class BreakEven:
    """From which number of parts one route is no dearer than another.

    Attributes
    ----------
    first : int or None
        Smallest number of parts at which it is no dearer; None if there is none [-]
    lasting : int or None
        Smallest number from which on it stays so; None if there is none [-]
    """

    first: int | None
    lasting: int | None


def _check_money(name: str, value: float) -> None:
    within(name, value, 0.0, _DEAREST, "")


def tools_needed(parts: int, parts_per_tool: int) -> int:
    """Return how many tools a run of parts uses up.

    Parameters
    ----------
    parts : int
        Number of parts [-]
    parts_per_tool : int
        Parts that one tool gives [-]

    Returns
    -------
    int
        Number of tools, rounded up [-]

    Raises
    ------
    ValueError
        If either number is below 1 or not whole.

    Examples
    --------
    >>> tools_needed(parts=11, parts_per_tool=5)
    3
    """
    whole("parts", parts, 1)
    whole("parts_per_tool", parts_per_tool, 1)
    return int(-(-parts // parts_per_tool))


def coats_needed(parts: int, parts_per_tool: int, parts_per_coat: int) -> int:
    """Return how often tools are coated with release over a run.

    Each tool starts with a coat of its own; the last one of the run may give fewer parts.

    Parameters
    ----------
    parts : int
        Number of parts [-]
    parts_per_tool : int
        Parts that one tool gives [-]
    parts_per_coat : int
        Parts that one application gives [-]

    Returns
    -------
    int
        Number of applications [-]

    Raises
    ------
    ValueError
        If a number is below 1 or not whole.

    Examples
    --------
    >>> coats_needed(parts=12, parts_per_tool=10, parts_per_coat=5)
    3
    """
    whole("parts", parts, 1)
    whole("parts_per_tool", parts_per_tool, 1)
    whole("parts_per_coat", parts_per_coat, 1)
    worn_out, rest = divmod(parts, parts_per_tool)
    each = -(-parts_per_tool // parts_per_coat)
    return int(worn_out * each + -(-rest // parts_per_coat))


def run_total(tool_cost: float, tools: int, part_cost: float, parts: int) -> float:
    """Return the cost of a run.

    Parameters
    ----------
    tool_cost : float
        Cost of each tool [money]
    tools : int
        Number of tools [-]
    part_cost : float
        Cost of each part, without the tool [money]
    parts : int
        Number of parts [-]

    Returns
    -------
    float
        Cost of all tools and parts [money]

    Raises
    ------
    ValueError
        If a cost is negative or not finite, `tools` below 0 or `parts` below 1.

    Examples
    --------
    >>> run_total(tool_cost=300.0, tools=3, part_cost=80.0, parts=11)
    1780.0
    """
    _check_money("tool_cost", tool_cost)
    _check_money("part_cost", part_cost)
    whole("tools", tools, 0)
    whole("parts", parts, 1)
    return tool_cost * tools + part_cost * parts


def cost_per_part(tool_cost: float, tools: int, part_cost: float, parts: int) -> float:
    """Return the cost of a part, with its share of the tools.

    Parameters
    ----------
    tool_cost : float
        Cost of each tool [money]
    tools : int
        Number of tools [-]
    part_cost : float
        Cost of each part, without the tool [money]
    parts : int
        Number of parts [-]

    Returns
    -------
    float
        Cost of the run over the number of parts [money]

    Raises
    ------
    ValueError
        As for `run_total`.

    Examples
    --------
    >>> cost_per_part(tool_cost=300.0, tools=2, part_cost=80.0, parts=10)
    140.0
    """
    return run_total(tool_cost, tools, part_cost, parts) / parts


def route_total(route: Route, parts: int) -> float:
    """Return the cost of a run by one route, tools renewed as they wear out.

    Parameters
    ----------
    route : Route
        Costs of the route [money]
    parts : int
        Number of parts [-]

    Returns
    -------
    float
        Cost of the run [money]

    Raises
    ------
    ValueError
        If a cost is negative or not finite, or a number below 1 or not whole.

    Examples
    --------
    >>> route_total(Route(100.0, 300.0, 5, 80.0), parts=11)
    1880.0
    """
    _check_money("fixed_cost", route.fixed_cost)
    tools = tools_needed(parts, route.parts_per_tool)
    return route.fixed_cost + run_total(route.tool_cost, tools, route.part_cost, parts)


def break_even_parts(route_a: Route, route_b: Route, up_to_parts: int) -> BreakEven:
    """Return from which number of parts route B is no dearer than route A.

    Every number of parts is tried, for the totals go up in a step at each new tool and
    may cross more than once.

    Parameters
    ----------
    route_a : Route
        Route to compare with, as a rule the one with the cheap tool [money]
    route_b : Route
        Route that is to pay, as a rule the one with the dear tool [money]
    up_to_parts : int
        Longest run to look at, at most 100 000 [-]

    Returns
    -------
    BreakEven
        First number of parts, and the one from which on it lasts up to `up_to_parts` [-]

    Raises
    ------
    ValueError
        If `up_to_parts` is below 1, above 100 000 or not whole, or as for `route_total`.

    Notes
    -----
    Totals that differ by less than a billionth count as equal.

    Examples
    --------
    >>> block = Route(0.0, 100.0, 5, 10.0)
    >>> plate = Route(0.0, 250.0, 1000, 10.0)
    >>> break_even_parts(block, plate, up_to_parts=100)
    BreakEven(first=11, lasting=11)
    """
    whole("up_to_parts", up_to_parts, 1)
    within("up_to_parts", up_to_parts, 1, 100_000, "parts")
    first: int | None = None
    lasting: int | None = None
    for parts in range(1, up_to_parts + 1):
        cost_a = route_total(route_a, parts)
        if route_total(route_b, parts) <= cost_a * (1.0 + 1e-9):
            first = parts if first is None else first
            lasting = parts if lasting is None else lasting
        else:
            lasting = None
    return BreakEven(first, lasting)
