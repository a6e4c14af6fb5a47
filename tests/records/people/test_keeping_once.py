"""An entry is kept once, whatever the network does."""

import pytest
from django.core.exceptions import ValidationError

from wareboard.records.glazes.models import Bucket, Glaze, Reading
from wareboard.records.people.entry import EntryRefused, check_id, keep
from wareboard.records.people.models import Member, Studio
from wareboard.records.people.undoing import undo
from wareboard.records.stores.models import Material, Sheet, SheetOxide


@pytest.fixture
def bucket(member):
    glaze = keep(Glaze, member, name="Limpet")
    return keep(Bucket, member, glaze=glaze, name="old bucket")


def read(member, bucket, full_g: float, entry_id: str = "one-tap") -> Reading:
    return keep(
        Reading, member, entry_id=entry_id, bucket=bucket, full_g=full_g, empty_g=212, volume_ml=365
    )


def test_the_same_entry_sent_twice_is_kept_once(member, bucket):
    first = read(member, bucket, 748)

    again = read(member, bucket, 748)

    assert again.pk == first.pk
    assert again.kept_at == first.kept_at
    assert Reading.objects.count() == 1 + Reading.objects.exclude(studio=member.studio_id).count()


def test_an_old_form_sent_again_with_another_number_is_another_entry_and_kept_once(member, bucket):
    first = read(member, bucket, 748)

    second = read(member, bucket, 760)
    again = read(member, bucket, 760)

    assert (first.full_g, second.full_g) == (748, 760)
    assert again.pk == second.pk != first.pk


def test_what_was_taken_back_stays_so_when_its_entry_arrives_once_more_and_that_is_said(
    member, bucket
):
    taken_back = read(member, bucket, 748)
    undo(taken_back)

    with pytest.raises(EntryRefused, match="taken back"):
        read(member, bucket, 748)

    assert not Reading.objects.standing().filter(pk=taken_back.pk).exists()


@pytest.mark.parametrize("entry_id", ["Über", "a b", "-x", "a" * 41, "../x", "A"])
def test_an_id_that_is_none_is_refused(member, bucket, entry_id):
    with pytest.raises(EntryRefused):
        read(member, bucket, 748, entry_id)


def test_another_studio_s_id_is_refused_and_tells_nothing(member, bucket):
    kept = read(member, bucket, 748)
    other = Studio.objects.create(id="other", name="Other")
    stranger = Member.objects.create(id="eve", studio=other, name="Eve")

    with pytest.raises(EntryRefused) as refused:
        read(stranger, bucket, 748, kept.pk)

    assert "748" not in str(refused.value)


def sheet_of(member, material, percent: float) -> Sheet:
    return keep(
        Sheet,
        member,
        entry_id="one-sheet",
        material=material,
        standing="typical",
        owner="sheet",
        parts=(SheetOxide(oxide="SiO2", percent=percent), SheetOxide(oxide="K2O", percent=10)),
    )


def test_an_old_form_sent_again_with_another_line_is_another_entry_and_kept_once(member):
    spar = keep(Material, member, name="spar")
    first = sheet_of(member, spar, 66.5)

    same = sheet_of(member, spar, 66.5)
    second = sheet_of(member, spar, 70.6)
    again = sheet_of(member, spar, 70.6)

    assert same.pk == first.pk
    assert again.pk == second.pk != first.pk
    assert [oxide.percent for oxide in second.oxides.order_by("position")] == [70.6, 10]


def test_a_number_that_no_table_holds_is_refused_in_a_sentence(member, bucket):
    with pytest.raises(EntryRefused) as refused:
        read(member, bucket, 2_000_000)

    assert str(refused.value) == (
        "Full bottle on the scale [g]: 2000000 cannot be kept; accepted is 0.1 to 1000000."
    )
    assert not Reading.objects.filter(bucket=bucket).exists()


def test_a_line_that_no_table_holds_takes_its_entry_with_it(member):
    spar = keep(Material, member, name="spar")

    with pytest.raises(EntryRefused, match="cannot be kept; accepted is 0 to 110"):
        sheet_of(member, spar, 120)

    assert not Sheet.objects.filter(material=spar).exists()


def test_a_word_that_is_none_is_refused(member, bucket):
    with pytest.raises(EntryRefused):
        keep(Reading, member, bucket=bucket, full_g=748, empty_g=212, volume_ml=365, flow="lumpy")


@pytest.mark.parametrize("entry_id", ["Über", "a b", "-x", "a" * 41, "../x", "A", "x\n", ""])
def test_a_table_holds_no_id_that_is_none(entry_id):
    with pytest.raises(ValidationError):
        check_id(entry_id)
