"""Tables of maps as a reader's own program would read them: by the names of their columns."""

from __future__ import annotations

import csv
import io
import json

from liftcalc.maps.export import COLUMNS, Row, Table


def read_csv(text: str) -> Table:
    """The table of a CSV file."""
    lines = list(csv.reader(io.StringIO(text)))
    inputs = tuple((name, value) for mark, name, value in (x for x in lines if x[0] == "#"))
    head, *body = [line for line in lines if line[0] != "#"]
    assert tuple(head) == COLUMNS

    def cell(name: str, text: str) -> object:
        if not name.endswith(("_kg", "_m", "_deg")):
            return text
        return None if not text else int(text) if name.endswith("_kg") else float(text)

    rows = tuple(Row(**{n: cell(n, t) for n, t in zip(head, x, strict=True)}) for x in body)
    return Table(inputs=inputs, rows=rows, practice=True)


def read_json(text: str) -> dict[str, Table]:
    """The tables of a JSON file by name."""
    return {
        name: Table(
            inputs=tuple((one, other) for one, other in each["inputs"]),
            rows=tuple(Row(**dict(zip(each["columns"], row, strict=True))) for row in each["rows"]),
            practice=True,
        )
        for name, each in json.loads(text)["tables"].items()
    }
