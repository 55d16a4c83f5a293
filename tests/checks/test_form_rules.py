"""What the form is given to judge by comes from the check itself, for any group's settings."""

from __future__ import annotations

import json
import re
from dataclasses import replace

import pytest

from builder.checks.form_rules import as_json, form_rules, listed_words
from builder.checks.limits import BOUNDS
from builder.entries.fields import FIELDS, walk
from builder.settings import Settings
from builder.settings_file import load_settings
from tests.browser.conftest import PROJECT


@pytest.fixture(scope="module")
def settings() -> Settings:
    found, _ = load_settings(PROJECT)
    assert found is not None
    return found


def test_every_message_has_gaps_only_where_something_typed_belongs(settings: Settings) -> None:
    """A made-up value that stayed in a message would be told to every potter."""
    words = as_json({"said": form_rules(settings)["said"], "quantity": form_rules(settings)["quantity"]})
    for made_up in ("987654", "812.25", "1,234", "9,999", "nowhere", "kgz"):
        assert made_up not in words, made_up
    assert set(re.findall(r"\\u27e6(\w+)\\u27e7", words)) >= {"shown", "raw", "name", "unit", "choice"}


def test_every_required_field_has_its_words(settings: Settings) -> None:
    said = form_rules(settings)["said"]
    assert isinstance(said, dict)
    missing = said["missing"]
    assert isinstance(missing, dict)
    assert set(missing) == {path for path, field in walk(FIELDS) if field.required}


def test_every_quantity_and_count_comes_with_its_bounds(settings: Settings) -> None:
    words = as_json(form_rules(settings))
    assert words.count('"bounds":') == len(BOUNDS)


def test_the_group_s_own_words_are_offered_and_judged(settings: Settings) -> None:
    own = replace(settings, words={"pieces.survival": ("warped",)})
    survival = dict(walk(FIELDS))["pieces.survival"]
    assert listed_words(survival, "pieces.survival", own)[-1] == "warped"
    assert "sound, cracked, spalled, broken, warped" in as_json(form_rules(own))


def test_a_group_without_potters_or_methods_still_gets_a_form(settings: Settings) -> None:
    assert form_rules(replace(settings, potters={}, methods={}))["fields"]


def test_the_block_of_json_cannot_close_its_script(settings: Settings) -> None:
    wren = replace(settings.potters["wren"], key="</script><b>")
    block = as_json(form_rules(replace(settings, potters={"</script><b>": wren})))
    assert "<" not in block
    assert json.loads(block)
