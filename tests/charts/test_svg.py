"""Elements, short paths and words of SVG."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree

import pytest

from builder.charts.svg import cut_words, element, escaped, identifier, number, path_data, words_width, wrapped_words
from tests.charts.curves import points_of


def test_hostile_words_come_back_as_the_words_they_were() -> None:
    """Worked by hand: the parser must give back the very words, and no element beside the one written."""
    words = "</text><script>alert('1')</script> & \"quoted\""
    root = ElementTree.fromstring(element("text", escaped(words), class_=words))
    assert root.text == words
    assert root.get("class") == words
    assert list(root) == []


def test_characters_that_xml_cannot_hold_are_left_out() -> None:
    """XML 1.0, section 2.2: no NUL, no other control character but tab and line ends, no lone surrogate."""
    assert escaped("a\x00b\x1bc\ud800d\ufffee\tf") == "abcde\tf"


def test_an_id_holds_only_letters_digits_and_hyphens() -> None:
    assert identifier('2026 "jar"/x') == "2026-jar-x"


@pytest.mark.parametrize(
    ("value", "written"),
    [(0.0, "0"), (-0.04, "0"), (12.34, "12.3"), (-0.5, "-0.5"), (830.0, "830"), (1234.56, "1234.6")],
)
def test_coordinates_are_written_to_a_tenth_without_a_minus_before_zero(value: float, written: str) -> None:
    assert number(value) == written


def test_a_path_read_back_lies_within_a_twentieth_of_a_pixel_of_its_points() -> None:
    """Relative steps must not let rounding add up: 500 steps of 0.0333 px, worked by hand from the rounding to 0.1."""
    points = [(at / 30, 100 - at / 7) for at in range(500)]
    for (x, y), (drawn_x, drawn_y) in zip(points, points_of(path_data(points))[0], strict=True):
        assert abs(x - drawn_x) <= 0.05 + 1e-9
        assert abs(y - drawn_y) <= 0.05 + 1e-9


def test_no_points_give_no_path() -> None:
    assert path_data([]) == ""


def test_long_words_are_cut_at_the_end_of_a_word() -> None:
    """Worked by hand: 16 letters hold `second ring of` and the ellipsis, not `wood`."""
    assert cut_words("second ring of wood", 16) == "second ring of…"
    assert cut_words("short  enough", 16) == "short enough"


def test_words_too_long_for_a_line_are_broken_and_then_cut() -> None:
    for words in ("a fire on damp ground under a bank of turf", "Feuerstellenbrandversuchsanordnungen" * 2):
        lines = wrapped_words(words, 120, 14)
        assert len(lines) == 2
        assert all(words_width(line, 14) <= 120 for line in lines)
        assert lines[1].endswith("…")


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize(
    "words",
    [
        "working window, 640–780 °C",
        "hottest, 812 °C",
        "flames over the rim",
        "gust, flames lie flat to the east",
        "Kiln",
    ],
)
def test_words_take_no_more_room_than_was_kept_for_them_in_a_wide_face(words: str, bold: bool) -> None:
    """Expected: widths measured by FreeType in DejaVu Sans, which is wider than every face the site names."""
    import matplotlib
    from PIL import ImageFont

    file = f"{matplotlib.get_data_path()}/fonts/ttf/DejaVuSans{'-Bold' if bold else ''}.ttf"
    measured = ImageFont.truetype(file, 140).getlength(words) / 10
    # The site's bold is 600, half way to DejaVu's 700.
    assert measured * (0.96 if bold else 1) <= words_width(words, 14, bold) * 1.02
    assert words_width(words, 14, bold) <= measured * 1.12
