"""A lesson from the minutes there are and where a fencer stands."""

from .block import Block
from .plan import Plan, plan
from .standing import Record, Standing

__all__ = ["Block", "Plan", "Record", "Standing", "plan"]
