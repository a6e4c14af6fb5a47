"""What is left empty is said on the page, in its own words, not by the browser."""

import re
from pathlib import Path

import pytest
from django import forms
from ware_samples import pot_of, text_of

import wareboard

TEMPLATES = sorted(Path(wareboard.__file__).parent.rglob("templates/**/*.html"))
FRAMEWORK_SAYS = str(forms.Field.default_error_messages["required"])


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_no_form_leaves_it_to_the_browser_to_say_what_is_missing(template):
    written = re.findall(r"<form\b[^>]*>", template.read_text(encoding="utf-8"))

    assert [form for form in written if "novalidate" not in form] == []


@pytest.mark.parametrize(
    ("url", "says"),
    [
        (
            "/ware/pots/{pot}/weigh/",
            ["What does it weigh?", "How is it now? Tap one"],
        ),
        ("/shelf/pots/{pot}/judge/", ["Which surface? Tap one.", "How did it come out? Tap one."]),
        ("/kiln/new/", ["What does it burn? Tap one."]),
        ("/stores/new-material/", ["Choose one."]),
        ("/ware/pots/{pot}/photo/", ["No photo came with it"]),
    ],
)
def test_each_question_that_was_left_empty_is_named(signed_in, member, url, says):
    pot = pot_of(member, None)

    reply = signed_in.post(url.format(pot=pot.pk), {"name": ""})

    text = text_of(reply)
    assert reply.status_code == 422
    assert [say for say in says if say not in text] == []
    assert FRAMEWORK_SAYS not in text


def test_nobody_comes_in_without_a_name_and_is_told_what_is_missing(client, db):
    reply = client.post("/sign-in/", {})

    text = text_of(reply)
    assert "Name: nothing is written here yet." in text
    assert "Password: nothing is written here yet." in text
