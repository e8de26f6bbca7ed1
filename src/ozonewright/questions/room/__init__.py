"""Room: how much ozone people breathe when some of it gets out."""

from ozonewright.questions.room.answer import room_answer
from ozonewright.questions.room.release import Release, releases
from ozonewright.questions.room.result import CaseRow, CourseRow, RoomAnswer

__all__ = ["CaseRow", "CourseRow", "Release", "RoomAnswer", "releases", "room_answer"]
