"""The published JSON Schema against our own checks, over thousands of spoilt entries that both can read."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from random import Random
from typing import Any

import jsonschema
import pytest
import yaml

from builder.entries.schema import entry_schema
from tests.checks.examples import example_settings
from tests.trust.judging import judge_entry, make_folder
from tests.trust.mutated import Tree, sound_tree, spoil, write_tree

ENTRIES = 2500
VALIDATOR = jsonschema.Draft202012Validator(entry_schema(example_settings()))
