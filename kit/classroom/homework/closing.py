"""What is said when a hand-in is made: what it has, and what is still missing."""

from __future__ import annotations

from kit.classroom.homework.record import HandIn
from kit.classroom.homework.sitting import Sitting

PRACTICE = "practice, never counted"


def left_out(sitting: Sitting, done: HandIn) -> str:
    """Say which parts, and what of design, words and claims, a hand-in has not."""
    task = sitting.paper.homework
    missing = []
    parts = [str(part.number) for part in task.parts if part.number not in sitting.results]
    if parts:
        missing.append(f"part {', '.join(parts)}")
    if sitting.designed is None:
        missing.append("the design")
    if not done.words.strip():
        missing.append("the answer in your own words")
    whole = sum(claim.whole for claim in done.claims)
    claims = len(task.judged.claims)
    if whole < claims:
        missing.append(f"{claims - whole} of {claims} claims (both ticks)")
    told = ["Everything is answered."]
    if missing:
        told = [f"Not there yet: {'; '.join(missing)}. You may hand in all the same."]
    if sitting.designed is not None and not sitting.designed.passed:
        told.append("The design does not meet its brief yet.")
    return " ".join(told)
