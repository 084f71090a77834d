"""Homework: five papers with a student's own values, marked with reasons.

`paper.draw` gives a student's paper; `sitting.Sitting` takes answers and gives hints and
marks; `hand_in` is the one small file; `marking`, `talk`, `ratings`, `class_table`
and `key` are the teacher's side; `quiz` is the quiz before and after.

Each `Part` of a paper has `ask(values, units)`, the sentence that asks; a `Design` has
`ask`, `choices` (one declared field a control) and `judge`; a `Judge` has `ask`, `models`
(to be shown only after the own answer), `claims` and the shared `RUBRIC`. Answers are
never shown: `Part.answer` is for the key alone.

Examples
--------
>>> from kit.classroom.homework.sets import SETS
>>> from kit.classroom.homework.paper import draw
>>> from kit.classroom.homework.sitting import Sitting
>>> sitting = Sitting(draw(SETS["H1"], "FORGE-A", "Student One"))
>>> sitting.paper.questions()[3]
'From 17 pieces at least 300 layers are wanted. What is the smallest number of folds?'
>>> sitting.answer(4, "30 folds").words
'Not yet. Say the count after each fold aloud. When is it enough for the first time?'
>>> print(sitting.answer(4, "4").words[:67])
Not yet. That is what you get if you stop one fold before the goal.
>>> sitting.answer(4, "5").words[-31:], sitting.score, sitting.most
('68 → 136 → 272 → 544, folds: 5.', 1, 7)
"""
