"""The page that asks what changed."""

import pytest

URL = "/shelf/what-changed/"


def test_it_asks_before_it_answers(demo_client):
    reply = demo_client.get(URL)

    assert reply.status_code == 200
    assert "answer" not in reply.context


def test_it_answers_without_javascript_and_as_a_fragment_with_it(demo_client):
    asked = {"glaze": "limpet", "fault": "pinhole"}

    page = demo_client.get(URL, asked)
    fragment = demo_client.get(URL, asked, headers={"HX-Request": "true"})

    assert page.content.lstrip().startswith(b"<!doctype html>")
    assert b'<section id="changed"' in fragment.content
    assert b"<!doctype" not in fragment.content


@pytest.mark.parametrize(
    "asked",
    [
        {"glaze": "limpet", "fault": "ugly"},
        {"glaze": "no-such-glaze", "fault": "pinhole"},
        {"glaze": "limpet", "fault": "pinhole", "until": "yesterday"},
    ],
)
def test_what_cannot_be_asked_is_explained(demo_client, asked):
    reply = demo_client.get(URL, asked)

    assert reply.status_code == 422
    assert reply.context["form"].errors


def test_another_studio_s_glaze_is_not_on_the_list(stranger, demo):
    reply = stranger.get(URL, {"glaze": "limpet", "fault": "pinhole"})

    assert reply.status_code == 422
    assert list(reply.context["form"].fields["glaze"].queryset) == []


def test_nothing_is_posted_to_it(demo_client):
    assert demo_client.post(URL).status_code == 405
