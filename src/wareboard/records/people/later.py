"""Pages that are loaded when they are first asked for.

A studio opens with Today. What the other pages are made of would double the wait for
it; so it is loaded while Today is read.
"""

from collections.abc import Callable
from importlib import import_module
from typing import Any

from django.http import HttpResponse

View = Callable[..., HttpResponse]

MODULES: set[str] = set()
"""Where the pages are that were named so far."""


def pages_of(room: str) -> Callable[[str], View]:
    """Give what names the pages of a room.

    Parameters
    ----------
    room : str
        Its package, as ``__package__`` gives it.

    Returns
    -------
    callable
        Takes the module and the name of a page, such as ``views.home``, and gives
        its view, which is not loaded yet.
    """

    def page(dotted: str) -> View:
        module, name = f"{room}.{dotted}".rsplit(".", 1)
        MODULES.add(module)

        def view(*asked: Any, **named: Any) -> HttpResponse:
            found: View = getattr(import_module(module), name)
            return found(*asked, **named)

        view.__module__, view.__name__, view.__qualname__ = module, name, name
        return view

    return page


def load_all() -> None:
    """Load what all pages are made of."""
    for module in sorted(MODULES):
        import_module(module)
