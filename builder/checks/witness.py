"""Witness cones: known by their numbers, and in an order that can be."""

from __future__ import annotations

from builder.base.cones import CONES, RANK, Cone, cone_named
from builder.checks.fault import Fault, shown
from builder.checks.found import Group
from builder.checks.review import Review

DOWN, STANDING = "cones_down", "cones_standing"


def check_cones(entry: Group, review: Review) -> None:
    """Check the witness cones of an entry, each and against one another."""
    witness = entry.inside("witness")
    if witness is None:
        return
    down, standing = (_known(witness, name, review) for name in (DOWN, STANDING))
    if not down or not standing:
        return
    hardest = max(down, key=lambda cone: RANK[cone.name])
    softest = min(standing, key=lambda cone: RANK[cone.name])
    if RANK[softest.name] <= RANK[hardest.name]:
        review.report(_contradiction(hardest, softest), witness.at(STANDING), witness.path_of(STANDING))


def _known(witness: Group, name: str, review: Review) -> list[Cone]:
    """Give the cones of one list that have a number, and report those that have none."""
    known = []
    for word in witness.words(name):
        cone = cone_named(word)
        if cone is None:
            review.report(_unknown(word), witness.at(name), witness.path_of(name))
        else:
            known.append(cone)
    return known


def _unknown(word: str) -> Fault:
    meant = cone_named(f"0{word.strip()}")
    message = f"{shown(word)} is not a cone with a published column; they go from {CONES[0].name} to {CONES[-1].name}."
    return Fault("cone-unknown", message, f"Did you mean `{meant.name}`?" if meant else "Look at the cone's number.")


def _contradiction(down: Cone, standing: Cone) -> Fault:
    if down == standing:
        message = f"Cone {down.name} is told to have gone down and to have stood."
    else:
        message = f"Cone {standing.name} stood and cone {down.name} went down, but {standing.name} softens first."
    help_ = "Look at both lists again. If the cones stood in different places, leave it and tell it in the story."
    return Fault("cones-contradict", message, help_)
