"""Errors of the store, said so that a person knows what to do."""

from __future__ import annotations


class Refused(Exception):
    """Something cannot be done.

    Attributes:
        field: the field at fault, or None.
        message: what is wrong and what to do.
    """

    def __init__(self, message: str, field: str | None = None) -> None:
        super().__init__(message)
        self.field = field
        self.message = message


class Missing(Refused):
    """No such thing in this club."""


class Clash(Refused):
    """It clashes with something that is there already."""
