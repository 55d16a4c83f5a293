"""Parsed to checked: every problem of an entry in one run, and a Firing where there is no error."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, replace

from builder.base.codes import problem
from builder.base.problem import Place, Problem, has_errors
from builder.checks.assemble import assemble, readings_only
from builder.checks.fault import Fault, shown
from builder.checks.firing import Firing
from builder.checks.found import Group
from builder.checks.hidden import hidden_in_story
from builder.checks.pieces import check_photos, check_pieces
from builder.checks.review import Review
from builder.checks.shape import ENTRY
from builder.checks.thermometers import check_readings, read_lit
from builder.checks.unnamed import check_unnamed
from builder.checks.walk import walk_group
from builder.checks.witness import check_cones
from builder.entries.find import EntryFile
from builder.entries.front_matter import ParsedEntry, read_entry
from builder.settings import Settings


@dataclass(frozen=True, slots=True)
class Checked:
    """What the check of one entry found."""

    firing: Firing | None
    """The firing; None where an error keeps it off the site."""
    problems: tuple[Problem, ...]
    """Every problem, in the order of the entry's lines."""
    readings_of: Firing | None = None
    """Where an error stands elsewhere but the readings' own fields are sound: a firing of nothing but its readings, so
    that their rows can be looked at in the same run. Never published."""
    entered: Group | None = None
    """Where each field was written; None where the front matter could not be read."""

    def placed(self, more: tuple[Problem, ...]) -> tuple[Problem, ...]:
        """Give later stages' problems, which know a field but not its line, the place where the field was written."""
        entered = self.entered
        if entered is None:
            return more
        return tuple(
            replace(each, place=entered.deepest(each.field)) if _needs_place(each, entered) else each for each in more
        )


def _needs_place(problem: Problem, entered: Group) -> bool:
    """Tell whether a problem knows its field only: it has no line, or a line of the entry and no column."""
    inside = problem.place.line is None or problem.place.file == entered.place.file
    return inside and problem.place.column is None and bool(problem.field)


def check_entry(entry: EntryFile, settings: Settings) -> Checked:
    """Read one entry and judge all of it."""
    link = _link_problem(entry)
    if link is not None:
        return Checked(None, (link,))
    return check_parsed(entry, read_entry(entry), settings)


def check_parsed(entry: EntryFile, parsed: ParsedEntry, settings: Settings) -> Checked:
    """Judge an entry that has been read already."""
    if parsed.root is None:
        return Checked(None, parsed.problems)
    review = Review(entry, settings, parsed.text.split("\n"), list(parsed.problems))
    found = walk_group(parsed.root, ENTRY, review)
    check_pieces(found, review)
    check_photos(found, review)
    check_readings(found, review)
    check_cones(found, review)
    readings = found.inside("readings")
    lit = None if readings is None else read_lit(readings, found, review)
    _check_date(found, review)
    _check_story(parsed, review)
    check_unnamed(parsed, review)
    problems = tuple(sorted(review.problems, key=lambda each: each.sort_key))
    if has_errors(problems):
        sound = readings is not None and not any(_hides_rows(each) for each in problems)
        alone = _with_unit(readings_only(found, entry.slug, entry.file, lit), settings) if sound else None
        return Checked(None, problems, alone, found)
    firing = assemble(found, entry.slug, entry.file, parsed.story, lit)
    return Checked(_with_unit(firing, settings), problems, None, found)


def _hides_rows(problem: Problem) -> bool:
    """Tell whether a problem stands in the way of looking at the rows: how their times count does not."""
    return problem.field.startswith("readings") and problem.field != "readings.time"


def _with_unit(firing: Firing, settings: Settings) -> Firing:
    """Hand on the unit that the group declared for bare temperatures, to readings that name none."""
    unit = {"C": "°C", "°C": "°C", "F": "°F", "°F": "°F"}.get(settings.units.get("temperature", ""))
    if unit is None or firing.readings is None:
        return firing
    return replace(firing, readings=replace(firing.readings, bare_unit=unit))


def _link_problem(entry: EntryFile) -> Problem | None:
    """Refuse an entry that is a link, or lies in a folder that is one, before anything of it is read."""
    if not entry.path.is_symlink() and not entry.folder.is_symlink():
        return None
    message = "The entry is a link to somewhere else; an archive keeps its own copy of everything."
    return problem("file-link", Place(entry.file), "", message, "Copy the folder or the file itself here.")


def _check_date(found: Group, review: Review) -> None:
    """Compare the date with the one that the folder's name begins with."""
    day, slug = found.day("date"), review.entry.slug
    begins_with_date = len(slug) > 10 and slug[:10].replace("-", "").isdigit() and slug[4] == slug[7] == "-"
    if day is None or not begins_with_date or slug.startswith(day.isoformat()):
        return
    message = f"The date is {shown(day.isoformat())}, and the folder's name begins with {shown(slug[:10])}."
    help_ = f"Write `date: {slug[:10]}`, or rename the folder `{day.isoformat()}{slug[10:]}`."
    review.report(Fault("date-folder", message, help_), found.at("date"), "date")


def _check_story(parsed: ParsedEntry, review: Review) -> None:
    hidden = hidden_in_story(parsed.story)
    if hidden is None:
        return
    at, named = hidden
    start = max(0, parsed.text.rfind(parsed.story)) + at
    line = parsed.text.count("\n", 0, start) + 1
    column = start - (parsed.text.rfind("\n", 0, start) + 1) + 1
    message = f"A character that cannot be seen stands in the story: {named}."
    help_ = "Delete the words around this place and type them again."
    review.report(Fault("hidden-character", message, help_), Place(review.entry.file, line, column), "")


def check_all_addresses(entries: Sequence[EntryFile]) -> tuple[Problem, ...]:
    """Find entries that would have one address on the site, also where only capitals or accents' spelling differ."""
    first: dict[str, EntryFile] = {}
    problems = []
    for entry in entries:
        address = unicodedata.normalize("NFC", unicodedata.normalize("NFKC", entry.slug).casefold())
        other = first.setdefault(address, entry)
        if other is not entry:
            message = f"{shown(entry.slug)} has the same address on the site as {shown(other.file)}."
            help_ = f"Rename the folder, to `{entry.slug}-2`, say."
            problems.append(problem("address-twice", Place(entry.file), "", message, help_))
    return tuple(problems)
