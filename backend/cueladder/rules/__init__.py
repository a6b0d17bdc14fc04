"""The rules of the lesson: pure, compiled to charts, walked here and on the phone alike."""

from .away import due_after, due_by, keeps
from .changepoint import ChangePoint
from .chart import Chart, check_version, compile_chart
from .drill import Drill
from .errors import RuleError
from .family import Rule
from .mark import Given, Kind, Mark, Move, Outcome
from .rule import rule_from_json
from .sequential import Sequential
from .streak import Run, Slips, Window
from .suggestion import Suggestion, suggestion
from .walk import Walk, enter, fresh, rebase, rest, set_place, status, step

__all__ = [
    "ChangePoint",
    "Chart",
    "Drill",
    "Given",
    "Kind",
    "Mark",
    "Move",
    "Outcome",
    "Rule",
    "RuleError",
    "Run",
    "Sequential",
    "Slips",
    "Suggestion",
    "Walk",
    "Window",
    "check_version",
    "compile_chart",
    "due_after",
    "due_by",
    "enter",
    "fresh",
    "keeps",
    "rebase",
    "rest",
    "rule_from_json",
    "set_place",
    "status",
    "step",
    "suggestion",
]
