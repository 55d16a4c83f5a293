"""What a group decided, read from its published settings as strictly as an archive's own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from builder.base.codes import problem
from builder.base.located_yaml import Node, Scalar, compose
from builder.base.problem import Place, Problem, has_errors
from builder.checks.fault import Fault, shown
from builder.checks.hidden import hidden_fault
from builder.checks.values import read_licence
from builder.entries.front_matter import read_text
from builder.exports.published_settings import FORM
from builder.settings import Settings
from builder.settings_file import PARTS, settings_of
from builder.settings_reader import SettingsReader

_LONGEST_NAME = 120
"""Of names, titles and words; sentences may be longer."""
_LONGEST_SENTENCES = 3_000
_MOST_POTTERS = 5_000
_MOST_METHODS = 200
_AGAIN = "Ask that group to correct it in its site_config.yml, and to publish again."


def read_published(path: Path, file: str) -> tuple[Settings | None, tuple[Problem, ...]]:
    """Read a group's published settings; None where they cannot be used. `file` is what problems call it."""
    text, refused = read_text(path, file)
    if refused:
        return None, (refused,)
    root, problems = compose(text, file)
    if root is None or has_errors(problems):
        return None, problems or (problem("source-words", Place(file), "", "There is nothing in it.", _AGAIN),)
    reader = SettingsReader(file, list(problems))
    parts = {key: node for key, (_, node) in reader.group(root, "").items()}
    form = _form_problem(parts.pop("form", None), file)
    if form is not None:
        return None, (form,)
    settings = settings_of(reader, {key: node for key, node in parts.items() if key in PARTS}, potters=False)
    found = (*reader.problems, *_strange(settings, file))
    return (None if has_errors(found) else _with_licence(settings)), found


def _form_problem(node: Node | None, file: str) -> Problem | None:
    """Say that the settings are of another form than this program reads; None where they are of this one."""
    form = node.text if isinstance(node, Scalar) else ""
    if form == FORM:
        return None
    place = Place(file) if node is None else node.place
    message = f"This archive was published in the form {shown(form[:20])}; this program reads the form `{FORM}`."
    help_ = "Bring the older of the two programs up to date, and publish that archive again."
    return problem("source-form", place, "form", message, help_)


def _with_licence(settings: Settings) -> Settings:
    licence = read_licence(settings.group.licence)
    return settings if isinstance(licence, Fault) else replace(settings, group=replace(settings.group, licence=licence))


def _strange(settings: Settings, file: str) -> Iterator[Problem]:
    """Yield a problem for each text that cannot be shown, and for too many of anything."""
    for path, text, longest in _texts(settings):
        hidden = hidden_fault(text)
        if hidden is not None:
            yield problem("source-words", Place(file), path, hidden.message, _AGAIN)
        elif len(text) > longest:
            message = f"`{path[:80]}` is {len(text):,} characters long; {longest:,} is the most that is shown of it."
            yield problem("source-words", Place(file), path[:80], message, _AGAIN)
    for name, found, most in (
        ("potters", settings.potters, _MOST_POTTERS),
        ("methods", settings.methods, _MOST_METHODS),
    ):
        if len(found) > most:
            message = f"There are {len(found):,} {name}; {most:,} is the most that a source may have."
            yield problem("source-words", Place(file), name, message, _AGAIN)
    licence = read_licence(settings.group.licence)
    if isinstance(licence, Fault):
        yield problem("licence", Place(file), "group.licence", licence.message, licence.help)


def _texts(settings: Settings) -> Iterator[tuple[str, str, int]]:
    """Yield every text that may be shown, with its dotted path and how long it may be."""
    group = settings.group
    for name in ("name", "title", "url", "language"):
        yield f"group.{name}", getattr(group, name), _LONGEST_NAME
    for name in ("about", "notice"):
        yield f"group.{name}", getattr(group, name), _LONGEST_SENTENCES
    for key, potter in settings.potters.items():
        yield f"potters.{key}", key, _LONGEST_NAME
        yield f"potters.{key}.name", potter.name, _LONGEST_NAME
        yield f"potters.{key}.about", potter.about, _LONGEST_SENTENCES
    for key, method in settings.methods.items():
        yield f"methods.{key}", key, _LONGEST_NAME
        yield f"methods.{key}.name", method.name, _LONGEST_NAME
        yield f"methods.{key}.summary", method.summary, _LONGEST_SENTENCES
        for outcome, words in method.success.items():
            yield from ((f"methods.{key}.success.{outcome}", word, _LONGEST_NAME) for word in words)
    for path, words in settings.words.items():
        yield from ((f"words.{path}", word, _LONGEST_NAME) for word in words)
