"""How each role looks, by day and by night; both renderers draw from this one table.

Nothing is told by colour alone: what matters differs in weight, dash or pattern and is labelled.
Strokes are in ems, as text is.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from liftcalc.figures.scene import Role

Tone = Literal[
    "paper",
    "ink",
    "soft",
    "faint",
    "machine",
    "machine light",
    "steel",
    "dark",
    "wood",
    "warn",
    "sky",
    "none",
]

TONES: dict[Tone, tuple[str, str]] = {
    "paper": ("#fbfaf6", "#191d20"),
    "ink": ("#22282c", "#eceae3"),
    "soft": ("#5a646a", "#a9b1b4"),
    "faint": ("#b3b8b6", "#4d565b"),
    "machine": ("#c9cfc7", "#48544f"),
    "machine light": ("#e2e5df", "#333c3a"),
    "steel": ("#a4aeac", "#66736f"),
    "dark": ("#474f52", "#0e1113"),
    "wood": ("#dcb482", "#8a6335"),
    "warn": ("#a3260f", "#ff9a7d"),
    "sky": ("#eef1f0", "#262d30"),
    "none": ("none", "none"),
}
"""Light and dark shade of each tone. Ink and warn keep 7:1 on paper, soft 4.5:1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """Fill, stroke, its width [em] and dashes [em]."""

    fill: Tone = "none"
    stroke: Tone = "ink"
    width: float = 0.08
    dash: tuple[float, ...] = ()


LOOKS: dict[Role, Look] = {
    "ground": Look(stroke="soft", width=0.12),
    "frame": Look(fill="steel"),
    "body": Look(fill="machine"),
    "glass": Look(fill="sky", stroke="soft"),
    "tyre": Look(fill="dark"),
    "rim": Look(fill="machine light", stroke="soft", width=0.06),
    "stabiliser": Look(fill="steel"),
    "kingpost": Look(fill="steel"),
    "link": Look(fill="machine"),
    "lug": Look(fill="steel", width=0.06),
    "axis": Look(stroke="soft", width=0.05, dash=(0.5, 0.18, 0.1, 0.18)),
    "barrel": Look(fill="dark", width=0.06),
    "rod": Look(fill="paper", width=0.06),
    "pin": Look(fill="paper", width=0.06),
    "attachment": Look(fill="steel", width=0.1),
    "sling": Look(width=0.14),
    "log": Look(fill="wood", width=0.1),
    "grain": Look(width=0.045),
    "region": Look(fill="sky", stroke="none", width=0.0),
    "hatch": Look(stroke="faint", width=0.05),
    "support": Look(fill="paper", width=0.1),
    "tipping line": Look(width=0.09, dash=(0.55, 0.35)),
    "governing line": Look(stroke="warn", width=0.3),
    "governing support": Look(fill="warn", stroke="warn", width=0.1),
    "cog": Look(fill="paper", width=0.1),
    "cog quarter": Look(fill="ink", stroke="none", width=0.0),
    "plumb": Look(width=0.1, dash=(0.7, 0.22, 0.14, 0.22)),
    "foot": Look(width=0.16),
    "dimension": Look(stroke="soft", width=0.07),
    "leader": Look(stroke="soft", width=0.06),
    "scale": Look(fill="ink", width=0.05),
    "scale gap": Look(fill="paper", width=0.05),
    "force": Look(fill="ink", width=0.06),
    "worst force": Look(fill="paper", width=0.08),
    "bearing": Look(fill="paper", width=0.07),
    "mat": Look(fill="machine light", width=0.09),
    "plate": Look(width=0.1, dash=(0.28, 0.2)),
    "packing": Look(fill="wood", stroke="soft", width=0.07),
    "swing": Look(stroke="soft", width=0.06, dash=(0.2, 0.2)),
    "pull": Look(width=0.14, dash=(0.6, 0.25)),
    "keep out": Look(width=0.09, dash=(0.9, 0.4)),
    "hazard": Look(stroke="warn", width=0.16, dash=(0.25, 0.3)),
    "measure": Look(stroke="warn", width=0.16),
    "measured point": Look(fill="paper", stroke="warn", width=0.14),
}
