"""Write docs/nomenclature.md from the table of words; with --check say whether it is as written."""

from __future__ import annotations

import sys
from pathlib import Path

from liftcalc.physics.nomenclature import WORDS

PAGE = Path(__file__).parents[1] / "docs" / "nomenclature.md"
HEAD = """# Nomenclature

Written from `liftcalc/physics/nomenclature.py`; do not edit. SI throughout. Frame and signs: \
x forward, y left, z up, origin on the ground midway between the rear tyre contacts; slew 0 is \
straight back, positive toward the machine's left.

| word in code | letter | unit | meaning |
|---|---|---|---|
"""


def page() -> str:
    """The page as it should stand."""
    return HEAD + "".join(
        f"| `{word.name}` | ${word.letter}$ | {word.unit} | {word.meaning} |\n"
        for word in WORDS.values()
    )


if __name__ == "__main__":
    if "--check" not in sys.argv:
        PAGE.write_text(page(), encoding="utf-8")
    elif PAGE.read_text(encoding="utf-8") != page():
        sys.exit("stale: docs/nomenclature.md; run make generated")
