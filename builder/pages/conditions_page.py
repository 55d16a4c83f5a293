"""What goes with success: every condition that was tried, found or not, and what such numbers cannot tell."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from builder.archive.archive import Archive
from builder.archive.conditions import FALSE_DISCOVERIES, SHUFFLES, Tried
from builder.archive.effects import Effect
from builder.archive.findings import Findings
from builder.charts.interval_marks import difference_mark
from builder.pages.finding_words import (
    chance_words,
    condition_label,
    hundred_number,
    of_a_hundred,
    side_words,
    sides_named,
)
from builder.pages.fragments import fill
from builder.pages.numbers import counted, in_words, listed, percent
from builder.publish.site import Page

PAGE = "conditions"


@dataclass(frozen=True, slots=True)
class TriedRow:
    """One condition as the table shows it."""

    label: str
    sides: str
    """Where a number is parted: `7 mm or more against less`; empty for a word, which is there or not."""
    having: str
    """Its first side in counts: `19 of 51 pieces, 11 firings`."""
    lacking: str
    more: str
    """How many more of a hundred succeed on the first side; empty where no method has both."""
    between: str
    mark: Markup
    """The difference drawn; empty likewise."""
    p: str
    firings: int
    missing: int
    found: bool


def conditions_page(archive: Archive, findings: Findings) -> Page:
    """Make the page of everything that was tried against success."""
    sentence = conditions_sentence(findings)
    ordered = sorted(findings.tried, key=lambda one: (one.p, one.condition))
    return Page(
        path=PAGE,
        title="What goes with success",
        description=sentence,
        lead=fill(
            "conditions.html",
            PAGE,
            sentence=sentence,
            found=[found_sentence(one) for one in ordered if one.found],
            rows=[tried_row(one) for one in ordered],
            shuffles=f"{SHUFFLES:,}",
            share=percent(FALSE_DISCOVERIES),
            firings=counted(len(archive.records), "firing"),
        ),
        section="results",
        kind="results",
        searched=False,
    )


def conditions_sentence(findings: Findings) -> str:
    """Say in a sentence how many conditions were tried and which of them stand."""
    if not findings.tried:
        return "No condition has been recorded often enough yet to be tried against success."
    tried = counted(len(findings.tried), "condition")
    found = [condition_label(one.condition) for one in findings.tried if one.found]
    if not found:
        return (
            f"{tried} {'was' if len(findings.tried) == 1 else 'were'} tried against success, and none stands once all "
            "that was tried is counted in. That says that the firings are too few to tell, not that nothing matters."
        )
    stands = f"{in_words(len(found))} {'stand' if found[1:] else 'stands'}"
    return f"Of {tried} tried against success, {stands}: {listed(found)}."


def found_sentence(tried: Tried) -> str:
    """Say one condition that stands: its two sides, the difference, and what the interval allows."""
    label = condition_label(tried.condition)
    if tried.effect is None:
        return f"{label}: goes with {'success' if tried.direction > 0 else 'failure'}, p = {chance_words(tried.p)}."
    with_it, without = sides_named(tried)
    return (
        f"{label}. {with_it[0].upper()}{with_it[1:]}: {side_words(tried.effect.having)}; {without}: "
        f"{side_words(tried.effect.lacking)}. Within methods that is "
        f"{of_a_hundred(tried.effect.low, tried.effect.high)} of a hundred (p = {chance_words(tried.p)})."
    )


def tried_row(tried: Tried) -> TriedRow:
    """Make one condition's row."""
    effect, (with_it, without) = tried.effect, sides_named(tried)
    return TriedRow(
        label=condition_label(tried.condition),
        sides="" if effect is None or effect.split is None else f"{with_it} against {without}",
        having="" if effect is None else side_words(effect.having),
        lacking="" if effect is None else side_words(effect.lacking),
        more="" if effect is None else hundred_number(effect.difference),
        between="" if effect is None else of_a_hundred(effect.low, effect.high),
        mark=_mark(effect),
        p=chance_words(tried.p),
        firings=tried.firings,
        missing=tried.missing,
        found=tried.found,
    )


def _mark(effect: Effect | None) -> Markup:
    if effect is None:
        return Markup("")
    return Markup(difference_mark(effect.difference, effect.low, effect.high))  # noqa: S704
