"""A pot weighed again because its load asked leads back to that load."""

import pytest
from ware_samples import cylinder, pot_of, weighed

from wareboard.records.kiln import actions
from wareboard.records.kiln.models import Load
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Weighing

HTMX = {"HX-Request": "true"}
SENT = {"weight_g": "612", "state": "leather-hard"}


@pytest.fixture
def pot(member):
    pot = pot_of(member, cylinder(member))
    weighed(member, pot, 700, "leather-hard", 48)
    return pot


@pytest.fixture
def asks(member, pot):
    """The page before lighting of the load that the pot stands in."""
    kiln = actions.new_kiln(member, name="the small one", end_cone="9")
    load = keep(Load, member, kiln=kiln)
    actions.put_in(member, load, [pot], None)
    return f"/kiln/loads/{load.pk}/before-lighting/"


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/weigh/"


def test_the_load_sends_its_pots_to_the_scale_with_the_way_back(signed_in, asks, url):
    load = signed_in.get(asks).content.decode()
    scale = signed_in.get(f"{url}?next={asks}").content.decode()

    assert f'href="{url}?next={asks}"' in load
    assert f'<input type="hidden" name="next" value="{asks}">' in scale


def test_once_weighed_it_leads_back_and_says_what_was_kept(signed_in, asks, url):
    reply = signed_in.post(url, {**SENT, "next": asks}, follow=True)

    assert reply.redirect_chain == [(asks, 302)]
    assert "612 g.</p>" in reply.content.decode()


def test_with_a_script_it_leads_back_as_well(signed_in, asks, url):
    reply = signed_in.post(url, {**SENT, "next": asks}, headers=HTMX)

    assert reply.headers["HX-Redirect"] == asks


def test_what_cannot_be_is_explained_first_and_the_way_back_stays(signed_in, asks, url):
    before = Weighing.objects.count()

    reply = signed_in.post(url, {**SENT, "weight_g": "heavy", "next": asks})

    assert reply.status_code == 422
    assert f'name="next" value="{asks}"' in reply.content.decode()
    assert Weighing.objects.count() == before


@pytest.mark.parametrize("away", ["https://elsewhere.example/", "//elsewhere.example", ""])
def test_no_other_house_is_gone_to(signed_in, url, away):
    reply = signed_in.post(url, {**SENT, "next": away})

    assert reply.url == url
