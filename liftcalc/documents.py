"""What ``--json`` prints: one document, its schema named first, with an answer or a refusal.

``docs/json.md`` says what each holds. A version goes up when a key is taken away or changes its
meaning; keys may be added without.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict
from typing import Any, Literal

from liftcalc.errors import Fault, printable

Schema = Literal[
    "check", "compare", "limits", "ask", "log", "weigh", "proof", "machines", "walkround", "refusal"
]
VERSIONS: dict[Schema, int] = {
    "check": 2,
    "compare": 1,
    "limits": 1,
    "ask": 1,
    "log": 1,
    "weigh": 1,
    "proof": 1,
    "machines": 1,
    "walkround": 1,
    "refusal": 1,
}


def document(schema: Schema, made: Mapping[str, Any], *, indent: int | None = 2) -> str:
    """A document as text; it never holds NaN or infinity, which JSON has not."""
    named = {"schema": {"name": f"liftcalc.{schema}", "version": VERSIONS[schema]}, **made}
    return json.dumps(named, ensure_ascii=False, allow_nan=False, indent=indent)


def refusal(faults: tuple[Fault, ...]) -> str:
    """Everything that has to be put right, as a document; null where there is nothing to say."""
    told = [{key: printable(text) or None for key, text in asdict(each).items()} for each in faults]
    return document("refusal", {"faults": told})
