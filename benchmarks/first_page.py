"""How soon the first page stands after ``wareboard open``, against a bare page served alike.

Run it with the Python of the project::

    python benchmarks/first_page.py

Both are started as programs of their own and asked until they answer: a Django
project as ``startproject`` makes it, with one view that says "ok", on the same
server with as many workers; and ``wareboard open`` on the demo studio, until its
front door has come back to a browser that followed the one-time key. In turn,
bytecode present, medians and their ratio. It ends with exit code 1 if the ratio
is over 2.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from server.harness import Studio, demo_folder, free_port

ROUNDS = 11
MOST = 2.0
WENT_WELL = 200
# The settings that ``django-admin startproject`` writes, without its comments; one view.
BARE = """
from django.conf import settings
from django.core.wsgi import get_wsgi_application
from django.http import HttpResponse
from django.urls import path

settings.configure(
    SECRET_KEY="x", ALLOWED_HOSTS=["*"], ROOT_URLCONF=__name__,
    INSTALLED_APPS=[
        "django.contrib.admin", "django.contrib.auth", "django.contrib.contenttypes",
        "django.contrib.sessions", "django.contrib.messages", "django.contrib.staticfiles",
    ],
    MIDDLEWARE=[
        "django.middleware.security.SecurityMiddleware",
        "django.contrib.sessions.middleware.SessionMiddleware",
        "django.middleware.common.CommonMiddleware",
        "django.middleware.csrf.CsrfViewMiddleware",
        "django.contrib.auth.middleware.AuthenticationMiddleware",
        "django.contrib.messages.middleware.MessageMiddleware",
        "django.middleware.clickjacking.XFrameOptionsMiddleware",
    ],
    TEMPLATES=[{
        "BACKEND": "django.template.backends.django.DjangoTemplates", "APP_DIRS": True,
        "OPTIONS": {"context_processors": [
            "django.template.context_processors.request",
            "django.contrib.auth.context_processors.auth",
            "django.contrib.messages.context_processors.messages",
        ]},
    }],
    DATABASES={"default": {"ENGINE": "django.db.backends.sqlite3", "NAME": "db.sqlite3"}},
    STATIC_URL="static/", USE_TZ=True,
)
urlpatterns = [path("health/", lambda request: HttpResponse("ok"))]
application = get_wsgi_application()
"""
GRANIAN = (sys.executable, "-m", "granian", "--workers-kill-timeout", "2")
SERVE = "--interface wsgi --http 1 --workers 2 --blocking-threads 2 --no-ws --no-log"


def bare_seconds(place: Path) -> float:
    """Start the bare project and ask until its page comes."""
    port = free_port()
    began = time.perf_counter()
    process = subprocess.Popen(
        [*GRANIAN, *SERVE.split(), "--port", str(port), "bare:application"],
        cwd=place,
        env=surroundings(),
    )
    Studio(place, port=port).wait_until_up()
    took = time.perf_counter() - began
    process.terminate()
    process.wait(timeout=20)
    return took


def studio_seconds(data: Path) -> float:
    """Start the studio and ask until its front door comes."""
    studio = Studio(data)
    began = time.perf_counter()
    studio.start()
    reply = studio.ask("GET", "/")
    took = time.perf_counter() - began
    if reply.status != WENT_WELL:
        raise SystemExit(f"The front door answered {reply.status}.")
    studio.stop()
    return took


def surroundings() -> dict[str, str]:
    """Give the environment both are started in: bytecode is used and kept."""
    return {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}


def main() -> int:
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    with tempfile.TemporaryDirectory() as made:
        place = Path(made)
        (place / "bare.py").write_text(BARE, encoding="utf-8")
        data = demo_folder(place / "demo")
        bare_seconds(place), studio_seconds(data)  # the first run of each writes the bytecode
        pairs = [(bare_seconds(place), studio_seconds(data)) for _ in range(ROUNDS)]
    bare = statistics.median(pair[0] for pair in pairs)
    studio = statistics.median(pair[1] for pair in pairs)
    ratio = studio / bare
    print(f"{ROUNDS} rounds, bytecode present, median of each")
    print(f"bare page                    {1000 * bare:6.0f} ms")
    print(f"wareboard open, front door   {1000 * studio:6.0f} ms")
    print(f"ratio                        {ratio:6.2f}  (at most {MOST:.2f})")
    return 0 if ratio <= MOST else 1


if __name__ == "__main__":
    sys.exit(main())
