"""What is typed to come in, and to set a password."""

from typing import Any

from django import forms
from django.contrib.auth.password_validation import validate_password
from django.utils.translation import gettext_lazy as _

from wareboard.records.people.fields import say_what_is_missing
from wareboard.records.people.models import Person

LONGEST_PASSWORD = 1024


class Password(forms.CharField):
    """A password exactly as typed: nothing cut off, nothing changed."""

    def __init__(self, *, autocomplete: str, **options: Any) -> None:
        super().__init__(
            strip=False,
            max_length=LONGEST_PASSWORD,
            widget=forms.PasswordInput(attrs={"autocomplete": autocomplete}),
            **options,
        )


class SignInForm(forms.Form):
    """Name and password."""

    name = forms.CharField(
        label=_("Name"),
        max_length=60,
        widget=forms.TextInput(
            attrs={"autocomplete": "username", "autocapitalize": "none", "spellcheck": "false"}
        ),
    )
    password = Password(label=_("Password"), autocomplete="current-password")

    def __init__(self, *arguments: Any, **options: Any) -> None:
        super().__init__(*arguments, **options)
        say_what_is_missing(self)


class SetPasswordForm(forms.Form):
    """A new password, twice; the present one first where there is one.

    Parameters
    ----------
    person : Person
        Whose password it is.
    """

    present = Password(label=_("Present password"), autocomplete="current-password")
    password = Password(
        label=_("New password"),
        autocomplete="new-password",
        help_text=_("At least 8 letters, digits or signs; 15 or more is better. Three words do."),
    )
    again = Password(label=_("New password once more"), autocomplete="new-password")

    def __init__(self, person: Person, *arguments: Any, **options: Any) -> None:
        super().__init__(*arguments, **options)
        say_what_is_missing(self)
        self.person = person
        if not person.has_usable_password():
            del self.fields["present"]

    def clean_present(self) -> str:
        """Refuse somebody who found the page open."""
        present: str = self.cleaned_data["present"]
        if not self.person.check_password(present):
            raise forms.ValidationError(_("That is not the present password."))
        return present

    def clean_password(self) -> str:
        """Refuse a password that is easily guessed."""
        password: str = self.cleaned_data["password"]
        validate_password(password, self.person)
        return password

    def clean(self) -> dict[str, Any]:
        """Refuse two that differ."""
        typed = super().clean() or {}
        if "password" in typed and "again" in typed and typed["password"] != typed["again"]:
            self.add_error("again", _("The two do not agree; type both once more."))
        return typed
