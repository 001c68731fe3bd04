"""Programme of the oven air: straight lines of temperature over time."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from advisor.calculations.valid_range import positive, within

_LONGEST_S = 30 * 24 * 3600.0


@dataclass(frozen=True)
class AirProgramme:
    """Air temperature, straight between given times.

    Attributes
    ----------
    times_s : tuple of float
        Times at which the slope changes, from 0, rising [s]
    air_c : tuple of float
        Air temperature at those times [degC]

    Raises
    ------
    ValueError
        If there are fewer than two times, the numbers of times and temperatures differ,
        the times do not start at 0 and rise, or last more than 30 days, or a temperature
        is outside -30 to 450 degC.

    Examples
    --------
    >>> AirProgramme((0.0, 2400.0, 9600.0), (20.0, 100.0, 100.0)).at_c([1200.0])
    array([60.])
    """

    times_s: tuple[float, ...]
    air_c: tuple[float, ...]

    def __post_init__(self) -> None:
        """Refuse a programme that no oven can run."""
        if len(self.times_s) < 2 or len(self.times_s) != len(self.air_c):
            raise ValueError(
                f"the programme has {len(self.times_s)} times and {len(self.air_c)} "
                "temperatures; give as many of one as of the other, and at least two."
            )
        within("times_s[0]", self.times_s[0], 0.0, 0.0, "s")
        positive("times_s[-1]", self.times_s[-1], _LONGEST_S, "s", "Are these seconds?")
        for before_s, after_s in pairwise(self.times_s):
            if not after_s > before_s:
                raise ValueError(
                    f"times_s has {after_s} s after {before_s} s; it must rise"
                )
        for value_c in self.air_c:
            within("air_c", value_c, -30.0, 450.0, "degC", "Was it given in kelvin?")

    @property
    def end_s(self) -> float:
        """Return the time at which the programme ends [s]."""
        return self.times_s[-1]

    def at_c(self, times_s: NDArray[np.float64] | list[float]) -> NDArray[np.float64]:
        """Return the air temperature at the times given [degC]."""
        return np.asarray(np.interp(times_s, self.times_s, self.air_c))


def programme_of_ramps(
    start_c: float,
    dwells_c: tuple[float, ...],
    rates_k_per_s: tuple[float, ...],
    dwells_s: tuple[float, ...],
) -> AirProgramme:
    """Return the air programme of ramps, each with a dwell at its end.

    A dwell of 0 s lets the next ramp follow at once, as after the last cool-down.

    Parameters
    ----------
    start_c : float
        Air temperature at the start [degC]
    dwells_c : tuple of float
        Air temperature at the end of each ramp [degC]
    rates_k_per_s : tuple of float
        Rate of each ramp, without sign [K/s]
    dwells_s : tuple of float
        Length of the dwell after each ramp [s]

    Returns
    -------
    AirProgramme
        Air temperature over time [-]

    Raises
    ------
    ValueError
        If the tuples differ in length, a rate is not above 0 and at most 1 K/s, a dwell
        is negative, or as for `AirProgramme`.

    Examples
    --------
    >>> programme_of_ramps(20.0, (80.0, 20.0), (2.0 / 60, 1.0 / 60), (28800.0, 0.0)).times_s
    (0.0, 1800.0, 30600.0, 34200.0)
    """
    times_s, air_c = [0.0], [start_c]
    for dwell_c, rate_k_per_s, dwell_s in zip(
        dwells_c, rates_k_per_s, dwells_s, strict=True
    ):
        positive("rates_k_per_s", rate_k_per_s, 1.0, "K/s", "Was it given in K/min?")
        within("dwells_s", dwell_s, 0.0, _LONGEST_S, "s")
        ramp_s = abs(dwell_c - air_c[-1]) / rate_k_per_s
        for step_s in (ramp_s, dwell_s):
            if step_s > 0.0:
                times_s.append(times_s[-1] + step_s)
                air_c.append(dwell_c)
    return AirProgramme(tuple(times_s), tuple(air_c))
