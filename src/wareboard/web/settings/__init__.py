"""Settings of the running program.

Everything that differs between two studios comes from the data folder, whose
path is in ``WAREBOARD_DATA``; nothing is configured in files of the program.
"""

import os
from pathlib import Path

from django.core.exceptions import ImproperlyConfigured

from wareboard.web.settings.secret import secret_key

WEB = Path(__file__).resolve().parent.parent

if "WAREBOARD_DATA" not in os.environ:
    raise ImproperlyConfigured(
        "WAREBOARD_DATA is not set: start with `wareboard open`, or name the data folder in it."
    )
DATA = Path(os.environ["WAREBOARD_DATA"])
OPEN_TO_PHONES = os.environ.get("WAREBOARD_PHONES") == "1"
OVER_TLS = os.environ.get("WAREBOARD_TLS") == "1"

DEBUG = False
SECRET_KEY = secret_key(DATA)
# Which hosts may call is decided by web.hosts before anything else runs.
ALLOWED_HOSTS = ["*"]
ROOT_URLCONF = "wareboard.web.urls"
WSGI_APPLICATION = "wareboard.web.wsgi.application"
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
AUTH_USER_MODEL = "wareboard_people.Person"

INSTALLED_APPS = [
    "wareboard.records.people",
    "wareboard.records.pictures",
    "wareboard.records.stores",
    "wareboard.records.glazes",
    "wareboard.records.ware",
    "wareboard.records.kiln",
    "wareboard.records.shelf",
    "wareboard.web",
    "django.contrib.contenttypes",
    "django.contrib.auth",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django_htmx",
]

MIDDLEWARE = [
    "wareboard.web.headers.SafeHeaders",
    "wareboard.web.hosts.OnlyKnownHosts",
    "wareboard.web.limits.NotTooMuch",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "wareboard.web.members.MembersOnly",
]

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [WEB / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.messages.context_processors.messages",
                "wareboard.web.context.house",
            ],
            "builtins": ["wareboard.web.templatetags.house"],
        },
    }
]

DATABASES = {
    "default": {
        "ENGINE": "wareboard.web.sqlite",
        "NAME": DATA / "record.sqlite3",
        "CONN_MAX_AGE": None,
        "OPTIONS": {"transaction_mode": "IMMEDIATE", "timeout": 20},
    }
}

PASSWORD_HASHERS = ["django.contrib.auth.hashers.PBKDF2PasswordHasher"]
AUTHENTICATION_BACKENDS = ["wareboard.records.people.backend.MemberBackend"]
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 8},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]

SESSION_ENGINE = "django.contrib.sessions.backends.db"
SESSION_COOKIE_NAME = "wareboard_session"
CSRF_COOKIE_NAME = "wareboard_csrf"
SESSION_COOKIE_AGE = 60 * 60 * 24 * 90
SESSION_COOKIE_HTTPONLY = True
CSRF_COOKIE_HTTPONLY = True
SESSION_COOKIE_SECURE = OVER_TLS
CSRF_COOKIE_SECURE = OVER_TLS
CSRF_FAILURE_VIEW = "wareboard.web.faults.csrf_failure"
LOGIN_URL = "/sign-in/"

STATIC_URL = "static/"
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False

LANGUAGE_CODE = "en"
USE_I18N = True
USE_TZ = True
TIME_ZONE = "UTC"

DATA_UPLOAD_MAX_MEMORY_SIZE = 2_500_000
FILE_UPLOAD_PERMISSIONS = 0o600
FILE_UPLOAD_DIRECTORY_PERMISSIONS = 0o700

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"console": {"class": "logging.StreamHandler"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
    # A refused request is the asker's matter; the potter's terminal shows our own faults.
    "loggers": {"django.request": {"level": "ERROR"}, "django.security": {"level": "ERROR"}},
}
SILENCED_SYSTEM_CHECKS: list[str] = []
