"""Errors of the store; their messages say what to do."""

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
    """The club has no such thing."""


class Clash(Refused):
    """It conflicts with something that exists already."""
