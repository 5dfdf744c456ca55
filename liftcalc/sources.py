"""Where the factors come from: one entry a source, by key.

``seen`` means that the figure was read in a public text of the source or in one that quotes it;
``memory`` that it was recalled and not read; ``derived`` that it follows from mechanics;
``practice`` is common practice with no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Standing = Literal["seen", "memory", "derived", "practice"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A citation and how far it is known."""

    citation: str
    standing: Standing


SOURCES: dict[str, Source] = {
    "iso_10567": Source(
        citation="ISO 10567, earth-moving machinery: hydraulic excavators, lift capacity",
        standing="seen",
    ),
    "iso_14397_1": Source(
        citation="ISO 14397-1, loaders and backhoe loaders: rated operating capacity",
        standing="memory",
    ),
    "queensland_2006": Source(
        citation="Queensland Mobile Crane Code of Practice 2006, section 16.1", standing="seen"
    ),
    "en_474_4": Source(
        citation="EN 474-4 (1996), clause 4.10.2.2.3, backhoe loaders: object handling",
        standing="seen",
    ),
    "iso_4305": Source(
        citation="ISO 4305, scope, and ASME B30.5: level within 1 %", standing="seen"
    ),
    "noble_denton_0027": Source(
        citation="GL Noble Denton 0027/ND revision 11, table 5-1", standing="seen"
    ),
    "rollover_practice": Source(
        citation="vehicle practice: real rollover threshold 70 to 90 % of the rigid one",
        standing="seen",
    ),
    "friction_memory": Source(
        citation="handbook values of tyre grip on wet ground, taken low", standing="memory"
    ),
    "hse_trees": Source(
        citation="HSE guidance on tree work near overhead lines: the network operator's advice "
        "before any work within 10 m, measured along the ground",
        standing="seen",
    ),
    "hse_gs6": Source(
        citation="HSE guidance note GS6 and forestry practice: 15 m from lines on steel towers, "
        "9 m from lines on wood poles",
        standing="memory",
    ),
    "hse_ais8": Source(
        citation="HSE Agriculture Information Sheet 8: lines may be as low as 5.2 m",
        standing="seen",
    ),
    "osha_1408": Source(citation="29 CFR 1926.1408, table A", standing="seen"),
    "edge_memory": Source(
        citation="stand-off from an edge: its depth on sound ground, twice that on loose or filled",
        standing="memory",
    ),
    "queensland_doggers": Source(
        citation="Queensland doggers' guide: working load limits by size, angles of legs",
        standing="seen",
    ),
    "en_818_4": Source(
        citation="EN 818-4, chain slings of grade 8: working load limits by size", standing="memory"
    ),
    "asme_b30_9": Source(
        citation="ASME B30.9, slings: what a choke over 120° leaves of a straight sling",
        standing="seen",
    ),
    "tag": Source(citation="the mark on the gear itself, as given", standing="seen"),
    "mechanics": Source(citation="derived from statics", standing="derived"),
    "simulated": Source(
        citation="peaks of the campaign of motion, docs/validation.md", standing="derived"
    ),
    "practice": Source(citation="common practice, no source", standing="practice"),
}
