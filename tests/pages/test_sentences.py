"""The sentence that says a firing, in every turn that pots and verdicts can take."""

from __future__ import annotations

import pytest

from builder.checks.firing import Piece
from builder.pages.sentences import description, outcome_words, verdict_words
from tests.pages.invented import SETTINGS, record

SOUND = Piece("jar", "sound", carbon="cleared", paint="held")
CRACKED = Piece("bowl", "cracked", carbon="cleared", paint="held")
UNKNOWN = Piece("cup", "sound")


def words(*pieces: Piece) -> str:
    return description(record(pieces=pieces), SETTINGS).replace("\u00a0", " ")


def test_it_says_when_who_how_and_where() -> None:
    assert words(SOUND).startswith(
        "Open fire on the ground, lit on 2 May 2026 at 10:42 by Wren Oddie, with Ode Marrish, at Alder Fen."
    )


@pytest.mark.parametrize(
    ("pieces", "told"),
    [
        ((SOUND,), "One piece went in and came out sound. By the method’s rule it succeeded."),
        ((CRACKED,), "One piece went in and came out cracked. By the method’s rule it did not succeed."),
        ((SOUND, SOUND), "Two pieces went in; both came out sound. By the method’s rule two of two succeeded."),
        (
            (SOUND, CRACKED, UNKNOWN),
            "Three pieces went in; two came out sound, one cracked. "
            "By the method’s rule one of two succeeded; one could not be judged.",
        ),
        (
            (CRACKED, UNKNOWN),
            "Two pieces went in; one came out sound, one cracked. "
            "By the method’s rule one did not succeed; one could not be judged.",
        ),
        (
            (UNKNOWN,),
            "One piece went in and came out sound. "
            "None can be judged by the method’s rule: an outcome that it counts was not recorded.",
        ),
        (
            (Piece("tiles", "sound", count=13, carbon="core"),),
            "13 pieces went in; all came out sound. By the method’s rule none of 13 succeeded.",
        ),
    ],
)
def test_it_says_what_went_in_and_what_came_out(pieces: tuple[Piece, ...], told: str) -> None:
    """Each worked out by hand from the method's rule: sound, carbon cleared, paint held or faded."""
    assert words(*pieces).endswith(told)


def test_outcomes_stand_in_the_order_of_the_list_and_a_groups_own_words_last() -> None:
    pieces = record(pieces=(Piece("a", "slumped", count=2), Piece("b", "broken"), SOUND)).pieces
    assert outcome_words(pieces) == "1 sound, 1 broken, 2 slumped"


def test_a_verdict_names_the_outcome_that_decided() -> None:
    judged = record(pieces=(SOUND, CRACKED, UNKNOWN)).pieces
    assert [verdict_words(one) for one in judged] == [
        "succeeded",
        "did not succeed: survival",
        "not judged: carbon and paint not recorded",
    ]
