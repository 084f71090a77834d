"""Photographs of a banded face with known truth, as a pocket camera would take them.

Nothing here is the kit's: a pinhole camera looks at a plane of steel on a bench; what it
sees is reckoned pixel by pixel, then spoilt as cameras, lamps and
shops spoil pictures. Everything is in mm on the steel until the camera sees it.
"""

import io
import math
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np
from PIL import Image

CARD = (85.6, 53.98, 0.76)  # mm, ISO/IEC 7810 ID-1; its thickness from memory
EDGES, WAVE = 31, 0.05  # how many edges are rough each in its own way; mm
MARKED = 1.0  # pixels: standard deviation of where a careful hand sets a mark


@dataclass
class Taken:
    """A photograph, where its marks were set, and what is true.

    Attributes
    ----------
    content : bytes
        A JPEG or PNG.
    width : float
        Mean width of a band on the steel, square to the bands, mm: the truth.
    line : list
        Both ends, column and row.
    card, ruler, box : list
        Marks; empty where there is none.
    mm : float
        Between the ruler's marks.
    good : bool
        Whether it is in the range that the page calls good.
    how : dict
        What it was drawn from.
    """

    content: bytes
    width: float
    line: list
    card: list = field(default_factory=list)
    ruler: list = field(default_factory=list)
    mm: float = math.nan
    box: list = field(default_factory=list)
    good: bool = False
    how: dict = field(default_factory=dict)


def taken(seed: int, longest: int = 3000) -> Taken:
    """Draw one photograph; every second is in the good range."""
    dice = np.random.default_rng([19, seed])
    good = seed % 2 == 0
    how = _chosen(dice, good)
    return _photographed(dice, how, good, longest)


def _chosen(dice, good):
    """Throw the dice for what is photographed, and how well."""
    even = dice.uniform
    if good:
        return {
            "bands": round(math.exp(even(math.log(10), math.log(100)))),
            "duty": 1 / (1 + even(1, 4)),
            "tilt": even(0, 15),
            "lean": even(-3, 3),
            "lamp": even(0, 0.4),
            "noise": even(0, 0.02),
            "blur": even(0, 0.8),
            "jpeg": round(even(75, 95)),
            "glare": 0.0,
            "scratches": round(even(0, 4)),
            "rough": even(0, 0.1),
            "contrast": even(0.25, 0.6),
            "scale": "card" if dice.random() < 0.7 else "same line",
            "box": True,
        }
    return {
        "bands": round(math.exp(even(math.log(4), math.log(400)))),
        "duty": 1 / (1 + even(1, 9)),
        "tilt": even(0, 25),
        "lean": even(-3, 3),
        "lamp": even(0, 0.8),
        "noise": even(0, 0.08) * dice.integers(2),
        "blur": even(0, 2.5) * dice.integers(2),
        "jpeg": round(even(30, 95)),
        "glare": even(0.2, 1.5) * (dice.random() < 0.35),
        "scratches": round(even(0, 25)) * dice.integers(2),
        "rough": even(0, 0.35) * dice.integers(2),
        "contrast": even(0.05, 0.6),
        "scale": str(dice.choice(["card", "same line", "elsewhere"], p=[0.6, 0.2, 0.2])),
        "box": bool(dice.random() < 0.7),
    }


def _photographed(dice, how, good, longest):
    columns = round(longest * (0.75 if good else dice.uniform(0.35, 1)))
    scene = _scene(dice, how)
    camera = Camera(dice, how, scene, columns)
    content = _spoilt(dice, _seen(scene, camera), how)
    shot = Taken(content, scene["pair"] / 2, [], good=good, how=how)
    _point(dice, shot, scene, camera)
    shot.good &= how["narrow"] >= 3
    return shot


def _scene(dice, how):
    """Lay a bar on a bench, perhaps with a card over its end: lengths in mm."""
    long, wide = dice.uniform(110, 160), dice.uniform(30, 45)  # of the bar
    along = dice.random() < 0.7  # bands run across the bar and follow each other along it
    carded = how["scale"] == "card"
    # the stretch of clean steel that is measured: what the card leaves of the bar
    clean = (long * 0.92, wide * 0.86)
    if carded:
        clean = ((long - CARD[0]) * 0.92 + 20, wide * 0.86)
        long += 30
    pair = 2 * (clean[0] if along else clean[1]) / how["bands"]
    shade = dice.uniform(0.02, 0.2)
    return {
        "bar": (long, wide),
        "clean": clean,
        "along": along,
        "pair": pair,
        "dark": how["duty"] if dice.random() < 0.5 else 1 - how["duty"],
        "tones": (shade, shade + how["contrast"]),
        "lean": math.radians(how["lean"]),
        "phase": dice.uniform(0, pair),
        "rough": how["rough"] * pair * min(how["duty"], 1 - how["duty"]),
        "shift": dice.uniform(0, 50),
        "bench": (dice.uniform(0.05, 0.5), dice.uniform(0.5, 9.0), dice.uniform(0, 3)),
        "card": (-long / 2 + clean[0] + 0.06 * long, -CARD[1] / 2 + dice.uniform(-4, 4)),
        "card turn": math.radians(dice.uniform(-6, 6)),
        "card tone": dice.uniform(0.2, 0.7),
        "with card": carded,
    }


def _point(dice, shot, scene, camera):
    """Set the marks that a careful hand sets: a line, a scale, a box."""

    def pointed(places, high=0.0):
        shown = [camera.project(*place, high) for place in places]
        return [tuple(map(float, one + dice.normal(0, MARKED, 2))) for one in shown]

    how, (long, wide), clean = shot.how, scene["bar"], scene["clean"]
    left, half = -0.46 * long, clean[1] / 2
    middle = np.array([left + clean[0] / 2, 0.0])
    if scene["along"]:
        middle[1] = dice.uniform(-0.2, 0.2) * wide
    slant = math.radians(dice.uniform(-1.5, 1.5)) + scene["lean"]
    slant += 0 if scene["along"] else math.pi / 2
    far = 0.47 * clean[0 if scene["along"] else 1]
    shot.line = pointed(_ends(middle, slant, far))
    if scene["with card"]:
        shot.card = pointed(_card_corners(scene), CARD[2])
    elif how["scale"] == "elsewhere":
        moved = [dice.uniform(-20, 20), wide / 2 + dice.uniform(2, 10)]
        turn = 0.0 if dice.random() < 0.5 else math.pi / 2
        shot.ruler = pointed(_ends(middle + moved, slant + turn, 0.6 * far))
        shot.mm = 1.2 * far
    else:
        shot.ruler, shot.mm = pointed(_ends(middle, slant, far)), 2 * far
    if how["box"]:
        # upright in the picture, inside what it shows of the clean steel
        corners = [(x, y) for x in (left, left + clean[0]) for y in (-half, half)]
        shown = np.sort([camera.project(*corner) for corner in corners], axis=0)
        shot.box = [*map(float, shown[1]), *map(float, shown[2])]
    how["pixels a band"] = math.dist(*shot.line) / (2 * far) * shot.width
    how["narrow"] = how["pixels a band"] * 2 * how["duty"]


def _ends(middle, slant, far):
    step = far * np.array([math.cos(slant), math.sin(slant)])
    return [tuple(middle - step), tuple(middle + step)]


class Camera:
    """A pinhole that looks at the plane of the steel, tilted and turned."""

    def __init__(self, dice, how, scene, columns):
        self.shape = round(columns * 0.6), columns
        self.focal = columns * dice.uniform(0.72, 1.6)  # 26 … 58 mm on film
        tilt, roll = math.radians(how["tilt"]), math.radians(dice.uniform(-5, 5))
        axis = dice.uniform(0, 2 * math.pi)
        left = -scene["bar"][0] / 2
        right = scene["card"][0] + CARD[0] if scene["with card"] else -left
        span = max(right, -left) - left + 12
        self.middle = (left + right) / 2
        self.distance = self.focal * span / (0.9 * columns) + math.tan(tilt) * span / 4
        self.centre = (columns / 2, columns * 0.3)
        cos, sin = math.cos(tilt), math.sin(tilt)
        kx, ky = math.cos(axis), math.sin(axis)
        tilted = np.array(
            [
                [cos + kx * kx * (1 - cos), kx * ky * (1 - cos), ky * sin],
                [kx * ky * (1 - cos), cos + ky * ky * (1 - cos), -kx * sin],
                [-ky * sin, kx * sin, cos],
            ]
        )
        c, s = math.cos(roll), math.sin(roll)
        self.turn = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]]) @ tilted

    def project(self, x, y, high=0.0):
        """Give the pixel that shows a point so many mm above the steel."""
        u, v, w = self.turn @ np.array([x - self.middle, y, -high])
        w = w + self.distance
        return (
            self.centre[0] + self.focal * u / w,
            self.centre[1] + self.focal * v / w,
        )

    def ground(self, column, row, high=0.0):
        """Give the point of a plane that a pixel shows."""
        a, b = (column - self.centre[0]) / self.focal, (row - self.centre[1]) / self.focal
        ray = [turn[0] * a + turn[1] * b + turn[2] for turn in self.turn.T]
        eye = -self.turn.T @ np.array([0, 0, self.distance])
        far = (-high - eye[2]) / ray[2]
        return eye[0] + far * ray[0] + self.middle, eye[1] + far * ray[1]


def _card_corners(scene):
    x, y = scene["card"]
    c, s = math.cos(scene["card turn"]), math.sin(scene["card turn"])
    return [
        (x + u * c - v * s, y + u * s + v * c)
        for u, v in ((0, 0), (CARD[0], 0), (CARD[0], CARD[1]), (0, CARD[1]))
    ]


def _seen(scene, camera):
    rows, columns = camera.shape
    light = np.empty((rows, columns), np.float32)
    column = np.arange(columns, dtype=np.float32)[None, :]
    for top in range(0, rows, 64):
        row = np.arange(top, min(top + 64, rows), dtype=np.float32)[:, None]
        light[top : top + 64] = _shown(scene, camera, column, row)
    return light


def _shown(scene, camera, column, row):
    x, y = camera.ground(column, row)
    tone, wave, phase = scene["bench"]
    seen = tone * (1 + 0.3 * np.sin(wave * (y + 0.1 * x) + phase))
    long, wide = scene["bar"]
    steel = (np.abs(x) < long / 2) & (np.abs(y) < wide / 2)
    if steel.any():
        seen[steel] = _bands(scene, x, y, steel)
    if scene["with card"]:
        x, y = camera.ground(column, row, CARD[2])
        c, s = math.cos(scene["card turn"]), math.sin(scene["card turn"])
        u = (x - scene["card"][0]) * c + (y - scene["card"][1]) * s
        v = -(x - scene["card"][0]) * s + (y - scene["card"][1]) * c
        card = (u > 0) & (u < CARD[0]) & (v > 0) & (v < CARD[1])
        u, v = u[card], v[card]
        face = scene["card tone"] * (0.8 + 0.2 * np.sin(0.4 * u + 0.2 * v))
        face[(v > 8) & (v < 17)] = 0.03  # a magnetic strip, and a number
        face[(v > 30) & (v < 35) & (np.sin(2.1 * u) * np.sin(5 * u) > 0.1)] = 0.9
        seen[card] = face
    return seen


def _bands(scene, x, y, steel):
    """Give the tone of steel: a dark band in every pair, its edges as rough as asked.

    Of a pixel the share that is dark, as wide as it is across the bands.
    """
    if not scene["along"]:
        x, y = y, -x
    c, s = math.cos(scene["lean"]), math.sin(scene["lean"])
    u, v = x * c + y * s + scene["phase"], -x * s + y * c
    footprint = np.abs(np.gradient(u, axis=0)) + np.abs(np.gradient(u, axis=1))
    u, v, footprint = u[steel], v[steel], footprint[steel]
    pair, dark = scene["pair"], np.zeros(u.shape)
    number = np.floor(u / pair).astype(int)
    for other in (number - 1, number, number + 1):
        first = other * pair + _rough(scene, 0, other, v)
        last = (other + scene["dark"]) * pair + _rough(scene, 1, other, v)
        dark += np.clip((u - first) / footprint + 0.5, 0, 1)
        dark -= np.clip((u - last) / footprint + 0.5, 0, 1)
    low, high = scene["tones"]
    return high - (high - low) * np.clip(dark, 0, 1)


def _rough(scene, edge, number, v):
    if not scene["rough"]:
        return 0.0
    step = ((v + scene["shift"]) / WAVE + 4000).astype(int)
    return scene["rough"] * _waves()[edge, number % EDGES, step]


@lru_cache
def _waves():
    """Give how edges wander, in steps of WAVE mm: a standard deviation of one."""
    dice = np.random.default_rng(97)
    v = WAVE * np.arange(8000)
    phases = dice.uniform(0, 2 * math.pi, (2, EDGES, 4, 1))
    return sum(
        np.sin(2 * math.pi * v / length + phases[:, :, number])
        for number, length in enumerate((1.1, 2.7, 6.3, 15.0))  # mm
    ).astype(np.float32) / math.sqrt(2)


def _spoilt(dice, light, how):
    """Add what lamp, shop, lens and camera add; give the file."""
    rows, columns = light.shape
    x, y = np.linspace(-1, 1, columns)[None, :], np.linspace(-1, 1, rows)[:, None]
    angle = dice.uniform(0, 2 * math.pi)
    lamp = 1 + how["lamp"] * (math.cos(angle) * x + math.sin(angle) * y) / 1.2
    light = light * np.maximum(lamp * (1 - 0.25 * how["lamp"] * (x * x + y * y)), 0.05)
    if how["glare"]:
        cx, cy, size = (
            dice.uniform(-0.8, 0.8),
            dice.uniform(-0.6, 0.6),
            dice.uniform(0.05, 0.4),
        )
        light = light + how["glare"] * np.exp(-((x - cx) ** 2 + (y - cy) ** 2) / size**2)
    light = light.astype(np.float32)
    for _ in range(how["scratches"]):
        px, py, turn = (
            dice.uniform(0, columns),
            dice.uniform(0, rows),
            dice.uniform(0, math.pi),
        )
        long = dice.uniform(20, 300)
        window = light[_around(py, long, rows), _around(px, long, columns)]
        part_y = np.arange(rows)[_around(py, long, rows), None] - py
        part_x = np.arange(columns)[_around(px, long, columns)] - px
        far = np.abs(part_x * math.sin(turn) - part_y * math.cos(turn))
        near = np.abs(part_x * math.cos(turn) + part_y * math.sin(turn))
        window[(far < dice.uniform(0.5, 1.5)) & (near < long)] = dice.choice([0.02, 0.85])
    if how["blur"]:
        light = _blurred(light, how["blur"])
    grain = dice.standard_normal(light.shape, np.float32)
    light = light + how["noise"] * np.sqrt(np.maximum(light, 0.02) / 0.3) * grain
    light = np.clip(light, 0, 1)
    # IEC 61966-2-1
    root = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    stream = io.BytesIO()
    Image.fromarray(np.rint(255 * root).astype(np.uint8)).save(
        stream, "JPEG", quality=how["jpeg"]
    )
    return stream.getvalue()


def _around(place, reach, size):
    return slice(max(0, round(place - reach)), min(size, round(place + reach) + 1))


def _blurred(light, sigma):
    reach = math.ceil(3 * sigma)
    bell = np.exp(-0.5 * (np.arange(-reach, reach + 1) / sigma) ** 2)
    bell = (bell / bell.sum()).astype(np.float32)
    for axis in (0, 1):
        wide = np.pad(
            light, [(reach, reach) if axis == k else (0, 0) for k in (0, 1)], "edge"
        )
        size = light.shape[axis]
        light = sum(
            part * (wide[step : step + size] if axis == 0 else wide[:, step : step + size])
            for step, part in enumerate(bell)
        )
    return light
