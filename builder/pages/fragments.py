"""The HTML fragments of theme/fragments, filled in by one Jinja2 environment that escapes and allows no gaps."""

from __future__ import annotations

import re
from functools import cache, partial
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from builder.charts.marks import mark_sprite
from builder.pages import marked_numbers, numbers
from builder.pages.addresses import page_file, relative
from builder.pages.degree_words import degree_words
from builder.publish.compiled import Compiled, Templates


def fragments_folder() -> Path:
    """Folder of the fragments: beside the package in a checkout, inside it once installed."""
    inside = Path(__file__).parents[1] / "theme" / "fragments"
    return inside if inside.is_dir() else Path(__file__).parents[2] / "theme" / "fragments"


@cache
def environment() -> Environment:
    """The environment, made once; every number that a fragment writes goes through its filters."""
    found = Templates(
        loader=FileSystemLoader(fragments_folder()),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        bytecode_cache=Compiled(),
    )
    found.filters |= {
        "with_code": with_code,
        "clock": numbers.clock,
        "day": numbers.day,
        "degrees": degree_words,
        "day_and_month": numbers.day_and_month,
        "in_words": numbers.in_words,
        "listed": numbers.listed,
        "percent": numbers.percent,
        "plain": numbers.plain,
        "subscripts": subscripts,
        "temperature": marked_numbers.temperature,
    }
    found.globals |= {
        "counted": numbers.counted,
        "percent_range": numbers.percent_range,
        "sprite": lambda: Markup(mark_sprite()),  # noqa: S704
        "window": marked_numbers.window,
    }
    return found


def fill(fragment: str, page: str, **values: object) -> str:
    """Fill in a fragment for a page; in it `to(page, anchor)` and `file(path)` point from that page."""
    template = environment().get_template(fragment)
    return template.render(page=page, to=partial(_to, page), file=partial(relative, page), **values)


def with_code(words: str) -> Markup:
    """Escape words of our own in which `what is typed` stands between backticks, and mark that as code.

    >>> str(with_code("`none` on a piece without paint"))
    '<code>none</code> on a piece without paint'
    """
    parts = words.split("`")
    marked = (Markup("<code>{}</code>").format(part) if at % 2 else escape(part) for at, part in enumerate(parts))
    return Markup("").join(marked)


def subscripts(html: Markup) -> Markup:
    """Set what follows the underscore of a one-letter sign lower: `T_max`.

    >>> str(subscripts(Markup("T_max − t_a")))
    'T<sub>max</sub> − t<sub>a</sub>'
    """
    return Markup(re.sub(r"\b([A-Za-z])_(\w+)", r"\1<sub>\2</sub>", str(html)))  # noqa: S704 - it is HTML already


def _to(here: str, there: str, anchor: str = "") -> str:
    return relative(here, page_file(there), anchor)
