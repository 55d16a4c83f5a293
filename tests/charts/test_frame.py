"""The standard frames: which is chosen, where its pixels are, what its markup holds."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from builder.charts import frame as frames
from builder.charts.frame import (
    DRAWN,
    DURATIONS_MIN,
    TOPS_C,
    frame_minutes,
    frame_top_c,
    kept_frames,
    standard_frame,
    use_kept_frames,
)
from builder.charts.layout import LAYOUTS, SMALL, WIDE, Layout
from tests.charts.curves import SVG, parsed, texts_of
from tests.charts.frames import frames_file


@pytest.mark.parametrize(
    ("last", "minutes"), [(0, 15), (12, 15), (15, 15), (15.1, 30), (62, 120), (233, 240), (2000, 2880), (9999, 2880)]
)
def test_the_shortest_standard_duration_that_holds_the_record_is_chosen(last: float, minutes: int) -> None:
    assert frame_minutes(last) == minutes


@pytest.mark.parametrize(("highest", "top"), [(0, 1000), (1000, 1000), (1001, 1200), (1280, 1400), (9999, 1800)])
def test_the_scale_ends_at_a_thousand_degrees_unless_a_curve_needs_more(highest: float, top: int) -> None:
    assert frame_top_c(highest) == top


@pytest.mark.parametrize("layout", [*LAYOUTS, SMALL], ids=lambda layout: layout.key)
def test_our_way_from_degrees_to_pixels_is_matplotlibs_own(layout: Layout) -> None:
    """Expected: matplotlib's transData of axes laid out alike, its rows counted from the top as SVG does."""
    from matplotlib.figure import Figure

    from builder.charts.frame_drawing import _draw_axes

    figure = Figure(figsize=(layout.width / 72, layout.height / 72), dpi=72)
    _draw_axes(figure, 240, 1200, layout)
    frame = standard_frame(240, 1200, layout)
    for minute, celsius in ((0, 0), (240, 1200), (37.5, 642), (200, -20)):
        x, y = figure.axes[0].transData.transform((minute, celsius))
        assert frame.x(minute) == pytest.approx(x, abs=1e-6)
        assert frame.y(celsius) == pytest.approx(layout.height - y, abs=1e-6)


def test_the_rules_that_matplotlib_drew_lie_where_the_curve_is_written() -> None:
    frame = standard_frame(30, 1000, WIDE)
    rules = next(path for path in parsed(frame.markup).iter(f"{SVG}path") if path.get("class") == "chart-rule in-c")
    rows = [float(part.split()[1].split("H")[0]) for part in (rules.get("d") or "").split("M")[1:]]
    assert rows == pytest.approx([frame.y(celsius) for celsius in (200, 400, 600, 800, 1000)], abs=0.051)


@pytest.mark.parametrize("minutes", DURATIONS_MIN)
@pytest.mark.parametrize("top_c", TOPS_C)
def test_every_standard_frame_is_bare_markup_with_its_lettering(minutes: int, top_c: int) -> None:
    """No style, id, link or script may come through from matplotlib's SVG."""
    for layout in (*LAYOUTS, SMALL):
        frame = standard_frame(minutes, top_c, layout)
        root = parsed(frame.markup)
        attributes = {name for part in root.iter() for name in part.attrib}
        assert attributes <= {"class", "d", "x", "y", "text-anchor"}
        assert {part.tag.removeprefix(SVG) for part in root.iter()} <= {"div", "path", "g", "text"}
        lettering = texts_of(root)
        if layout is not SMALL:
            assert lettering[0] == "lit"
            assert {str(top_c), "200", "°C", "400", "1600", "°F"} <= set(lettering)
        assert len(frame.markup) < 1800


def test_a_frame_drawn_twice_is_the_same_to_the_byte() -> None:
    from builder.charts.frame_drawing import draw_frame

    assert draw_frame(60, 1000, WIDE) == draw_frame(60, 1000, WIDE)


def test_kept_frames_spare_matplotlib(monkeypatch: pytest.MonkeyPatch) -> None:
    """A frame taken up from an earlier build is given without drawing it."""
    expected = standard_frame(480, 1200, WIDE)
    kept = kept_frames()
    monkeypatch.setattr(frames, "_MARKUP", {})
    monkeypatch.setitem(sys.modules, "builder.charts.frame_drawing", None)
    assert use_kept_frames(kept)
    assert standard_frame(480, 1200, WIDE) == expected


def test_frames_of_the_first_scale_lie_drawn_as_they_would_be_drawn_now() -> None:
    assert frames_file() == DRAWN.read_text(encoding="utf-8"), "run `python -m tests.charts.frames`"


def test_no_open_fire_needs_matplotlib(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(frames, "_MARKUP", {})
    monkeypatch.setitem(sys.modules, "builder.charts.frame_drawing", None)
    for minutes in DURATIONS_MIN:
        for layout in (*LAYOUTS, SMALL):
            standard_frame(minutes, TOPS_C[0], layout)
    assert json.loads(kept_frames())["frames"] == {}


@pytest.mark.parametrize("kept", [b"", b"[]", b"\xff", b'{"drawn by": "another", "frames": {}}'])
def test_frames_kept_by_another_program_or_broken_are_not_taken_up(kept: bytes) -> None:
    assert not use_kept_frames(kept)


def test_loading_the_charts_does_not_load_matplotlib() -> None:
    code = (
        "import sys, builder.charts.curve_chart, builder.charts.small_curve, builder.charts.rate_chart, "
        "builder.charts.marks, builder.charts.preview; sys.exit('matplotlib' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
