"""The pages' own small style sheet, for day and night.

``light-dark`` follows the page's theme; a browser without it gets the light shade of both text
and ground, which still read well together.
"""

from __future__ import annotations


def _shade(name: str, light: str, dark: str) -> str:
    return f"{name}:{light};{name}:light-dark({light},{dark});"


def _rule(selector: str, *declarations: str) -> str:
    return f"{selector}{{{''.join(declarations)}}}"


_CARD = (_shade("color", "#22282c", "#eceae3"), _shade("background-color", "#fbfaf6", "#191d20"))
_SOFT = _shade("color", "#525c62", "#b4bbbd")
_LINE = _shade("border-color", "#c9cdca", "#454e53")

CSS = "".join(
    [
        "<style>",
        # Nothing on a page may be wider than the page; long formulas scroll by themselves.
        _rule(".stMainBlockContainer", "max-width:90rem;padding-top:3.5rem;"),
        _rule(".stMarkdown .katex-display", "overflow-x:auto;overflow-y:hidden;padding:.2rem 0;"),
        # Targets large enough for a gloved finger.
        _rule(
            ".stApp input,.stApp [data-baseweb=select]>div,.stApp button,.stApp summary,"
            ".stApp [role=radiogroup] label,.stApp .stCheckbox label",
            "min-height:44px;",
        ),
        _rule(
            ".stApp [role=radiogroup] label,.stApp .stCheckbox label",
            "align-items:center;min-width:44px;",
        ),
        _rule(
            ".stApp :focus-visible",
            "outline:3px solid #0b62a8;",
            _shade("outline-color", "#0b62a8", "#7cc0ff"),
            "outline-offset:2px;",
        ),
        _rule(".lc-help", "margin:-.35rem 0 .1rem;font-size:.875rem;line-height:1.35;", _SOFT),
        _rule(".lc-read", "font-weight:600;", _shade("color", "#22282c", "#eceae3")),
        _rule(
            ".lc-fault",
            "margin:-.35rem 0 .1rem;padding-left:.6rem;border-left:4px solid;",
            "font-size:.9rem;line-height:1.4;",
            _shade("color", "#8f1f0b", "#ff9a7d"),
        ),
        _rule(
            ".lc-answer",
            *_CARD,
            "border:1px solid;border-left-width:10px;",
            "border-radius:8px;padding:1rem 1.2rem;",
        ),
        _rule(".lc-ok", _shade("border-color", "#1d6b45", "#6fce9d")),
        _rule(
            ".lc-close", _shade("border-color", "#8a5a00", "#f0bf57"), "border-left-style:dashed;"
        ),
        _rule(".lc-no", _shade("border-color", "#a3260f", "#ff9a7d"), "border-left-style:double;"),
        _rule(
            ".lc-verdict",
            "font-size:1.5rem;line-height:1.25;font-weight:650;margin:0 0 .6rem;",
            "text-wrap:balance;",
        ),
        _rule(".lc-mark", "display:inline-block;min-width:1.7rem;"),
        _rule(
            "dl.lc-facts",
            "display:grid;gap:.4rem 1.6rem;margin:0 0 .8rem;padding:0;",
            "grid-template-columns:repeat(auto-fit,minmax(min(100%,11rem),1fr));",
        ),
        _rule("dl.lc-facts>div,dl.lc-facts dt,dl.lc-facts dd", "margin:0;padding:0;"),
        _rule(".lc-facts dt", "font-size:.875rem;font-weight:400;", _SOFT),
        _rule(
            ".lc-facts dd",
            "font-size:1.2rem;line-height:1.3;font-weight:600;",
            "font-variant-numeric:tabular-nums;",
        ),
        _rule(
            ".lc-caution",
            "margin:.2rem 0 0;padding-top:.7rem;border-top:1px solid;",
            "font-weight:600;",
            _LINE,
        ),
        _rule(".lc-answer ul", "margin:.2rem 0 .6rem;padding-left:1.2rem;"),
        _rule(".lc-answer li", "margin:.3rem 0;overflow-wrap:anywhere;"),
        _rule(
            ".lc-table",
            "width:100%;border-collapse:collapse;line-height:1.3;",
            "font-variant-numeric:tabular-nums;",
        ),
        _rule(
            ".lc-table th,.lc-table td",
            "text-align:right;padding:.55rem 0 .55rem .6rem;",
            "border:0;border-bottom:1px solid;vertical-align:top;font-weight:400;",
            _LINE,
        ),
        _rule(".lc-table td", "white-space:nowrap;"),
        _rule(".lc-table thead th", "font-size:.875rem;", _SOFT),
        _rule(".lc-table th:first-child", "text-align:left;padding-left:0;"),
        _rule(".lc-table .lc-first th,.lc-table .lc-first td", "font-weight:650;"),
        _rule(".lc-table small", "display:block;font-size:.8rem;font-weight:400;", _SOFT),
        _rule(
            ".lc-bar",
            "display:block;height:.5rem;margin-top:.35rem;border:1px solid;",
            _shade("border-color", "#525c62", "#b4bbbd"),
        ),
        _rule(
            ".lc-bar>span",
            "display:block;height:100%;",
            _shade("background-color", "#525c62", "#b4bbbd"),
        ),
        _rule(
            ".lc-over>span",
            "background-image:repeating-linear-gradient(135deg,",
            "transparent 0 4px,#fbfaf6 4px 6px);",
            _shade("background-color", "#a3260f", "#a3260f"),
        ),
        _rule(".lc-list", "margin:0;padding-left:1.1rem;line-height:1.45;max-width:75ch;"),
        _rule(".lc-list li", "margin:.35rem 0;overflow-wrap:anywhere;"),
        _rule(
            ".lc-figure", "display:block;width:100%;max-width:44rem;height:auto;border-radius:8px;"
        ),
        "@media(max-width:640px){",
        _rule(".stMainBlockContainer", "padding-left:1rem;padding-right:1rem;"),
        _rule(".lc-answer", "padding:.8rem .8rem;"),
        _rule(".lc-verdict", "font-size:1.3rem;"),
        _rule(".lc-table", "font-size:.875rem;"),
        _rule(".lc-table th,.lc-table td", "padding-left:.5rem;"),
        "}",
        "</style>",
    ]
)
