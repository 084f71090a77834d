"""A billet made again of its own values is the same billet."""

import json

import pytest
from steps import bar_of, samples, stack

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.steps import DrawOut, Fold
from kit.shop.patterns import PATTERNS

SAMPLES = samples()

FORGED = Billet(source=stack(7)).then(
    Fold(heat={"celsius": 1200, "minutes": 5}), DrawOut(thickness=12)
)


@pytest.mark.parametrize("name", SAMPLES)
def test_every_step_comes_back(name):
    step, size = SAMPLES[name]
    billet = bar_of(size).then(step)
    again = Billet(**json.loads(billet.model_dump_json()))
    assert again == billet
    assert type(again.steps[-1]) is type(step)
    assert again.sizes == billet.sizes
    assert Billet.model_validate_json(billet.model_dump_json()) == billet
    assert Billet(**billet.model_dump()) == billet


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.name)
def test_every_named_pattern_comes_back(pattern):
    billet = pattern.forge()
    again = Billet(**json.loads(billet.model_dump_json()))
    assert again == billet
    assert again.tallies == billet.tallies
    assert Billet(**billet.model_dump()) == billet
    assert Billet.model_validate_json(billet.model_dump_json()) == billet


def test_heats_and_bundles_in_bundles_come_back():
    pair = Billet(source=Bundle(bars=(FORGED, FORGED)))
    four = Billet(source=Bundle(bars=(pair, pair), laid="stacked"))
    again = Billet(**json.loads(four.model_dump_json()))
    assert again == four
    assert again.source.bars[0].source.bars[0].steps[0].heat.celsius == 1200


@pytest.mark.parametrize(
    ("values", "sentence"),
    [
        ({"source": {}}, "needs a value for 'layers'"),
        ({"source": {"layers": []}}, "2 to 1000 bars"),
        ({"source": {"bars": []}}, "from 2 to"),
        ({"source": 3}, "Given: 3"),
        (
            {"source": {"layers": [{"steel": "unobtainium", "thickness": 1}] * 3}},
            "unobtainium",
        ),
        ({"steps": [{"step": "melt"}]}, "no step called 'melt'"),
        ({"steps": [{}]}, "no step called 'None'"),
        ({"steps": [{"step": ["fold"]}]}, "no step called"),
        (
            {
                "steps": [
                    {"step": "hammer unevenly", "depth": 1, "spacing": 20, "seed": "one"}
                ]
            },
            "Dice throw must be",
        ),
        ({"steps": [{"step": "fold"}] * 10_000}, "from 0 to 200 steps. Given: 10000"),
        ({"steps": "fold"}, "steps"),
        ({"steps": [7]}, "steps"),
        ({"colour": "blue"}, "colour"),
    ],
    ids=str,
)
def test_impossible_values_get_one_sentence(values, sentence):
    good = json.loads(FORGED.model_dump_json())
    with pytest.raises(KitError, match=f"(?i){sentence}") as error:
        Billet(**{**good, **values})
    assert "\n" not in str(error.value)
    assert len(str(error.value)) < 400
