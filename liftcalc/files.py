"""Files that a command writes: all of them or none, and none by halves."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from liftcalc.errors import Fault, InputError


def kind_of(name: str, kinds: tuple[str, ...]) -> str:
    """The kind of a file by its ending, or an ``InputError``."""
    kind = Path(name).suffix.lower().removeprefix(".")
    if kind in kinds:
        return kind
    raise InputError(
        Fault(
            field="save",
            given=f'"{name}"',
            wanted="a file name that ends in " + ", ".join(f".{each}" for each in kinds),
        )
    )


def write_all(files: list[tuple[str, bytes]]) -> None:
    """Write files beside their places first, and put them there once all are whole.

    Raises
    ------
    InputError
        When one cannot be written; then none is changed.
    """
    waiting: list[tuple[Path, Path]] = []
    name = ""
    try:
        for name, content in files:
            place = Path(name)
            handle, beside = tempfile.mkstemp(
                dir=place.parent, prefix=f".{place.name}.", suffix=".part"
            )
            waiting.append((Path(beside), place))
            with os.fdopen(handle, "wb") as out:
                out.write(content)
            if place.is_dir():
                raise IsADirectoryError(None, "it is a folder")
        for beside_path, place in waiting:
            name = str(place)
            # mkstemp's files are for the owner's eyes only; these are for everyone's, as usual.
            beside_path.chmod(0o666 & ~_mask())
            beside_path.replace(place)
    except OSError as error:
        raise InputError(
            Fault(
                field="save",
                given=f'"{name}"',
                wanted="a place that can be written to",
                understood=str(error.strerror or error).lower(),
            )
        ) from None
    finally:
        for beside_path, _ in waiting:
            beside_path.unlink(missing_ok=True)


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
