"""Profiles of hypothesis, and oracles and everyday lifts leave what was found for the record.

``house`` draws the same few examples every time: a change is judged by what it changed. ``long``,
for `make search`, draws ten times as many, never the same, and says how to draw a failure again.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, settings
from hypothesis.database import DirectoryBasedExampleDatabase

settings.register_profile(
    "house",
    max_examples=40,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
settings.register_profile(
    "long",
    parent=settings.get_profile("house"),
    max_examples=400,
    derandomize=False,
    database=DirectoryBasedExampleDatabase(".hypothesis/examples"),
    print_blob=True,
)
settings.load_profile("house")

MEASURED: pytest.StashKey[list[tuple[str, int, float]]] = pytest.StashKey()
JUDGED: pytest.StashKey[dict[str, list[str]]] = pytest.StashKey()


@pytest.fixture
def measured(request: pytest.FixtureRequest) -> Callable[[str, int, float], None]:
    """Leaves what an oracle found: what was compared, cases, largest relative difference."""
    found = request.config.stash.setdefault(MEASURED, [])

    def leave(what: str, cases: int, worst: float) -> None:
        found.append((what, cases, worst))

    return leave


@pytest.fixture
def judged(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Leaves a row of a table of everyday lifts: which table, and the row."""
    found = request.config.stash.setdefault(JUDGED, {})

    def leave(table: str, row: str) -> None:
        found.setdefault(table, []).append(row)

    return leave
