"""The chart of rates, outcome marks, sections and profiles, preview pictures."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ElementTree
from itertools import product

import pytest
from PIL import Image

from builder.archive.archive import Rate
from builder.charts.fire_drawings import fire_drawing
from builder.charts.marks import fire_mark, mark_sprite, pot_mark, pot_marks
from builder.charts.preview import SIZE, preview_picture
from builder.charts.profiles import FORMS, form_drawn, pot_profile
from builder.charts.rate_chart import percent, rate_chart
from tests.charts.curves import SVG, TWELVE_MINUTES, curve_of, drawing_of, parsed, texts_of


def rate_of(successes: int, pieces: int, low: float | None, high: float | None, unjudged: int = 0) -> Rate:
    rate = successes / pieces if pieces else None
    return Rate("m", "success", min(pieces, 3), pieces, successes, unjudged, rate, low, high, None, None, "by hand")


ROWS = (
    ("Trench", rate_of(52, 71, 0.59, 0.84)),
    ("Kiln & <pit>", rate_of(1, 1, 0.2, 1.0)),
    ("not recorded", rate_of(13, 14, 0.66, 0.99)),
    ("Bonfire", rate_of(0, 0, None, None, 4)),
)


@pytest.mark.parametrize("width", ["wide", "middling", "phone"])
def test_a_bar_covers_its_interval_and_its_stroke_the_rate_on_a_scale_from_0_to_100(width: str) -> None:
    """Expected places worked out from the columns of the axes, read from the numbers 0 and 100 % of the drawing."""
    drawing = drawing_of(rate_chart(ROWS, "a", "b"), width)
    scale = next(group for group in drawing.iter(f"{SVG}g") if group.get("class") == "chart-number")
    places = {text.text: float(text.get("x") or 0) for text in scale}
    zero, full = places["0"], places["100 %"]
    bars = [bar for bar in drawing.iter(f"{SVG}rect") if (bar.get("class") or "").startswith("chart-interval")]
    first = bars[0]
    start, length = float(first.get("x") or 0), float(first.get("width") or 0)
    assert start == pytest.approx(zero + 0.59 * (full - zero), abs=0.06)
    assert start + length == pytest.approx(zero + 0.84 * (full - zero), abs=0.11)
    strokes = [path.get("d") or "" for path in drawing.iter(f"{SVG}path") if path.get("class") == "chart-stroke"]
    column = float(re.match(r"M([\d.]+)", strokes[0]).group(1))  # type: ignore[union-attr]
    assert column == pytest.approx(zero + 52 / 71 * (full - zero), abs=0.06)


def test_every_row_says_rate_interval_pieces_and_firings_in_its_order() -> None:
    lettering = texts_of(drawing_of(rate_chart(ROWS, "a", "b"), "wide"))
    assert lettering[3:7] == ["Trench", "73 %", "59 to 84 %", "52 of 71 pieces, 3 firings"]
    assert lettering[7:11] == ["Kiln & <pit>", "100 %", "20 to 100 %", "1 of 1 piece, 1 firing"]


def test_a_row_without_a_judged_piece_says_so_and_has_no_bar() -> None:
    drawing = drawing_of(rate_chart(ROWS[3:], "a", "b"), "phone")
    assert "no piece judged yet, 4 not judged" in texts_of(drawing)
    assert not [part for part in drawing.iter() if (part.get("class") or "") in ("chart-interval", "chart-stroke")]


@pytest.mark.parametrize(("width", "grown"), [("wide", 8), ("middling", 17), ("phone", 17)])
def test_a_rate_with_unjudged_pieces_says_so_in_a_line_of_its_own(width: str, grown: int) -> None:
    """The row grows by the room for that line, so that nothing below it is overwritten."""
    plain, untold = (
        drawing_of(rate_chart([("Trench", rate_of(52, 71, 0.59, 0.84, unjudged))], "a", "b"), width)
        for unjudged in (0, 12)
    )
    assert "12 not judged" in texts_of(untold)
    assert "12 not judged" not in texts_of(plain)
    heights = [float((one.get("viewBox") or "").split()[3]) for one in (plain, untold)]
    assert heights[1] - heights[0] == grown


def test_a_row_of_failures_alone_is_not_known() -> None:
    failed = Rate("m", "success", 1, 2, 0, 3, None, None, None, None, None, "by hand")
    assert "not known: 2 failed, 3 not judged" in texts_of(drawing_of(rate_chart([("Pit", failed)], "a", "b"), "wide"))


def test_only_the_group_known_as_not_recorded_is_dashed() -> None:
    drawing = drawing_of(rate_chart(ROWS, "a", "b"), "wide")
    assert [part.get("class") for part in drawing.iter(f"{SVG}rect")] == [
        "chart-interval",
        "chart-interval",
        "chart-interval-unknown",
    ]


def test_two_charts_of_rates_share_no_id_and_carry_no_style() -> None:
    root = parsed(rate_chart(ROWS, "a", "b") + rate_chart(ROWS, "c", "d") + rate_chart((), "e", "f"))
    ids = [part.get("id") for part in root.iter() if part.get("id")]
    assert len(ids) == len(set(ids)) == 18
    assert not [part for part in root.iter() if part.get("style")]


@pytest.mark.parametrize(
    ("share", "words"), [(0, "0 %"), (1, "100 %"), (0.727, "73 %"), (0.997, "99.7 %"), (0.004, "0.4 %")]
)
def test_only_none_and_all_are_written_as_0_and_100_percent(share: float, words: str) -> None:
    assert percent(share) == words


def test_every_mark_points_to_a_symbol_of_the_sprite() -> None:
    symbols = {part.get("id") for part in parsed(mark_sprite()).iter(f"{SVG}symbol")}
    survivals = ("sound", "cracked", "spalled", "broken", "unjudged", "slumped")
    marks = [pot_mark(survival, verdict) for survival, verdict in product(survivals, ("yes", "no", "unjudged"))]
    marks += [fire_mark(kind) for kind in ("ground", "pit", "trench", "kiln", '"><script>')]
    for mark in marks:
        assert ElementTree.fromstring(mark)[0].get("href", "").removeprefix("#") in symbols


def test_outcomes_differ_by_shape_and_not_only_by_colour() -> None:
    """Seven things a mark can say, seven symbols."""
    said = [
        ("sound", "yes"), ("sound", "no"), ("sound", "unjudged"), ("cracked", "no"), ("spalled", "no"),
        ("broken", "no"), ("unjudged", "unjudged"),
    ]  # fmt: skip
    shapes = {ElementTree.fromstring(pot_mark(*outcome))[0].get("href") for outcome in said}
    assert len(shapes) == 7


def test_a_row_of_marks_has_one_for_each_piece() -> None:
    row = parsed(pot_marks([("sound", "yes", 3), ("cracked", "no", 2)]))
    assert len(list(row.iter(f"{SVG}svg"))) == 5


def test_the_sections_of_all_fires_share_one_ground_line() -> None:
    """Side by side they make one horizon: same size, the line at row 128 from edge to edge."""
    for kind in ("ground", "pit", "trench", "kiln", "unheard of"):
        root = ElementTree.fromstring(fire_drawing(kind))
        assert root.get("viewBox") == "0 -36 240 224"
        line = next(part.get("d") or "" for part in root if part.get("class") == "fire-ground")
        assert line.startswith("M0 128")


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("survival", ["sound", "cracked", "spalled", "broken", "unjudged", "slumped"])
def test_every_profile_is_sound_and_stands_on_its_lower_edge(form: str, survival: str) -> None:
    root = ElementTree.fromstring(pot_profile(form, survival))
    height = FORMS[form][-1][1]
    assert float(root.get("height") or 0) == pytest.approx(height + 3)
    assert f" {height + 3:g}) scale(1 -1)" in (root[0].get("transform") or "")
    assert not [part for part in root.iter() if part.get("style") or part.get("id")]


@pytest.mark.parametrize(
    ("words", "form"),
    [("jar", "jar"), ("Seed jars", "jar"), ("cooking pot", "pot"), ("test tiles", "tile"), ("bowl, lugged", "bowl"),
     ("dishes", "dish"), ("", "pot"), (None, "pot"), ("thing of no name", "pot"), ("figurine", "figure")],
)  # fmt: skip
def test_a_form_is_read_from_the_potters_words(words: str | None, form: str) -> None:
    assert form_drawn(words) == form


def test_a_preview_is_a_png_of_the_usual_size_and_the_same_to_the_byte() -> None:
    curve = curve_of(TWELVE_MINUTES)
    first = preview_picture("Pale jar", 27, curve, (640, 780))
    assert first == preview_picture("Pale jar", 27, curve, (640, 780))
    with Image.open(io.BytesIO(first)) as picture:
        assert (picture.format, picture.size) == ("PNG", SIZE)
    assert len(first) < 40_000


def test_a_preview_shows_the_curve_the_band_and_the_words_in_their_colours() -> None:
    with Image.open(io.BytesIO(preview_picture("A", 1, curve_of(TWELVE_MINUTES), (640, 780)))) as picture:
        colours = {colour for _, colour in picture.convert("RGB").getcolors(1 << 16) or []}
    assert {(0xE8, 0xE8, 0xE4), (0x23, 0x1E, 0x1B), (0xE6, 0xD6, 0xBD), (0xC2, 0x4A, 0x16)} <= colours


def test_a_preview_needs_neither_a_curve_nor_a_window_nor_a_short_title() -> None:
    long_title = "Grubenbrand" * 60 + "\x00\n" + "and on " * 50
    for curve in (None, curve_of([(5, 300)])):
        assert preview_picture(long_title, 12345, curve, (None, None)).startswith(b"\x89PNG")
