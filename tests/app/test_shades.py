"""The shades of the pages are told apart by anybody: contrast as WCAG 2.2 reckons it."""

from __future__ import annotations

import re

import pytest

from liftcalc.web.style import CSS
from liftcalc.web.theme import SHADES, theme

WORDS = ("ink", "soft", "good", "doubt", "warn", "bark", "focus")
GROUNDS = ("page", "paper")
AA = 4.5
"""WCAG 2.2, 1.4.3: text of usual size."""
AA_SHAPES = 3.0
"""WCAG 2.2, 1.4.11: marks and edges that carry meaning."""


def luminance(shade: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    parts = [int(shade[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_measure_itself() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    # The grey that is often given as the lightest for text on white: 4.54.
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("shade", [0, 1], ids=["day", "night"])
@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("name", WORDS)
def test_words_are_read_on_every_ground(name: str, ground: str, shade: int) -> None:
    assert contrast(SHADES[name][shade], SHADES[ground][shade]) >= AA


def test_every_colour_of_the_style_sheet_is_of_the_table() -> None:
    used = set(re.findall(r"var\(--lc-([a-z]+)\)", CSS))
    assert used <= set(SHADES)
    sheet = CSS.partition("}}")[2]
    assert not re.findall(r"#[0-9a-f]{3,8}\b", sheet)
    # A primary button's ground is bark: paper on bark is as bark on paper, which is tested above.
    sheet = re.sub(r"[^\n]*stBaseButton-primary[^\n]*", "", sheet)
    words = set(re.findall(r"[;{ ]color: var\(--lc-([a-z]+)\)", sheet))
    assert words <= set(WORDS)
    assert {"ink", "soft", "warn"} <= words


def test_the_app_starts_in_these_shades() -> None:
    asked = dict(zip(theme()[::2], theme()[1::2], strict=True))
    for number, shade in enumerate(("light", "dark")):
        assert asked[f"--theme.{shade}.backgroundColor"] == SHADES["page"][number]
        assert asked[f"--theme.{shade}.textColor"] == SHADES["ink"][number]
