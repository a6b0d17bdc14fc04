"""Lesson plans from the minutes available and a fencer's standings."""

from .block import Block
from .goal import Goal
from .plan import Plan, plan
from .standing import Record, Standing

__all__ = ["Block", "Goal", "Plan", "Record", "Standing", "plan"]
