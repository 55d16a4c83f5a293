"""How often the archive's answers hold, over archives whose truth is known; and the naive calculation beside them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from builder.archive.archive import Archive, gather
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


@dataclass(frozen=True, slots=True)
class One:
    """What came of one archive; pairs are ours and the naive one."""

    rates: tuple[tuple[bool, bool], ...]
    """For each method with a judged piece, whether its interval holds the true rate, every outcome written down."""
    gappy_rates: tuple[tuple[bool, bool], ...]
    """The same where some outcomes were forgotten: then a lost pot is judged sooner than a good one."""
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

    def rate_coverage(self, which: int, gappy: bool = False) -> float:
        """Share of rate intervals that hold the truth."""
        found = (one.gappy_rates if gappy else one.rates for one in self.archives)
        return _share(pair[which] for pairs in found for pair in pairs)

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
    records = make_records(truth, firings, seed)
    archive = gather(records, SETTINGS)
    # The same seed makes the same fires; only the gaps in the record differ.
    complete = gather(make_records(replace(truth, forgotten=0.0), firings, seed), SETTINGS)
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
    by_condition = trials(records)
    alarm = any(tried.found for tried in try_conditions(by_condition, archive.correlation))
    alarms = (alarm, naive.any_found(by_condition, True), naive.any_found(by_condition, False))
    return One(
        _rates(complete, true_rates),
        _rates(archive, true_rates),
        claimed,
        window.finding is Finding.TOO_FEW,
        low_high[0],
        low_high[1],
        alarms,
    )


def _rates(archive: Archive, true_rates: Sequence[float]) -> tuple[tuple[bool, bool], ...]:
    held = []
    for method, true in zip(METHODS, true_rates, strict=True):
        rate = next((r for r in archive.rates if (r.method, r.outcome) == (method, "success")), None)
        if rate is not None and rate.pieces and rate.low is not None and rate.high is not None:
            plain = naive.rate_limits(rate.successes, rate.pieces)
            held.append((rate.low <= true <= rate.high, plain[0] <= true <= plain[1]))
    return tuple(held)


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
        ("rate intervals that hold the true rate", [_pair(t.rate_coverage(0), t.rate_coverage(1)) for t in tallies]),
        (
            "the same where outcomes were forgotten",
            [_pair(t.rate_coverage(0, True), t.rate_coverage(1, True)) for t in tallies],
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
