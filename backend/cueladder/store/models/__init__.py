"""Tables. Every row that belongs to a club carries its club, and every key starts with it."""

from .access import Device, Pairing, SignIn
from .audit import Audit
from .booking import Booking
from .club import Club, Coach
from .code import OneTimeCode
from .drill import Chart, Drill, DrillVersion
from .edit import Edit, RosterImport
from .event import Event
from .fencer import Change, Fencer
from .lesson import Lesson, LessonDrill
from .link import ProgressLink
from .practice import Practice
from .standing import Standing

__all__ = [
    "Audit",
    "Booking",
    "Change",
    "Chart",
    "Club",
    "Coach",
    "Device",
    "Drill",
    "DrillVersion",
    "Edit",
    "Event",
    "Fencer",
    "Lesson",
    "LessonDrill",
    "OneTimeCode",
    "Pairing",
    "Practice",
    "ProgressLink",
    "RosterImport",
    "SignIn",
    "Standing",
]
