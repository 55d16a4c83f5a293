"""The chart of success rates: an upright stroke for each rate, a grey bar for its interval, counts in words.

The rows stand in the order given and nothing in them counts or colours by size: it is no ranking. The scale runs from
0 to 100 % uncut. A row whose words are `not recorded` has a dashed bar: it is known only by what nobody wrote down.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.archive.archive import Rate
from builder.charts.svg import drawing, element, escaped, wrapped_words

NOT_RECORDED = "not recorded"
"""The words of a group that is known only by what nobody wrote down."""
NONE_JUDGED = "no piece judged yet"
_BAR = 8
_HEAD = 24
_LINE = 17
"""From one line of words to the next, in pixels."""
_LETTER = 14


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where the parts of a row stand in one of the drawings, in pixels."""

    key: str
    width: float
    words_width: float
    """Room for a row's words before they are broken into two lines."""
    axis: tuple[float, float]
    """Columns of 0 and 100 %."""
    row: float
    """Height of a row whose words take one line."""
    rate: float
    """Where the rates end, so that their figures stand below one another."""
    interval: float
    counts: float
    untold: float
    """What a row grows by where it says how many pieces were not judged."""
    stacked: bool = False
    """A phone's drawing: words, then the bar, then the counts, one below the other."""
    counts_in_two: bool = False


_COLUMNS = (
    _Columns("wide", 840, 200, (212, 464), 34, 530, 544, 644, 8),
    _Columns("middling", 560, 140, (150, 308), 42, 372, 386, 484, 17, counts_in_two=True),
    _Columns("phone", 340, 264, (4, 336), 76, 340, 4, 340, 17, stacked=True),
)


def rate_chart(rows: Sequence[tuple[str, Rate]], name: str, words: str) -> str:
    """Draw rates, a row each in the order given, as three inline SVGs, of which one is shown.

    `name` makes the ids unique on the page; `words` is the text alternative.
    """
    return element("div", *(_drawing(columns, rows, name, words) for columns in _COLUMNS), class_="chart chart-rates")


def _drawing(columns: _Columns, rows: Sequence[tuple[str, Rate]], name: str, words: str) -> str:
    body, top = [], float(_HEAD)
    for row_words, rate in rows:
        lines = wrapped_words(row_words, columns.words_width, _LETTER)
        height = columns.row + (_LINE * (len(lines) - 1) if columns.stacked or len(lines) > 1 else 0)
        height += columns.untold if rate.unjudged and rate.rate is not None else 0
        body.append(_row(columns, lines, rate, top, height, row_words))
        top += height
    size = (columns.width, top + 2)
    class_ = f"chart-drawing chart-{columns.key}"
    return drawing(f"{name}-{columns.key}", class_, size, "Success rates", words, [_scale(columns, top), *body])


def _scale(columns: _Columns, bottom: float) -> str:
    """Draw the rules at 0, 50 and 100 % with their numbers."""
    zero, full = columns.axis
    places = (zero, (zero + full) / 2, full)
    rules = "" if columns.stacked else "".join(f"M{place:g} {_HEAD}V{bottom:g}" for place in places)
    anchors = ("start", "middle", "end") if columns.stacked else ("middle", "middle", "middle")
    numbers = [
        element("text", words, x=place, y=_HEAD - 8, text_anchor=anchor)
        for place, words, anchor in zip(places, ("0", "50", "100 %"), anchors, strict=True)
    ]
    ruled = element("path", class_="chart-rule", d=rules) if rules else ""
    return ruled + element("g", *numbers, class_="chart-number")


def _row(columns: _Columns, lines: Sequence[str], rate: Rate, top: float, height: float, words: str) -> str:
    rule = element("path", class_="chart-rule", d=f"M0 {top:g}H{columns.width:g}")
    if columns.stacked:
        first, middle = top + 20, top + 20 + _LINE * (len(lines) - 1) + 17
        counts_at = middle + 24
    else:
        middle = top + height / 2
        first = middle + 5 - _LINE / 2 * (len(lines) - 1)
        counts_at = middle + 5
    named = "".join(element("text", escaped(line), x=0, y=first + _LINE * at) for at, line in enumerate(lines))
    bar = "" if rate.rate is None else _bar(columns, rate, middle, words)
    said = _stacked_words(rate, columns, first, counts_at) if columns.stacked else _side_words(rate, columns, counts_at)
    return element("g", rule, named, bar, said, class_="chart-words")


def _bar(columns: _Columns, rate: Rate, middle: float, words: str) -> str:
    """Draw the interval's bar and the rate's upright stroke."""
    zero, full = columns.axis
    drawn = ""
    if columns.stacked:  # rules that ran through would strike out the words between the bars
        ticks = "".join(f"M{place:g} {middle - 9:g}v18" for place in (zero, (zero + full) / 2, full))
        drawn = element("path", class_="chart-rule", d=ticks)
    if rate.low is not None and rate.high is not None:
        unknown = words.strip().casefold() == NOT_RECORDED
        drawn += element(
            "rect",
            class_="chart-interval-unknown" if unknown else "chart-interval",
            x=zero + rate.low * (full - zero),
            y=middle - _BAR / 2,
            width=max((rate.high - rate.low) * (full - zero), 1),
            height=_BAR,
            rx=_BAR / 2,
        )
    place = zero + (rate.rate or 0.0) * (full - zero)
    return drawn + element("path", class_="chart-stroke", d=f"M{place:.1f} {middle - 8:.1f}v16")


def _side_words(rate: Rate, columns: _Columns, line: float) -> str:
    """Write rate, interval and counts at the right of the axes."""
    if rate.rate is None:
        return element("text", none_words(rate), class_="chart-none", x=columns.axis[1] + 18, y=line)
    shown = element("text", percent(rate.rate), class_="chart-strong", x=columns.rate, y=line, text_anchor="end")
    shown += _second(interval_words(rate), columns.interval, line)
    counts = counts_lines(rate, columns.counts_in_two)
    first = line - _LINE / 2 * (len(counts) - 1)
    return shown + "".join(_second(words, columns.counts, first + _LINE * at) for at, words in enumerate(counts))


def _stacked_words(rate: Rate, columns: _Columns, first: float, last: float) -> str:
    """Write the rate at the end of the first line; interval and counts below the bar."""
    if rate.rate is None:
        return element("text", none_words(rate), class_="chart-none", x=0, y=first + _LINE + 6)
    shown = element("text", percent(rate.rate), class_="chart-strong", x=columns.rate, y=first, text_anchor="end")
    shown += element("text", interval_words(rate), class_="chart-second", x=0, y=last)
    for at, words in enumerate(counts_lines(rate, False)):
        place = {"x": columns.counts, "y": last + _LINE * at}
        shown += element("text", words, class_="chart-second", text_anchor="end", **place)
    return shown


def _second(words: str, x: float, y: float) -> str:
    return element("text", words, class_="chart-second", x=x, y=y) if words else ""


def percent(share: float) -> str:
    """Write a share from 0 to 1 in whole percent, with a tenth where only that keeps it from 0 or 100."""
    whole = f"{100 * share:.0f}"
    return f"{100 * share:.1f} %" if whole in ("0", "100") and 0 < share < 1 else f"{whole} %"


def interval_words(rate: Rate) -> str:
    """Write the interval: `75 to 93 %`; empty where there is none."""
    if rate.low is None or rate.high is None:
        return ""
    return f"{percent(rate.low).removesuffix(' %')} to {percent(rate.high)}"


def counts_lines(rate: Rate, in_two: bool) -> tuple[str, ...]:
    """Write what the rate stands on: `77 of 89 pieces, 9 firings`, and below it `2 not judged` where there are any."""
    pieces = "piece" if rate.pieces == 1 else "pieces"
    firings = f"{rate.firings} {'firing' if rate.firings == 1 else 'firings'}"
    known = f"{rate.successes} of {rate.pieces}"
    lines = (known, firings) if in_two else (f"{known} {pieces}, {firings}",)
    return (*lines, f"{rate.unjudged} not judged") if rate.unjudged else lines


def none_words(rate: Rate) -> str:
    """Say why a row has no rate."""
    unjudged = f", {rate.unjudged} not judged" if rate.unjudged else ""
    return f"not known: {rate.pieces} failed{unjudged}" if rate.pieces else NONE_JUDGED + unjudged
