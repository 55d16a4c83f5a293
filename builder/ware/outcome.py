"""How a piece came out, judged by what its method counts as success."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.checks.firing import Piece


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
