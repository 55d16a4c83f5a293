"""Spoilt entries, quantities and logs: no traceback, no hang, no flood of memory, and words for every rejection."""

from __future__ import annotations

import resource
import tempfile
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings, strategies

from builder.base.units import KINDS
from tests.checks.examples import example_settings
from tests.trust.guided import CORPUS, judge_guided, kept_inputs
from tests.trust.judging import MOST_SECONDS, Judged, judge_entry, judge_log, judge_quantity, make_folder
from tests.trust.mutated import entry_bytes, readings_bytes, spoil_bytes
from tests.trust.odd_words import ODD_VALUES

MOST_MEMORY_MB = 300
"""Most by which the largest memory of this process may grow over all the inputs below."""

_SLOW_IS_FINE = settings(
    max_examples=80, suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture]
)


@pytest.fixture(scope="module")
def folder() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as made:
        yield make_folder(Path(made))


@pytest.fixture(scope="module", autouse=True)
def _memory_is_bounded() -> Iterator[None]:
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    yield
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < MOST_MEMORY_MB * 1024


def _quick(judged: Judged) -> None:
    assert judged.seconds < MOST_SECONDS, judged.seconds


@given(strategies.randoms(use_true_random=False))
@_SLOW_IS_FINE
def test_an_entry_spoilt_in_its_fields_is_judged_with_words(folder: Path, rng: Random) -> None:
    _quick(judge_entry(entry_bytes(rng), folder, example_settings()))


@given(strategies.randoms(use_true_random=False))
@_SLOW_IS_FINE
def test_an_entry_spoilt_in_its_bytes_is_judged_with_words(folder: Path, rng: Random) -> None:
    _quick(judge_entry(spoil_bytes(rng, entry_bytes(rng)), folder, example_settings()))


@given(strategies.binary(max_size=400))
@_SLOW_IS_FINE
def test_any_bytes_at_all_are_judged_with_words(folder: Path, raw: bytes) -> None:
    _quick(judge_entry(raw, folder, example_settings()))
    _quick(judge_entry(b"---\n" + raw + b"\n---\n", folder, example_settings()))


@given(strategies.randoms(use_true_random=False), strategies.sampled_from(["", "time: elapsed\n  ", "time: clock\n  "]))
@_SLOW_IS_FINE
def test_a_spoilt_log_is_judged_with_words(folder: Path, rng: Random, time_words: str) -> None:
    _quick(judge_log(readings_bytes(rng), folder, example_settings(), time_words))


@given(strategies.text(max_size=130), strategies.sampled_from(sorted(KINDS)))
@settings(max_examples=400)
def test_any_text_at_all_is_a_finite_quantity_or_a_fault(text: str, kind: str) -> None:
    judge_quantity(text, kind)


@given(
    strategies.lists(strategies.sampled_from([*ODD_VALUES, "3 kg", " to ", "±", "785 °C", "1 h", "1/4 in", ",", "."])),
    strategies.sampled_from(sorted(KINDS)),
)
@settings(max_examples=400)
def test_odd_words_put_together_are_a_finite_quantity_or_a_fault(parts: list[str], kind: str) -> None:
    judge_quantity("".join(parts)[:200], kind)


@pytest.mark.parametrize("path", sorted(CORPUS.glob("*.md")), ids=lambda path: path.name)
def test_an_entry_that_once_was_trouble_is_none_now(folder: Path, path: Path) -> None:
    _quick(judge_entry(path.read_bytes(), folder, example_settings()))


@pytest.mark.parametrize("path", sorted(CORPUS.glob("*.csv")), ids=lambda path: path.name)
def test_a_log_that_once_was_trouble_is_none_now(folder: Path, path: Path) -> None:
    _quick(judge_log(path.read_bytes(), folder, example_settings()))


def test_inputs_that_together_reach_most_of_the_parsers_are_judged_with_words(folder: Path) -> None:
    kept = kept_inputs()
    assert len(kept) > 100
    for data in kept:
        seconds = judge_guided(data, folder, example_settings())
        assert seconds < MOST_SECONDS, data


@pytest.mark.parametrize(
    ("raw", "what"),
    [
        (b"---\n" + b"[" * 100_000, "brackets never closed"),
        (b"---\n" + b"- " * 100_000 + b"\n---\n", "lists in lists"),
        (b"---\n" + b"{a: " * 50_000 + b"\n---\n", "groups in groups"),
        (b"---\ntitle: " + b"x" * 900_000 + b"\n---\n", "a title of a novel"),
        (b"---\n" + b"".join(b"k%d: 1\n" % n for n in range(60_000)) + b"---\n", "keys without end"),
        (b"---\n" + b"title: a\n" * 20_000 + b"---\n", "one key over and over"),
        (b"---\nfuel: {wood: [" + b"a," * 90_000 + b"]}\n---\n", "words without end"),
        (b"---\n" * 200_000, "fences without end"),
        (b"---\ntitle: a\n---\n" + b"[" * 500_000, "a story of brackets"),
        (b"---\ntitle: a\n---\n" + b"> " * 300_000, "a story of quotations"),
        (b'---\ntitle: "' + b"\\x41" * 40_000 + b'"\n---\n', "escapes without end"),
        (b"---\n&a a: [" + b"*a," * 50_000 + b"]\n---\n", "aliases without end"),
        (b"\n" * 900_000, "nothing but lines"),
        (b"---\nreadings:\n  time: elapsed\n  rows: |\n" + b"    0:00 1 C\n" * 15_000 + b"---\n", "rows without end"),
        (b"---\r" * 10 + b"\x00" * 900_000, "noughts without end"),
    ],
    ids=lambda part: part if isinstance(part, str) else "",
)
def test_a_file_made_to_exhaust_the_program_is_refused_within_a_second(folder: Path, raw: bytes, what: str) -> None:
    judged = judge_entry(raw, folder, example_settings())
    assert not judged.published, what
    _quick(judged)
