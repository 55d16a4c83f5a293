"""The wood: how wet it would be in this air, and how much heat it holds."""

from __future__ import annotations

LATENT_HEAT_MJ_PER_KG = 2.443
"""Heat that a kilogram of water takes to boil off, at 25 °C, MJ/kg (ISO 18125:2017; 2.4417 by IAPWS-95)."""
GROSS_DRY_MJ_PER_KG = (18.0, 21.0)
"""Gross heat of oven-dry wood, low and high, MJ/kg: a public energy agency's page of heating values."""
HYDROGEN_WATER_MJ_PER_KG = 1.33
"""Heat lost with the water that dry wood itself burns to, MJ/kg: ISO 18125, (212.2 H + 0.8 (O + N))/1000 for 6.1 %
hydrogen and 42.6 % oxygen and nitrogen (the formula from memory)."""


def net_dry_mj_per_kg() -> tuple[float, float]:
    """Give the net heat of oven-dry wood, low and high [MJ/kg]: the gross heat less the water that it burns to."""
    low, high = GROSS_DRY_MJ_PER_KG
    return low - HYDROGEN_WATER_MJ_PER_KG, high - HYDROGEN_WATER_MJ_PER_KG


def wet_basis(moisture_pct: float) -> float:
    """Turn moisture as a share of the dry mass [%] into a share of the mass as it is weighed [0 to 1].

    w = m/(1 + m): wood with 20 % of its dry mass in water is one sixth water.

    >>> round(wet_basis(20.0), 5)
    0.16667
    """
    return moisture_pct / (100.0 + moisture_pct)


def net_heat_mj(mass_kg: float, moisture_pct: float, net_dry_mj_per_kg: float) -> float:
    """Give the net heat [MJ] of `mass_kg` [kg] of wood as weighed, with `moisture_pct` [% of its dry mass] of water.

    E = m (q (1 − w) − 2.443 w), w the share of water in what was weighed, q the net heat of oven-dry wood [MJ/kg].
    What the wood could give burnt out completely; how much of it reached the ware is another matter. Source: ISO
    18125:2017.

    >>> round(net_heat_mj(100.0, 25.0, 18.5), 1)
    1431.1
    """
    water = wet_basis(moisture_pct)
    return mass_kg * (net_dry_mj_per_kg * (1.0 - water) - LATENT_HEAT_MJ_PER_KG * water)


def equilibrium_moisture_pct(air_c: float, humidity_pct: float) -> float:
    """Give the moisture [% of the dry mass] that wood comes to in air of `air_c` [°C] and `humidity_pct` [%].

    M = 1800/W (Kh/(1 − Kh) + (K₁Kh + 2K₁K₂K²h²)/(1 + K₁Kh + K₁K₂K²h²)), h the humidity as a fraction, W = 349 + 1.29T
    + 0.0135T², K = 0.805 + 0.000736T − 0.00000273T², K₁ = 6.27 − 0.00938T − 0.000303T², K₂ = 1.91 + 0.0407T −
    0.000293T². Holds within 0.06 % of the printed table from −1 to 54 °C and from 5 to 85 %; thin wood comes to it in
    days, logs in months, and only under a roof. Source: Wood Handbook, FPL-GTR-282 (2021), eq. 4-5.

    >>> round(equilibrium_moisture_pct(21.1, 65.0), 2)
    11.96
    """
    h = humidity_pct / 100.0
    w = 349.0 + 1.29 * air_c + 0.0135 * air_c**2
    k = 0.805 + 0.000736 * air_c - 0.00000273 * air_c**2
    k1 = 6.27 - 0.00938 * air_c - 0.000303 * air_c**2
    k2 = 1.91 + 0.0407 * air_c - 0.000293 * air_c**2
    kh = k * h
    bound = (k1 * kh + 2.0 * k1 * k2 * kh**2) / (1.0 + k1 * kh + k1 * k2 * kh**2)
    return 1800.0 / w * (kh / (1.0 - kh) + bound)
