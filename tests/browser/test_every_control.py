"""Every control of every page used once by keyboard: nothing it is on goes out of sight.

The gate walks down over the same controls, and uses those of each lesson that a newcomer
does.
"""

import pytest
from conftest import Lab
from keyboard_walk import lost_on_the_way_down, lost_on_the_way_up
from lesson_page import observe
from test_accessible import PAGES, begin
from visits import VISITS

pytestmark = pytest.mark.long
TILES = {visit.notebook: visit.tile for visit in VISITS}


@pytest.mark.parametrize("notebook", sorted(PAGES))
def test_what_a_key_uses_stays_in_sight(lab: Lab, notebook: str):
    lab.open(notebook)
    page = lab.start()
    if tile := TILES.get(notebook):
        observe(page, tile)
    begin(page, notebook)
    assert lost_on_the_way_down(page, use=True) + lost_on_the_way_up(page) == []
