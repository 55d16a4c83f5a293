"""How often the archive's answers hold, over archives whose truth is known; and the naive calculation beside them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from builder.archive.archive import SUCCESS, Archive, Rate, gather
from builder.archive.conditions import try_conditions
from builder.archive.traits import trials
from builder.archive.window import End, Finding
from builder.archive.windows import windows_by_method
from builder.workers import shared, spread
from tests.simulation import naive
from tests.simulation.archive_maker import SETTINGS, Truth, make_records

METHODS = ("first", "second")
SIZES = (8, 20, 60, 200)
SHORT_ARCHIVES, LONG_ARCHIVES = 40, 400
ALL_TOLD, FORGOTTEN, LOST, BAD = "all told", "forgotten", "lost", "bad"
GAPS: Mapping[str, tuple[str, Mapping[str, float]]] = {
    ALL_TOLD: ("rate intervals that hold the true rate, all written down", {"forgotten": 0.0}),
    FORGOTTEN: ("… 12 of 100 outcomes forgotten at random", {}),
    LOST: ("… and nothing but the loss of any lost piece", {"forgotten_of_lost": 1.0}),
    BAD: ("… 12 of 100, of failures 24", {"forgotten_of_bad": 2.0}),
}
"""What nobody wrote down, in words for the table and as changes of the truth; the fires are the same in each."""


@dataclass(frozen=True, slots=True)
class One:
    """What came of one archive; pairs are ours and the naive one."""

    rates: Mapping[str, tuple[tuple[bool, bool | None, bool | None], ...]]
    """By what was not written down (`GAPS`), for each method with a rate: whether its interval holds the true one.

    Ours; on the judged pieces, each for itself; ours on the pieces alone that were recorded in full."""
    claimed: bool
    """Whether a window is claimed for the first method."""
    too_few: bool
    low: tuple[bool | None, bool | None] = (None, None)
    """Whether the low end lies where it is said to; None where nothing is said."""
    high: tuple[bool | None, bool | None] = (None, None)
    alarms: tuple[bool, bool, bool] = (False, False, False)
    """Whether any condition is found though none does anything: ours, by pieces corrected, by pieces each at 5 %."""


@dataclass(slots=True)
class Tally:
    """Shares over many archives of one size."""

    firings: int
    archives: list[One] = field(default_factory=list)

    def rate_coverage(self, which: int, gaps: str = ALL_TOLD) -> float:
        """Share of rate intervals that hold the truth."""
        return _share(one[which] for archive in self.archives for one in archive.rates[gaps] if one[which] is not None)

    def end_coverage(self, end: str, which: int) -> float:
        """Share of claims about one end that hold."""
        return _share(held for one in self.archives for held in (getattr(one, end)[which],) if held is not None)

    def claims(self) -> float:
        """Share of archives in which a window is claimed."""
        return _share(one.claimed for one in self.archives)

    def too_few(self) -> float:
        """Share of archives in which the firings are said to be too few to tell a window."""
        return _share(one.too_few for one in self.archives)

    def alarms(self, which: int) -> float:
        """Share of archives with a false finding."""
        return _share(one.alarms[which] for one in self.archives)


def simulate(sizes: Sequence[int], archives: int, truth: Truth, jobs: int | None = None) -> list[Tally]:
    """Make and answer so many archives of each size."""
    job = (truth, tuple(truth.rate(method) for method in range(2)), truth.ends_c())
    found = []
    for firings in sizes:
        todo = [(firings, 10_000 * firings + number) for number in range(archives)]
        found.append(Tally(firings, list(spread(_one, todo, jobs, job))))
    return found


def _one(what: tuple[int, int]) -> One:
    truth, true_rates, ends = shared()
    firings, seed = what
    # The same seed makes the same fires; only the gaps in the record differ.
    archives = {
        gaps: gather(make_records(replace(truth, **changes), firings, seed), SETTINGS)
        for gaps, (_, changes) in GAPS.items()
    }
    archive = archives[FORGOTTEN]
    window = windows_by_method(archive, SETTINGS)["first"]
    claimed = window.finding is Finding.WINDOW
    plain_ends = naive.window_limits(window, seed)
    low_high = [
        (
            _holds(end, true) if claimed else None,
            None if plain_ends is None else plain_ends[side][0] <= true <= plain_ends[side][1],
        )
        for side, (end, true) in enumerate(zip((window.low, window.high), ends, strict=True))
    ]
    told = trials(archive)
    alarm = any(tried.found for tried in try_conditions(told, archive.correlation))
    alarms = (alarm, naive.any_found(told, True), naive.any_found(told, False))
    return One(
        {gaps: _rates(found, true_rates) for gaps, found in archives.items()},
        claimed,
        window.finding is Finding.TOO_FEW,
        low_high[0],
        low_high[1],
        alarms,
    )


def _rates(archive: Archive, true_rates: Sequence[float]) -> tuple[tuple[bool, bool | None, bool | None], ...]:
    in_full = gather(naive.recorded_in_full(archive.records), SETTINGS)
    held = []
    for method, true in zip(METHODS, true_rates, strict=True):
        ours = _held(archive, method, true)
        if ours is not None:
            rate = _rate(archive, method)
            low, high = naive.rate_limits(rate.successes, rate.pieces)
            held.append((ours, low <= true <= high, _held(in_full, method, true)))
    return tuple(held)


def _rate(archive: Archive, method: str) -> Rate:
    return next(one for one in archive.rates if (one.method, one.outcome) == (method, SUCCESS))


def _held(archive: Archive, method: str, true: float) -> bool | None:
    """Whether a rate's interval holds the truth; None where there is none."""
    rate = _rate(archive, method)
    return None if rate.low is None or rate.high is None else rate.low <= true <= rate.high


def _holds(end: End | None, true: float) -> bool:
    """Whether an end's interval holds the truth; an open limit holds everything on its side."""
    if end is None:
        return False
    return (end.low_c is None or end.low_c <= true) and (end.high_c is None or true <= end.high_c)


def _share(held: Iterable[bool | None]) -> float:
    known = [bool(one) for one in held]
    return sum(known) / len(known) if known else float("nan")


def report(tallies: Sequence[Tally]) -> str:
    """Write a table in Markdown: a row a question, a column a size."""
    rows = [
        *(
            (words, [_three(*(t.rate_coverage(which, gaps) for which in range(3))) for t in tallies])
            for gaps, (words, _) in GAPS.items()
        ),
        (
            "low end where it is said to be",
            [_pair(t.end_coverage("low", 0), t.end_coverage("low", 1)) for t in tallies],
        ),
        (
            "high end where it is said to be",
            [_pair(t.end_coverage("high", 0), t.end_coverage("high", 1)) for t in tallies],
        ),
        ("a window is claimed", [_percent(t.claims()) for t in tallies]),
        ("“too few firings to tell”", [_percent(t.too_few()) for t in tallies]),
        ("archives with a false finding", [_pair(t.alarms(0), t.alarms(1)) for t in tallies]),
        ("the same, by pieces and uncorrected", [f"({_percent(t.alarms(2))})" for t in tallies]),
    ]
    head = ["of 100", *(f"{tally.firings} firings" for tally in tallies)]
    lines = [head, ["---", *("---:" for _ in tallies)], *([name, *cells] for name, cells in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def _percent(share: float) -> str:
    return "–" if share != share else f"{100 * share:.1f}"


def _pair(ours: float, plain: float) -> str:
    return f"{_percent(ours)} ({_percent(plain)})"


def _three(ours: float, plain: float, in_full: float) -> str:
    return f"{_percent(ours)} ({_percent(plain)}; {_percent(in_full)})"


def main(words: Sequence[str]) -> None:
    """Print the long form, or with `short` the one that runs with the tests."""
    archives = SHORT_ARCHIVES if "short" in words else LONG_ARCHIVES
    truth = Truth()
    low, high = truth.ends_c()
    rates = " and ".join(f"{truth.rate(method):.3f}" for method in range(2))
    print(f"{archives} archives a size; true window {low:.0f} to {high:.0f} °C; true rates {rates}.")
    print(f"Luck of a fire {truth.luck} on the logit scale, peaks read to {truth.read_sd_c:.0f} °C (standard error), ")
    print(f"{100 * truth.forgotten:.0f} of 100 outcomes forgotten, 1 to {truth.largest} pieces a firing.")
    print("The naive calculation stands in brackets: every piece for itself, every peak exact.\n")
    print(report(simulate(SIZES, archives, truth)))
