"""Pages of glazes: a new one, its versions that are never overwritten, its chemistry."""

import pytest

from wareboard.records.glazes.models import Bucket, Glaze, Recipe
from wareboard.records.people.entry import keep
from wareboard.records.stores.models import Material, MaterialKind

RILL = "potash feldspar 40\nwhiting 16\nsilica 18\nball clay 22\ntalc 4"
NAMES = ("potash feldspar", "whiting", "silica", "ball clay", "talc", "tin oxide")


@pytest.fixture
def stores(member):
    return {name: keep(Material, member, name=name) for name in NAMES}


@pytest.fixture
def rill(signed_in, stores):
    told = {"entry_id": "my-rill", "name": "Rill", "swatch": "#a9a79c", "recipe": RILL}
    signed_in.post("/glazes/new-glaze/", told)
    return Glaze.objects.get(pk="my-rill")


def lines_of(recipe):
    return [(line.material.name, line.parts, line.addition) for line in recipe.lines.all()]


def test_a_new_glaze_comes_with_its_recipe(signed_in, stores):
    told = {"entry_id": "g-1", "name": "Rill", "swatch": "#A9A79C", "character": "clear, glossy"}

    reply = signed_in.post("/glazes/new-glaze/", {**told, "recipe": RILL + "\n+ tin oxide 1,2"})

    glaze = Glaze.objects.get(pk="g-1")
    recipe = glaze.recipes.get()
    assert (reply.status_code, reply["Location"]) == (302, "/glazes/glazes/g-1/")
    assert (glaze.name, glaze.swatch, recipe.version) == ("Rill", "#A9A79C", 1)
    assert lines_of(recipe)[0] == ("potash feldspar", 40.0, False)
    assert lines_of(recipe)[-1] == ("tin oxide", 1.2, True)


def test_a_name_is_enough_to_begin_with(signed_in):
    told = {"entry_id": "g-1", "name": "Rill", "swatch": "#a9a79c"}

    signed_in.post("/glazes/new-glaze/", told)

    assert not Glaze.objects.get(pk="g-1").recipes.exists()
    assert "No recipe yet." in signed_in.get("/glazes/glazes/g-1/").content.decode()


def test_a_glaze_sent_twice_is_kept_once(signed_in, stores):
    told = {"entry_id": "g-1", "name": "Rill", "swatch": "#a9a79c", "recipe": RILL}

    replies = [signed_in.post("/glazes/new-glaze/", told) for _ in range(2)]

    assert [reply.status_code for reply in replies] == [302, 302]
    assert Glaze.objects.filter(studio="test-studio").count() == 1
    assert Recipe.objects.filter(studio="test-studio").count() == 1


def test_a_new_glaze_is_taken_back_with_its_recipe(signed_in, rill):
    undo = signed_in.get("/glazes/glazes/my-rill/").context["undo"]

    reply = signed_in.post(undo["url"], {"next": undo["next"]})

    assert reply["Location"] == "/glazes/"
    assert not Glaze.objects.standing().filter(studio="test-studio").exists()
    assert not Recipe.objects.standing().filter(studio="test-studio").exists()


@pytest.mark.parametrize(
    ("field", "typed", "say"),
    [
        ("name", "", "What do you call it? Nothing is written here yet."),
        (
            "name",
            "rill",
            ("There is a glaze called rill already: a change of it is its next version."),
        ),
        (
            "recipe",
            "potash feldspar forty",
            (
                'What goes in? "potash feldspar forty" has no name or no number; '
                "write one material a line with its parts, such as potash feldspar 40."
            ),
        ),
        (
            "recipe",
            "+ tin oxide 2",
            (
                "Every line has a plus sign, so there is nothing to add to: "
                "choose a base below, or leave the plus sign out."
            ),
        ),
        (
            "recipe",
            "potash spar 40",
            (
                "Not in the stores: potash spar. Near them: potash feldspar."
                " Mend the name, or tick below to take it in."
            ),
        ),
    ],
)
def test_what_cannot_be_is_explained_and_nothing_kept(signed_in, rill, field, typed, say):
    told = {"name": "Limpet", "swatch": "#a9a79c", "recipe": RILL, field: typed}

    reply = signed_in.post("/glazes/new-glaze/", told)

    assert reply.status_code == 422
    assert reply.context["form"].errors[field] == [say]
    assert reply.context["form"][field].value() == typed
    assert [glaze.pk for glaze in Glaze.objects.filter(studio="test-studio")] == ["my-rill"]


def test_a_colour_that_is_none_is_refused(signed_in):
    told = {"name": "Limpet", "swatch": '"/><script>'}

    assert signed_in.post("/glazes/new-glaze/", told).status_code == 422


def test_unknown_names_are_taken_into_the_stores_when_that_is_ticked(signed_in, stores):
    told = {"entry_id": "g-1", "name": "Rill", "swatch": "#a9a79c"}
    recipe = "whiting 20\nbone ash 5\n+ cobalt oxide 0.5"

    reply = signed_in.post("/glazes/new-glaze/", {**told, "recipe": recipe, "add_unknown": "on"})

    fresh = {m.name: m.kind for m in Material.objects.filter(together="g-1")}
    assert reply.status_code == 302
    assert fresh == {"bone ash": MaterialKind.GLAZE, "cobalt oxide": MaterialKind.COLOURANT}
    assert lines_of(Recipe.objects.get(glaze="g-1"))[1] == ("bone ash", 5.0, False)


def test_other_names_and_capitals_are_found(signed_in, member, stores):
    stores["potash feldspar"].other_names = "potash spar, K-spar"
    stores["potash feldspar"].save()
    told = {"entry_id": "g-1", "name": "Rill", "swatch": "#a9a79c"}

    signed_in.post("/glazes/new-glaze/", {**told, "recipe": "K-Spar 60\nWHITING  40"})

    assert lines_of(Recipe.objects.get(glaze="g-1")) == [
        ("potash feldspar", 60.0, False),
        ("whiting", 40.0, False),
    ]


def test_the_next_version_begins_with_the_last_and_leaves_it_alone(signed_in, rill):
    form = signed_in.get("/glazes/glazes/my-rill/new-version/").context["form"]
    told = {"entry_id": "v-2", "recipe": "potash feldspar 32\nwhiting 17", "why": "weaker bag"}

    reply = signed_in.post("/glazes/glazes/my-rill/new-version/", told)

    first, second = rill.recipes.order_by("version")
    assert form["recipe"].value() == RILL
    assert (reply.status_code, reply["Location"]) == (302, "/glazes/glazes/my-rill/")
    assert [len(lines_of(first)), len(lines_of(second))] == [5, 2]
    assert (second.version, second.why) == (2, "weaker bag")


def test_a_version_sent_twice_is_kept_once_and_can_be_taken_back(signed_in, rill):
    told = {"entry_id": "v-2", "recipe": "potash feldspar 32\nwhiting 17"}
    for _ in range(2):
        signed_in.post("/glazes/glazes/my-rill/new-version/", told)
    assert rill.recipes.count() == 2

    undo = signed_in.get("/glazes/glazes/my-rill/").context["undo"]
    signed_in.post(undo["url"])

    assert [recipe.version for recipe in rill.recipes.filter(undone_at__isnull=True)] == [1]


def test_an_old_form_sent_again_with_another_line_is_one_version_more(signed_in, rill):
    told = {"entry_id": "v-2", "recipe": "potash feldspar 32\nwhiting 17"}
    signed_in.post("/glazes/glazes/my-rill/new-version/", told)

    for _ in range(2):
        signed_in.post(
            "/glazes/glazes/my-rill/new-version/", {**told, "recipe": "potash feldspar 30"}
        )

    kept = rill.recipes.order_by("version")
    assert [(recipe.version, len(lines_of(recipe))) for recipe in kept] == [(1, 5), (2, 2), (3, 1)]


def test_a_version_that_changes_nothing_is_none(signed_in, rill):
    reply = signed_in.post("/glazes/glazes/my-rill/new-version/", {"recipe": RILL})

    assert reply.status_code == 422
    assert reply.context["form"].errors["recipe"] == [
        "This is version 1 as it stands: nothing has changed."
    ]
    assert rill.recipes.count() == 1


def test_with_a_base_every_line_is_an_addition(signed_in, rill):
    told = {"entry_id": "my-rose", "name": "Rosehip", "swatch": "#8e3b32", "base": "my-rill"}

    signed_in.post("/glazes/new-glaze/", {**told, "recipe": "tin oxide 1.2"})

    recipe = Recipe.objects.get(glaze="my-rose")
    assert (recipe.base_id, lines_of(recipe)) == ("my-rill", [("tin oxide", 1.2, True)])
    family = signed_in.get("/glazes/glazes/my-rill/").context["children"]
    assert [child.glaze.name for child in family] == ["Rosehip"]


def test_a_glaze_cannot_rest_on_itself_by_way_of_its_children(signed_in, rill):
    told = {"entry_id": "my-rose", "name": "Rosehip", "swatch": "#8e3b32", "base": "my-rill"}
    signed_in.post("/glazes/new-glaze/", {**told, "recipe": "tin oxide 1.2"})

    page = signed_in.get("/glazes/glazes/my-rill/new-version/")
    reply = signed_in.post(
        "/glazes/glazes/my-rill/new-version/", {"recipe": "talc 1", "base": "my-rose"}
    )

    assert not page.context["form"].fields["base"].queryset.exists()
    assert reply.status_code == 422
    assert rill.recipes.count() == 1


def test_a_glaze_page_shows_recipe_family_batches_and_buckets(
    demo_client, django_assert_max_num_queries
):
    with django_assert_max_num_queries(12):
        reply = demo_client.get("/glazes/glazes/rill/")

    page = reply.context
    assert (page["newest"].version, page["recipe"]["differs"]) == (2, True)
    assert next((row["parts"], row["hundred"]) for row in page["recipe"]["rows"]) == ("32", "30.5")
    assert [child.glaze.name for child in page["children"]] == ["Rosehip", "Samphire"]
    assert [batch.number for batch in page["batches"]] == [9, 8, 7, 6, 5]


def test_the_hundred_of_a_recipe_is_its_parts_by_their_sum(signed_in, stores):
    told = {"entry_id": "g-1", "name": "Rill", "swatch": "#a9a79c"}

    signed_in.post("/glazes/new-glaze/", {**told, "recipe": "whiting 20\nsilica 60\n+ tin oxide 4"})

    # 80 parts are the hundred; the addition is told against the same.
    recipe = signed_in.get("/glazes/glazes/g-1/").context["recipe"]
    assert [(row["parts"], row["hundred"]) for row in recipe["rows"]] == [
        ("20", "25.0"), ("60", "75.0"), ("4", "5.0"),
    ]  # fmt: skip
    assert recipe["total"] == "80"


def test_chemistry_stands_with_its_doubt_behind_why(demo_client):
    chemistry = demo_client.get("/glazes/glazes/limpet/").context["chemistry"]

    rows = {row["oxide"]: row for row in chemistry["rows"]}
    fluxes = [float(rows[oxide]["unity"]) for oxide in ("K2O", "Na2O", "CaO", "MgO")]
    assert sum(fluxes) == pytest.approx(1.0, abs=0.02)
    assert rows["SiO2"]["unity_doubt"].startswith("(")
    assert chemistry["loss"].split(" ")[1] == "%"
    assert chemistry["trust"] == "general"


def test_a_value_from_memory_is_marked(demo_client):
    standing = demo_client.get("/glazes/glazes/samphire/").context["chemistry"]["standing"]

    assert "A guess, from memory: rutile." in standing
    assert any(line.startswith("The density is a guess, from memory:") for line in standing)


def test_chemistry_that_cannot_be_worked_out_says_why(signed_in, rill):
    chemistry = signed_in.get("/glazes/glazes/my-rill/").context["chemistry"]

    assert chemistry == {
        "missing": "What potash feldspar is made of is not known yet: give it a sheet."
    }


def test_what_may_pass_into_food_is_left_to_a_laboratory(demo_client):
    text = demo_client.get("/glazes/glazes/rosehip/").content.decode()

    assert "Copper can pass from a glaze into food." in text
    assert "laboratory" in text


def test_a_bucket_that_stands_on_the_floor_is_named(signed_in, rill):
    told = {"entry_id": "b-1", "name": "Rill, blue lid"}

    replies = [signed_in.post("/glazes/glazes/my-rill/new-bucket/", told) for _ in range(2)]

    assert [reply["Location"] for reply in replies] == ["/glazes/buckets/b-1/"] * 2
    assert Bucket.objects.get(studio="test-studio").name == "Rill, blue lid"


def test_a_bucket_without_a_name_is_none(signed_in, rill):
    reply = signed_in.post("/glazes/glazes/my-rill/new-bucket/", {"name": " "})

    assert reply.status_code == 422
    assert not Bucket.objects.filter(studio="test-studio").exists()


PAGES = (
    "/glazes/glazes/{glaze}/",
    "/glazes/glazes/{glaze}/new-version/",
    "/glazes/glazes/{glaze}/new-bucket/",
    "/glazes/glazes/{glaze}/new-batch/",
    "/glazes/glazes/{glaze}/draw/",
    "/glazes/batches/{batch}/",
    "/glazes/batches/{batch}/pour/",
    "/glazes/buckets/{bucket}/change/",
    "/glazes/buckets/{bucket}/fill/",
    "/glazes/buckets/{bucket}/grams/",
    "/glazes/buckets/{bucket}/",
    "/glazes/buckets/{bucket}/bottle/",
    "/glazes/buckets/{bucket}/name/",
    "/glazes/readings/{reading}/",
)
DEMO = {
    "glaze": "rosehip",
    "batch": "rosehip-batch-2",
    "bucket": "rosehip-bucket",
    "reading": "rosehip-bucket-11-17",
}
NOBODY = dict.fromkeys(DEMO, "nobody")


@pytest.mark.parametrize("page", PAGES)
def test_each_page_opens_within_twelve_queries(demo_client, page, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        assert demo_client.get(page.format(**DEMO)).status_code == 200


@pytest.mark.parametrize("page", PAGES)
def test_no_other_method_is_taken(demo_client, page):
    assert demo_client.delete(page.format(**DEMO)).status_code == 405


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("method", ["get", "post"])
def test_somebody_of_another_studio_finds_nothing(stranger, page, method):
    reply = getattr(stranger, method)(page.format(**DEMO))

    assert reply.status_code == (405 if (page, method) in ONLY_READ else 404)


ONLY_READ = {(PAGES[0], "post"), (PAGES[5], "post")}


@pytest.mark.parametrize("page", PAGES)
def test_an_unknown_id_is_not_found(demo_client, page):
    assert demo_client.get(page.format(**NOBODY)).status_code == 404


def test_another_studios_glaze_is_no_base(signed_in, stores):
    told = {"name": "Rosehip", "swatch": "#8e3b32", "base": "rill", "recipe": "talc 1"}

    reply = signed_in.post("/glazes/new-glaze/", told)

    assert reply.status_code == 422
    assert "base" in reply.context["form"].errors
