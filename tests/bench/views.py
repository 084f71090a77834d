"""From a slider to a picture: all that happens in Python, encoding included."""

from kit.course.views.lesson import view_of
from kit.metal.etch import tones
from kit.section.block import Block
from kit.section.picture import Sheet, encode
from kit.section.surface import cut_normal
from kit.section.trace import see
from tests.bench import pieces
from tests.bench.clock import Times, once, summed, table

TARGET = 40  # ms
CHANGES = 60
LESSONS = ("01", "02", "04", "08", "09", "10")


def report() -> None:
    """Move one slider at a time, 60 times."""
    rows = [
        ("a block, 640 × 400, cut, to JPEG", *_block()),
        *(
            (f"lesson {number}: {key}", *_moved(number, key, values))
            for number, key, values in _sliders()
        ),
        *((f"lesson {number}: at rest, PNG", *_rested(number)) for number in LESSONS),
    ]
    table(
        f"slider to picture, ms, {CHANGES} changes (target: ≤ {TARGET} ms)",
        ("what", "median", "best", "p95"),
        rows,
    )


def _sliders() -> list[tuple[str, str, list[float]]]:
    return [
        ("01", "angle", _swept(5, 85)),
        ("01", "layers", _swept(3, 25)),
        ("02", "folds", _swept(0, 12)),
        ("02", "thickness", _swept(3, 30)),
        ("04", "ground", _swept(0, 7)),
        ("08", "minutes", _swept(0, 120)),
        ("08", "celsius", [900 + 10 * stop for stop in _swept(0, 35)]),
        ("09", "minutes", _swept(0, 30)),
        ("09", "distance", [250 + 50 * stop for stop in _swept(0, 55)]),
        ("10", "length", _swept(100, 400)),
    ]


def _swept(low: int, high: int) -> list[float]:
    """Go from end to end and on from the start, whole numbers, never one twice running."""
    return [low + change * 7 % (high - low + 1) for change in range(CHANGES)]


def _moved(number: str, key: str, values: list[float]) -> Times:
    view = view_of(number)
    times = []
    for value in values:
        before, control = view.shown, view.controls[key]
        if control.value == value:
            continue
        times.append(once(lambda value=value, c=control: setattr(c, "value", value)))
        if view.shown is before:
            msg = f"Lesson {number} did not answer {key} = {value}: {view.says.value}"
            raise RuntimeError(msg)
    return summed(times)


def _rested(number: str) -> Times:
    view = view_of(number)
    return summed([once(view.rest) for _ in range(CHANGES)])


def _block() -> Times:
    billet = pieces.rack()
    etched = tones(billet.source.steels)

    def draw(angle: float) -> bytes:
        saw = cut_normal(angle), (75.0, 0.0, 0.0)
        block = Block.fitted(billet.size, 640, 400, cut=saw)
        sheet = Sheet(640, 400)
        sheet.steel(see(billet, block, etched), (0, 0))
        return encode(sheet.image, moving=True)

    draw(50)
    return summed([once(lambda a=10 + change: draw(a)) for change in range(CHANGES)])
