"""The look's colours can be read in light, in dark and on paper, and are named in one place."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.publish.publish import theme_folder

STYLES = theme_folder() / "styles"
SHEETS = sorted(STYLES.glob("*.css"))


def _without_comments(path: Path) -> str:
    return re.sub(r"/\*.*?\*/", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)


def _colours(block: str) -> dict[str, str]:
    return dict(re.findall(r"--([a-z0-9-]+):\s*(#[0-9a-f]+);", block))


def _blocks() -> dict[str, dict[str, str]]:
    text = _without_comments(STYLES / "tokens.css")
    rules = re.findall(r"([^{}]*)\{([^{}]*)\}", text)
    light, dark_system, dark_chosen, paper = (_colours(body) for _, body in rules)
    return {"light": light, "dark by system": dark_system, "dark by choice": dark_chosen, "print": paper}


def _luminance(colour: str) -> float:
    """Relative luminance by WCAG 2.2 (the definition of "relative luminance")."""
    digits = colour[1:] if len(colour) == 7 else "".join(2 * digit for digit in colour[1:])
    parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio by WCAG 2.2 (the definition of "contrast ratio")."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


TEXT = ["ink", "second-ink", "ember", "soft-ware", "not-known"]
DRAWN = ["strong-rule", "hot-ember", "curve-1", "curve-2", "curve-3", "curve-4", "curve-5"]
SCHEMES = ["light", "dark by system", "dark by choice", "print"]


def test_the_measure_of_contrast_is_wcag_s() -> None:
    """Black on white is 21:1; #767676 on white is the well-known limit, 4.54:1 (WCAG 2.2, technique G18)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#fff") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_words_and_lines_stand_out_from_the_ground_and_the_leaf(scheme: str) -> None:
    """WCAG 2.2, AA: 4.5:1 for text (1.4.3), 3:1 for what is drawn (1.4.11)."""
    colours = _blocks()[scheme]
    for paper in ("ground", "leaf"):
        for name in TEXT:
            assert contrast(colours[name], colours[paper]) >= 4.5, f"{name} on {paper}"
        for name in DRAWN:
            assert contrast(colours[name], colours[paper]) >= 3.0, f"{name} on {paper}"
    assert contrast(colours["clay-ink"], colours["clay"]) >= 4.5
    assert contrast(colours["ink"], colours["clay"]) >= 4.5


def test_dark_is_the_same_whether_the_system_or_the_reader_chose_it() -> None:
    blocks = _blocks()
    assert blocks["dark by system"] == blocks["dark by choice"]
    assert {scheme: sorted(colours) for scheme, colours in blocks.items()} == dict.fromkeys(
        SCHEMES, sorted(blocks["light"])
    )


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda path: path.name)
def test_a_style_sheet_uses_only_names_that_are_defined(sheet: Path) -> None:
    defined = {name for path in SHEETS for name in re.findall(r"(--[a-z0-9-]+)\s*:", _without_comments(path))}
    without_fallback = re.findall(r"var\((--[a-z0-9-]+)\s*\)", _without_comments(sheet))
    assert set(without_fallback) <= defined


@pytest.mark.parametrize("sheet", [path for path in SHEETS if path.name != "tokens.css"], ids=lambda path: path.name)
def test_only_the_tokens_name_colours(sheet: Path) -> None:
    values = re.findall(r":[^;{}]*;", _without_comments(sheet))
    named = [value for value in values if re.search(r"#[0-9a-fA-F]{3,8}\b|\b(rgb|hsl|oklch)a?\(", value)]
    assert not named


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda path: path.name)
def test_a_style_sheet_asks_for_no_other_file(sheet: Path) -> None:
    assert not re.search(r"@import|@font-face|url\((?!#|'#|\"#|data:)", _without_comments(sheet))
