"""How a piece came out, judged by what its method counts as success."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.checks.firing import Piece
from builder.settings import Method


class Verdict(StrEnum):
    """Whether something counts as success."""

    YES = "yes"
    NO = "no"
    UNJUDGED = "unjudged"


@dataclass(frozen=True, slots=True)
class JudgedPiece:
    """A piece with its verdicts; stands for `piece.count` pieces."""

    piece: Piece
    success: Verdict
    """Over all outcomes that the method counts."""
    by_outcome: dict[str, Verdict]
    """By outcome (`survival`, `carbon`, `paint`, `ring`), only those the method counts and the piece can have."""


def judge(piece: Piece, method: Method, painted: bool) -> JudgedPiece:
    """Judge a piece by what its method counts as success.

    It succeeds when every counted outcome is among the accepted words, fails when one is not, and is unjudged when one
    was not recorded and no other failed. Paint is not counted on a piece without paint: one recorded as `none`, or
    any piece of a firing whose entry says that its ware is not `painted`. Where nothing at all counts, it is unjudged.
    """
    unpainted = not painted or piece.paint == "none"
    by_outcome = {
        outcome: _verdict(getattr(piece, outcome), accepted)
        for outcome, accepted in method.success.items()
        if not (outcome == "paint" and unpainted)
    }
    return JudgedPiece(piece, _together(set(by_outcome.values())), by_outcome)


def _verdict(recorded: str | None, accepted: tuple[str, ...]) -> Verdict:
    if recorded is None:
        return Verdict.UNJUDGED
    return Verdict.YES if recorded in accepted else Verdict.NO


def _together(verdicts: set[Verdict]) -> Verdict:
    if Verdict.NO in verdicts:
        return Verdict.NO
    return Verdict.YES if verdicts == {Verdict.YES} else Verdict.UNJUDGED
