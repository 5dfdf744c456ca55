"""Machines for drawn requests: the shipped ones, and some altered so that other things govern."""

from __future__ import annotations

import re
from pathlib import Path

import liftcalc

MACHINES = {
    "standard-sideshift": 4.45, "standard-centre-mount": 4.45, "compact-centre-mount": 3.56,
    "small-tractor": 2.804,
}  # fmt: skip
"""Shipped machines, and how far each back end reaches from its foot pin [m]."""
FRONT = {
    "wide front shovel": {"in the shovel": "cradled", "eye on the shovel": "hangs"},
    "multi-purpose jaw bucket": {"in the jaw": "gripped", "eye on the jaw bucket": "hangs"},
    "pallet forks": {"on the forks": "cradled"},
    "front lifting hook": {"hook": "hangs"},
    "front log grab with rotator": {"grab": "grab"},
}
BACK = {
    "digging bucket": {"eye on the bucket": "hangs"},
    "lifting hook": {"hook on the dipper nose": "hangs"},
    "log grab with rotator": {"grab": "grab"},
}
"""Attachments of all four machines, their lift points and how each holds."""
VARIANTS = ("strong", "stiff", "worn", "charted")
"""Machines altered so that more than lift points and rams can govern."""


def variant(name: str, text: str, size: float) -> str:
    """A machine file altered: lift points that seldom govern, and one thing more."""
    text = re.sub(r'wll = "[^"]*"', f'wll = "{900 if name == "charted" else 30000} kg"', text)
    if name == "strong":
        text = re.sub(r"working_pressure = .*", 'working_pressure = "380 bar"', text)
        return re.sub(r"(front|rear)_axle_rating = .*\n", "", text)
    if name == "stiff":
        text = text.replace("front_axle_oscillates = true", "front_axle_oscillates = false")
        return text.replace("[wheels]\n", '[wheels]\nbraked = "all"\ndriven = "all"\n')
    if name == "worn":
        for ram, share in (("back.bucket", 0.3), ("back.dipper", 0.4), ("front.tilt", 0.25)):
            text = thinner(text, f"[{ram}_ram]", share)
        ram = "[back.boom_ram]\n"
        return text.replace(ram, f'{ram}holding_pressure = "190 bar"\n')
    text = re.sub(r"(front|rear)_footprint = .*\n", "", text)
    # Rated with the heaviest there is: whatever is fitted, nothing comes off.
    heaviest = "log grab with rotator" if size < 3 else "digging bucket"
    whole = f'rated_with = "{heaviest}"\n'
    for end, share, load, rated in (
        ("front", 0.3, 1500, ""), ("front", 0.6, 900, ""),
        ("back", 0.5, 1100, whole), ("back", 1.1, 500, whole),
    ):  # fmt: skip
        kilograms, reach = load * (size / 4.45) ** 2, share * size
        text += (
            f'\n[[plate]]\nend = "{end}"\nload = "{kilograms:.0f} kg"\nreach = "{reach:.2f} m"\n'
            f"{rated}"
        )
    return text


def thinner(text: str, table: str, share: float) -> str:
    """A machine file with bore and rod of one ram so much thinner."""
    before, head, after = text.partition(table)
    assert head, table

    def less(found: re.Match[str]) -> str:
        least = 18 if found[1] == "bore" else 15
        return f'{found[1]} = "{max(share * float(found[2]), least):.1f} mm"'

    return before + head + re.sub(r'(bore|rod) = "(\d+) mm"', less, after, count=2)


def machine_files() -> dict[str, str]:
    """The altered machines as texts, by the word that stands for each in a command line."""
    folder = Path(liftcalc.__file__).parents[1] / "machines"
    return {
        f"@{name} {machine}": variant(name, (folder / f"{machine}.toml").read_text("utf-8"), size)
        for machine, size in MACHINES.items()
        for name in VARIANTS
    }
