"""The frontier as a picture."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import matplotlib

matplotlib.use("svg")

from matplotlib import pyplot as plt

_LOOKS = {
    "changepoint": ("o", "#1b4965"),
    "run": ("s", "#c1666b"),
    "window": ("^", "#8a6d1f"),
    "sequential": ("D", "#7b5ea7"),
    "baseline": ("X", "#333333"),
}


def draw_frontier(rows: Sequence[dict[str, object]], path: Path) -> None:
    """Draw cues to the top against early climbs, pooled learners, default ringed.

    Args:
        rows: rows of ``frontier.csv``; the first is the default.
        path: the SVG file to write.
    """
    shown = [r for r in rows if r["run"] == 1 and r["model"] == "pooled"]
    plt.rcParams["svg.hashsalt"] = "frontier"
    figure, axes = plt.subplots(figsize=(8, 5.5))
    for family, (marker, colour) in _LOOKS.items():
        points = [r for r in shown if r["family"] == family]
        axes.scatter(
            [100 * max(float(str(r["early_share"])), 1e-4) for r in points],
            [float(str(r["cues"])) for r in points],
            marker=marker,
            color=colour,
            s=28,
            label=family,
            alpha=0.8,
        )
    default = shown[0]
    axes.scatter(
        [100 * float(str(default["early_share"]))],
        [float(str(default["cues"]))],
        s=220,
        facecolors="none",
        edgecolors="#d1495b",
        linewidths=2,
        label="default",
    )
    axes.set_xscale("log")
    axes.set_xlabel("early climbs, % of climbs made while truly below .85 (log scale)")
    axes.set_ylabel("mean cues to the top")
    axes.set_title("Simulated fencers: lower and further left is better")
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    figure.tight_layout()
    figure.savefig(path, metadata={"Date": None})
    plt.close(figure)
