"""What the air and the wood come to at one firing, from what its entry recorded."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from builder.base.quantity import Quantity
from builder.checks.firing import Firing
from builder.fire.fuel import equilibrium_moisture_pct, net_dry_mj_per_kg, net_heat_mj
from builder.fire.weather import dew_point_c, fosberg_index, vapour_pressure_deficit_kpa
from builder.heat.figures import Figure
from builder.ware.as_written import figure_of, figure_of_written, half_width

_NAMES = {
    "weather.air": "temperature of the air",
    "weather.humidity": "humidity",
    "weather.wind": "wind",
    "fuel.mass": "mass of the wood",
    "fuel.moisture": "moisture of the wood",
}


@dataclass(frozen=True, slots=True)
class FireCircumstances:
    """Figures of the air and the wood; a value of None says in its remark what was not recorded."""

    emc_pct: Figure
    """Moisture that wood would come to in this air, % of its dry mass."""
    dew_point_c: Figure
    """Dew point, °C."""
    vpd_kpa: Figure
    """Vapour-pressure deficit, kPa: the air's drying power."""
    fosberg: Figure
    """Fosberg fire weather index, 0 to 100."""
    net_heat_mj: Figure
    """Net heat in the wood, MJ."""
    wood_per_ware: Figure
    """Kilograms of wood for a kilogram of ware, where every piece was weighed dry."""


def fire_circumstances(firing: Firing) -> FireCircumstances:
    """Work out what the air and the wood come to, with 95 % intervals from how finely they were written down."""
    air = ("weather.air", "weather.humidity")
    humid = _quantity(firing, "weather.humidity")
    parched = humid is not None and humid.canonical <= 0.0
    return FireCircumstances(
        emc_pct=_of(firing, equilibrium_moisture_pct, air, "Wood stacked for long in this air would come to it."),
        dew_point_c=Figure(None, remark="Air without any vapour has no dew point.")
        if parched
        else _of(firing, dew_point_c, air),
        vpd_kpa=_of(firing, vapour_pressure_deficit_kpa, air),
        fosberg=_of(firing, fosberg_index, (*air, "weather.wind"), "It only ever adds a reason to stop."),
        net_heat_mj=_net_heat(firing),
        wood_per_ware=_wood_per_ware(firing),
    )


def _quantity(firing: Firing, path: str) -> Quantity | None:
    """Give a recorded quantity, or None."""
    found = firing.conditions.get(path)
    return found if isinstance(found, Quantity) else None


def _of(firing: Firing, function: Callable[..., float], paths: tuple[str, ...], remark: str = "") -> Figure:
    """Work out a figure of recorded conditions, or say which of them is missing."""
    found = {path: _quantity(firing, path) for path in paths}
    quantities = [quantity for quantity in found.values() if quantity is not None]
    if len(quantities) < len(paths):
        return _not_recorded([path for path, quantity in found.items() if quantity is None])
    return replace(figure_of_written(function, *quantities), remark=remark)


def _not_recorded(paths: list[str]) -> Figure:
    """Make the figure that is missing because something was not recorded."""
    names = [_NAMES[path] for path in paths]
    listed = " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
    return Figure(None, remark=f"Not recorded: {listed}.")


def _net_heat(firing: Firing) -> Figure:
    """Work out the net heat in the wood; the spread between woods is in its interval."""
    mass, moisture = _quantity(firing, "fuel.mass"), _quantity(firing, "fuel.moisture")
    if mass is None or moisture is None:
        missing = [path for path in ("fuel.mass", "fuel.moisture") if _quantity(firing, path) is None]
        return _not_recorded(missing)
    low, high = net_dry_mj_per_kg()
    values = (mass.canonical, moisture.canonical, (low + high) / 2.0)
    figure = figure_of(net_heat_mj, values, (half_width(mass), half_width(moisture), (high - low) / 2.0))
    return replace(figure, remark=f"For oven-dry wood of {low:.1f} to {high:.1f} MJ/kg net, burnt out completely.")


def _wood_per_ware(firing: Firing) -> Figure:
    """Work out the wood for a kilogram of ware."""
    wood = _quantity(firing, "fuel.mass")
    if wood is None:
        return _not_recorded(["fuel.mass"])
    weighed = [(piece.weighed.dry, piece.count) for piece in firing.pieces if piece.weighed is not None]
    if len(weighed) < len(firing.pieces):
        return Figure(None, remark="Not every piece was weighed dry.")
    ware_kg = sum(dry.canonical * count for dry, count in weighed)
    width_kg = sum(half_width(dry) * count for dry, count in weighed)
    return figure_of(lambda wood_kg, kg: wood_kg / kg, (wood.canonical, ware_kg), (half_width(wood), width_kg))
