"""UUIDs that are the same each time the demo is made."""

from __future__ import annotations

import uuid

import numpy as np


def uuid4(rng: np.random.Generator) -> str:
    """A version 4 UUID from the given generator."""
    return str(uuid.UUID(bytes=rng.bytes(16), version=4))


def uuid7(milliseconds: int, rng: np.random.Generator) -> str:
    """A version 7 UUID (RFC 9562, section 5.7) at the given Unix time."""
    value = bytearray(milliseconds.to_bytes(6, "big") + rng.bytes(10))
    value[6] = 0x70 | value[6] & 0x0F
    value[8] = 0x80 | value[8] & 0x3F
    return str(uuid.UUID(bytes=bytes(value)))
