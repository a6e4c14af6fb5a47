"""Every address of the program, with an example of each."""

import re

from django.urls import URLPattern, URLResolver, get_resolver


def patterns(resolver=None, prefix: str = "") -> list[tuple[str, URLPattern]]:
    """Give every address of the program."""
    found = []
    for entry in (resolver or get_resolver()).url_patterns:
        route = prefix + str(entry.pattern)
        if isinstance(entry, URLResolver):
            found += patterns(entry, route)
        else:
            found.append((route, entry))
    return found


def example(route: str) -> str:
    """Write an address with something in each of its gaps."""
    path = route.replace("<slug:kind>", "pot").replace("^", "").replace("$", "")
    path = re.sub(r"\(\?P<\w+>((?:\w+\|)+\w+)\)", lambda m: m[1].split("|")[0], path)
    path = re.sub(r"\(\?P(<\w+>)[^)]*\)", r"\1", path)
    while "<" in path:
        start, end = path.index("<"), path.index(">")
        path = path[:start] + "pot-01" + path[end + 1 :]
    return "/" + path
