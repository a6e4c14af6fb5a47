"""Coming in by a one-time key or a password, going out, and how the studio stands."""

import ipaddress

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import authenticate, login, logout, update_session_auth_hash
from django.db import connection
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.cache import patch_cache_control
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import (
    require_GET,
    require_http_methods,
    require_POST,
    require_safe,
)

from wareboard.records.people import attempts, keys
from wareboard.records.people.models import Person
from wareboard.records.people.requests import StudioRequest
from wareboard.web.members import open_to_readers, open_to_strangers

from .forms import SetPasswordForm, SignInForm
from .standing import standing_of

FRONT_DOOR = "/"


@open_to_strangers
@sensitive_post_parameters("password")
@require_http_methods(["GET", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    """Ask for name and password, and let in whoever knows both."""
    onward = inside(request.POST.get("next", request.GET.get("next", "")))
    if request.method == "GET":
        form = SignInForm(initial={"name": usual_name()})
        return show_sign_in(request, form, onward)
    form = SignInForm(request.POST)
    if not form.is_valid():
        return show_sign_in(request, form, onward, status=422)
    name, password = form.cleaned_data["name"], form.cleaned_data["password"]
    address = request.META.get("REMOTE_ADDR", "")
    wait_s = attempts.begin(name, address)
    if wait_s:
        form.add_error(
            None,
            _("Too many tries. Wait %(seconds)d seconds, then try again.") % {"seconds": wait_s},
        )
        answer = show_sign_in(request, form, onward, status=429)
        answer.headers["Retry-After"] = str(wait_s)
        return answer
    person = authenticate(request, username=name, password=password)
    if person is None:
        form.add_error(None, _("Name and password do not go together."))
        return show_sign_in(request, form, onward, status=422)
    attempts.succeeded(name, address)
    login(request, person)
    return redirect(onward)


def show_sign_in(
    request: HttpRequest, form: SignInForm, onward: str, *, stale: bool = False, status: int = 200
) -> HttpResponse:
    """Show the sign-in page."""
    return render(
        request,
        "sign_in/sign_in.html",
        {"form": form, "next": onward, "stale": stale, "here": is_this_machine(request)},
        status=status,
    )


def usual_name() -> str:
    """Give the name of the only person who signs in; nothing where there are several."""
    names = Person.objects.filter(is_active=True).values_list("username", flat=True)[:2]
    return names[0] if len(names) == 1 else ""


def inside(address: str) -> str:
    """Give an address to go on to, if it lies in this studio; else the front door."""
    safe = address.startswith("/") and url_has_allowed_host_and_scheme(address, allowed_hosts=None)
    return address if safe else FRONT_DOOR


@open_to_strangers
@require_GET
def use_key(request: HttpRequest, key: str) -> HttpResponse:
    """Let in whoever opened, on this machine, the address that was printed on it."""
    member = keys.use_key(key) if is_this_machine(request) else None
    if member is None or member.person is None:
        form = SignInForm(initial={"name": usual_name()})
        return show_sign_in(request, form, FRONT_DOOR, stale=True, status=403)
    login(request, member.person, backend=settings.AUTHENTICATION_BACKENDS[0])
    return redirect(FRONT_DOOR)


def is_this_machine(request: HttpRequest) -> bool:
    """Say whether a request comes from the machine the studio runs on."""
    try:
        return ipaddress.ip_address(request.META.get("REMOTE_ADDR", "")).is_loopback
    except ValueError:
        return False


@open_to_readers
@require_POST
def sign_out(request: StudioRequest) -> HttpResponse:
    """End the session; ask first where no password would let this person in again."""
    person = request.member.person
    if person is not None and not person.has_usable_password() and "sure" not in request.POST:
        return render(request, "sign_in/sign_out.html")
    logout(request)
    return redirect("sign-in")


@open_to_readers
@sensitive_post_parameters()
@require_http_methods(["GET", "POST"])
def set_password(request: StudioRequest) -> HttpResponse:
    """Set one's own password; whoever is signed in elsewhere is signed out."""
    person = request.member.person
    if person is None:
        return redirect("sign-in")
    form = SetPasswordForm(person, request.POST or None)
    if request.method == "POST" and form.is_valid():
        person.set_password(form.cleaned_data["password"])
        person.save(update_fields=["password"])
        update_session_auth_hash(request, person)
        messages.success(request, _("The password is set. Other devices have to sign in again."))
        return redirect("status")
    return render(
        request,
        "sign_in/set_password.html",
        {"form": form, "person": person},
        status=422 if form.errors else 200,
    )


@open_to_strangers
@require_safe
def health(_request: HttpRequest) -> HttpResponse:
    """Say that the studio answers and its record can be read."""
    with connection.cursor() as cursor:
        cursor.execute("SELECT 1 FROM django_migrations LIMIT 1")
    answer = HttpResponse("ok", content_type="text/plain")
    patch_cache_control(answer, no_store=True)
    return answer


@require_safe
def status(request: StudioRequest) -> HttpResponse:
    """Show how the studio stands: record, backup, who is let in."""
    return render(
        request, "sign_in/status.html", {"standing": standing_of(settings.DATA, request.get_port())}
    )
