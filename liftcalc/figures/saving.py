"""Figures as bytes of a file: SVG with words that stay words, PNG and PDF, the same every time."""

from __future__ import annotations

import io

import matplotlib as mpl
from matplotlib.figure import Figure

DPI = 200


def picture(figure: Figure, kind: str) -> bytes:
    """The figure as a file of a kind: svg, png or pdf.

    Words of an SVG can be searched and read aloud; dates are left out, so that the same figure
    gives the same bytes.
    """
    out = io.BytesIO()
    dated = {"svg": {"Date": None}, "pdf": {"CreationDate": None}, "png": {}}[kind]
    with mpl.rc_context({"svg.fonttype": "none", "svg.hashsalt": "liftcalc"}):
        figure.savefig(out, format=kind, dpi=DPI, facecolor=figure.get_facecolor(), metadata=dated)
    return out.getvalue()
