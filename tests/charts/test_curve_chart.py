"""The chart of a firing, its tiny sister, and what both do with little, much and hostile data."""

from __future__ import annotations

import gzip
import xml.etree.ElementTree as ElementTree
from collections import Counter
from itertools import combinations

import numpy as np
import pytest

from builder.charts.curve_chart import curve_caption, curve_chart, framed
from builder.charts.frame import standard_frame
from builder.charts.layout import LAYOUTS, SMALL, WIDE, Layout
from builder.charts.small_curve import small_curve
from builder.charts.spells import Window
from builder.charts.svg import number, words_width
from builder.readings.curve import NO_CURVES, FiringCurves, Repair
from tests.charts.curves import SVG, TWELVE_MINUTES, curve_of, drawing_of, firing, parsed, path_of, points_of, texts_of

WINDOW: Window = (640.0, 780.0)
HOSTILE = '"><script>alert(1)</script><style>*{}</style>\x00 onload=x'


def chart_of(curves: FiringCurves, window: Window, name: str, words: str) -> str:
    """Draw a firing's curves."""
    return curve_chart(framed(curves, window), name, words)


def caption_of(curves: FiringCurves, window: Window) -> str:
    """Say what the marks of its chart mean."""
    return curve_caption(framed(curves, window))


def logger(seconds: int = 14_000) -> FiringCurves:
    """A noisy log of a reading a second, its peak at one known moment."""
    minutes = np.arange(seconds) / 60
    celsius = 15 + 770 * np.clip(minutes / 70, 0, 1) ** 1.3 * np.exp(-np.clip(minutes - 90, 0, None) / 110)
    celsius += np.random.default_rng(3).normal(0, 4, seconds)
    celsius[5_000] = 850.0
    return firing(curve_of(zip(minutes, celsius, strict=True), own_sd=1, half_width=8))


def cases() -> dict[str, FiringCurves]:
    """Firings of every degree of completeness."""
    hand = curve_of(TWELVE_MINUTES, own_sd=5, half_width=12)
    events = [(0, "lit"), (4.5, "flames over the rim"), (12, "raked open"), (95, "drawn"), (-3, "warmed")]
    return {
        "by hand": firing(hand, events=events, repairs=[Repair("spike", "1372 was dropped", 5.5)]),
        "logger": logger(),
        "three probes": firing(
            hand,
            curve_of([(minute, celsius * 1.1) for minute, celsius in TWELVE_MINUTES], "crown"),
            curve_of([(3, 90)], HOSTILE),
            events=[(4, HOSTILE)],
        ),
        "one reading": firing(curve_of([(25, 780)])),
        "frost": firing(curve_of([(0, -12), (10, 300)])),
        "topped out": firing(curve_of([(0, 10), (20, 1100), (40, 1100), (60, 700)], at_least=True)),
        "before lighting": firing(curve_of([(-9, 10), (-2, 60)])),
        "events alone": FiringCurves((), None, firing(events=[(3, "rain")]).events, ()),
        "nothing": NO_CURVES,
        "many events": firing(hand, events=[(at * 0.4, f"event {at} with some words") for at in range(30)]),
    }


@pytest.mark.parametrize("window", [WINDOW, (700.0, None), (None, 900.0), (None, None)])
@pytest.mark.parametrize("name", cases())
def test_every_chart_is_sound_xml_without_style_script_or_link(name: str, window: Window) -> None:
    root = parsed(chart_of(cases()[name], window, "a", HOSTILE))
    for part in root.iter():
        assert part.tag.removeprefix(SVG) in {
            "div", "svg", "title", "desc", "g", "path", "rect", "text", "tspan", "ol", "li",
        }  # fmt: skip
        assert not {key for key in part.attrib if key == "style" or key.startswith("on") or "href" in key}


def test_two_charts_on_a_page_share_no_id() -> None:
    firings = cases()
    page = chart_of(firings["by hand"], WINDOW, "first", "words") + chart_of(
        firings["by hand"], WINDOW, "second", "words"
    )
    ids = Counter(part.get("id") for part in parsed(page).iter() if part.get("id"))
    assert ids
    assert set(ids.values()) == {1}


def test_a_screen_reader_finds_the_title_and_the_words_of_every_drawing() -> None:
    root = parsed(chart_of(cases()["by hand"], WINDOW, "chart", "Rises to 812 °C & falls"))
    by_id = {part.get("id"): part.text for part in root.iter()}
    drawings = list(root.iter(f"{SVG}svg"))
    assert len(drawings) == 3
    for svg in drawings:
        assert svg.get("role") == "img"
        said = [by_id[name] for name in (svg.get("aria-labelledby") or "").split()]
        assert said == ["Temperature from lighting on", "Rises to 812 °C & falls"]


@pytest.mark.parametrize("name", cases())
def test_a_chart_drawn_twice_is_the_same_to_the_byte(name: str) -> None:
    assert chart_of(cases()[name], WINDOW, "a", "b") == chart_of(cases()[name], WINDOW, "a", "b")


@pytest.mark.parametrize("layout", LAYOUTS, ids=lambda layout: layout.key)
def test_the_readings_stand_at_their_minutes_and_degrees(layout: Layout) -> None:
    """Outside any window the line is one path through all readings; expected pixels from the frame's axes."""
    drawing = drawing_of(chart_of(firing(curve_of(TWELVE_MINUTES)), (None, None), "a", "b"), layout.key)
    (line,) = points_of(path_of(drawing, "chart-line") or "")
    frame = standard_frame(15, 1000, layout)
    for (minute, celsius), (x, y) in zip(TWELVE_MINUTES, line, strict=True):
        assert x == pytest.approx(layout.left + minute / 15 * (layout.width - layout.left - layout.right), abs=0.06)
        assert y == pytest.approx(frame.ground - celsius / 1000 * (frame.ground - layout.top), abs=0.06)


def test_the_line_is_thick_exactly_between_the_windows_edges() -> None:
    """TWELVE_MINUTES lies inside 640 to 780 °C twice: going up and coming down."""
    drawing = drawing_of(chart_of(firing(curve_of(TWELVE_MINUTES)), WINDOW, "a", "b"), "wide")
    frame = standard_frame(15, 1000, WIDE)
    inside = points_of(path_of(drawing, "chart-in") or "")
    assert len(inside) == 2
    rows = [y for line in inside for _, y in line]
    assert min(rows) == pytest.approx(frame.y(780), abs=0.06)
    assert max(rows) == pytest.approx(frame.y(640), abs=0.06)


def test_a_long_log_keeps_its_peak_and_stays_small() -> None:
    chart = chart_of(logger(), (None, None), "a", "b")
    frame = standard_frame(240, 1000, WIDE)
    line = points_of(path_of(drawing_of(chart, "wide"), "chart-line") or "")[0]
    highest = min(line, key=lambda point: point[1])
    assert highest[0] == pytest.approx(frame.x(5_000 / 60), abs=0.06)
    assert highest[1] == pytest.approx(frame.y(850), abs=0.06)
    assert len(gzip.compress(chart.encode())) < 20_000


def test_a_gap_is_dotted_and_the_line_broken() -> None:
    minutes = [*range(0, 60, 2), *range(80, 120, 2)]
    chart = chart_of(firing(curve_of([(minute, 300 + minute) for minute in minutes])), (None, None), "a", "b")
    drawing = drawing_of(chart, "wide")
    frame = standard_frame(120, 1000, WIDE)
    assert len(points_of(path_of(drawing, "chart-line") or "")) == 2
    ((start, end),) = points_of(path_of(drawing, "chart-gap") or "")
    assert start[0] == pytest.approx(frame.x(58), abs=0.06)
    assert end[0] == pytest.approx(frame.x(80), abs=0.06)
    assert "no reading for 22 minutes" in caption_of(firing(curve_of([(m, 300) for m in minutes])), WINDOW)


def test_the_peak_of_a_topped_out_probe_is_called_at_least() -> None:
    chart = chart_of(cases()["topped out"], WINDOW, "a", "b")
    assert all("at least 1100 °C" in texts_of(drawing_of(chart, layout.key)) for layout in LAYOUTS)


def test_a_dropped_spike_is_crossed_out_where_it_stood() -> None:
    drawing = drawing_of(chart_of(cases()["by hand"], WINDOW, "a", "b"), "wide")
    strokes = points_of(path_of(drawing, "chart-cross") or "")
    assert len(strokes) == 2
    middle = (strokes[0][0][0] + strokes[0][1][0]) / 2
    assert middle == pytest.approx(standard_frame(15, 1000, WIDE).x(5.5), abs=0.11)


def test_a_spike_of_known_height_is_crossed_out_there_or_at_the_frame_s_edge_and_only_for_its_own_probe() -> None:
    """Two probes; the rim's spikes of 900 °C and 1371.75 °C, the second above the frame's 1000 °C."""
    rim = curve_of(TWELVE_MINUTES, "rim")
    repairs = [Repair("spike", "", minute, "", "rim", celsius) for minute, celsius in ((3.0, 900.0), (8.0, 1371.75))]
    made = firing(curve_of(TWELVE_MINUTES), rim, repairs=repairs)
    drawing = drawing_of(chart_of(made, WINDOW, "a", "b"), "wide")
    strokes = points_of(path_of(drawing, "chart-cross") or "")
    frame = standard_frame(15, 1000, WIDE)
    heights = [(line[0][1] + line[1][1]) / 2 for line in strokes[::2]]
    assert heights == pytest.approx([frame.y(900.0), WIDE.top], abs=0.2)
    assert sum("chart-cross" in (path.get("class") or "") for path in drawing.iter(f"{SVG}path")) == 1


@pytest.mark.parametrize(("kind", "marks"), [("lone", 1), ("pulled out", 1), ("frozen", 2), ("topped out", 0)])
def test_a_doubted_reading_is_marked_by_a_square_and_a_stretch_by_two(kind: str, marks: int) -> None:
    until = 9.0 if kind == "frozen" else None
    made = firing(curve_of(TWELVE_MINUTES), repairs=[Repair(kind, "", 6.0, "700", "wall", 700.0, until)])
    drawing = drawing_of(chart_of(made, WINDOW, "a", "b"), "wide")
    squares = points_of(path_of(drawing, "chart-doubt") or "")
    assert len(squares) == marks
    assert ("A small square" in caption_of(made, WINDOW)) is (marks > 0)


def test_on_the_phone_events_are_numbers_and_the_list_has_their_words() -> None:
    events = [(12, "raked open"), (0.5, "caught"), (-3, "warmed"), (95, "drawn")]
    markup = chart_of(firing(curve_of(TWELVE_MINUTES), events=events), WINDOW, "a", "b")
    lettering = texts_of(drawing_of(markup, "phone"))
    assert {"1", "2", "3", "4"} <= set(lettering)
    assert "raked open" not in lettering
    (listed,) = parsed(markup).iter(f"{SVG}ol")
    assert "chart-with-phone" in (listed.get("class") or "").split()
    words = ["before lighting: warmed", "caught", "raked open", "later, at 1 h 35: drawn"]
    assert [item.text for item in listed] == words
    assert set(words) <= set(texts_of(drawing_of(markup, "wide")))


def test_where_events_are_too_many_for_words_the_list_stands_beside_the_wide_drawing_too() -> None:
    markup = chart_of(cases()["many events"], WINDOW, "a", "b")
    (listed,) = parsed(markup).iter(f"{SVG}ol")
    assert listed.get("class") == "chart-events chart-with-wide chart-with-middling chart-with-phone"
    assert len(list(listed)) == 30


def test_lit_at_the_first_minute_needs_no_flag_beside_the_scales_own_word() -> None:
    chart = chart_of(firing(curve_of(TWELVE_MINUTES), events=[(0, "Lit"), (3, "lit the far side")]), WINDOW, "a", "b")
    lettering = texts_of(drawing_of(chart, "wide"))
    assert "Lit" not in lettering
    assert "lit the far side" in lettering


def test_hostile_event_words_stay_words() -> None:
    markup = chart_of(cases()["three probes"], WINDOW, "a", "b")
    assert "<script" not in markup
    (listed,) = parsed(markup).iter(f"{SVG}ol")
    assert next(iter(listed)).text == '"><script>alert(1)</script><style>*{}</style> onload=x'


def test_every_probe_has_its_name_and_the_others_a_line_form_of_their_own() -> None:
    drawing = drawing_of(chart_of(cases()["three probes"], WINDOW, "a", "b"), "wide")
    assert {"wall", "crown"} <= set(texts_of(drawing))
    assert path_of(drawing, "chart-s2")
    assert path_of(drawing, "chart-s3")


def test_where_all_words_find_room_no_list_is_needed_on_a_wide_screen() -> None:
    markup = chart_of(firing(curve_of(TWELVE_MINUTES), events=[(4.5, "red")]), WINDOW, "a", "b")
    (listed,) = parsed(markup).iter(f"{SVG}ol")
    assert listed.get("class") == "chart-events chart-with-phone"


@pytest.mark.parametrize("events", [((3.0, "wind from the west"), (4.0, "more hazel on"), (5.0, "a crack heard")),
                                    tuple((at * 0.8, f"event {at}, some words") for at in range(15))])  # fmt: skip
def test_flags_keep_off_one_another_and_off_the_curve(events: tuple[tuple[float, str], ...]) -> None:
    """No two flags share a pixel and none stands on the line; where words stand is worked out from their x and y."""
    drawing = drawing_of(chart_of(firing(curve_of(TWELVE_MINUTES), events=events), WINDOW, "a", "b"), "wide")
    frame = standard_frame(15, 1000, WIDE)
    flags = [text for text in drawing.iter(f"{SVG}text") if text.text in {words for _, words in events}]
    assert len(flags) >= 3
    places = []
    for text in flags:
        x, y, width = float(text.get("x") or 0), float(text.get("y") or 0), words_width(text.text or "", 14)
        left = x - width if text.get("text-anchor") == "end" else x
        places.append((left, y - 11, left + width, y + 3))
    for (left, top, right, bottom), (left_2, top_2, right_2, bottom_2) in combinations(places, 2):
        assert right <= left_2 or right_2 <= left or bottom <= top_2 or bottom_2 <= top
    minutes, celsius = zip(*TWELVE_MINUTES, strict=True)
    columns = np.arange(44, frame.x(12), 0.5)
    rows = frame.y(0) + frame.y_step * np.interp((columns - 44) / frame.x_step, minutes, celsius)
    for left, top, right, bottom in places:
        beside = rows[(columns >= left) & (columns <= right)]
        assert not np.any((beside > top) & (beside < bottom))


@pytest.mark.parametrize("name", ["nothing", "events alone", "before lighting"])
def test_a_fire_without_a_curve_has_an_empty_frame_that_says_so(name: str) -> None:
    drawing = drawing_of(chart_of(cases()[name], WINDOW, "a", "b"), "wide")
    assert "no curve kept" in texts_of(drawing)
    assert path_of(drawing, "chart-line") is None


def test_one_reading_is_a_dot() -> None:
    drawing = drawing_of(chart_of(cases()["one reading"], WINDOW, "a", "b"), "wide")
    frame = standard_frame(30, 1000, WIDE)
    assert path_of(drawing, "chart-dots") == f"M{number(frame.x(25))} {number(frame.y(780))}h0"


def test_a_frosty_start_dips_just_below_the_ground_line() -> None:
    """Worked by hand: −12 °C is 3.5 pixels below 0 °C where 1000 °C are 294 pixels."""
    drawing = drawing_of(chart_of(cases()["frost"], (None, None), "a", "b"), "wide")
    start = points_of(path_of(drawing, "chart-line") or "")[0][0]
    assert start[1] == pytest.approx(standard_frame(15, 1000, WIDE).ground + 3.5, abs=0.1)


def test_the_window_is_said_by_its_edges_and_by_the_one_it_has() -> None:
    markup = {
        window: " ".join(texts_of(drawing_of(chart_of(NO_CURVES, window, "a", "b"), "wide")))
        for window in (WINDOW, (700.0, None), (None, 900.0), (None, None))
    }
    assert "working window, 640–780 °C" in markup[WINDOW]
    assert "working window, from 700 °C" in markup[(700.0, None)]
    assert "working window, up to 900 °C" in markup[(None, 900.0)]
    assert "window" not in markup[(None, None)]


def test_the_caption_names_only_the_marks_that_are_there() -> None:
    plain = caption_of(firing(curve_of(TWELVE_MINUTES)), (None, None))
    assert plain == "One probe. The frame is one of a few that all curves share: 15 minutes by 1000 °C."
    assert "Thick" not in caption_of(firing(curve_of([(0, 10), (9, 620)])), WINDOW)
    assert caption_of(cases()["three probes"], WINDOW).startswith("Three probes; “wall” stands for the ware.")
    full = caption_of(cases()["by hand"], WINDOW)
    assert "Thick: inside the working window 640–780 °C." in full
    assert "95 times in 100" in full
    assert "A cross" in full


@pytest.mark.parametrize("name", cases())
def test_a_tiny_curve_is_sound_and_hidden_from_screen_readers(name: str) -> None:
    root = ElementTree.fromstring(small_curve(cases()[name].ware_curve, WINDOW))
    assert root.get("aria-hidden") == "true"
    assert not [part for part in root.iter() if part.get("id") or part.get("style")]


def test_a_tiny_curve_read_by_hand_is_under_1200_bytes() -> None:
    minutes = range(60)
    curve = curve_of([(minute, 20 + 760 * np.sin(minute / 40)) for minute in minutes], own_sd=5)
    assert len(small_curve(curve, WINDOW).encode()) < 1200


def test_a_tiny_curve_tells_the_duration_of_its_frame() -> None:
    assert "15 min" in small_curve(curve_of(TWELVE_MINUTES), WINDOW)
    assert "1 h" in small_curve(curve_of(TWELVE_MINUTES), WINDOW, minutes=60)


def test_a_tiny_curve_in_a_frame_too_short_ends_in_an_arrow() -> None:
    curve = curve_of([(0, 10), (40, 900)])
    root = ElementTree.fromstring(small_curve(curve, WINDOW, minutes=30))
    arrow = next(part for part in root if part.get("class") == "chart-flag")
    assert points_of(arrow.get("d") or "")[0][1][0] == pytest.approx(standard_frame(30, 1000, SMALL).right)


def test_a_list_row_without_a_curve_says_so() -> None:
    assert "no curve kept" in small_curve(None, WINDOW)
