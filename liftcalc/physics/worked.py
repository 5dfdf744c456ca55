"""A formula put to work: what went in, every step, what came out.

The working that a page or ``--working`` shows is made from these records, so it is what was
computed and not a second computation.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple


class Worked(NamedTuple):
    """One use of one formula of ``formulas``.

    ``label`` says what it was for, in plain words; ``steps`` is the named tuple that the formula
    returned.
    """

    label: str
    formula: str
    given: Mapping[str, float]
    steps: Any

    @property
    def result(self) -> float:
        """The last step."""
        return float(self.steps[-1])


def work(label: str, formula: Callable[..., Any], **given: float) -> Worked:
    """Call a formula of ``formulas`` and keep what it was given and all its steps."""
    return Worked(label=label, formula=formula.__name__, given=given, steps=formula(**given))
