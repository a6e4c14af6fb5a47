"""Words are found whatever their case and accents."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.records.people.entry import keep
from wareboard.records.people.folding import MOST_WORDS, fold, words_in
from wareboard.records.ware.models import Pot


@pytest.mark.parametrize(
    ("text", "folded"),
    [
        ("Crème BRÛLÉE", "creme brulee"),
        ("Straße", "strasse"),
        ("Ærø", "aero"),
        ("Łódź", "lodz"),
        ("ΣΊΣΥΦΟΣ", "σισυφοσ"),
        ("№ 12", "no 12"),
    ],
)
def test_capitals_and_accents_go(text, folded):
    assert fold(text) == folded


@given(st.text())
def test_what_is_folded_is_folded(text):
    assert fold(fold(text)) == fold(text)


def test_words_stand_alone_each_once_and_not_without_end():
    assert words_in("Bowl,  bowl; Crème") == ["bowl", "creme"]
    assert len(words_in(" ".join("abcdefghij"))) == MOST_WORDS


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("name", "word", "found"),
    [
        ("Crème jug", "creme", True),
        ("CRÈME JUG", "creme", True),
        ("creme jug", "creme", True),
        ("Grün, für Åsa", "asa", True),
        ("100% iron", "100%", True),
        ("100 iron", "100%", False),
        ("salt_pig", "t_p", True),
        ("salt pig", "t_p", False),
        ("back\\slash", "k\\s", True),
        ("", "a", False),
    ],
)
def test_a_text_says_a_word_or_not(member, name, word, found):
    keep(Pot, member, name=name)

    assert Pot.objects.seen_by(member).filter(name__says=word).exists() is found
