"""The embedded demo: a lift of our own making, the same for command line and page."""

from __future__ import annotations

from liftcalc.answers.asked import Asked

DEMO = Asked(
    machine="standard-sideshift",
    end="back",
    attachment="lifting hook",
    species="European larch",
    length="4.2 m",
    butt="55 cm",
    mid="49 cm",
    top="44 cm",
    reach="3.8 m",
    height="3.1 m",
    slew="40 deg",
    sling_length="2.4 m",
)
"""A windblown larch, cross-cut, to be lifted over the side of a track with the back end."""
