"""Water absorption, apparent porosity and bulk density from three weighings (Archimedes)."""

from __future__ import annotations


def absorption_pct(dry_kg: float, soaked_kg: float) -> float:
    """Give the water absorption [% of the dry mass] of a piece weighed dry and soaked [kg].

    A = 100 (M − D)/D. Holds where the piece was soaked through and wiped. Source: ASTM C373, C20.

    >>> round(absorption_pct(0.08532, 0.09640), 3)
    12.986
    """
    return 100.0 * (soaked_kg - dry_kg) / dry_kg


def porosity_pct(dry_kg: float, soaked_kg: float, hung_kg: float) -> float:
    """Give the apparent porosity [% of the outer volume] from a piece weighed dry, soaked and hung in water [kg].

    P = 100 (M − D)/(M − S). Open pores only: closed ones take no water. Source: ASTM C373, C20.

    >>> round(porosity_pct(0.08532, 0.09640, 0.05118), 3)
    24.502
    """
    return 100.0 * (soaked_kg - dry_kg) / (soaked_kg - hung_kg)


def bulk_density_g_cm3(dry_kg: float, soaked_kg: float, hung_kg: float) -> float:
    """Give the bulk density [g/cm³] from a piece weighed dry, soaked and hung in water [kg].

    B = D/(M − S), a gram of water taken as a cubic centimetre (0.2 % too much at 20 °C). Source: ASTM C373, C20.

    >>> round(bulk_density_g_cm3(0.08532, 0.09640, 0.05118), 4)
    1.8868
    """
    return dry_kg / (soaked_kg - hung_kg)
