"""A lift in one small file of typed words, and the same in the parameters of a link.

Both hold what a person typed and nothing that was computed, so that whoever opens one gets an
answer by the program of the day. What cannot be read is refused as a whole, with every fault.
"""

from __future__ import annotations

import json
import textwrap
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from liftcalc.errors import Fault, InputError, raise_any
from liftcalc.factors import CAUTION
from liftcalc.files import read_file, read_toml
from liftcalc.machines.files import shipped_names
from liftcalc.requests.fields import LiftRequest, fields_of
from liftcalc.requests.table import shortened, unknown_name

VERSION = 1
"""Of the form of the file; a newer one is refused, since what it says may not be known here."""
MARK = "lift-file"
"""Key of the version, by which a lift file is told from any other."""
SUFFIX = ".lift.toml"
MOST = 64 * 1024
"""Longest file that is read [bytes]; what a lift needs is below 3000."""
WANTED = "a lift saved by liftcalc, a few lines of TOML"
LONGEST = 500
"""Longest text of one field [characters]."""
NAMES = "names that a lift has"
YES = "yes"

_DEFAULTS: dict[str, Any] = {row.option: row.default for row in fields_of(LiftRequest)}
"""What each field is when nothing is said, by its option's name."""


def write(request: LiftRequest) -> str:
    """A lift as the text of a TOML file, only what was said: ``read`` gives an equal request.

    Raises ``InputError`` when a text is too long to be read again.
    """
    said = _said(request)
    raise_any(_too_long(said))
    lines = ["# A lift, as it was typed. Open it in the app, or: liftcalc check --lift FILE"]
    lines += [f"# {line}" for line in textwrap.wrap(CAUTION, 96)]
    lines += [f"{MARK} = {VERSION}", ""]
    lines += [f"{name} = {_quoted(value)}" for name, value in said.items()]
    return "\n".join(lines) + "\n"


def read(text: str | bytes, *, file: str = "") -> LiftRequest:
    """A lift from the text of a file of that name; whether it makes a lift, ``parse_lift`` tells.

    Raises ``InputError`` with every fault: not TOML, too large, too new, keys that are not known,
    values that are no text.
    """
    if len(text) > MOST:
        raise InputError.of(
            field="lift file",
            given=f"{len(text)} characters",
            wanted=f"at most {MOST}: a lift is a few lines",
            file=file,
        )
    table = read_toml(text, field="lift file", wanted=WANTED, file=file)
    _check_version(table.pop(MARK, None), file)
    _not_too_many(len(table), file)
    faults, said = [], {}
    for key, value in table.items():
        if key not in _DEFAULTS:
            faults.append(unknown_name(key, _DEFAULTS, wanted=NAMES, file=file))
        elif type(value) is not type(_DEFAULTS[key]):
            faults.append(_wrong_type(key, value, file))
        else:
            said[key] = value
    raise_any([*faults, *_too_long(said, file)])
    return _request(said)


def load_lift(path: str) -> LiftRequest:
    """A lift from a file on disk.

    Raises ``InputError`` when there is no such file, and as ``read``.
    """
    return read(read_file(path, field="lift file", wanted=WANTED, most=MOST), file=Path(path).name)


def parameters(request: LiftRequest) -> dict[str, str]:
    """A lift as parameters of a link: only what was said.

    Raises ``InputError`` when the machine is not a shipped one, which a link cannot carry, or a
    text is too long.
    """
    said = _said(request)
    raise_any([*_not_shipped(said), *_too_long(said)])
    return {name: YES if value is True else value for name, value in said.items()}


def from_parameters(given: Mapping[str, str]) -> LiftRequest:
    """A lift from the parameters of a link.

    A link may come from anybody: it can name a shipped machine, never a file of this computer.

    Raises ``InputError`` with every fault.
    """
    _not_too_many(len(given))
    faults: list[Fault] = []
    said: dict[str, Any] = {}
    for name, text in given.items():
        if name not in _DEFAULTS:
            faults.append(unknown_name(name, _DEFAULTS, wanted=NAMES))
        elif not isinstance(_DEFAULTS[name], bool):
            said[name] = text
        elif text == YES:
            said[name] = True
        else:
            faults.append(
                Fault(
                    field=shortened(name), given=f'"{shortened(text)}"', wanted=f"{YES}, or nothing"
                )
            )
    raise_any([*faults, *_not_shipped(said), *_too_long(said)])
    return _request(said)


def _said(request: LiftRequest) -> dict[str, Any]:
    """What differs from saying nothing, by the option's name."""
    values = {name: getattr(request, name.replace("-", "_")) for name in _DEFAULTS}
    return {name: value for name, value in values.items() if value != _DEFAULTS[name]}


def _request(said: Mapping[str, Any]) -> LiftRequest:
    return LiftRequest(**{name.replace("-", "_"): value for name, value in said.items()})


def _quoted(value: str | bool) -> str:
    """A value of TOML; what JSON escapes, TOML escapes alike, but for one character."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _check_version(version: Any, file: str) -> None:
    if type(version) is int and 1 <= version <= VERSION:
        return
    fix = "was it saved by liftcalc?"
    if type(version) is int and version > VERSION:
        fix = "it was saved by a newer liftcalc: use that one"
    given = "nothing" if version is None else shortened(repr(version))
    raise InputError.of(
        field="lift file", given=given, wanted=f"{MARK} = {VERSION}", fix=fix, file=file, key=MARK
    )


def _not_too_many(count: int, file: str = "") -> None:
    if count > len(_DEFAULTS):
        raise InputError.of(
            field="lift file" if file else "link",
            given=f"{count} names",
            file=file,
            wanted=f"at most {len(_DEFAULTS)}: each name of a lift once",
        )


def _wrong_type(key: str, value: Any, file: str) -> Fault:
    wanted = f'text in quotation marks, such as {key} = "…"'
    if isinstance(_DEFAULTS[key], bool):
        wanted = "true or false, without quotation marks"
    # Only its kind is said of a table or list: how one is written here would be news to a reader.
    plain = isinstance(value, str | int | float)
    given = shortened(json.dumps(value)) if plain else "a table, list or date"
    return Fault(field=key, given=given, wanted=wanted, file=file)


def _not_shipped(said: Mapping[str, Any]) -> list[Fault]:
    name = said.get("machine", "")
    if not name or name in shipped_names():
        return []
    return [
        Fault(
            field="machine",
            given=f'"{shortened(name)}"',
            wanted=f"in a link, one of {', '.join(shipped_names())}",
            fix="a machine file of your own goes with a saved lift, not with a link",
        )
    ]


def _too_long(said: Mapping[str, Any], file: str = "") -> list[Fault]:
    return [
        Fault(field=name, given=f"{len(value)} characters", wanted=f"at most {LONGEST}", file=file)
        for name, value in said.items()
        if isinstance(value, str) and len(value) > LONGEST
    ]
