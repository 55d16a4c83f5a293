"""What the code says of itself: a calculation's docstring and a rule's constants, for the page of figures.

The page is made from the very words that stand beside the numbers, so that the two cannot drift apart.
"""

from __future__ import annotations

import ast
import inspect
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from types import ModuleType

from markupsafe import Markup, escape

from builder.pages.numbers import MINUS


@dataclass(frozen=True, slots=True)
class Calculation:
    """One calculation in the words of its docstring."""

    name: str
    """Where it stands: `heat.equivalent.equivalent_1h_c`."""
    summary: Markup
    paragraphs: tuple[Markup, ...]


@dataclass(frozen=True, slots=True)
class Held:
    """One number that the code holds, or several that belong together."""

    name: str
    value: str
    meaning: Markup
    """The sentence below it in the code, its source included."""


def calculation(function: Callable[..., object]) -> Calculation:
    """Return a calculation's docstring without its example, in paragraphs."""
    text = inspect.cleandoc(function.__doc__ or "").partition(">>>")[0].strip()
    first, *rest = (" ".join(part.split()) for part in text.split("\n\n"))
    return Calculation(_where(function.__module__, function.__name__), _marked(first), tuple(map(_marked, rest)))


def held_numbers(module: ModuleType) -> tuple[Held, ...]:
    """Return every public constant of a module that is a number or numbers, with the sentence below it."""
    body = ast.parse(inspect.getsource(module)).body
    return tuple(held for node, below in pairwise(body) for held in _held(module, node, below))


def _held(module: ModuleType, node: ast.stmt, below: ast.stmt) -> Iterator[Held]:
    if not isinstance(node, ast.Assign) or not _is_words(below):
        return
    names = [name.id for name in ast.walk(node.targets[0]) if isinstance(name, ast.Name)]
    values = [getattr(module, name, None) for name in names]
    if all(name.isupper() and not name.startswith("_") for name in names) and all(map(_is_number, values)):
        told = " · ".join(_shown(value) for value in values)
        sentence = ast.literal_eval(below.value) if isinstance(below, ast.Expr) else ""
        where = _where(module.__name__, ", ".join(names))
        yield Held(where, told, _marked(" ".join(sentence.split())))


def _is_words(node: ast.stmt) -> bool:
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str)


def _is_number(value: object) -> bool:
    if isinstance(value, tuple):
        return bool(value) and all(map(_is_number, value))
    return isinstance(value, int | float) and not isinstance(value, bool)


def _shown(value: object) -> str:
    if isinstance(value, tuple):
        return ", ".join(_shown(one) for one in value)
    return f"{value:.12g}".replace("-", MINUS)


def _where(module: str, name: str) -> str:
    return f"{module.removeprefix('builder.')}: {name}"


def _marked(text: str) -> Markup:
    """Write words in HTML, what stands in backticks as code."""
    return Markup(re.sub(r"`([^`]+)`", r"<code>\1</code>", str(escape(text))))  # noqa: S704 - escaped before
