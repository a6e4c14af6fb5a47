"""A potter with a password, and browsers that try one: shared by the tests of coming in."""

from django.test import Client

PASSWORD = "  drei Töpfe, trocken 🏺 "  # noqa: S105 - a made-up one


def another_browser() -> Client:
    return Client(headers={"host": "localhost"})


def try_password(client, person, password, *, address="192.168.1.9", **more):
    return client.post(
        "/sign-in/",
        {"name": person.username, "password": password, **more},
        REMOTE_ADDR=address,
    )


def is_in(client) -> bool:
    return client.get("/status/").status_code == 200
