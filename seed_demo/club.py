"""The invented club: its coaches and fencers. Any likeness to people is chance."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

CLUB = "Halle Nord Fencing Circle"
PASSPHRASE = "lamplight on the piste"


@dataclass(frozen=True)
class Person:
    """A fencer of the demo."""

    nickname: str
    born: int
    weapon: str
    hand: str
    coach: int
    model: str


COACHES: tuple[Mapping[str, str], ...] = (
    {"name": "Ilse Brandt", "role": "head"},
    {"name": "Marco Venn", "role": "coach"},
    {"name": "Tamsin Oyelaran", "role": "coach"},
)

_NAMES = (
    "Anouk", "Bela", "Cosmo", "Dara", "Emmi", "Finn K", "Greta", "Hugo", "Ida", "Jonas", "Kaja",
    "Levi", "Mina", "Noor", "Otto", "Pia", "Quirin", "Runa", "Sami", "Thea", "Ulli", "Vera",
    "Wim", "Zoe",
)  # fmt: skip
_BORN = (2016, 2015, 2014, 2013, 2012, 2011, 2010, 2009, 2008, 2006, 1998, 1984, 1971)
_WEAPONS = ("foil", "epee", "sabre")
_MODELS = ("steady", "insight", "plateau")

FENCERS: tuple[Person, ...] = tuple(
    Person(
        nickname=name,
        born=_BORN[i * 5 % len(_BORN)],
        weapon=_WEAPONS[i % 3],
        hand="left" if i % 7 == 3 else "right",
        coach=i % len(COACHES),
        model=_MODELS[i // 3 % 3],
    )
    for i, name in enumerate(_NAMES)
)

# Of these no consent to voice and stamps is noted.
QUIET = ("Wim", "Zoe")
ASKED = date(2026, 8, 1)


def consent_to_noise(person: Person) -> dict[str, date]:
    """The days on which voice and stamps were agreed to; for a minor by a guardian, too."""
    if person.nickname in QUIET:
        return {}
    minor = ASKED.year - person.born <= 18
    return {"noise_self": ASKED} | ({"noise_guardian": ASKED} if minor else {})
