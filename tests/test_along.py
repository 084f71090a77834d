"""What is taken along from the forge: made, stopped, refused."""

import io

import pytest
from PIL import Image
from pypdf import PdfReader
from test_making import offered

from kit.classroom.views.along import OFFERS, Along, AlongRack
from kit.course.views.forge import Forge
from kit.course.views.forge_files import ForgeFiles
from kit.course.views.lesson import view_of
from kit.course.views.racked import Racked
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.shop.patterns import pattern

BEGINS = {".pdf": b"%PDF", "html": b"<!DOCTYPE html>", ".gif": b"GIF8"}


def along(bar):
    return Along(ForgeFiles(Forge(bar)))


def made(one):
    one.making.begin()
    one.making.wait(120)
    assert "kit-refused" not in one.making.says.value, one.making.says.value
    return offered(one.making)


@pytest.mark.parametrize("what", range(len(OFFERS)), ids=list(OFFERS))
def test_every_offer_is_made_and_named_after_the_bar(what):
    """And on an inch page papers are in inches."""
    paper = "PDF" in list(OFFERS)[what]
    one = along(pattern("ladder" if paper else "low twist").forge())
    one.files.forge.looks.unit_choice.value = 1
    one.files.name.value = "Mara's <bar>"
    one.making.choices[0].value = what
    one.making.choices[1].value = 1
    called, data = made(one)
    assert called.startswith("Mara-s--bar-")
    assert data.lower().startswith(BEGINS[called[-4:]].lower())
    if paper:
        reader = PdfReader(io.BytesIO(data))
        assert float(reader.pages[0].mediabox[2]) == pytest.approx(612)
        assert " in" in reader.pages[-1].extract_text()


@pytest.mark.parametrize("what", range(len(OFFERS)), ids=list(OFFERS))
def test_every_offer_can_be_stopped(what):
    one = along(pattern("low twist").forge())
    one.making.choices[0].value = what
    one.making.begin()
    one.making.stop()
    one.making.wait(120)
    assert "Stopped" in one.making.says.value
    assert one.making.file.value == ""


def test_the_film_is_of_clay_where_the_forge_shows_clay():
    one = along(pattern("low twist").forge())
    one.making.choices[0].value = next(n for n, name in enumerate(OFFERS) if "GIF" in name)
    films = []
    for metal in (0, 1):
        one.files.forge.metal.value = metal
        with Image.open(io.BytesIO(made(one)[1])) as film:
            assert film.size == (640, 180)
            films.append(film.convert("RGB").tobytes())
    assert films[0] != films[1]


def test_a_bar_that_shows_the_same_at_every_depth_is_no_piece_and_told_so():
    plain = Stack.alternate("1084", "15N20", pieces=2, thickness=10)
    one = along(Billet(source=plain))
    one.making.choices[0].value = next(
        n for n, name in enumerate(OFFERS) if "tablet" in name
    )
    one.making.begin()
    one.making.wait(120)
    assert "kit-refused" in one.making.says.value


def test_a_racks_card_is_of_the_plan_made_last():
    view = view_of("10")
    view.lock(False)
    planned = Racked(view)
    one = AlongRack(planned)
    one.making.begin()
    one.making.wait(60)
    assert "press Plan from my rack first" in one.making.says.value
    planned.work_out()
    called, data = made(one)
    assert called == "my-rack-card.pdf"
    sheets = [page.extract_text() for page in PdfReader(io.BytesIO(data)).pages]
    assert "From my rack" in sheets[-1]
    planned.bars.value = "1084: 3 x 38.1 x 900 mm"
    planned.work_out()
    assert not one.making.file.value, "the card of another plan is put away"
