"""Sessions, devices and pairing codes. Tokens are stored as digests only."""

from __future__ import annotations

import hashlib
import re
import secrets
import uuid
from dataclasses import dataclass
from datetime import timedelta
from functools import lru_cache

from argon2.exceptions import Argon2Error, InvalidHashError
from sqlalchemy import bindparam, delete, select, update
from sqlalchemy.orm import Session

from ...rules.said import say
from ..db.engine import db, now, writing
from ..db.models import Club, Coach, Device, Pairing
from ..log.fields import is_id
from ..problems import Missing
from .clubs import hasher, sign_in_name

LASTS = timedelta(days=60)
RENEW_AFTER = timedelta(days=1)
PAIRING_LASTS = timedelta(minutes=5)
# Letters and digits that are not easily confused.
CODE_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
CODE_LENGTH = 12
CODE_GROUP = 4


# the attributes of an Actor, and the expiry of the session
_WHO = (
    select(
        Coach.club_id,
        Club.name,
        Coach.id,
        Coach.name,
        Coach.role,
        Device.id,
        Device.expires_at,
    )
    .join_from(Device, Coach, (Coach.club_id == Device.club_id) & (Coach.id == Device.coach_id))
    .join(Club, Club.id == Device.club_id)
    .where(Device.token_hash == bindparam("digest"), Coach.active)
)


@dataclass(frozen=True)
class Browser:
    """The browser that asks to be let in.

    Attributes:
        label: what it calls itself.
        token: the token it holds, if any; with a good one it is the device it was.
    """

    label: str
    token: str = ""


@dataclass(frozen=True)
class Actor:
    """Who is signed in."""

    club_id: int
    club: str
    coach_id: str
    name: str
    role: str
    device_id: str


def sign_in(name: str, passphrase: str, browser: Browser) -> str | None:
    """Sign in; returns the new token, or None if name or passphrase is wrong.

    Takes as long for an unknown name as for a wrong passphrase.
    """
    coach = db.session.scalar(select(Coach).where(Coach.sign_in == sign_in_name(name)))
    known = coach is not None and coach.active
    digest = coach.passphrase_hash if coach is not None and known else _nobody()
    try:
        hasher().verify(digest, passphrase)
    except (Argon2Error, InvalidHashError):
        return None
    if coach is None or not known:
        return None
    better = hasher().hash(passphrase) if hasher().check_needs_rehash(digest) else digest
    with writing() as session:
        held = hold_coach(session, coach.club_id, coach.id)
        if held is None or held.passphrase_hash != digest:
            return None  # changed, or let go, while the passphrase was looked at
        held.passphrase_hash = better
        return admit(session, held, browser)


def who(token: str) -> tuple[Actor, bool] | None:
    """The actor of a session token, and whether the session was just extended; None if invalid."""
    row = db.session.connection().execute(_WHO, {"digest": digest_of(token)}).first()
    if row is None:
        return None
    *known, expires_at = row
    if expires_at <= now():
        return None
    actor = Actor(*known)
    if expires_at - now() > LASTS - RENEW_AFTER:
        return actor, False
    with writing() as session:
        session.execute(
            update(Device)
            .where(Device.token_hash == digest_of(token))
            .values(expires_at=now() + LASTS, last_seen=now())
        )
    return actor, True


def sign_out(token: str) -> None:
    """End the sign-in of a token, and the codes that were shown by its coach."""
    with writing() as session:
        _end(session, _held_by(session, token))


def devices_of(club_id: int, coach_id: str | None) -> list[Device]:
    """Devices that are signed in: of one coach, or of the whole club."""
    wanted = select(Device).where(Device.club_id == club_id, Device.expires_at > now())
    if coach_id is not None:
        wanted = wanted.where(Device.coach_id == coach_id)
    return list(db.session.scalars(wanted.order_by(Device.last_seen.desc(), Device.id)))


def name_device(club_id: int, device_id: str, coach_id: str | None, name: str | None) -> None:
    """Name a device of one coach, or of anyone in the club."""
    with writing() as session:
        _device(session, club_id, device_id, coach_id).name = name


def revoke_device(club_id: int, device_id: str, coach_id: str | None) -> None:
    """Sign a device out: of one coach, or of anyone in the club."""
    with writing() as session:
        _end(session, _device(session, club_id, device_id, coach_id))


def new_pairing(club_id: int, coach_id: str) -> str:
    """A one-time code that signs in another device of the coach within PAIRING_LASTS."""
    code = "".join(secrets.choice(CODE_LETTERS) for _ in range(CODE_LENGTH))
    with writing() as session:
        _forget_pairings(session, club_id, coach_id)
        session.add(
            Pairing(
                code_hash=digest_of(code),
                club_id=club_id,
                coach_id=coach_id,
                expires_at=now() + PAIRING_LASTS,
            )
        )
    return in_groups(code, CODE_GROUP)


def pair(code: str, browser: Browser) -> str | None:
    """Use up a code; returns the new token, or None if the code is not valid any more."""
    with writing() as session:
        used = session.execute(
            update(Pairing)
            .where(
                Pairing.code_hash == digest_of(code_letters(code)),
                Pairing.used_at.is_(None),
                Pairing.expires_at > now(),
            )
            .values(used_at=now())
            .returning(Pairing.club_id, Pairing.coach_id)
        ).first()
        if used is None:
            return None
        coach = hold_coach(session, used.club_id, used.coach_id)
        return admit(session, coach, browser) if coach else None


def digest_of(token: str) -> str:
    """SHA-256; enough for a random token."""
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()


def in_groups(letters: str, size: int) -> str:
    """Format a code in groups, to be read aloud and typed."""
    return "-".join(letters[k : k + size] for k in range(0, len(letters), size))


def code_letters(typed: str) -> str:
    """Normalise a typed code: case, spaces and dashes do not count."""
    return re.sub(r"[\s-]", "", typed).upper()


def hold_coach(session: Session, club_id: int, coach_id: str) -> Coach | None:
    """A coach of the club, held until the commit; None for one who is not there or has left."""
    coach = session.get(Coach, (club_id, coach_id), with_for_update=True)
    return coach if coach is not None and coach.active else None


def admit(session: Session, coach: Coach, browser: Browser) -> str:
    """Sign a coach in, inside a write transaction that holds the coach; returns the new token.

    The token that the browser held until now ends, whoever's it was. Where it was this coach's,
    the device goes on under its name; else the browser is a new device.
    """
    held = _held_by(session, browser.token)
    if held is not None and (held.club_id, held.coach_id) != (coach.club_id, coach.id):
        _end(session, held)
        held = None
    over = (Device.club_id == coach.club_id, Device.expires_at <= now())
    session.execute(delete(Device).where(*over))
    token = secrets.token_urlsafe(32)
    if held is None:
        held = Device(club_id=coach.club_id, id=str(uuid.uuid4()), coach_id=coach.id)
        session.add(held)
    held.label, held.token_hash = browser.label, digest_of(token)
    held.last_seen, held.expires_at = now(), now() + LASTS
    session.flush()
    return token


def sign_out_everywhere(
    session: Session, club_id: int, coach_id: str, keep: str | None = None
) -> None:
    """End every sign-in and every waiting pairing code of a coach, but the one device."""
    others = (Device.club_id == club_id, Device.coach_id == coach_id, Device.id != (keep or ""))
    session.execute(delete(Device).where(*others))
    _forget_pairings(session, club_id, coach_id)


def _held_by(session: Session, token: str) -> Device | None:
    """The device that holds a token which is still good, held until the commit."""
    mine = (Device.token_hash == digest_of(token), Device.expires_at > now())
    return session.scalar(select(Device).where(*mine).with_for_update())


def _end(session: Session, device: Device | None) -> None:
    """Sign a device out. A code shown on it is not to let in whoever held it a moment later."""
    if device is not None:
        this = (Device.club_id == device.club_id, Device.id == device.id)
        session.execute(delete(Device).where(*this))
        _forget_pairings(session, device.club_id, device.coach_id)


def _forget_pairings(session: Session, club_id: int, coach_id: str) -> None:
    waiting = (Pairing.club_id == club_id, Pairing.coach_id == coach_id)
    session.execute(delete(Pairing).where(*waiting))


def _device(session: Session, club_id: int, device_id: str, coach_id: str | None) -> Device:
    device = session.get(Device, (club_id, device_id)) if is_id(device_id) else None
    if device is None or (coach_id is not None and device.coach_id != coach_id):
        raise Missing(say("No such device."))
    return device


@lru_cache(maxsize=1)
def _nobody() -> str:
    """A digest to verify against when the name is unknown."""
    return hasher().hash(secrets.token_hex(16))
