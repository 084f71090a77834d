"""A pattern that is only skin deep, beside a forged one."""

import numpy as np
import pytest
from blades import ground
from steps import bar_of, from_above, stack

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.section import trace
from kit.section.blade import Blade
from kit.section.surface import cut
from kit.shop.bought import Engraved
from kit.shop.patterns import raindrop, twisted

TONES = {"1084": 0.1, "15N20": 0.9}
SMALL = Billet(source=stack(11))


def both_steels(tone):
    """Tell whether each steel fills at least a twentieth of a face."""
    return min(np.mean(tone < 0.3), np.mean(tone > 0.7)) > 0.05


def top(size, under):
    """Look at the top face once `under` mm are ground off."""
    return from_above(size, size.length / 2, size.thickness / 2 - under, 160, 60, 0.15)


def test_grinding_takes_an_engraved_pattern_off_but_not_a_forged_one():
    # curriculum.md questions 6 and 9: polished off, a forged pattern comes back
    billet = twisted(0.6, 2.0)
    size = billet.size
    fake = Engraved(billet=bar_of(size, 2, "1084"), pattern=billet, depth=0.05)
    before, after = top(size, 0), top(size, 0.2)
    forged_face = trace.see(billet, before, TONES)
    engraved_face = fake.see(before, TONES)
    assert engraved_face.tone == pytest.approx(forged_face.tone, abs=1e-3)
    assert both_steels(forged_face.tone)
    assert np.ptp(fake.see(after, TONES).tone) == pytest.approx(0, abs=1e-6)
    deeper = trace.see(billet, after, TONES)
    assert both_steels(deeper.tone)
    # … slightly different, because it is deeper
    assert 0.05 < np.abs(deeper.tone - forged_face.tone).mean() < 0.4


def test_an_engraving_does_not_run_round_the_corner():
    billet = raindrop()
    fake = Engraved(billet=bar_of(billet.size, 2, "1084"), pattern=billet, depth=0.3)
    plane = cut(
        billet.size,
        angle=90,
        columns=400,
        rows=round(billet.size.thickness / 0.05),
        pixel=0.05,
    )
    tone = fake.see(plane, TONES).tone
    assert tone[7:] == pytest.approx(TONES["1084"], abs=1e-6)
    assert np.ptp(tone[:5]) > 0.2
    assert np.ptp(trace.see(billet, plane, TONES).tone[7:]) > 0.2


def test_on_a_bevel_only_the_uncut_flat_keeps_the_engraving():
    billet = raindrop()
    fake = Engraved(billet=bar_of(billet.size, 2, "1084"), pattern=billet)
    knife = ground("part-height", spine=billet.size.thickness)
    outline = knife.outline
    blade = Blade.fitted(knife, billet.size, 640, 160)
    face = fake.see(blade, TONES)
    steel = face.cover > 0.99
    points = blade.look(-1, blade.rows + 1, np.float64).points
    under = (billet.size.thickness / 2 - points[2])[1:-1, 1:-1]
    assert outline.length <= billet.size.length
    assert np.ptp(face.tone[steel & (under < 0.01)]) > 0.2
    assert face.tone[steel & (under > 0.2)] == pytest.approx(TONES["1084"], abs=1e-6)
    assert (steel & (under > 0.2)).sum() > 1000


def test_a_pattern_too_small_for_the_bar_is_refused():
    with pytest.raises(KitError, match="must cover"):
        Engraved(billet=bar_of(raindrop().size, 2, "1084"), pattern=SMALL)
    with pytest.raises(KitError, match="Bar must be a billet"):
        Engraved(billet="a bar", pattern=SMALL)
