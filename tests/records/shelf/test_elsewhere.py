"""One bag counted in all other glazes at once, held against each glaze gathered by itself."""

import pytest

from wareboard.records.glazes.models import Glaze
from wareboard.records.shelf.attributes import of_one_recipe, pieces_of
from wareboard.records.shelf.elsewhere import Counts, count_elsewhere
from wareboard.records.shelf.evidence import gather
from wareboard.records.shelf.words import FaultWord

BAG = ("lot of potash feldspar", "B")


def one_by_one(member, glaze: Glaze, fault: FaultWord) -> dict[str, Counts]:
    """Count the bag glaze by glaze, from everything that is known of each piece."""
    found = {}
    for other in Glaze.objects.filter(studio=member.studio_id).exclude(pk=glaze.pk):
        glazed, _aside = of_one_recipe(gather(member, other, fault).pieces)
        counts = Counts()
        for piece in pieces_of(glazed):
            counts.add(has_it=piece.attributes.get(BAG[0]) == BAG[1], faulty=piece.faulty)
        if counts != Counts():
            found[other.pk] = counts
    return found


@pytest.mark.parametrize("fault", list(FaultWord))
@pytest.mark.parametrize("glaze_id", ["limpet", "rill"])
def test_it_counts_what_each_glaze_by_itself_shows(demo_member, glaze_id, fault):
    glaze = Glaze.objects.get(pk=glaze_id)

    found = count_elsewhere(demo_member, BAG, glaze, fault, None).counts

    assert found == one_by_one(demo_member, glaze, fault)


def test_the_demo_has_the_bag_in_another_glaze(demo_member):
    limpet = Glaze.objects.get(pk="limpet")

    found = count_elsewhere(demo_member, BAG, limpet, FaultWord.PINHOLE, None).counts

    assert {glaze_id for glaze_id, counts in found.items() if counts.n_with} != set()
    assert "limpet" not in found


@pytest.mark.parametrize(("most", "newest_only"), [(1, True), (1_500, False)])
def test_it_says_where_older_pots_are_left_out(demo_member, monkeypatch, most, newest_only):
    monkeypatch.setattr("wareboard.records.shelf.elsewhere.MOST", most)
    limpet = Glaze.objects.get(pk="limpet")

    found = count_elsewhere(demo_member, BAG, limpet, FaultWord.PINHOLE, None)

    assert found.newest_only is newest_only


def test_it_asks_as_often_however_many_glazes_there_are(demo_member, django_assert_max_num_queries):
    limpet = Glaze.objects.get(pk="limpet")

    with django_assert_max_num_queries(9):
        count_elsewhere(demo_member, BAG, limpet, FaultWord.PINHOLE, None)
