"""Ask for a word on a terminal until it is a good one."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Sequence

Ask = Callable[[str], str]
"""Shows a question and returns the answer; `input` in real life."""


def ask_words(ask: Ask, question: str, default: str = "") -> str:
    """Ask for words; an empty answer takes the default, and is asked again where there is none."""
    shown = f"{question} [{default}]: " if default else f"{question}: "
    while True:
        answer = " ".join(ask(shown).split()) or default
        if answer:
            return answer


def ask_one_of(ask: Ask, question: str, choices: Sequence[str]) -> str:
    """Ask for one of a list, by its word or its number."""
    listed = "  ".join(f"{number} {choice}" for number, choice in enumerate(choices, 1))
    while True:
        answer = ask(f"{question} ({listed}): ").strip()
        if answer.isdecimal() and 1 <= int(answer) <= len(choices):
            return choices[int(answer) - 1]
        if answer in choices:
            return answer
        close = difflib.get_close_matches(answer, choices, 1)
        print(f"  Did you mean `{close[0]}`?" if close else "  Write one of the words, or its number.")
