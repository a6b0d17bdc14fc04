"""Models. Rows of a club carry its id, and their keys begin with it."""

from .access import Device, Pairing
from .audit import Audit
from .booking import Booking
from .bout import Bout
from .club import Club, Coach
from .code import OneTimeCode
from .competition import Competition, Goal
from .draw import Draw
from .drill import Chart, Drill, DrillVersion
from .edit import Edit, RosterImport
from .erasure import Erasure
from .event import Event
from .fencer import Change, Fencer
from .learned import Learned
from .lesson import HeldLesson, Lesson, LessonDrill
from .link import ProgressLink
from .partner_set import PartnerSet
from .practice import Practice
from .standing import Standing

__all__ = [
    "Audit",
    "Booking",
    "Bout",
    "Change",
    "Chart",
    "Club",
    "Coach",
    "Competition",
    "Device",
    "Draw",
    "Drill",
    "DrillVersion",
    "Edit",
    "Erasure",
    "Event",
    "Fencer",
    "Goal",
    "HeldLesson",
    "Learned",
    "Lesson",
    "LessonDrill",
    "OneTimeCode",
    "Pairing",
    "PartnerSet",
    "Practice",
    "ProgressLink",
    "RosterImport",
    "Standing",
]
