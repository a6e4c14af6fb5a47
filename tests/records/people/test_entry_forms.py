"""Forms of entries: an id from the page, so that two taps make one entry."""

import re
from uuid import UUID

from wareboard.records.people.fields import EntryForm


def test_an_empty_form_comes_with_an_id_of_its_own():
    ids = {str(EntryForm()["entry_id"].value()) for _ in range(5)}

    assert len(ids) == 5
    assert {UUID(one).version for one in ids} == {4}


def test_the_id_stands_in_the_page_without_any_script():
    form = EntryForm()

    drawn = str(form["entry_id"])

    assert re.findall(r'value="([^"]+)"', drawn) == [str(form["entry_id"].value())]


def test_a_form_sent_back_keeps_the_id_it_was_sent_with():
    form = EntryForm({"entry_id": "sent-before", "remembered": "x" * 61})

    assert not form.is_valid()
    assert form["entry_id"].value() == "sent-before"


def test_an_id_that_is_none_is_refused():
    form = EntryForm({"entry_id": "NO ID"})

    assert not form.is_valid()
    assert list(form.errors) == ["entry_id"]
