"""How a potter's name is shown: the one place where what is withheld of it is left behind."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import replace

from builder.base.codes import problem
from builder.base.located_yaml import Node, Scalar, Sequence
from builder.base.problem import Problem
from builder.settings import NOBODY, NOBODY_NAME, Potter, Settings

WAYS = ("full", "first", "initials", "key", NOBODY)
"""The whole name; its first word; its words' first letters; only the key that entries use; nothing at all."""


def shown_name(name: str, way: str, key: str) -> str:
    """Return as much of a name as its potter wants published.

    >>> shown_name("Wren Oddie", "first", "wren"), shown_name("Wren Oddie", "initials", "wren")
    ('Wren', 'W. O.')
    >>> shown_name("Wren Oddie", "key", "potter-3")
    'potter-3'
    """
    words = name.split()
    if way == NOBODY:
        return NOBODY_NAME
    if way == "key" or not words:
        return key
    if way == "first":
        return words[0]
    if way == "initials":
        return " ".join(f"{_initial(word)}." for word in words)
    return name


def _initial(word: str) -> str:
    """Return a word's first letter, together with the marks that belong to it."""
    letters = unicodedata.normalize("NFC", word.lstrip("'\"(-"))
    marks = next((at for at, sign in enumerate(letters[1:], 1) if not unicodedata.combining(sign)), len(letters))
    return letters[:marks]


def set_apart(settings: Settings, root: Node | None) -> Settings:
    """Put one `nobody` in the place of all potters who are shown as nobody; only the checks still know their keys."""
    names = _written_names(root)
    unnamed = {
        key: names.get(f"potters.{key}.name", "") for key, one in settings.potters.items() if one.shown == NOBODY
    }
    if not unnamed:
        return settings
    named = {key: one for key, one in settings.potters.items() if key not in unnamed}
    return replace(settings, potters={**named, NOBODY: Potter(NOBODY, NOBODY_NAME, shown=NOBODY)}, unnamed=unnamed)


def _written_names(root: Node | None) -> dict[str, str]:
    """Return the name of each potter as it stands in the file, by its dotted path."""
    return {path: value.text for path, value in _texts(root) if re.fullmatch(r"potters\.[^.]+(\.name)?", path)}


def told_elsewhere(root: Node | None, potters: Mapping[str, Potter]) -> Iterator[Problem]:
    """Yield a problem for each text of the settings that would tell a name which a potter withholds."""
    texts = tuple(_texts(root))
    names = _written_names(root)
    for name_at, name in names.items():
        potter = potters.get(name_at.split(".")[1])
        for path, value in texts:
            own = path.startswith(f"{name_at.removesuffix('.name')}.")
            if potter and path not in names and _tells(value.text, name, potter, own):
                yield problem(
                    "settings-value",
                    value.place,
                    path,
                    f"These words tell the name that `{potter.key}` withholds with `shown: {potter.shown}`.",
                    "Take the name out of them, or write `shown: full`.",
                )


def _texts(node: Node | None, path: str = "") -> Iterator[tuple[str, Scalar]]:
    """Yield every text with its dotted path."""
    if isinstance(node, Scalar):
        yield path, node
    elif isinstance(node, Sequence):
        for item in node.items:
            yield from _texts(item, path)
    elif node is not None:
        for key, value in node.items:
            yield from _texts(value, f"{path}.{key.text}".lstrip("."))


def _tells(text: str, name: str, potter: Potter, own: bool) -> bool:
    """Tell whether words give away a withheld name: the whole of it, or in a potter's own lines a part."""
    withheld = [word for word in _words(name) if word not in _words(potter.name)]
    if potter.shown == "full" or not withheld:
        return False
    said = _words(text)
    if own:
        return any(word in said for word in withheld if len(word) > 1)
    whole = _words(name)
    return any(said[at : at + len(whole)] == whole for at in range(len(said) - len(whole) + 1))


def _words(text: str) -> list[str]:
    return re.findall(r"\w+", unicodedata.normalize("NFC", text).casefold())
