"""A scene as SVG text for a page: plain strings, every word escaped."""

from __future__ import annotations

import base64
from collections.abc import Callable, Iterable
from html import escape

from liftcalc.figures.scene import VOICE_SIZE, WIDE, Disc, Label, Mark, Role, Scene, Spot, Voice
from liftcalc.figures.styles import LOOKS, TONES, Tone

Put = Callable[[Spot], Spot]

UNIT = 12.0
"""Drawing units in one em: text of 12 px in a drawing 372 px wide, such as on a phone."""
FONTS = "Segoe UI,Roboto,Helvetica Neue,Arial,sans-serif"
BENCH, SMALLER = 560, 0.88
"""Width from which a drawing is on a bench and no longer on a phone [px], and how much smaller
its words may then be [-]."""
WORDS = "words"
"""Class of all words over a drawing."""
LINE = 1.35
"""Height of a line of text below the drawing [em]."""


def svg(scene: Scene) -> str:
    """The drawing as one ``<svg>`` element, light or dark as the page around it is."""
    scale = UNIT / scene.em
    below = scene.lines_below()
    drawn = (scene.top - scene.bottom) * scale
    height = drawn + (LINE * len(below) + 1.0) * UNIT
    width = WIDE * UNIT

    def put(at: Spot) -> Spot:
        return (at[0] - scene.left) * scale, (scene.top - at[1]) * scale

    parts = [
        f'<svg viewBox="0 0 {width:.0f} {height:.0f}" role="img" '
        f'aria-label="{escape(scene.about, quote=True)}" '
        'xmlns="http://www.w3.org/2000/svg" '
        f'style="color-scheme:light dark" font-family="{FONTS}">',
        f"<style>{_sizes()}{_looks(scene)}</style>",
        f'<rect width="100%" height="100%" rx="8" style="{_tone("fill", "paper")}"/>',
        *(_mark(mark, put, scale) for mark in scene.marks),
        f'<g class="{WORDS}">',
        *(_label(label, put) for label in scene.labels),
        "</g>",
    ]
    for number, (text, voice) in enumerate(below, 1):
        at = (0.75 * UNIT, drawn + LINE * UNIT * number)
        parts.append(_text(text, at, voice, "start", ""))
    return "".join([*parts, "</svg>"])


def image(svg_file: bytes, about: str, how: str = "") -> str:
    """A file of SVG as an image in a page, apart from the page's own styles, with its words for a
    screen reader; ``how`` are attributes as HTML."""
    data = base64.b64encode(svg_file).decode()
    words = escape(about, quote=True)
    return f'<img {how} src="data:image/svg+xml;base64,{data}" alt="{words}">'


def without(roles: Iterable[Role]) -> str:
    """A style that hides marks of some roles and all words over a drawing, to put at its end."""
    gone = ",".join([f".{WORDS}", *(f".{_class(role)}" for role in roles)])
    return f"<style>{gone}{{display:none}}</style>"


def _class(role: Role) -> str:
    return "m-" + role.replace(" ", "-")


def _looks(scene: Scene) -> str:
    """Styles, one for each role that is drawn and for each voice."""
    made = []
    for role in dict.fromkeys(mark.role for mark in scene.marks):
        look = LOOKS[role]
        css = [_tone("fill", look.fill), _tone("stroke", look.stroke)]
        css.append(f"stroke-width:{look.width * UNIT:.2f};stroke-linejoin:round")
        if look.dash:
            css.append("stroke-dasharray:" + " ".join(f"{each * UNIT:.1f}" for each in look.dash))
        made.append(f".{_class(role)}{{{';'.join(css)}}}")
    made.append(".open{fill:none}")
    made.append(f"text{{{_tone('stroke', 'paper')};stroke-width:3;paint-order:stroke}}")
    for voice in VOICE_SIZE:
        bold = ";font-weight:600" if voice in ("title", "strong") else ""
        made.append(f".{voice}{{{_tone('fill', 'soft' if voice == 'small' else 'ink')}{bold}}}")
    return "".join(made)


def _sizes() -> str:
    def rules(factor: float) -> str:
        sizes = {voice: factor * size * UNIT for voice, size in VOICE_SIZE.items()}
        return "".join(f".{voice}{{font-size:{size:.2f}px}}" for voice, size in sizes.items())

    return f"{rules(1.0)}@media(min-width:{BENCH}px){{{rules(SMALLER)}}}"


def _tone(what: str, tone: Tone) -> str:
    """A style for both shades; browsers that know one only take the light one."""
    light, dark = TONES[tone]
    return f"{what}:{light}" + (f";{what}:light-dark({light},{dark})" if light != dark else "")


def _mark(mark: Mark, put: Put, scale: float) -> str:
    name = _class(mark.role)
    if isinstance(mark, Disc):
        x, y = put(mark.centre)
        return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{mark.radius * scale:.1f}" class="{name}"/>'
    points = " ".join("{:.1f},{:.1f}".format(*put(each)) for each in mark.points)
    if mark.closed:
        return f'<polygon points="{points}" class="{name}"/>'
    return f'<polyline points="{points}" class="{name} open"/>'


def _label(label: Label, put: Put) -> str:
    x, y = put(label.at)
    turn = f' transform="rotate(-90 {x:.1f} {y:.1f})"' if label.turn else ""
    return _text(label.text, (x, y), label.voice, label.anchor, turn)


def _text(text: str, at: Spot, voice: Voice, anchor: str, more: str) -> str:
    return (
        f'<text x="{at[0]:.1f}" y="{at[1]:.1f}" text-anchor="{anchor}" class="{voice}"{more}>'
        f"{escape(text)}</text>"
    )
