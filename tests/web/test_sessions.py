"""Going out, other sessions, and what strangers and members see."""

import shlex

import pytest
from django.contrib.auth.models import AnonymousUser
from django.contrib.sessions.models import Session
from django.utils import timezone
from django.utils.html import escape
from signing_in import PASSWORD, another_browser, is_in, try_password

from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.last_backup import LastBackup, note_backup
from wareboard.records.people.models import Member, Person

JARGON = ("SQLite", "Write-ahead", "journal", "HTTP", "SHA", "UTC")

pytestmark = pytest.mark.django_db


@pytest.fixture
def potter(member):
    member.person.set_password(PASSWORD)
    member.person.save()
    return member.person


def test_sign_out_ends_the_session(client, potter):
    client.force_login(potter)

    reply = client.post("/sign-out/")

    assert (reply.status_code, reply.headers["Location"]) == (302, "/sign-in/")
    assert not is_in(client)


def test_whoever_has_no_password_is_asked_before_signing_out(signed_in):
    page = signed_in.post("/sign-out/")

    assert page.status_code == 200
    assert (
        "You have no password: only the address printed by the program lets you in again."
        in page.content.decode()
    )
    assert is_in(signed_in)


def test_whoever_has_no_password_may_sign_out_all_the_same(signed_in):
    signed_in.post("/sign-out/", {"sure": "yes"})

    assert not is_in(signed_in)


def test_sign_out_by_a_link_does_nothing(signed_in):
    reply = signed_in.get("/sign-out/")

    assert reply.status_code == 405
    assert is_in(signed_in)


def test_session_gets_a_new_name_on_coming_in(client, potter):
    client.get("/sign-in/")
    client.session["planted"] = True
    client.session.save()
    before = client.session.session_key

    try_password(client, potter, PASSWORD)

    assert client.session.session_key != before


def test_cookies_are_this_programs_own_and_out_of_reach_of_scripts(client, potter):
    client.get("/sign-in/")
    try_password(client, potter, PASSWORD)

    kept = {
        name: (cookie["httponly"], cookie["samesite"]) for name, cookie in client.cookies.items()
    }
    assert kept == {"wareboard_session": (True, "Lax"), "wareboard_csrf": (True, "Lax")}


NEW = "four wet bowls"


def new_password(client, password, again, **present):
    return client.post("/sign-in/password/", {"password": password, "again": again, **present})


def test_changed_password_ends_the_other_sessions_and_keeps_this_one(potter):
    here, there = another_browser(), another_browser()
    try_password(here, potter, PASSWORD)
    try_password(there, potter, PASSWORD)

    reply = new_password(here, NEW, NEW, present=PASSWORD)

    assert reply.status_code == 302
    assert (is_in(here), is_in(there)) == (True, False)


@pytest.mark.parametrize(
    ("present", "password", "again", "say"),
    [
        ({"present": "x"}, NEW, NEW, "not the present"),
        ({"present": PASSWORD}, "short", "short", "too short"),
        ({"present": PASSWORD}, "password1", "password1", "too common"),
        ({"present": PASSWORD}, NEW, f"{NEW}!", "do not agree"),
        ({}, NEW, NEW, "required"),
    ],
)
def test_password_that_will_not_do_is_explained_and_nothing_changed(
    client, potter, present, password, again, say
):
    client.force_login(potter)

    reply = new_password(client, password, again, **present)

    potter.refresh_from_db()
    assert reply.status_code == 422
    assert say in reply.content.decode()
    assert potter.check_password(PASSWORD)


def test_first_password_asks_for_no_present_one(client, member):
    member.person.set_unusable_password()
    member.person.save()
    client.force_login(member.person)

    new_password(client, NEW, NEW)

    member.person.refresh_from_db()
    assert member.person.check_password(NEW)


def test_reader_may_change_the_own_password_and_nothing_else(client, member):
    Member.objects.filter(pk=member.pk).update(role="reader")
    member.person.set_unusable_password()
    member.person.save()
    client.force_login(member.person)

    page = client.get("/sign-in/password/")
    reply = new_password(client, NEW, NEW)

    assert (page.status_code, reply.status_code) == (200, 302)
    assert client.post("/status/").status_code == 403


def test_locked_out_person_is_out_at_once(signed_in, member):
    assert is_in(signed_in)

    Person.objects.filter(pk=member.person_id).update(is_active=False)

    assert not is_in(signed_in)


def test_person_of_no_studio_is_a_stranger(client, db):
    person = Person(username="nobody's")
    person.save()
    client.force_login(person)

    assert client.get("/status/").status_code == 302


def test_first_run_cannot_be_claimed_by_a_stranger(client, db):
    """Where nobody ever set a password, there is nothing on the network that makes one."""
    before = Person.objects.count()

    pages = [client.get(path) for path in ("/sign-in/password/", "/", "/status/")]
    posts = [client.post("/sign-in/password/", {"password": "mine now", "again": "mine now"})]

    assert {reply.status_code for reply in pages + posts} == {302}
    assert Person.objects.count() == before


def test_health_answers_strangers(client):
    reply = client.get("/health/")

    assert (reply.status_code, reply.content) == (200, b"ok")


def test_health_takes_no_post(client):
    assert client.post("/health/").status_code == 405


def test_status_shows_how_the_studio_stands(signed_in):
    page = signed_in.get("/status/").content.decode()

    assert "none yet" in page
    assert "not let in" in page
    assert "a power cut does not take it back" in page


def test_status_leaves_the_technical_words_to_the_one_who_helps(signed_in):
    page = signed_in.get("/status/").content.decode()

    before, _fold, folded = page.partition("<details>")
    assert [word for word in JARGON if word in before] == []
    assert "Write-ahead log" in folded


def test_status_says_that_a_backup_on_the_same_disk_is_none_to_rely_on(
    signed_in, settings, tmp_path
):
    settings.DATA = tmp_path
    made = LastBackup(timezone.now(), tmp_path / "monday.zip", 1, "0" * 64, same_disk=True)
    note_backup(DataFolder(tmp_path), made)

    page = signed_in.get("/status/").content.decode()

    assert "On the same disk as the record: a stick would be better." in page
    assert 'class="sign wait"' in page


def test_nobody_is_signed_in_by_looking(client):
    client.get("/sign-in/")

    assert Session.objects.count() == 0
    assert isinstance(client.get("/sign-in/").wsgi_request.user, AnonymousUser)


def test_commands_on_the_status_page_name_the_folder_of_this_record(client, potter):
    client.force_login(potter)

    page = client.get("/status/")

    standing = page.context["standing"]
    assert standing.named == f" --data {shlex.quote(str(standing.folder))}"
    assert f"<kbd>wareboard keep{escape(standing.named)}</kbd>" in page.content.decode()
