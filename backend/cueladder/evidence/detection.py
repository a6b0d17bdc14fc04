"""Telling attacks from decoys: sensitivity d' and readiness c, by signal detection theory."""

import math
from dataclasses import dataclass
from typing import Any

from cueladder.evidence.checks import right_of, share
from cueladder.evidence.distributions import normal_density, normal_quantile


@dataclass(frozen=True)
class Detection:
    """How well attacks were told from decoys.

    Attributes:
        hit_rate: share of attacks answered, after the correction (if any).
        false_alarm_rate: share of decoys reacted to, after the correction.
        sensitivity: d', in standard deviations; 0 is guessing.
        criterion: c; above 0 waits too long, below 0 reacts too readily.
        beta: likelihood ratio at the criterion.
        error, lean_error: standard errors of d' and of c.
        low, high: interval for d' at ``confidence``.
    """

    hit_rate: float
    false_alarm_rate: float
    sensitivity: float
    criterion: float
    beta: float
    error: float
    lean_error: float
    low: float
    high: float
    confidence: float


def from_rates(hit_rate: float, false_alarm_rate: float) -> tuple[float, float, float]:
    """(d', c, beta) from two rates.

    d' = z(H) - z(F), c = -(z(H) + z(F))/2, beta = exp((z(F)^2 - z(H)^2)/2);
    Stanislaw & Todorov 1999 (Behavior Research Methods 31:137).

    Raises:
        ValueError: a rate is not strictly between 0 and 1 (d' would be infinite).
    """
    hit = normal_quantile(share("hit_rate", hit_rate))
    alarm = normal_quantile(share("false_alarm_rate", false_alarm_rate))
    return hit - alarm, -(hit + alarm) / 2.0, math.exp((alarm * alarm - hit * hit) / 2.0)


def detect(
    hits: Any,
    attacks: Any,
    false_alarms: Any,
    decoys: Any,
    *,
    corrected: bool = True,
    confidence: float = 0.95,
) -> Detection:
    """Sensitivity and readiness from counts.

    The log-linear correction, (hits+.5)/(attacks+1) and (false alarms+.5)/(decoys+1),
    keeps d' finite: Hautus 1995 (Behavior Research Methods 27:46). The interval is
    d' +- z sqrt(H(1-H)/(N phi(zH)^2) + F(1-F)/(M phi(zF)^2)), Gourevitch & Galanter
    1967 (Psychometrika 32:25), from memory; here with the corrected rates. c is half the sum
    of what d' is the difference of, so its error is half as large.

    Args:
        hits: attacks answered.
        attacks: attacks given, 1 or more.
        false_alarms: decoys reacted to.
        decoys: decoys given, 1 or more.
        corrected: False for the raw rates.
        confidence: of the interval.

    Raises:
        ValueError: bad counts; or raw rates of exactly 0 or 1.
    """
    hits, attacks = _counts("hits", hits, "attacks", attacks)
    false_alarms, decoys = _counts("false_alarms", false_alarms, "decoys", decoys)
    z = normal_quantile(0.5 + share("confidence", confidence) / 2.0)
    add = 0.5 if corrected else 0.0
    hit_rate = (hits + add) / (attacks + 2 * add)
    alarm_rate = (false_alarms + add) / (decoys + 2 * add)
    sensitivity, criterion, beta = from_rates(hit_rate, alarm_rate)
    error = math.sqrt(_variance(hit_rate, attacks) + _variance(alarm_rate, decoys))
    low, high = sensitivity - z * error, sensitivity + z * error
    return Detection(
        hit_rate,
        alarm_rate,
        sensitivity,
        criterion,
        beta,
        error,
        error / 2.0,
        low,
        high,
        confidence,
    )


def _counts(part: str, some: Any, whole_name: str, total: Any) -> tuple[int, int]:
    try:
        return right_of(some, total)
    except ValueError as error:
        raise ValueError(f"{part} and {whole_name}: {error}") from None


def _variance(rate: float, trials: int) -> float:
    density = normal_density(normal_quantile(rate))
    return rate * (1.0 - rate) / (trials * density * density)
