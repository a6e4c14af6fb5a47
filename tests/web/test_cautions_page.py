"""The page of cautions: short, calm, and deferring to the local rule."""

import re

import pytest
from django.urls import reverse

from wareboard.refdata.hazards import all_hazards

URL = reverse("pages:cautions")


@pytest.fixture
def page(signed_in):
    return " ".join(re.sub(r"<[^>]+>", " ", signed_in.get(URL).content.decode()).split())


@pytest.mark.parametrize(
    "said",
    [
        "Wear the mask your local code names for silica, wet-clean, never sweep.",
        "Rub a raw coat damp or outdoors, with the mask on, and never blow the dust off.",
        "Spraying fills the air with glaze",
        "Resist made with spirit gives off vapour that burns: never beside a warm plate",
        "Unwashed wood ash and its water are caustic",
        "Some oxides and carbonates are poisons",
        "your local gas code comes first",
        "gives off carbon monoxide, which nobody smells",
        "Never look into the spy-hole with bare eyes",
        "at the distance your local code asks for",
        "shut the gas and air the kiln before you light it again",
        "Not before it is below 100 °C inside",
        "Found metal may be plated, painted, or an alloy nobody knows",
        "Release limits for ceramics stand for lead and cadmium only",
        "local codes, the maker’s sheets and licensed practice come first",
    ],
)
def test_every_caution_stands_there_once(page, said):
    assert page.count(said) == 1


def test_nothing_is_called_safe(page):
    assert "safe" not in page.casefold().replace("safety sheet", "")


def test_every_group_of_the_table_stands_there_with_its_limits_and_where_they_were_read(
    signed_in,
):
    hazards = signed_in.get(URL).context["hazards"]

    assert [one.name for one in hazards] == [one.materials for one in all_hazards()]
    for shown, hazard in zip(hazards, all_hazards(), strict=True):
        assert [
            limit.source in line for limit, line in zip(hazard.limits, shown.limits, strict=True)
        ] == [True] * 3


def test_limits_from_memory_are_no_more_than_a_guess(signed_in):
    trusts = {one.name: one.trust for one in signed_in.get(URL).context["hazards"]}

    assert trusts["talc"] == "guess"
    assert trusts[all_hazards()[0].materials] == "general"  # each of its three was read


def test_what_is_nothing_in_the_table_is_left_out(signed_in):
    talc = next(one for one in signed_in.get(URL).context["hazards"] if one.name == "talc")

    assert (talc.firing, talc.release) == ("", "")


def test_it_is_for_reading_by_members(signed_in, client):
    assert signed_in.post(URL).status_code == 405
    client.logout()
    assert client.get(URL).url.startswith("/sign-in/")


def test_the_page_asks_who_reads_it_and_nothing_more(signed_in, django_assert_max_num_queries):
    with django_assert_max_num_queries(3):
        signed_in.get(URL)
