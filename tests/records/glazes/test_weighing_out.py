"""What to weigh for a batch: the grams add up, and are kept as shown or as typed."""

import pytest

from wareboard.records.glazes.models import Batch, Glaze, Recipe, RecipeLine
from wareboard.records.people.entry import keep

RILL = "/glazes/glazes/my-rill/"
ROSE = "/glazes/glazes/my-rose/"


def write(member, glaze, lines, stores):
    parts = tuple(
        RecipeLine(material=stores[name], parts=share, addition=addition)
        for name, share, addition in lines
    )
    keep(Recipe, member, glaze=glaze, version=1, parts=parts, owner="recipe")


def test_what_to_weigh_is_said_for_the_whole_that_is_wanted(signed_in, rill):
    page = signed_in.get(f"{RILL}new-batch/", {"dry_g": "8 kg"}).context

    # 60 and 40 of a hundred parts of 8000 g.
    assert [row["grams_asked"] for row in page["rows"]] == ["4800 g", "3200 g"]
    assert page["sums"] == {"hundred": "8000 g", "whole": "", "why": ""}


def grams_asked(signed_in, address, **asked):
    page = signed_in.get(f"{address}new-batch/", asked).context
    return [row["grams_asked"] for row in page["rows"]], page["sums"]


def test_the_hundred_is_what_was_asked_for_and_additions_come_on_top(signed_in, member, stores):
    glaze = keep(Glaze, member, entry_id="my-fern", name="Fern")
    lines = [("feldspar", 60, False), ("tin oxide", 4, True), ("whiting", 40, False)]
    write(member, glaze, lines, stores)

    grams, sums = grams_asked(signed_in, "/glazes/glazes/my-fern/", dry_g="5000")
    page = signed_in.get("/glazes/glazes/my-fern/new-batch/").context

    assert page["mix"]["dry_g"].help_text == (
        "Counted without the additions (+), which come on top. Write 8 kg for kilograms."
    )
    # Common practice: 5000 g are the hundred, and 4 on the hundred of it are 200 g more.
    assert grams == ["3000 g", "200 g", "2000 g"]
    assert sums == {"hundred": "5000 g", "whole": "5200 g", "why": ""}


def test_the_grams_of_three_thirds_add_up_to_what_was_asked_for(signed_in, member, stores):
    glaze = keep(Glaze, member, entry_id="my-fern", name="Fern")
    write(member, glaze, [(name, 1, False) for name in stores], stores)

    grams, sums = grams_asked(signed_in, "/glazes/glazes/my-fern/", dry_g="5000")

    # Each third of 5000 g is 1666.67 g: two are weighed a little full, one a little short.
    assert sorted(grams) == ["1666 g", "1667 g", "1667 g"]
    assert sums["hundred"] == "5000 g"


def test_grams_that_cannot_add_up_say_why(signed_in, member, rill):
    member.studio.scale_step_g = 1
    member.studio.save()

    grams, sums = grams_asked(signed_in, RILL, dry_g="100.4")

    assert grams == ["60 g", "40 g"]
    assert sums["hundred"] == "100 g"
    assert sums["why"] == ("Rounded to what a scale shows, so not quite what you asked for.")


def test_so_little_that_the_scale_shows_nothing_is_said_finer_and_cautioned(
    signed_in, member, rose
):
    member.studio.scale_step_g = 1
    member.studio.save()

    page = signed_in.get(f"{ROSE}new-batch/", {"dry_g": "50"}).context

    # Half a part on the hundred of 50 g is a quarter of a gram.
    assert page["rows"][2]["grams_asked"] == "0.25 g"
    assert page["coarse"] == (
        "A scale that shows steps of 1 g is coarse for so little: use a finer one, "
        "or do more at once."
    )


def said_after(signed_in, told):
    """Keep a batch, and give what its page says was kept."""
    page = signed_in.post(f"{RILL}new-batch/", {"entry_id": "b-1", **told}, follow=True).context
    grams = [line.weighed_g for line in Batch.objects.get(pk="b-1").lines.order_by("position")]
    return grams, [str(message) for message in page["messages"]]


@pytest.mark.parametrize(
    ("told", "grams", "say"),
    [
        ({"dry_g": "8 kg"}, [4800, 3200], "Kept with the grams as shown."),
        (
            {"dry_g": "8 kg", "grams_1": "3195"},
            [4800, 3195],
            "Kept: whiting as typed, the others as shown.",
        ),
        (
            {"dry_g": "8 kg", "grams_0": "4810", "grams_1": "3195"},
            [4810, 3195],
            "Kept with the grams as typed.",
        ),
        ({"dry_g": "8 kg", "not_weighed": "on"}, [None, None], "Kept without grams."),
        (
            {"dry_g": "8 kg", "not_weighed": "on", "grams_1": "3195"},
            [None, 3195],
            "Kept: whiting as typed, the others without grams.",
        ),
        ({}, [None, None], "Kept without grams."),
        (
            {"grams_0": "4810", "grams_1": "3195"},
            [4810, 3195],
            "Kept with the grams as typed.",
        ),
    ],
)
def test_grams_as_shown_are_kept_unless_the_potter_says_otherwise(
    signed_in, rill, told, grams, say
):
    kept = said_after(signed_in, told)

    assert kept == (grams, [say])


def test_a_kept_batch_shows_its_grams_as_the_scale_said_and_they_add_up(signed_in, rill):
    told = {"entry_id": "b-1", "grams_0": "12345", "grams_1": "8000.5"}
    signed_in.post(f"{RILL}new-batch/", told)

    page = signed_in.get("/glazes/batches/b-1/").context

    assert [row["grams"] for row in page["own"]] == ["12345 g", "8000.5 g"]
    assert page["total"] == "20345.5 g"


def test_a_child_mixed_dry_holds_its_base(signed_in, rose):
    rows = signed_in.get(f"{ROSE}new-batch/", {"dry_g": "1000"}).context["rows"]

    # A hundred of the base, here 1000 g, and half a part on top.
    assert [(row["name"], row["grams_asked"]) for row in rows] == [
        ("feldspar", "600 g"),
        ("whiting", "400 g"),
        ("tin oxide", "5 g"),
    ]


def test_grams_typed_as_the_page_says_them_are_not_asked_about(signed_in, studio, rill):
    studio.scale_step_g = 0.001
    studio.save()
    address = f"{RILL}new-batch/"
    row = signed_in.get(address, {"dry_g": "13.5410"}).context["rows"][0]
    assert row["grams_asked"] == "8.125 g"

    told = {"entry_id": "b-1", "dry_g": "13.5410", "grams_0": "8.125"}
    signed_in.post(address, told)

    assert Batch.objects.get(pk="b-1").lines.get(position=1).weighed_g == 8.125
