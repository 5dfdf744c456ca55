"""Tries a lesson over many seeds: what a person who wrote one wants to know before it is used.

``python -m liftcalc.school.lesson_check FILE [MACHINE]`` prints it.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass

from liftcalc.errors import InputError
from liftcalc.school.exercise import pose
from liftcalc.school.files import lesson as find
from liftcalc.school.lesson import Lesson
from liftcalc.school.marking import mark

SEEDS = 100
VARIETY = 0.2
"""Share of the seeds that must read differently, so that practice is not by rote [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What came of many seeds.

    ``posed`` of ``seeds`` gave an exercise, ``different`` of them read differently; ``faults`` is
    what was wrong, each told once.
    """

    seeds: int
    posed: int
    different: int
    faults: tuple[str, ...]

    @property
    def sound(self) -> bool:
        """Whether every seed gave a sound exercise and practice does not repeat by rote."""
        return not self.faults and self.different >= VARIETY * self.seeds


def prove(lesson: Lesson, *, seeds: int = SEEDS, machine: str | None = None) -> Proof:
    """Pose a lesson with many seeds and look at each exercise.

    Exactly one choice must be right, the key must be marked right, and every slot filled. Whether
    the figures are right is not proved here but in the model's own tests.
    """
    texts: set[tuple[str, ...]] = set()
    faults: dict[str, None] = {}
    posed = 0
    for seed in range(seeds):
        try:
            made = pose(lesson, seed=seed, machine=machine)
        except InputError as refused:
            faults[str(refused)] = None
            continue
        posed += 1
        texts.add((made.story, made.question, made.move, *(each.text for each in made.choices)))
        if made.key is None and sum(each.right for each in made.choices) != 1:
            faults[f"seed {seed}: not exactly one choice is right"] = None
        if made.key is not None and mark(made, made.key.value).score < 1:
            faults[f"seed {seed}: the key itself is not marked right"] = None
    return Proof(seeds=seeds, posed=posed, different=len(texts), faults=tuple(faults))


def main(words: list[str]) -> int:
    """Print a proof; 1 where it is not sound."""
    try:
        lesson = find(words[0])
        proof = prove(lesson, machine=words[1] if len(words) > 1 else None)
    except (IndexError, InputError) as refused:
        print(refused if isinstance(refused, InputError) else "Name a lesson file.")
        return 2
    print(f"{lesson.id}: {proof.posed} of {proof.seeds} seeds posed, {proof.different} different.")
    for each in proof.faults:
        print(f"- {each}")
    print("Sound." if proof.sound else "Not sound.")
    return 0 if proof.sound else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
