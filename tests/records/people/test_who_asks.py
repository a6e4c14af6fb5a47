"""Who asks: session, person, member and studio cost two queries a page."""

import pytest
from django.contrib.auth import authenticate
from django.contrib.auth.models import AnonymousUser
from django.test import RequestFactory

from wareboard.records.people.models import Person
from wareboard.web.members import member_of


def test_a_session_and_its_member_are_found_in_two_queries(
    signed_in, member, django_assert_num_queries
):
    with django_assert_num_queries(2):
        reply = signed_in.get("/kiln/air/")

    assert reply.status_code == 405


def test_the_member_comes_with_person_and_studio(
    signed_in, member, studio, django_assert_num_queries
):
    request = signed_in.get("/shelf/").wsgi_request

    with django_assert_num_queries(0):
        assert member_of(request) == member
        assert (request.user.asks_as.studio.name, request.user.username) == (
            studio.name,
            "ann of test-studio",
        )


def test_somebody_who_left_is_not_let_in_by_an_old_session(signed_in, member):
    member.person.is_active = False
    member.person.save()

    reply = signed_in.get("/shelf/")

    assert (reply.status_code, reply["Location"]) == (302, "/sign-in/?next=%2Fshelf%2F")


def test_somebody_without_a_studio_is_nobody(signed_in, member):
    member.person = None
    member.save()

    reply = signed_in.get("/shelf/")

    assert (reply.status_code, reply["Location"]) == (302, "/sign-in/?next=%2Fshelf%2F")


def test_somebody_just_signed_in_is_found_as_well(member):
    request = RequestFactory().get("/")
    request.user = Person.objects.get(pk=member.person_id)

    assert member_of(request) == member


def test_a_stranger_is_no_member(db):
    request = RequestFactory().get("/")
    request.user = AnonymousUser()

    assert member_of(request) is None


@pytest.mark.parametrize(("password", "let_in"), [("clay on the wall", True), ("clay", False)])
def test_name_and_password_still_let_in(member, password, let_in):
    member.person.set_password("clay on the wall")
    member.person.save()

    person = authenticate(username=member.person.username, password=password)

    assert (person == member.person) is let_in
