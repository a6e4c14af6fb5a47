"""Addresses of the kiln room."""

from django.urls import path

from wareboard.records.people.later import pages_of

app_name = "kiln"
page = pages_of(__package__)
urlpatterns = [
    path("", page("views.home"), name="home"),
    path("new/", page("views.new_kiln"), name="new-kiln"),
    path("loads/new/", page("views.new_load"), name="new-load"),
    path("loads/<slug:load_id>/", page("views.load"), name="load"),
    path(
        "loads/<slug:load_id>/before-lighting/",
        page("views.before_lighting"),
        name="before-lighting",
    ),
    path("loads/<slug:load_id>/light/", page("views.light"), name="light"),
    path("placings/<slug:placing_id>/out/", page("views.take_out"), name="take-out"),
    path("placings/<slug:placing_id>/back/", page("views.put_back"), name="put-back"),
    path("firings/<slug:firing_id>/", page("log_views.firing"), name="firing"),
    path("firings/<slug:firing_id>/moment/", page("log_views.moment"), name="moment"),
    path(
        "firings/<slug:firing_id>/moment/<slug:which>/",
        page("right_views.moment_right"),
        name="happened",
    ),
    path("firings/<slug:firing_id>/slow-start/", page("log_views.slow"), name="slow-start"),
    path("firings/<slug:firing_id>/hold/", page("log_views.hold"), name="hold"),
    path(
        "firings/<slug:firing_id>/undo/<slug:kind>/<slug:entry_id>/",
        page("log_views.log_undo"),
        name="log-undo",
    ),
    path("firings/<slug:firing_id>/good/", page("firing_views.good"), name="good"),
    path(
        "firings/<slug:firing_id>/curve/<slug:light>.json", page("firing_views.curve"), name="curve"
    ),
    path(
        "firings/<slug:firing_id>/curve/<slug:light>.svg", page("firing_views.still"), name="still"
    ),
    path("firings/<slug:firing_id>/cones/", page("firing_views.cones"), name="cones"),
    path("firings/<slug:firing_id>/gas/", page("firing_views.gas"), name="gas"),
    path("lines/<slug:line_id>/", page("right_views.line"), name="line"),
    path("air/", page("views.air"), name="air"),
]
