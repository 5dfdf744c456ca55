"""Finding a species by the name a person gives it. Nothing is guessed.

A name finds a species when it is that species' own name, or when every word of it belongs to
one species only. A name that several share is refused with the list, and a misspelt one with
the nearest names.
"""

from __future__ import annotations

import difflib
import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache

from liftcalc.errors import InputError
from liftcalc.timber.table import Bark, Sourced, Species, all_species

__all__ = ["Bark", "Sourced", "Species", "all_species", "find"]

SHARED_NAMES: dict[str, tuple[str, ...]] = {
    "redwood": ("Coast redwood", "Scots pine"),
    "red gum": ("River red gum", "Sweetgum"),
    "cedar": ("Western redcedar (UK)", "Western redcedar (US)", "Port-Orford-cedar (US)"),
    "whitewood": ("Norway spruce", "European silver fir", "Yellow-poplar (tulip tree)"),
}
"""Names of the timber trade for unlike trees; common practice, no source. Always asked back."""

WEAK_WORDS = frozenset(
    # Forty words read and amend better as lines of words than as a list.
    "american black coast common crack dutch eastern english europe european field grey grown "  # noqa: SIM905
    "growth holm horse hybrid ireland japanese london mature northern norway old own plantation "
    "red river silver southern sweet tree turkey uk us western white wild yellow young".split()
)
"""Words that describe a tree without naming one: alone they find nothing."""

ONE_WORD = {"redcedar": "red cedar", "honeylocust": "honey locust", "sweetgum": "sweet gum"}
"""Names that the table writes as one word, so that "locust" still means two trees."""

IDLE_WORDS = frozenset({"tree", "trees", "log", "logs", "wood", "timber"})
"""Words that add nothing to a name: "oak tree" is an oak, while "tulip tree" is a name."""

LISTED = 12
"""Most candidates named in one refusal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Entry:
    species: Species
    own: str  # the name of the row in full
    names: frozenset[str]  # that and every name inside it
    words: frozenset[str]  # every word of its names
    qualifiers: frozenset[str]  # words of its region


def _plain(name: str) -> str:
    """Lower case, no accents, no punctuation, no hybrid mark, single spaces."""
    bare = unicodedata.normalize("NFKD", name.replace("×", " x "))
    letters = "".join(c for c in bare if not unicodedata.combining(c)).casefold()
    words = re.sub(r"[^a-z0-9]+", " ", re.sub(r"[’']", "", letters)).split()
    return " ".join(word for word in words if word not in {"x", "spp", "sp"})


def _joined(name: str) -> str:
    """Without spaces, so that "red cedar" and "redcedar" are one."""
    return name.replace(" ", "")


def _common_names(name: str) -> list[str]:
    """The names inside a table name: "English / sessile oak" is English oak and sessile oak."""
    outside = re.sub(r"\([^)]*\)", " ", name)
    inside = re.findall(r"\(([^)]*)\)", name)
    names = [name, outside, *inside]
    if " / " in outside:
        first, last = outside.split(" / ", 1)
        borrows = len(first.split()) == 1 and first.strip() != "Robinia"  # a tree of its own
        names += [f"{first} {last.split()[-1]}" if borrows else first, last]
    if "," in outside:
        head, tail = outside.split(",", 1)
        names += [head, f"{tail} {head}"]
    if inside and len(outside.split()) > 1:
        names.append(f"{inside[0]} {outside.split()[-1]}")
    return names


def _botanical_names(name: str) -> list[str]:
    """Each binomial of a row: the genus is written once and belongs to all."""
    parts = [_plain(part) for part in name.split("/")]
    genus = parts[0].split()[0]
    return [parts[0], *(f"{genus} {part.split()[-1]}" for part in parts[1:])]


def _entry(species: Species) -> _Entry:
    botanical = _botanical_names(species.botanical) if species.botanical else []
    names = {_plain(name) for name in _common_names(species.name)} | set(botanical)
    words = {word for name in names for word in name.split()}
    words |= {part for word in words for part in ONE_WORD.get(word, "").split()}
    return _Entry(
        species=species,
        own=_plain(species.name),
        names=frozenset(names - WEAK_WORDS),
        words=frozenset(words),
        qualifiers=frozenset(_plain(species.region).split()),
    )


@cache
def _entries() -> tuple[_Entry, ...]:
    return tuple(_entry(species) for species in all_species())


def _has(entry: _Entry, word: str) -> bool:
    """Whether a word fits: of a name, of the region, or a genus cut to its first letter."""
    if word in entry.words or word in entry.qualifiers:
        return True
    return len(word) == 1 and _plain(entry.species.botanical).startswith(word)


@lru_cache(maxsize=256)
def _candidates(asked: str) -> list[_Entry]:
    """Every species that the words asked for could mean; read, never changed."""
    if not asked:
        return []
    if asked in SHARED_NAMES:
        return [entry for entry in _entries() if entry.species.name in SHARED_NAMES[asked]]
    words = asked.split()
    squeezed = _joined(asked)
    return [
        entry
        for entry in _entries()
        if squeezed in {_joined(name) for name in entry.names}
        or (
            all(_has(entry, word) for word in words)
            and any(word in entry.words - WEAK_WORDS for word in words)
        )
    ]


def _near(asked: str) -> list[Species]:
    """Species whose names look like what was asked, nearest first; else those sharing a word."""
    owners: dict[str, list[Species]] = {}
    for entry in _entries():
        for name in (*entry.names, *(word for word in entry.words if len(word) > 2)):
            owners.setdefault(name, []).append(entry.species)
    near = _look_alikes(asked, list(owners), 0.75)
    if not near:
        near = [word for word in asked.split() if word in owners and word not in WEAK_WORDS]
    for word in asked.split():
        if not near and len(word) > 2:
            near = _look_alikes(word, list(owners), 0.65)
    return list({species.name: species for name in near for species in owners[name]}.values())


def _look_alikes(text: str, names: list[str], cutoff: float) -> list[str]:
    return difflib.get_close_matches(text, names, n=5, cutoff=cutoff)


def _listed(species: list[Species]) -> str:
    names = [str(one) for one in species[:LISTED]]
    more = len(species) - LISTED
    return "; ".join(names) + (f"; and {more} more" if more > 0 else "")


def find(name: str, *, field: str = "species") -> Species:
    """The species a person means.

    Parameters
    ----------
    name : str
        Common or botanical name; case, accents, punctuation and word order do not matter.
        ``"unknown hardwood"`` and ``"unknown softwood"`` are species one may choose.
    field : str
        The name to use in an error message.

    Raises
    ------
    InputError
        When no species, or more than one, has the name; the fault lists what could be meant.
    """
    asked = _plain(name) if isinstance(name, str) else ""
    found = _candidates(asked)
    if not found:
        asked = " ".join(word for word in asked.split() if word not in IDLE_WORDS)
        found = _candidates(asked)
    if len(found) > 1 and asked not in SHARED_NAMES:
        exact = [entry for entry in found if asked == entry.own]
        found = exact or found
    if len(found) == 1:
        return found[0].species
    given = f'"{name}"'
    wanted = 'the common or botanical name of one tree, or "unknown hardwood" or "unknown softwood"'
    if found:
        raise InputError.of(
            field=field,
            given=given,
            understood=f"a name shared by {len(found)} species",
            wanted=wanted,
            fix=f"write which: {_listed([entry.species for entry in found])}",
        )
    near = _near(asked) if asked else []
    fix = f"did you mean: {_listed(near)}" if near else "no species of the table is near that name"
    raise InputError.of(field=field, given=given, wanted=wanted, fix=fix)
