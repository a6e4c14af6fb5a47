"""Addresses of the kiln room."""

from django.urls import path

from . import firing_views, log_views, right_views, views

app_name = "kiln"
urlpatterns = [
    path("", views.home, name="home"),
    path("new/", views.new_kiln, name="new-kiln"),
    path("loads/new/", views.new_load, name="new-load"),
    path("loads/<slug:load_id>/", views.load, name="load"),
    path("loads/<slug:load_id>/before-lighting/", views.before_lighting, name="before-lighting"),
    path("loads/<slug:load_id>/light/", views.light, name="light"),
    path("placings/<slug:placing_id>/out/", views.take_out, name="take-out"),
    path("placings/<slug:placing_id>/back/", views.put_back, name="put-back"),
    path("firings/<slug:firing_id>/", log_views.firing, name="firing"),
    path("firings/<slug:firing_id>/moment/", log_views.moment, name="moment"),
    path(
        "firings/<slug:firing_id>/moment/<slug:which>/", right_views.moment_right, name="happened"
    ),
    path("firings/<slug:firing_id>/slow-start/", log_views.slow, name="slow-start"),
    path("firings/<slug:firing_id>/hold/", log_views.hold, name="hold"),
    path(
        "firings/<slug:firing_id>/undo/<slug:kind>/<slug:entry_id>/",
        log_views.log_undo,
        name="log-undo",
    ),
    path("firings/<slug:firing_id>/good/", firing_views.good, name="good"),
    path("firings/<slug:firing_id>/curve/<slug:light>.json", firing_views.curve, name="curve"),
    path("firings/<slug:firing_id>/curve/<slug:light>.svg", firing_views.still, name="still"),
    path("firings/<slug:firing_id>/cones/", firing_views.cones, name="cones"),
    path("firings/<slug:firing_id>/gas/", firing_views.gas, name="gas"),
    path("lines/<slug:line_id>/", right_views.line, name="line"),
    path("air/", views.air, name="air"),
]
