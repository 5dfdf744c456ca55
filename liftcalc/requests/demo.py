"""The embedded demo: a lift of our own making, the same for command line and page."""

from __future__ import annotations

from liftcalc.requests.fields import LiftRequest

DEMO = LiftRequest(
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
    sling_kind="chain grade 80",
    sling_size="10 mm",
    hook_wll="3.15 t",
    shackle_wll="none",
    hitch_wll="2 t",
    breakout="1",
    ground="dense gravel",
    mat="1 m",
    wires="none",
    edge="3 m",
    edge_depth="1.2 m",
    people="none",
    faults="none",
)
"""A windblown larch, cross-cut, to be lifted with the back end from the side of a gravel track."""
