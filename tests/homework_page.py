"""What tests of homework share: a student's page, its answers, what lies in a folder."""

import pytest

from kit.classroom.homework.sets import SETS
from kit.classroom.views.homework import HomeworkPage

COURSE = "FORGE-A"
each_set = pytest.mark.parametrize("code", SETS)


def page(folder, code="H1", student="Student One"):
    opened = HomeworkPage(code, folder)
    opened.course.value, opened.student.value = COURSE, student
    opened.begin()
    return opened


def answer_all(opened, wrong=()):
    for row in opened.rows:
        part = row.part
        right = part.answer(opened.sitting.paper.values)
        value = "123" if part.number in wrong else f"{right:.8g}"
        if part.options:
            row.offered.value = int(right) - 1
        else:
            row.answer.value = value


def folder_of(path):
    return sorted(one.name for one in path.glob("*.json"))
