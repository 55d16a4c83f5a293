"""The templates keep to what every reader of Jinja knows, so that another generator can take the site over."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

THEME = Path(__file__).parents[2] / "theme"
PAGES = sorted([*THEME.glob("*.html"), *(THEME / "partials").glob("*.html")])
"""What the generator itself fills in; the fragments are filled in before it sees anything."""

_PYTHON = re.compile(
    r"\.(startswith|endswith|split|strip|replace|items|keys|values|get|format|join|lower|upper|title)\("
)


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.name)
def test_a_page_template_calls_no_method_of_python(path: Path) -> None:
    expressions = re.findall(r"\{[{%].*?[%}]\}", path.read_text(encoding="utf-8"), re.DOTALL)
    assert [one for one in expressions if _PYTHON.search(one)] == []
