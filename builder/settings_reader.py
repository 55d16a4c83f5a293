"""Takes values out of the nodes of a settings file, and keeps what is wrong with them."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, field

from builder.base.codes import problem
from builder.base.located_yaml import Mapping, Node, Scalar, Sequence
from builder.base.problem import Place, Problem
from builder.base.quantity import Quantity, parse_quantity

KEY = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*\Z")
"""The form of a word that the group chooses and that becomes a part of addresses. Two hyphens in a row are in none."""
_ADDRESS = re.compile(r"https?://[^\s/]+(/\S*)?\Z")


@dataclass(slots=True)
class SettingsReader:
    """Takes values out of nodes and keeps what is wrong with them."""

    file: str
    """The file that is read, for what has no line."""
    problems: list[Problem] = field(default_factory=list)

    def fault(self, place: Place, path: str, message: str, help_: str, code: str = "settings-value") -> None:
        """Keep one fault with its place and its dotted path."""
        self.problems.append(problem(code, place, path, message, help_))

    def group(self, node: Node | None, path: str, known: tuple[str, ...] = ()) -> dict[str, tuple[Scalar, Node]]:
        """Return a mapping's items by key; with `known`, report the keys that are none of them."""
        if node is None or (isinstance(node, Scalar) and not node.text):
            return {}
        if not isinstance(node, Mapping):
            self.fault(node.place, path, f"`{path}` holds keys with values.", f"Write `{path}:` and the keys under it.")
            return {}
        for key, _ in node.items:
            if known and key.text not in known:
                close = difflib.get_close_matches(key.text, known, 1)
                self.fault(
                    key.place,
                    f"{path}.{key.text}".lstrip("."),
                    f"`{key.text}` is not a setting here.",
                    f"Did you mean `{close[0]}`?" if close else f"Settings here: {', '.join(known)}.",
                    "settings-unknown",
                )
        return {key.text: (key, value) for key, value in node.items}

    def text(self, node: Node | None, path: str, default: str = "") -> str:
        """Return words in one line."""
        if node is None:
            return default
        if isinstance(node, Scalar):
            return " ".join(node.text.split()) or default
        self.fault(node.place, path, f"`{path}` is words in one line.", f"Write `{path.rpartition('.')[2]}: words`.")
        return default

    def texts(self, node: Node | None, path: str) -> tuple[str, ...]:
        """Return a list of words; one word alone is a list too."""
        if node is None:
            return ()
        if isinstance(node, Sequence):
            return tuple(text for item in node.items if (text := self.text(item, path)))
        one = self.text(node, path)
        return (one,) if one else ()

    def quantity(self, node: Node | None, path: str, kind: str) -> Quantity | None:
        """Return a quantity of a kind; None where there is none, or none that can be read."""
        text = self.text(node, path)
        if node is None or not text:
            return None
        found = parse_quantity(text, kind)
        if isinstance(found, Quantity):
            return found
        self.fault(node.place, path, found.message, found.help)
        return None

    def address(self, node: Node, path: str) -> str:
        """Return the address of a site with a closing slash; empty where none is told, or none that could be one."""
        url = self.text(node, path)
        if url and not _ADDRESS.match(url):
            self.fault(
                node.place,
                path,
                f"`{url}` is no address of a site.",
                "Write the whole address: `https://example.org/ashbook/`.",
            )
            return ""
        return f"{url}/" if url and not url.endswith("/") else url
