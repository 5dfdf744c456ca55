"""A log from the words a person types, with an echo of what was understood."""

from __future__ import annotations

from dataclasses import dataclass

from liftcalc.requests.fields import LogRequest, names_of
from liftcalc.requests.reader import FieldReader
from liftcalc.timber.measure import NOTHING, Extras, LogMeasure, measure_faults


@dataclass(frozen=True, slots=True, kw_only=True)
class ParsedLog:
    """A measure, and for each thing said what was understood."""

    measure: LogMeasure
    echoes: tuple[tuple[str, str], ...]


def parse_log(request: LogRequest) -> ParsedLog:
    """Read a log as typed; every fault, by the option's name, is in one ``InputError``."""
    reader = FieldReader(request)
    measure = read_measure(reader)
    reader.gather.raise_any()
    assert measure is not None  # what could not be read has raised
    return ParsedLog(measure=measure, echoes=tuple(reader.echoes))


def read_measure(reader: FieldReader) -> LogMeasure | None:
    """The log; None where there are faults, which the reader has noted."""
    values, names = reader.values, names_of(LogRequest)
    extras = Extras(
        **{name: values[name] or NOTHING for name in ("ice", "mud", "root_plate", "limbs")}
    )
    diameters = {"butt": values["butt"], "middle": values["mid"], "top": values["top"]}
    faults = measure_faults(
        length=values["length"],
        **diameters,
        moisture=values["moisture"],
        extras=extras,
        said={reader.fields[name].option: reader.text(name) for name in names if reader.text(name)},
        unread=frozenset(name for name in ("butt", "mid", "top") if reader.unread(name)),
    )
    reader.gather.faults += faults
    lacking = [name for name in ("species", "length") if values[name] is None]
    if faults or lacking or reader.unread(*names):
        return None
    return LogMeasure(
        species=values["species"],
        length=values["length"],
        **diameters,
        over_bark=values["bark"],
        moisture=values["moisture"],
        extras=extras,
        weighed=values["mass"],
    )
