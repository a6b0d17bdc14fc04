"""The rules of the lesson: pure, compiled to charts, walked here and on the phone alike."""

from .away import due_after, due_by, keeps
from .chart import Chart, check_version, compile_chart
from .drill import Drill
from .errors import RuleError
from .families.changepoint import ChangePoint, Tally
from .families.family import Rule
from .families.sequential import Sequential
from .families.streak import Run, Slips, Window
from .mark import Given, Kind, Mark, Move, Outcome
from .reach import check_reach
from .rule import rule_from_json
from .suggestion import Suggestion, suggestion
from .walk import Walk, enter, fresh, rebase, rest, rungs_met, seek, set_place, status, step, stop

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
    "Tally",
    "Walk",
    "Window",
    "check_reach",
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
    "rungs_met",
    "seek",
    "set_place",
    "status",
    "step",
    "stop",
    "suggestion",
]
