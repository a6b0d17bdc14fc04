"""Lesson plans from the minutes available and a fencer's standings."""

from .block import Block
from .plan import Plan, plan
from .standing import Record, Standing

__all__ = ["Block", "Plan", "Record", "Standing", "plan"]
