"""A firing's pieces counted: what is known of them by all that their method counts, and what the untold stand for.

One outcome that failed is enough to judge a lost piece, while a good one is judged only when all that counts was
written down. So where outcomes were forgotten the judged pieces hold too many losses, and their plain share leans low.
Pieces recorded in full, taken alone, lean the other way: nobody writes down the paint of a pot that came out in
sherds. Therefore each piece that could not be judged counts as a part of a success: the share of those pieces of its
method, recorded in full, that did well in all that is known of it, which did well in the rest too. What is known of a
piece is never set aside, and a rate so made always lies between the two that it would be if all such pieces had failed
or succeeded. Where every piece is judged it is the plain share.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from builder.archive.clusters import FiringCount
from builder.ware.outcome import JudgedPiece, Verdict

Missing: TypeAlias = frozenset[str]
"""The outcomes that count for a piece and were not recorded."""
Shares: TypeAlias = Mapping[Missing, float]
"""By what was not recorded: which share of the pieces that did well in all else did well in that too."""


@dataclass(frozen=True, slots=True)
class Tally:
    """The pieces of one firing, by one outcome or by all that count."""

    successes: int
    judged: int
    unjudged: int
    expected: float = 0.0
    """Successes to be expected among the pieces that could not be judged, as far as others stand for them."""
    stood_for: int = 0
    """Pieces that could not be judged and for which others stand."""

    @property
    def count(self) -> FiringCount:
        """What is known: successes and judged pieces. Design effects stand on it."""
        return self.successes, self.judged

    @property
    def good(self) -> float:
        """Successes, known and to be expected."""
        return self.successes + self.expected

    @property
    def pieces(self) -> int:
        """Pieces that count: judged, or stood for by others."""
        return self.judged + self.stood_for


def shares(pieces: Iterable[JudgedPiece]) -> Shares:
    """Return, for each set of outcomes that pieces of one method lack, the share that others give it.

    Y / (Y + d): Y the pieces that succeeded and for which all of that set counts, d those recorded in full that failed
    in nothing but outcomes of that set. A set is absent where no such piece was recorded.

    Right on the average where whether an outcome was written down does not hang on how that outcome came out, among
    pieces alike in what was written down: forgotten at random, or moot after a loss that was itself written down. It
    is the mean of the piece's adjustment cell in Little and Rubin, Statistical Analysis with Missing Data (from
    memory), each cell a set of outcomes that came out well. What it cannot mend: failures that are written down less
    often because they are failures.
    """
    told = list(pieces)
    wanted = {missing(judged) for judged in told if judged.success is Verdict.UNJUDGED and judged.by_outcome}
    full = [(judged.piece.count, *_failed(judged)) for judged in told if judged.by_outcome and not missing(judged)]
    found = {}
    for lacking in sorted(wanted, key=sorted):
        alike = [(count, failed) for count, failed, counted in full if failed <= lacking <= counted]
        pieces_alike = sum(count for count, _ in alike)
        if pieces_alike:
            found[lacking] = sum(count for count, failed in alike if not failed) / pieces_alike
    return found


def missing(judged: JudgedPiece) -> Missing:
    """Return the outcomes that count for a piece and were not recorded."""
    return frozenset(name for name, verdict in judged.by_outcome.items() if verdict is Verdict.UNJUDGED)


def tally(pieces: Sequence[JudgedPiece], of_method: Shares) -> Tally:
    """Count the pieces of a firing by all that its method counts; `of_method` are its method's shares."""
    good = bad = unjudged = stood_for = 0
    expected = 0.0
    for judged in pieces:
        count = judged.piece.count
        if judged.success is Verdict.YES:
            good += count
        elif judged.success is Verdict.NO:
            bad += count
        else:
            unjudged += count
            share = of_method.get(missing(judged))
            if share is not None:
                expected += share * count
                stood_for += count
    return Tally(good, good + bad, unjudged, expected, stood_for)


def tally_of(pieces: Sequence[JudgedPiece], outcome: str) -> Tally:
    """Count the pieces of a firing by one outcome; those of which it was not recorded are left out of its rate."""
    by_verdict: Counter[Verdict | None] = Counter()
    for judged in pieces:
        by_verdict[judged.by_outcome.get(outcome)] += judged.piece.count
    good = by_verdict[Verdict.YES]
    return Tally(good, good + by_verdict[Verdict.NO], by_verdict[Verdict.UNJUDGED])


def share_of(tallies: Sequence[Tally], by_all: bool = True) -> float | None:
    """Return the rate of some firings; None where it is not known.

    That is so without a piece that counts. By all that a method counts it is so, too, where none succeeded and for
    some that could not be judged none stands: only failures could then be judged, and nought would be too low.
    """
    good, pieces = sum(one.good for one in tallies), sum(one.pieces for one in tallies)
    blind = by_all and good == 0.0 and any(one.unjudged > one.stood_for for one in tallies)
    return None if not pieces or blind else good / pieces


def _failed(judged: JudgedPiece) -> tuple[frozenset[str], frozenset[str]]:
    """The outcomes in which a piece failed, and those that count for it."""
    failed = frozenset(name for name, verdict in judged.by_outcome.items() if verdict is Verdict.NO)
    return failed, frozenset(judged.by_outcome)
