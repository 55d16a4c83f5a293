"""The air at the fire: how near it is to dew, how hard it dries, and how readily fire would spread in it."""

from __future__ import annotations

import math

from builder.base.units import from_canonical


def saturation_pressure_hpa(air_c: float) -> float:
    """Give the pressure of water vapour in saturated air of `air_c` [°C], hPa.

    6.1094 exp(17.625T/(T + 243.04)), good to 0.4 % from −40 to 50 °C. Source: Alduchov and Eskridge 1996, J. Appl.
    Meteorol. 35:601, eq. 21.

    >>> round(saturation_pressure_hpa(20.0), 4)
    23.3344
    """
    return 6.1094 * math.exp(17.625 * air_c / (air_c + 243.04))


def dew_point_c(air_c: float, humidity_pct: float) -> float:
    """Give the temperature [°C] at which air of `air_c` [°C] and `humidity_pct` [%, above 0] begins to drop dew.

    243.04g/(17.625 − g), g = ln(humidity/100) + 17.625T/(T + 243.04). Source: Alduchov and Eskridge 1996.

    >>> round(dew_point_c(25.0, 50.0), 2)
    13.86
    """
    g = math.log(humidity_pct / 100.0) + 17.625 * air_c / (air_c + 243.04)
    return 243.04 * g / (17.625 - g)


def vapour_pressure_deficit_kpa(air_c: float, humidity_pct: float) -> float:
    """Give how much more vapour air of `air_c` [°C] and `humidity_pct` [%] could take up: its drying power, kPa.

    Saturation pressure × (1 − humidity/100). Source: Alduchov and Eskridge 1996 for the pressure.

    >>> round(vapour_pressure_deficit_kpa(25.0, 50.0), 3)
    1.581
    """
    return saturation_pressure_hpa(air_c) / 10.0 * (1.0 - humidity_pct / 100.0)


def fosberg_index(air_c: float, humidity_pct: float, wind_km_h: float) -> float:
    """Give the Fosberg fire weather index, 0 to 100, for air of `air_c` [°C], `humidity_pct` [%] and wind [km/h].

    η √(1 + U²)/0.3002, cut to 0 … 100, U in mph, η = 1 − 2x + 1.5x² − 0.5x³, x = m/30, m the moisture of fine dead
    fuel. For open country and the weather of one moment; it knows nothing of drought, slope or what grows there. It
    only ever adds a reason to stop. Source: Fosberg 1978; m by Simard 1968.

    >>> round(fosberg_index(21.1111, 50.0, 16.09344), 2)
    17.19
    """
    x = _fine_fuel_moisture_pct(from_canonical(air_c, "°F", "temperature"), humidity_pct) / 30.0
    damping = 1.0 - 2.0 * x + 1.5 * x**2 - 0.5 * x**3
    index = damping * math.sqrt(1.0 + from_canonical(wind_km_h, "mph", "speed") ** 2) / 0.3002
    return min(max(index, 0.0), 100.0)


def _fine_fuel_moisture_pct(air_f: float, humidity_pct: float) -> float:
    """Give the moisture of fine dead fuel [%] from °F and %; as published, it jumps a little at 10 and 50 %."""
    h = humidity_pct
    if h < 10.0:
        return 0.03229 + 0.281073 * h - 0.000578 * h * air_f
    if h <= 50.0:
        return 2.22749 + 0.160107 * h - 0.014784 * air_f
    return 21.0606 + 0.005565 * h**2 - 0.00035 * h * air_f - 0.483199 * h
