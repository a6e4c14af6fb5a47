"""The page of the scale: what a weight means, and which weights should be taken again."""

import pytest
from ware_samples import bucket_of, coat_of, mine, pot_of, text_of, weighed

from wareboard.records.people.entry import keep
from wareboard.records.people.shown import Shown
from wareboard.records.ware.models import Air, Weighing
from wareboard.records.ware.weighing_answer import likely_state, states_for, weigh_again

HX = {"HX-Request": "true"}


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/weigh/"


def test_a_weight_is_kept_and_only_the_fragment_comes_back(signed_in, pot, url):
    reply = signed_in.post(url, {"weight_g": "1240", "state": "leather-hard"}, headers=HX)

    body = reply.content.decode()
    assert reply.status_code == 200
    assert body.startswith("\n<section") or body.lstrip().startswith("<section")
    assert "<html" not in body
    assert (mine(Weighing).get().weight_g, mine(Weighing).get().pot) == (1240, pot)


def test_the_undo_comes_back_with_the_fragment(signed_in, url):
    reply = signed_in.post(url, {"weight_g": "1240", "state": "leather-hard"}, headers=HX)

    assert 'id="foot" hx-swap-oob="true"' in reply.content.decode()
    assert "Kept: 1240 g, leather-hard." in text_of(reply)


def test_it_works_without_javascript(signed_in, url):
    reply = signed_in.post(url, {"weight_g": "1240", "state": "leather-hard"})

    assert (reply.status_code, reply["Location"]) == (302, url)
    assert "1240 g" in text_of(signed_in.get(url))


@pytest.mark.parametrize(
    ("typed", "say"),
    [
        ("0", "grams from 0.1 to 1000000"),
        ("heavy", "heavy"),
        ("", "What does it weigh?"),
        ("-5", "-5"),
    ],
)
def test_an_impossible_weight_is_explained_and_not_stored(signed_in, url, typed, say):
    reply = signed_in.post(url, {"weight_g": typed, "state": "leather-hard"}, headers=HX)

    assert reply.status_code == 422
    assert say in text_of(reply)
    assert not mine(Weighing).exists()


def test_a_weight_without_its_state_is_asked_for(signed_in, url):
    reply = signed_in.post(url, {"weight_g": "900"})

    assert reply.status_code == 422
    assert "How is it now? Tap one of the words." in text_of(reply)
    assert not mine(Weighing).exists()


def test_somebody_of_another_studio_gets_404(stranger, url):
    replies = [stranger.get(url), stranger.post(url, {"weight_g": "9", "state": "fired"})]

    assert [reply.status_code for reply in replies] == [404, 404]
    assert not mine(Weighing).exists()


def test_an_unknown_pot_is_404(signed_in):
    assert signed_in.get("/ware/pots/no-such-pot/weigh/").status_code == 404


def test_the_wrong_method_is_refused(signed_in, url):
    assert signed_in.delete(url).status_code == 405


def test_the_same_weight_sent_twice_is_kept_once(signed_in, url):
    for _ in range(2):
        signed_in.post(url, {"entry_id": "w-1", "weight_g": "900", "state": "glazed"})

    assert mine(Weighing).count() == 1


def test_undo_takes_a_weight_back(signed_in, url):
    signed_in.post(url, {"weight_g": "900", "state": "glazed"})
    page = signed_in.get(url)

    signed_in.post(page.context["undo"]["url"])

    assert not mine(Weighing).exists()


def test_the_page_needs_few_queries(signed_in, member, pot, url, django_assert_max_num_queries):
    coat_of(member, pot, bucket_of(member), 0.5)
    for hours in range(12):
        weighed(member, pot, 900 + hours, "glazed", hours)

    with django_assert_max_num_queries(12):
        signed_in.get(url)


def test_grams_over_its_own_dry_weight_stand_first(signed_in, member, pot, url):
    weighed(member, pot, 1000, "bone dry", 50)

    signed_in.post(url, {"weight_g": "1064", "state": "leather-hard"})

    text = text_of(signed_in.get(url))
    assert "64 g over its dry weight." in text
    assert "1064 g − 1000 g clay = 64 g." in text
    assert "worked out" in text


def test_a_coat_is_taken_off_before_it_is_called_water(signed_in, member, pot, url):
    weighed(member, pot, 1000, "bone dry", 50)
    coat = coat_of(member, pot, bucket_of(member), 0.5, hours_ago=20)
    coat_g = coat.after_g - coat.before_g

    signed_in.post(url, {"weight_g": f"{1000 + coat_g + 60:.0f}", "state": "glazed"})

    answer = signed_in.get(url).context["answer"]
    # What went on is 0.5 mm x pi dm2 x 10 x 0.5 x 2.6 = 20.4 g dry; the rest of the slop and
    # the sixty grams are water.
    assert answer.say == f"{round(1000 + coat_g + 60) - 1000 - 20.4:.0f} g over its dry weight."
    assert "20 g coat" in answer.working


def test_a_glazed_pot_gets_its_sign_and_a_bare_one_none(signed_in, member, pot, url):
    keep(Air, member, word="ordinary")
    weighed(member, pot, 1000, "bone dry", 50)
    signed_in.post(url, {"weight_g": "1064", "state": "leather-hard"})
    bare = signed_in.get(url).context["answer"].sign

    coat_of(member, pot, bucket_of(member), 0.5, hours_ago=0.01)
    signed_in.post(url, {"weight_g": "1100", "state": "glazed"})
    glazed = signed_in.get(url).context["answer"].sign

    assert (bare, glazed) == ("", "stop")


def test_a_pot_lighter_than_its_own_dry_weight_cannot_be(signed_in, member, pot, url):
    weighed(member, pot, 1000, "bone dry", 50)

    signed_in.post(url, {"weight_g": "950", "state": "leather-hard"})

    answer = signed_in.get(url).context["answer"]
    assert answer.say == "50 g under its own dry weight: that cannot be."


def test_a_pot_at_its_dry_weight_has_nothing_over(signed_in, member, pot, url):
    weighed(member, pot, 1000, "bone dry", 50)

    signed_in.post(url, {"weight_g": "1000", "state": "leather-hard"})

    assert signed_in.get(url).context["answer"].say == "Nothing over its dry weight."


def test_an_estimate_by_the_form_is_called_usual(signed_in, member, pot, url):
    for grams in (990, 1000, 1010):
        weighed(member, pot_of(member, pot.form), grams, "bone dry", 90)

    signed_in.post(url, {"weight_g": "1100", "state": "glazed"})

    answer = signed_in.get(url).context["answer"]
    assert answer.say == "About 100 g over what its form weighs dry."
    assert answer.trust == "usual"


def test_a_pot_without_a_dry_weight_cannot_be_told(signed_in, member, pot, url):
    bucket = bucket_of(member)
    coat_of(member, pot, bucket, 0.5)

    signed_in.post(url, {"weight_g": "1100", "state": "glazed"})

    answer = signed_in.get(url).context["answer"]
    assert answer.say == "1100 g. How wet it is cannot be told yet."
    assert answer.sign == "unknown"
    assert "two hours at about 50 °C" in answer.working


@pytest.mark.parametrize(
    ("state", "say"),
    [
        ("bone dry", "1000 g dry."),
        ("dry on the shelf", "1000 g dry."),
        ("fired", "1000 g, fired."),
        ("before the proof", "1000 g before the proof."),
        ("plastic", "1000 g. How wet it is cannot be told yet."),
    ],
)
def test_the_other_weighings_say_what_they_are_good_for(signed_in, url, state, say):
    signed_in.post(url, {"weight_g": "1000", "state": state})

    assert signed_in.get(url).context["answer"].say == say


def test_a_pot_that_passed_the_proof_says_so(signed_in, member, pot, url):
    coat_of(member, pot, bucket_of(member), 0.5, hours_ago=30)
    weighed(member, pot, 1000, "before the proof", 3)
    weighed(member, pot, 1000, "after the proof", 1)

    answer = signed_in.get(url).context["answer"]

    assert (answer.say, answer.sign) == ("1000 g. It passed the proof.", "go")
    assert any("slow start" in sentence for sentence in answer.why)


def test_falling_is_said_and_standing_still_proves_nothing(signed_in, member, pot, url):
    weighed(member, pot, 1100, "leather-hard", 5)
    weighed(member, pot, 1080, "leather-hard", 3)
    falling = signed_in.get(url).context["answer"].falling
    weighed(member, pot, 1080, "leather-hard", 1)
    still = signed_in.get(url).context["answer"].falling

    assert falling.startswith("Still falling: 20 g less than ")
    assert still.endswith("In damp air that alone proves nothing.")


def test_a_weight_far_off_is_kept_and_asked_for_again(signed_in, member, pot, url):
    weighed(member, pot, 1000, "leather-hard", 2)

    signed_in.post(url, {"weight_g": "1340", "state": "leather-hard"})

    text = text_of(signed_in.get(url))
    assert "That is 340 g more than" in text
    assert "Put it on the scale once more." in text
    assert mine(Weighing).filter(weight_g=1340).exists()


@pytest.mark.parametrize(
    ("was", "now", "asks"),
    [
        ((1000, "leather-hard"), (790, "leather-hard"), False),  # dries by a fifth
        ((1000, "leather-hard"), (600, "leather-hard"), True),  # no clay loses four tenths
        ((1000, "bone dry"), (1030, "dry on the shelf"), False),  # fog
        ((1000, "bone dry"), (1100, "dry on the shelf"), True),
        ((1000, "glazed"), (800, "glazed"), True),
        ((1000, "glazed"), (880, "fired"), False),  # the fire takes its share
        ((1000, "glazed"), (500, "fired"), True),
        ((4, "bone dry"), (6, "bone dry"), False),  # two steps of the scale
    ],
)
def test_how_far_is_far(member, pot, was, now, asks):
    before = weighed(member, pot, was[0], was[1], 9)
    after = weighed(member, pot, now[0], now[1], 1)

    say = weigh_again(after, [after, before], [], Shown(member.studio))

    assert bool(say) is asks


def test_a_coat_in_between_explains_a_gain(member, pot):
    before = weighed(member, pot, 1000, "bone dry", 9)
    coat = coat_of(member, pot, bucket_of(member), 0.5, hours_ago=5, before_g=None)
    after = weighed(member, pot, 1090, "glazed", 1)

    assert weigh_again(after, [after, before], [coat], Shown(member.studio)) == ""


def test_the_weight_after_a_dip_is_what_later_ones_are_held_against(member, pot):
    before = weighed(member, pot, 1000, "bone dry", 9)
    coat = coat_of(member, pot, bucket_of(member), 0.5, hours_ago=5)
    after = weighed(member, pot, coat.after_g + 200, "glazed", 1)

    say = weigh_again(after, [after, before], [coat], Shown(member.studio))

    assert say.startswith("That is 200 g more than")


@pytest.mark.parametrize(
    ("last", "likely"),
    [
        (None, "leather-hard"),
        ("plastic", "leather-hard"),
        ("leather-hard", "leather-hard"),
        ("bone dry", ""),
        ("dry on the shelf", "dry on the shelf"),
        ("before the proof", "after the proof"),
        ("after the proof", ""),
        ("fired", "fired"),
    ],
)
def test_the_likely_state_follows_what_was_last_done(member, pot, last, likely):
    rows = [weighed(member, pot, 900, last, 3)] if last else []

    assert likely_state(rows, []) == likely


def test_after_a_dip_a_pot_is_glazed(member, pot):
    row = weighed(member, pot, 900, "bone dry", 9)
    coat = coat_of(member, pot, bucket_of(member), 0.5, hours_ago=5)

    assert likely_state([row], [coat]) == "glazed"
    assert [value for value, _label in states_for([coat])] == [
        "glazed",
        "before the proof",
        "after the proof",
        "fired",
    ]


def test_the_likely_state_is_tapped_already(signed_in, member, pot, url):
    weighed(member, pot, 900, "plastic", 9)

    form = signed_in.get(url).context["form"]

    assert form["state"].value() == "leather-hard"


def test_an_earlier_weight_is_put_right_and_keeps_its_time(signed_in, member, pot, url):
    wrong = weighed(member, pot, 9000, "bone dry", 30)

    reply = signed_in.post(f"/ware/weighings/{wrong.pk}/", {"weight_g": "900", "state": "bone dry"})

    right = Weighing.objects.current().get(pot=pot)
    assert reply["Location"] == url
    assert (right.weight_g, right.corrects, right.at) == (900, wrong, wrong.at)
    assert mine(Weighing).count() == 2


def test_putting_right_shows_what_was_written(signed_in, member, pot):
    wrong = weighed(member, pot, 9000, "bone dry", 30)

    text = text_of(signed_in.get(f"/ware/weighings/{wrong.pk}/"))

    assert "9000 g was written" in text


def test_an_impossible_correction_is_explained_and_not_stored(signed_in, member, pot):
    wrong = weighed(member, pot, 9000, "bone dry", 30)

    reply = signed_in.post(f"/ware/weighings/{wrong.pk}/", {"weight_g": "x", "state": "glazed"})

    assert reply.status_code == 422
    assert mine(Weighing).count() == 1


def test_nobody_else_puts_a_weight_right(member, pot, stranger):
    wrong = weighed(member, pot, 9000, "bone dry", 30)

    assert stranger.get(f"/ware/weighings/{wrong.pk}/").status_code == 404
    assert stranger.get("/ware/weighings/no-such/").status_code == 404


@pytest.mark.parametrize(
    ("weight_g", "says"),
    [
        ("1900", "Two hours at about 50 °C now, then weigh it again while it is warm."),
        ("350", "Your scale is too coarse to prove so small a pot alone."),
    ],
)
def test_before_two_warm_hours_it_says_whether_they_can_tell(signed_in, url, weight_g, says):
    signed_in.post(url, {"weight_g": weight_g, "state": "before the proof"})

    assert signed_in.get(url).context["answer"].working == says
