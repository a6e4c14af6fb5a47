"""The curve of a firing at its own address: as a specification, and as a still made once."""

import json
import subprocess

import pytest
from django.conf import settings
from django.urls import reverse

from wareboard.charts import stills
from wareboard.charts.theme import TOKENS
from wareboard.records.people.models import Studio

from .conftest import steady


def spec_of(client, firing, light="light"):
    return json.loads(client.get(reverse("kiln:curve", args=[firing.pk, light])).content)


def rows_of(spec):
    return [row for rows in spec["datasets"].values() for row in rows]


def pictures():
    return set((settings.DATA / "cache").glob("*.svg"))


def lines_of(spec):
    return [layer for layer in spec["layer"] if layer["mark"]["type"] == "line"]


def test_the_page_gives_addresses_and_draws_nothing_itself(signed_in, good):
    before = pictures()

    page = signed_in.get(reverse("kiln:firing", args=[good.pk])).content.decode()

    for name, light in (("curve", "light"), ("curve", "dark"), ("still", "light")):
        assert reverse(f"kiln:{name}", args=[good.pk, light]) in page
    assert pictures() == before


def test_a_running_firing_lies_over_the_climb_of_the_good_one(signed_in, good, fire):
    spec = spec_of(signed_in, fire("now", steady(to_h=9), number=2))

    rows = rows_of(spec)
    assert [line["mark"]["color"] for line in lines_of(spec)] == [
        TOKENS["light"].quiet,
        TOKENS["light"].accent,
    ]
    assert max(row["h"] for row in rows if "say" not in row and "high" not in row) == 12
    assert {row["say"] for row in rows if "say" in row} == {"19 September", "920 °C"}


def test_what_is_to_come_is_a_wedge_that_ends_at_the_end_cone(signed_in, fire):
    spec = spec_of(signed_in, fire("now", steady(to_h=11.5)))

    (band,) = [layer for layer in spec["layer"] if layer["mark"]["type"] == "area"]
    wedge = spec["datasets"][band["data"]["name"]]
    assert (wedge[0]["h"], wedge[0]["c"], wedge[0]["high"]) == (11.5, 1170, 1170)
    assert wedge[1]["c"] < wedge[1]["high"] == wedge[2]["c"] == wedge[2]["high"]
    # The charts print cone 9 at 1260 °C for 60 and 1280 °C for 150 °C an hour.
    assert 1260 <= wedge[2]["c"] <= 1280


def test_no_wedge_is_drawn_while_its_hour_cannot_be_told(signed_in, fire):
    spec = spec_of(signed_in, fire("now", steady(to_h=3)))

    assert not [layer for layer in spec["layer"] if layer["mark"]["type"] == "area"]


def test_a_firing_that_is_over_lies_over_all_of_the_good_one(signed_in, good, fire):
    lines = [*steady(to_h=12), (20.0, 400.0, "")]
    firing = fire("over", lines, number=2, moments=[("shut off", 12.0), ("opened", 27.0)])

    spec = spec_of(signed_in, firing)

    assert max(row["h"] for row in rows_of(spec)) == 26
    assert not [layer for layer in spec["layer"] if layer["mark"]["type"] == "area"]


def test_where_reduction_began_is_marked(signed_in, good):
    said = {row["say"] for row in rows_of(spec_of(signed_in, good)) if "say" in row}

    assert "reduction" in said


def test_reduction_told_outside_the_temperatures_is_not_marked(signed_in, fire):
    firing = fire("now", [(0.0, 20.0, ""), (1.0, 120.0, ""), (2.0, None, "full")])

    assert "reduction" not in {row.get("say") for row in rows_of(spec_of(signed_in, firing))}


def test_one_line_is_already_a_curve(signed_in, fire):
    spec = spec_of(signed_in, fire("now", [(0.5, 31.0, "")]))

    assert {row["say"] for row in rows_of(spec) if "say" in row} == {"31 °C"}


def test_a_long_log_is_drawn_with_as_many_points_as_a_picture_shows(signed_in, fire):
    lines = [(hour / 40, 20 + hour, "") for hour in range(700)]
    spec = spec_of(signed_in, fire("now", lines))

    assert len(rows_of(spec)) < 400
    assert max(row["c"] for row in rows_of(spec) if "high" not in row) >= 719


def test_at_night_it_wears_the_colours_of_the_night(signed_in, good):
    assert spec_of(signed_in, good, "dark")["config"]["background"] == TOKENS["dark"].ground


def test_a_studio_in_fahrenheit_sees_fahrenheit(signed_in, good, studio):
    Studio.objects.filter(pk=studio.pk).update(temperature="fahrenheit")

    spec = spec_of(signed_in, good)

    assert spec["layer"][0]["encoding"]["y"]["title"] == "temperature [°F]"
    assert max(row["c"] for row in rows_of(spec)) == pytest.approx(1220 * 1.8 + 32)


def test_the_still_is_made_once_and_kept_under_its_content(signed_in, good, monkeypatch):
    made = []
    draw = subprocess.run

    def counted(*args, **more):
        made.append(args)
        return draw(*args, **more)

    monkeypatch.setattr(subprocess, "run", counted)
    url = reverse("kiln:still", args=[good.pk, "light"])

    before = pictures()
    first, second = signed_in.get(url), signed_in.get(url)

    drawn = [b"".join(reply.streaming_content) for reply in (first, second)]
    assert len(made) == 1
    assert len(pictures() - before) == 1
    assert drawn[0] == drawn[1]
    assert drawn[0].startswith(b"<svg")
    assert first["Content-Type"] == "image/svg+xml"
    assert "sandbox" in first["Content-Security-Policy"]


def test_a_still_that_takes_too_long_says_so(signed_in, fire, monkeypatch):
    firing = fire("other", steady(to_h=6, rate_c_h=90))
    monkeypatch.setattr(stills, "SECONDS", 0.001)

    reply = signed_in.get(reverse("kiln:still", args=[firing.pk, "light"]))

    assert reply.status_code == 503
    assert "took more than a minute" in reply.content.decode()


@pytest.mark.parametrize("name", ["curve", "still"])
def test_what_is_no_light_or_no_line_or_no_firing_is_not_here(signed_in, good, fire, name):
    silent = fire("silent", [])

    for firing, light in ((good.pk, "dusk"), (silent.pk, "light"), ("no-such", "light")):
        assert signed_in.get(reverse(f"kiln:{name}", args=[firing, light])).status_code == 404


@pytest.mark.parametrize("name", ["curve", "still"])
def test_somebody_of_another_studio_sees_no_curve(stranger, good, name):
    url = reverse(f"kiln:{name}", args=[good.pk, "light"])

    assert stranger.get(url).status_code == 404
    assert stranger.post(url).status_code == 405


def test_the_address_changes_with_what_it_shows(signed_in, member, good, fire):
    firing = fire("now", steady(to_h=2), number=2)
    url = reverse("kiln:firing", args=[firing.pk])
    before = signed_in.get(url).context["chart"]["still_url"]

    signed_in.post(url, {"temp_c": "230"})

    assert signed_in.get(url).context["chart"]["still_url"] != before
