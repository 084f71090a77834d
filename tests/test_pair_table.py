"""The table of pairs on the page says what the metal says."""

import html
import re

from kit.course.views.pairs import PairTable
from kit.forge.steels import GRADES
from kit.metal.pairs import HEADINGS, pair


def test_every_other_steel_has_a_row():
    page = PairTable()
    rows = re.findall(r"<tr[^>]*>(.*?)</tr>", page.table.value)
    assert len(rows) == len(GRADES)  # the headings, and all but the chosen one
    assert all(html.escape(head) in rows[0] for head in HEADINGS)
    assert 'aria-current="true"' in page.table.value


def test_the_chosen_pair_is_told_with_its_reasons():
    page = PairTable()
    assert "781" in page.says.value
    page.second.value = page.names.index("304")
    for reason in pair("1084", "304").reasons:
        assert html.escape(reason.says[:40]) in page.says.value
        assert html.escape(reason.how[:60]) in page.known.value
    page.first.value = page.names.index("304")
    assert "no pattern" in page.says.value


def test_all_pairs_can_be_shown():
    page = PairTable()
    page.rehearse()
    assert page.first.value == len(page.names) - 1
