"""From a slider to a picture: all that happens in Python, encoding included."""

from collections.abc import Callable

from kit.course.views.base import View
from kit.metal.etch import tones
from kit.section.block import Block
from kit.section.picture import Sheet, encode
from kit.section.surface import cut_normal
from kit.section.trace import see
from tests.bench import pieces
from tests.bench.clock import Times, once, summed, table

TARGET = 40  # ms
CHANGES = 60


def report() -> None:
    """Move one slider at a time, 60 times."""
    rows = [
        ("a block, 640 × 400, cut, to JPEG", *_block()),
        *(
            (f"{view().name}: {key}", *_moved(view, key, values))
            for view, key, values in _sliders()
        ),
        *((f"{view().name}: at rest, PNG", *_rested(view)) for view in _views()),
    ]
    table(
        f"slider to picture, ms, {CHANGES} changes (target: ≤ {TARGET} ms)",
        ("what", "median", "best", "p95"),
        rows,
    )


def _views() -> list[Callable[[], View]]:
    from kit.course.views.lesson import view_of
    from kit.course.views.plan import PlanView

    return [
        lambda: view_of("01"),
        lambda: view_of("02"),
        lambda: view_of("00"),
        lambda: view_of("08"),
        lambda: view_of("09"),
        PlanView,
    ]


def _sliders() -> list[tuple[Callable[[], View], str, list[float]]]:
    cut, fold, bench, carbon, etching, plan = _views()
    return [
        (cut, "angle", _swept(5, 85)),
        (cut, "layers", _swept(3, 25)),
        (fold, "folds", _swept(0, 12)),
        (fold, "thickness", _swept(3, 30)),
        (bench, "angle", _swept(5, 85)),
        (bench, "folds", _swept(0, 8)),
        (carbon, "minutes", _swept(0, 120)),
        (carbon, "celsius", [900 + 10 * stop for stop in _swept(0, 35)]),
        (etching, "minutes", _swept(0, 30)),
        (etching, "distance", [250 + 50 * stop for stop in _swept(0, 55)]),
        (plan, "length", _swept(100, 400)),
    ]


def _swept(low: int, high: int) -> list[float]:
    """Go from end to end and on from the start, whole numbers, never one twice running."""
    return [low + change * 7 % (high - low + 1) for change in range(CHANGES)]


def _moved(kind: Callable[[], View], key: str, values: list[float]) -> Times:
    view = kind()
    times = []
    for value in values:
        before, control = view.shown, view.controls[key]
        if control.value == value:
            continue
        times.append(once(lambda value=value, c=control: setattr(c, "value", value)))
        if view.shown is before:
            msg = f"{view.name} did not answer {key} = {value}: {view.says.value}"
            raise RuntimeError(msg)
    return summed(times)


def _rested(kind: Callable[[], View]) -> Times:
    view = kind()
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
