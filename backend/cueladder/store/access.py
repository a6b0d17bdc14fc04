"""Signing in and out, devices, pairing codes. Tokens are kept as digests only."""

from __future__ import annotations

import hashlib
import re
import secrets
from dataclasses import dataclass
from datetime import timedelta
from functools import lru_cache

from argon2.exceptions import Argon2Error, InvalidHashError
from sqlalchemy import bindparam, delete, select, update
from sqlalchemy.orm import Session

from ..rules.said import say
from .clubs import hasher, sign_in_name
from .db import db, now, writing
from .event_fields import is_id
from .models import Club, Coach, Device, Pairing, SignIn
from .problems import Missing

LASTS = timedelta(days=60)
RENEW_AFTER = timedelta(days=1)
PAIRING_LASTS = timedelta(minutes=5)
# Letters and digits that are not mistaken for each other.
CODE_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
CODE_LENGTH = 12
CODE_GROUP = 4


# the attributes of an Actor, and until when
_WHO = (
    select(
        Coach.club_id,
        Club.name,
        Coach.id,
        Coach.name,
        Coach.role,
        SignIn.device_id,
        SignIn.expires_at,
    )
    .join_from(SignIn, Coach, (Coach.club_id == SignIn.club_id) & (Coach.id == SignIn.coach_id))
    .join(Club, Club.id == SignIn.club_id)
    .where(SignIn.token_hash == bindparam("digest"), Coach.active)
)


@dataclass(frozen=True)
class Actor:
    """Who is signed in."""

    club_id: int
    club: str
    coach_id: str
    name: str
    role: str
    device_id: str


def sign_in(name: str, passphrase: str, device_id: str, label: str) -> str | None:
    """Sign in; returns the new token, or None if name or passphrase is wrong.

    An unknown name takes as long as a wrong passphrase.
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
    stale = hasher().check_needs_rehash(digest)
    with writing() as session:
        if stale:
            session.execute(
                update(Coach)
                .where(Coach.club_id == coach.club_id, Coach.id == coach.id)
                .values(passphrase_hash=hasher().hash(passphrase))
            )
        return admit(session, coach.club_id, coach.id, device_id, label)


def who(token: str) -> tuple[Actor, bool] | None:
    """Whom a token stands for, and whether it was renewed just now; None if it is not valid."""
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
            update(SignIn)
            .where(SignIn.token_hash == digest_of(token))
            .values(expires_at=now() + LASTS)
        )
        session.execute(
            update(Device)
            .where(Device.club_id == actor.club_id, Device.id == actor.device_id)
            .values(last_seen=now())
        )
    return actor, True


def sign_out(token: str) -> None:
    """Forget a token."""
    with writing() as session:
        session.execute(delete(SignIn).where(SignIn.token_hash == digest_of(token)))


def devices_of(club_id: int, coach_id: str | None) -> list[Device]:
    """Devices that are in use: of one coach, or of the whole club."""
    wanted = select(Device).where(Device.club_id == club_id, Device.revoked_at.is_(None))
    if coach_id is not None:
        wanted = wanted.where(Device.coach_id == coach_id)
    return list(db.session.scalars(wanted.order_by(Device.last_seen.desc())))


def name_device(club_id: int, device_id: str, coach_id: str | None, name: str | None) -> None:
    """Call a device something: of one coach, or of anyone in the club."""
    with writing() as session:
        _device(session, club_id, device_id, coach_id).name = name


def revoke_device(club_id: int, device_id: str, coach_id: str | None) -> None:
    """Sign a device out for good: of one coach, or of anyone in the club."""
    with writing() as session:
        device = _device(session, club_id, device_id, coach_id)
        device.revoked_at = now()
        session.execute(
            delete(SignIn).where(SignIn.club_id == club_id, SignIn.device_id == device_id)
        )


def new_pairing(club_id: int, coach_id: str) -> str:
    """A one-time code that signs in another device of the coach within PAIRING_LASTS."""
    code = "".join(secrets.choice(CODE_LETTERS) for _ in range(CODE_LENGTH))
    with writing() as session:
        session.execute(
            delete(Pairing).where(Pairing.club_id == club_id, Pairing.coach_id == coach_id)
        )
        session.add(
            Pairing(
                code_hash=digest_of(code),
                club_id=club_id,
                coach_id=coach_id,
                expires_at=now() + PAIRING_LASTS,
            )
        )
    return in_groups(code, CODE_GROUP)


def pair(code: str, device_id: str, label: str) -> str | None:
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
        coach = session.get(Coach, (used.club_id, used.coach_id))
        if coach is None or not coach.active:
            return None
        return admit(session, coach.club_id, coach.id, device_id, label)


def digest_of(token: str) -> str:
    """SHA-256; enough for a random token."""
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()


def in_groups(letters: str, size: int) -> str:
    """A code as it is shown: in groups, easier to read aloud and to type."""
    return "-".join(letters[k : k + size] for k in range(0, len(letters), size))


def code_letters(typed: str) -> str:
    """A code as it was made: capitals, spaces and dashes do not matter."""
    return re.sub(r"[\s-]", "", typed).upper()


def admit(session: Session, club_id: int, coach_id: str, device_id: str, label: str) -> str:
    """Sign a coach in on a device, inside a write transaction; returns the new token."""
    device = session.get(Device, (club_id, device_id))
    if device is None:
        device = Device(club_id=club_id, id=device_id, coach_id=coach_id, label=label)
        session.add(device)
    if device.coach_id != coach_id:
        # a shared device: whoever signs in last has it; the other is signed out there
        session.execute(
            delete(SignIn).where(SignIn.club_id == club_id, SignIn.device_id == device_id)
        )
        device.coach_id = coach_id
    device.last_seen, device.revoked_at = now(), None
    session.flush()
    session.execute(delete(SignIn).where(SignIn.club_id == club_id, SignIn.expires_at <= now()))
    token = secrets.token_urlsafe(32)
    session.add(
        SignIn(
            token_hash=digest_of(token),
            club_id=club_id,
            coach_id=coach_id,
            device_id=device_id,
            expires_at=now() + LASTS,
        )
    )
    return token


def _device(session: Session, club_id: int, device_id: str, coach_id: str | None) -> Device:
    device = session.get(Device, (club_id, device_id)) if is_id(device_id) else None
    if device is None or (coach_id is not None and device.coach_id != coach_id):
        raise Missing(say("No such device."))
    return device


@lru_cache(maxsize=1)
def _nobody() -> str:
    """A digest to compare with when the name is unknown."""
    return hasher().hash(secrets.token_hex(16))
