"""Before lighting: stop, wait, cannot tell, or go with the slow start."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln import actions
from wareboard.records.people.entry import keep
from wareboard.records.people.models import StudioTemperature
from wareboard.records.ware.models import Air, Pot, Weighing


@pytest.fixture
def url(load):
    return reverse("kiln:before-lighting", args=[load.pk])


@pytest.fixture
def weighed(member, load, shelf):
    """Put a pot into the load that weighed so much bone dry, and so much now."""

    def of(name, dry_g, now_g):
        pot = keep(Pot, member, name=name)
        now = timezone.now()
        for hours, weight_g, state in ((48, dry_g, "bone dry"), (1, now_g, "glazed")):
            at = now - timedelta(hours=hours)
            keep(Weighing, member, pot=pot, weight_g=weight_g, state=state, at=at)
        actions.put_in(member, load, [pot], shelf("middle"))
        return pot

    return of


def spoken(reply) -> str:
    """Give a page with its numbers and units as one reads them aloud."""
    return reply.content.decode().replace("\N{NO-BREAK SPACE}", " ")


def test_demo_stops_for_the_casserole_with_the_grams_of_its_story(demo_client):
    page = spoken(demo_client.get(reverse("kiln:before-lighting", args=["load-5"])))

    assert "One pot is too wet to light tonight." in page
    assert "The lidded casserole holds 64 g more than this air explains." in page
    assert "It is 96 g over its dry weight; the air explains 32 g of that." in page
    assert page.index('class="sign stop"') < page.index('class="sign wait"')
    assert "6 × beaker, 5 × cereal bowl, 4 × egg cup, 12 × mug" in page


def test_go_always_means_with_the_slow_start(signed_in, url, weighed):
    weighed("jug", 1000.0, 1000.0)

    page = spoken(signed_in.get(url))

    assert "Go, with the slow start below 95 °C." in page
    assert "go, with the slow start below 95 °C" in page
    assert "safe" not in page.casefold()


def test_the_slow_start_has_one_limit_in_the_unit_of_the_studio(signed_in, studio, url, weighed):
    studio.temperature = StudioTemperature.FAHRENHEIT
    studio.save()
    weighed("jug", 1000.0, 1000.0)
    go = spoken(signed_in.get(url))
    weighed("bowl", 1000.0, 1060.0)

    stop = spoken(signed_in.get(url))

    # 95 °C is 203 °F by the definition of the two scales.
    assert "Go, with the slow start below 203 °F." in go
    assert "or hold the kiln below 203 °F until" in stop
    assert "95 °C" not in go + stop
    assert "100 °C" not in go + stop


def test_a_go_tells_no_second_number_of_its_doubt(signed_in, url, weighed):
    weighed("jug", 1000.0, 1009.0)

    (row,) = signed_in.get(url).context["before"].rows

    assert row["why"][-1] == "At most 2 % over, with the scale’s error counted against it."


def test_a_stop_that_no_air_explains_says_only_what_it_holds(signed_in, url, weighed):
    weighed("jug", 1000.0, 1060.0)

    text = signed_in.get(url).context["before"].text

    assert text.startswith("The jug holds 60 g over its dry weight. Take it out, or hold")
    assert "the air explains" not in text.replace("this air explains", "")


def test_a_pot_between_go_and_stop_waits(signed_in, url, weighed):
    weighed("jug", 1000.0, 1026.0)

    before = signed_in.get(url).context["before"]

    assert before.title == "One pot should wait."
    assert [row["sign"] for row in before.rows] == ["wait"]


def test_of_pots_never_weighed_nothing_is_told_but_two_weighings_are_offered(
    signed_in, url, member, load, pots, shelf
):
    actions.put_in(member, load, pots, shelf("top"))

    reply = signed_in.get(url)

    page = reply.content.decode()
    assert "Of 5 pots it cannot be told." in page
    assert "5 × mug" in page
    assert "Two weighings: now, and after two hours at about 50 °C." in page
    assert f'href="{reverse("pages:weigh", args=["mug-0"])}?next={url}"' in page


def test_an_empty_load_says_what_to_do(signed_in, url):
    page = signed_in.get(url).content.decode()

    assert "Nothing is in this load yet." in page
    assert "Put pots into it first." in page


def test_the_air_is_said_by_one_tap_and_the_page_comes_back(signed_in, url, studio):
    reply = signed_in.post(reverse("kiln:air"), {"word": "fog", "next": url})

    assert reply.url == url
    assert Air.objects.get(studio=studio).word == "fog"
    assert "Counted with fog air." in signed_in.get(url).content.decode()


def test_each_word_of_the_air_is_a_button_of_its_own(signed_in, url):
    page = signed_in.get(url).content.decode()

    words = [
        word
        for word in ("crisp", "ordinary", "sticky", "fog")
        if f'name="word" value="{word}"' in page
    ]
    assert words == ["crisp", "ordinary", "sticky", "fog"]


def test_the_enter_key_alone_says_no_word_of_the_air(signed_in, url):
    page = signed_in.get(url).content.decode()

    form = page[page.index(f'action="{reverse("kiln:air")}"') :]
    assert form.index('<button type="submit" disabled hidden>') < form.index('name="word"')


def test_a_hygrometer_that_cannot_be_is_explained_and_nothing_stored(signed_in, url, studio):
    reply = signed_in.post(reverse("kiln:air"), {"word": "fog", "rh_percent": "140", "next": url})

    assert reply.status_code == 422
    assert "140" in reply.content.decode()
    assert not Air.objects.filter(studio=studio).exists()


def test_a_kept_hygrometer_that_no_room_has_is_not_counted_and_said_so(signed_in, member, url):
    keep(Air, member, word="fog", rh_percent=3.0)

    page = signed_in.get(url).content.decode()

    assert (
        "Counted with fog air. The hygrometer’s 3 % cannot be true, so it is not counted." in page
    )


def test_the_air_does_not_send_anybody_elsewhere(signed_in):
    reply = signed_in.post(
        reverse("kiln:air"), {"word": "fog", "next": "https://elsewhere.example/"}
    )

    assert reply.url == "/"


def test_an_air_with_an_id_of_another_studio_is_refused_in_a_sentence(signed_in, url, studio, demo):
    taken = Air.objects.filter(studio=demo).first().pk

    reply = signed_in.post(
        reverse("kiln:air"), {"word": "fog", "entry_id": taken, "next": url}, follow=True
    )

    assert "This entry came with an id that is taken." in reply.content.decode()
    assert not Air.objects.filter(studio=studio).exists()


def test_the_air_is_not_said_by_reading(signed_in):
    assert signed_in.get(reverse("kiln:air")).status_code == 405


def test_the_usual_cautions_stand_there_and_defer(signed_in, url):
    page = signed_in.get(url).content.decode()

    assert "your local gas code comes first" in page
    assert "carbon monoxide" in page


def test_a_load_that_was_lit_is_shown_as_it_stood(demo_client):
    page = demo_client.get(reverse("kiln:before-lighting", args=["load-5"])).content.decode()

    assert "As it stood when it was lit, 15 November, 06:40." in page
    assert "Light it" not in page
    assert "How is the air today?" not in page


@pytest.mark.parametrize("load_id", ["load-5", "load-6"])
def test_however_many_pots_the_page_asks_the_same_few_questions(
    demo_client, load_id, django_assert_max_num_queries
):
    with django_assert_max_num_queries(12):
        demo_client.get(reverse("kiln:before-lighting", args=[load_id]))


def test_the_page_is_for_reading(signed_in, url):
    assert signed_in.post(url).status_code == 405


def test_a_load_that_says_stop_is_not_lit_without_reading_why(signed_in, member, url, weighed):
    weighed("casserole", 1800.0, 1896.0)
    keep(Air, member, word="fog", rh_percent=87)

    page = signed_in.get(url).content.decode()

    assert "A pot here says stop: steam can burst it and its neighbours." in page
    assert "Light it all the same" in page


def test_a_load_of_which_it_cannot_be_told_is_not_lit_without_reading_so(
    signed_in, member, url, load, shelf
):
    actions.put_in(member, load, [keep(Pot, member, name="mug")], shelf("middle"))

    page = signed_in.get(url).content.decode()

    assert "Not every pot here is a go: a wet one can burst." in page
    assert "Light it all the same" in page


def test_a_load_of_which_every_pot_is_a_go_is_lit_by_its_own_button(signed_in, url, weighed):
    weighed("jug", 1000.0, 1000.0)

    page = signed_in.get(url).content.decode()

    assert '<button class="main" type="submit">Light it</button>' in page


def test_what_only_the_doubt_makes_wait_is_said_as_what_it_may_hold(signed_in, url, weighed):
    weighed("egg cup", 90.0, 90.0)

    page = spoken(signed_in.get(url))

    assert "The egg cup may still hold up to" in page
    assert "holds 0 g" not in page


def test_one_weighed_pot_is_not_called_pots_together(signed_in, url, weighed):
    weighed("jug", 1000.0, 1000.0)

    page = spoken(signed_in.get(url))

    assert "The one pot with a known or usual dry weight is" in page
    assert "Together" not in page


def test_an_empty_load_cannot_be_lit(signed_in, url):
    assert "Light it" not in signed_in.get(url).content.decode()
