"""Costly questions: each with all that decides its answer, so that what was kept of the same question may stand."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol, TypeVar

_Answer = TypeVar("_Answer")
_Told = TypeVar("_Told", covariant=True)


class Question(Protocol[_Told]):
    """All that one answer is worked out from."""

    @property
    def seen(self) -> object:
        """All that decides the answer, beside the program; it has a digest."""

    def answer(self) -> _Told:
        """Work the answer out."""


class Ask(Protocol):
    """How costly questions are answered: at once, or from what was kept of the same question."""

    def __call__(self, kind: str, questions: Mapping[str, Question[_Answer]]) -> Mapping[str, _Answer]:
        """Answer the questions of one kind, each under its name."""


def ask_anew(kind: str, questions: Mapping[str, Question[_Answer]]) -> Mapping[str, _Answer]:
    """Work every answer out."""
    return {name: question.answer() for name, question in questions.items()}
