"""Before lighting, the page says which pots are proved alone, and which only together."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln import actions
from wareboard.records.kiln.proofs import LISTED
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Pot, Weighing


@pytest.fixture
def url(load):
    return reverse("kiln:before-lighting", args=[load.pk])


@pytest.fixture
def put(member, load, shelf):
    """Put a glazed pot into the load that was weighed once, or never."""

    def of(name, weight_g=None):
        pot = keep(Pot, member, name=name)
        if weight_g is not None:
            at = timezone.now() - timedelta(hours=1)
            keep(Weighing, member, pot=pot, weight_g=weight_g, state="glazed", at=at)
        actions.put_in(member, load, [pot], shelf("middle"))

    return of


def test_the_page_says_which_go_on_the_scale_alone_and_which_together(signed_in, url, put):
    # A scale of 1 g: its errors are half of what 740 g of clay may lose.
    put("casserole", 1900.0)
    put("egg cup", 90.0)
    put("mug", 350.0)
    put("bowl")

    reply = signed_in.get(url)

    proofs, page = reply.context["before"].proofs, reply.content.decode()
    assert [one.name for one in proofs.alone] == ["casserole"]
    assert sorted(one.name for one in proofs.together) == ["egg cup", "mug"]
    assert [one.name for one in proofs.unknown] == ["bowl"]
    heads = ["Never weighed: weigh each once", "One at a time", "All these at once on the scale"]
    assert [head in page for head in heads] == [True] * 3
    assert "so these stay at “cannot tell”" in page


def test_a_group_without_pots_has_no_head(signed_in, url, put):
    put("casserole", 1900.0)

    page = signed_in.get(url).content.decode()

    assert "One at a time" in page
    assert "All these at once" not in page
    assert "Never weighed: weigh each once" not in page


def test_a_long_list_says_how_many_more(signed_in, url, put):
    for n in range(LISTED + 2):
        put(f"bowl {n}")

    proofs = signed_in.get(url).context["before"].proofs

    assert (len(proofs.unknown), proofs.more) == (LISTED, 2)
