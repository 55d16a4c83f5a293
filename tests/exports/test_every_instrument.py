"""From an entry's words to the open data and the chart: the intervals of every kind of thermometer arrive there."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import numpy as np
import pytest

from builder.archive.archive import Archive, Record, gather
from builder.charts.curve_lines import shown
from builder.entries.find import EntryFile
from builder.examine import examine
from builder.exports.export_files import export_files
from builder.heat.figures import Figure
from builder.readings.reading_limits import reading_limits_c
from builder.readings.thermocouple import emf_mv
from builder.readings.uncertainty import band, draws
from tests.checks.examples import example_settings
from tests.checks.written import text_with

TRUE_C = np.array([14.0, 210.0, 380.0, 565.0, 700.0, 790.0, 812.0, 740.0, 640.0, 520.0])
"""A main fire of nine minutes, once a minute."""

PROBES = {
    "by-class": ("{name: wall, instrument: thermocouple, type: K, tolerance: IEC 2}", "°C"),
    "fahrenheit": ("{name: wall, instrument: thermocouple, type: K, tolerance: IEC 2, unit: °F}", "°F"),
    "millivolts": (
        "{name: wall, instrument: thermocouple, type: K, tolerance: IEC 2, unit: mV, cold_junction: 22 °C}",
        "mV",
    ),
    "spot": ("{name: wall, instrument: spot thermometer, emissivity_set: 0.95, emissivity: 0.85 to 0.95}", "°C"),
    "spot-bare": ("{name: wall, instrument: spot thermometer, accuracy: 3 °C}", "°C"),
    "checked": ("{name: wall, calibrated: [{shown: 2 °C, known: 0 °C}, {shown: 902 °C, known: 894 °C}]}", "°C"),
    "offset": ("{name: wall, accuracy: 3 °C, calibrated: [{shown: 101.4 °C, known: 100 °C}]}", "°C"),
    "topped-out": ("{name: wall, limit: 812 °C}", "°C"),
    "nothing": ("{name: wall}", "°C"),
}


def _rows(unit: str) -> str:
    if unit == "mV":
        written = [f"{value:.3f} mV" for value in emf_mv(TRUE_C, "K") - emf_mv(22.0, "K")]
    elif unit == "°F":
        written = [f"{value:.1f} °F" for value in TRUE_C * 1.8 + 32.0]
    else:
        written = [f"{value:.0f} °C" for value in TRUE_C]
    return "\n".join(f"    {minute}:00 {value}" for minute, value in enumerate(written))


def _record(number: int, slug: str, probe: str, unit: str, folder: Path) -> Record:
    readings = f"readings:\n  time: elapsed\n  probes: [{probe}]\n  rows: |\n{_rows(unit)}"
    path = folder / "entry.md"
    path.write_text(text_with(readings), encoding="utf-8")
    found = examine(EntryFile(slug, folder, path, f"content/firings/{slug}/entry.md"), example_settings())
    assert found.problems == ()
    assert found.measured is not None
    one = found.measured
    return Record(number, one.firing, one.curves, one.heat, one.pieces)


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Archive:
    records = [
        _record(number, slug, probe, unit, tmp_path_factory.mktemp(slug))
        for number, (slug, (probe, unit)) in enumerate(PROBES.items(), 1)
    ]
    return gather(records, example_settings())


def _table(archive: Archive, name: str) -> list[dict[str, str]]:
    text = export_files(archive, example_settings())[f"data/{name}.csv"].decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text)))


def _figures(archive: Archive, slug: str) -> dict[str, Figure]:
    return next(one for one in archive.records if one.firing.slug == slug).heat.ware_figures


@pytest.mark.parametrize("slug", PROBES)
def test_each_interval_of_a_firing_stands_in_the_table_of_firings(archive: Archive, slug: str) -> None:
    row = next(one for one in _table(archive, "firings") if one["firing"] == slug)
    for name in ("peak_c", "minutes_above_600_c", "equivalent_1h_c", "soak_min"):
        figure = _figures(archive, slug)[name]
        for end, value in (("_low", figure.low), ("_high", figure.high)):
            told = row[f"{name}{end}"]
            assert (told == "") == (value is None), (name, end)
            if value is not None:
                assert float(told) == pytest.approx(value, abs=0.051)


@pytest.mark.parametrize("slug", PROBES)
def test_each_reading_stands_in_the_table_of_readings_with_the_band_that_the_chart_draws(
    archive: Archive, slug: str
) -> None:
    rows = [one for one in _table(archive, "readings") if one["firing"] == slug]
    curve = next(one for one in archive.records if one.firing.slug == slug).curves.curves[0]
    told = np.array([[float(row[name]) for name in ("low_c", "temperature_c", "high_c")] for row in rows])
    assert told[:, 1] == pytest.approx(curve.celsius, abs=0.006)
    assert np.all((told[:, 0] <= told[:, 1]) & (told[:, 1] <= told[:, 2]))
    drawn = shown(curve, 20.0)
    assert drawn is not None
    assert told[:, 0] == pytest.approx(drawn.low, abs=0.006)
    assert told[:, 2] == pytest.approx(drawn.high, abs=0.006)


@pytest.mark.parametrize("slug", PROBES)
def test_the_band_is_what_the_drawn_curves_span(archive: Archive, slug: str) -> None:
    """2.5 and 97.5 % of 20,000 draws: to 6 % of the band, or half a degree."""
    curve = next(one for one in archive.records if one.firing.slug == slug).curves.curves[0]
    low, high = reading_limits_c(curve)
    drawn_low, drawn_high = band(draws(curve, "every instrument", 20_000))
    within = np.maximum(0.06 * (high - low), 0.5)
    assert np.all(np.abs(low - drawn_low) <= within)
    assert np.all(np.abs(high - drawn_high) <= within)


def test_the_same_fire_in_three_units_gives_the_same_figures(archive: Archive) -> None:
    """Within what 0.001 mV, 0.1 °F and 1 °C of rounding come to: a tenth of a degree, and of a width more."""
    degrees, fahrenheit, millivolts = (_figures(archive, slug) for slug in ("by-class", "fahrenheit", "millivolts"))
    for other in (fahrenheit, millivolts):
        for name, figure in degrees.items():
            if figure.value is None:
                assert other[name].value is None
                continue
            assert other[name].value == pytest.approx(figure.value, abs=0.15, rel=1e-3), name


def test_the_same_fire_in_three_units_is_known_as_well(archive: Archive) -> None:
    """Within 15 %: ± 1 °C of the meter's terminals beside the class's ± 2.5 °C makes a cold reading's interval 12 %
    wider, and the steps of the displays, 1 °C, 5/9 °C and 0.01 mV, differ by less."""
    degrees, fahrenheit, millivolts = (_figures(archive, slug) for slug in ("by-class", "fahrenheit", "millivolts"))
    for name in ("peak_c", "start_c", "minutes_above_600_c", "equivalent_1h_c"):
        widths = []
        for figures in (degrees, fahrenheit, millivolts):
            low, high = figures[name].low, figures[name].high
            assert low is not None
            assert high is not None
            widths.append(high - low)
        assert widths == pytest.approx([widths[0]] * 3, rel=0.15), name


def test_what_is_not_known_of_a_thermometer_makes_its_interval_wider(archive: Archive) -> None:
    def width(slug: str) -> float:
        peak = _figures(archive, slug)["peak_c"]
        assert peak.low is not None
        assert peak.high is not None
        return peak.high - peak.low

    assert width("checked") < width("nothing")
    assert width("by-class") < width("nothing") < width("spot-bare")
    assert width("spot") < width("spot-bare")


def test_a_topped_out_peak_has_no_upper_end_anywhere(archive: Archive) -> None:
    row = next(one for one in _table(archive, "firings") if one["firing"] == "topped-out")
    assert _figures(archive, "topped-out")["peak_c"].at_least
    assert row["peak_c_high"] == ""
    assert row["peak_c_low"] != ""
