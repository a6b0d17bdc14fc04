"""Checks on plain numbers that say which field is wrong and what to do about it."""

from collections.abc import Sequence
from operator import index
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray


def whole(name: str, value: Any, least: int = 0) -> int:
    """Return ``value`` as an int.

    Args:
        name: field named in the error.
        value: a whole number (int, or a numpy integer).
        least: smallest allowed.

    Raises:
        ValueError: not a whole number, or below ``least``.
    """
    try:
        number = index(value)
    except TypeError:
        raise ValueError(f"{name}: give a whole number, not {value!r}") from None
    if number < least:
        raise ValueError(f"{name}: give a whole number of {least} or more, not {number}")
    return number


def share(name: str, value: float) -> float:
    """Return ``value`` if it lies strictly between 0 and 1.

    Raises:
        ValueError: outside (0, 1) or not a number.
    """
    if not 0.0 < value < 1.0:
        raise ValueError(f"{name}: give a number between 0 and 1 (both excluded), not {value!r}")
    return float(value)


def right_of(right: Any, trials: Any, least: int = 1) -> tuple[int, int]:
    """Return (right, trials) as ints with 0 <= right <= trials.

    Raises:
        ValueError: not counts, fewer than ``least`` trials, or more right than trials.
    """
    trials = whole("trials", trials, least)
    right = whole("right", right)
    if right > trials:
        raise ValueError(f"right: {right} is more than the {trials} trials; check both counts")
    return right, trials


def same_length(**columns: Sequence[Any] | ArrayLike) -> list[NDArray[np.float64]]:
    """Return the named columns as 1-D float arrays of one common, non-zero length.

    Raises:
        ValueError: a column is empty, not 1-D, not finite, or of another length.
    """
    arrays: list[NDArray[np.float64]] = []
    for name, column in columns.items():
        array = np.asarray(column, dtype=np.float64)
        if array.ndim != 1 or array.size == 0:
            raise ValueError(f"{name}: give a list of at least one number")
        if not np.isfinite(array).all():
            raise ValueError(f"{name}: every entry must be a number; leave missing ones out")
        if arrays and array.size != arrays[0].size:
            raise ValueError(f"{name}: {array.size} entries, but {arrays[0].size} were expected")
        arrays.append(array)
    return arrays
