"""Addresses of the ware room."""

from django.urls import path

from wareboard.records.people.later import pages_of

app_name = "ware"
page = pages_of(__package__)
urlpatterns = [
    path("", page("views.home"), name="home"),
    path("new/", page("views.new"), name="new"),
    path("new/several/", page("views.new_several"), name="new-several"),
    path("together/", page("pan_views.weigh_together"), name="weigh-together"),
    path("pots/<slug:pot_id>/decorate/", page("many_views.decorate"), name="decorate"),
    path("pots/<slug:pot_id>/mark/", page("many_views.mark"), name="mark"),
    path("pots/<slug:pot_id>/hope/", page("pot_views.hope"), name="hope"),
    path("pots/<slug:pot_id>/photo/", page("pot_views.photo"), name="photo"),
    path("pots/<slug:pot_id>/name/", page("pot_views.describe"), name="describe"),
    path("pots/<slug:pot_id>/board/", page("pot_views.stand"), name="stand"),
    path(
        "weighings/<slug:weighing_id>/", page("pot_views.correct_weighing"), name="correct-weighing"
    ),
    path("boards/new/", page("board_views.new_board"), name="new-board"),
    path("boards/<slug:board_id>/", page("board_views.board"), name="board"),
    path("boards/<slug:board_id>/weigh/", page("board_views.weigh_board"), name="weigh-board"),
    path("boards/<slug:board_id>/tare/", page("board_views.tare"), name="tare"),
    path("boards/<slug:board_id>/decorate/", page("many_views.decorate"), name="decorate-board"),
    path("boards/<slug:board_id>/mark/", page("many_views.mark"), name="mark-board"),
    path("forms/", page("form_views.forms"), name="forms"),
    path("forms/new/", page("form_views.new_form"), name="new-form"),
    path("forms/<slug:form_id>/", page("form_views.form"), name="form"),
    path("forms/<slug:form_id>/draw/", page("form_views.draw"), name="draw-form"),
]
