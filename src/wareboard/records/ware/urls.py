"""Addresses of the ware room."""

from django.urls import path

from . import board_views, form_views, many_views, pan_views, pot_views, views

app_name = "ware"
urlpatterns = [
    path("", views.home, name="home"),
    path("new/", views.new, name="new"),
    path("new/several/", views.new_several, name="new-several"),
    path("together/", pan_views.weigh_together, name="weigh-together"),
    path("pots/<slug:pot_id>/decorate/", many_views.decorate, name="decorate"),
    path("pots/<slug:pot_id>/mark/", many_views.mark, name="mark"),
    path("pots/<slug:pot_id>/hope/", pot_views.hope, name="hope"),
    path("pots/<slug:pot_id>/photo/", pot_views.photo, name="photo"),
    path("pots/<slug:pot_id>/name/", pot_views.describe, name="describe"),
    path("pots/<slug:pot_id>/board/", pot_views.stand, name="stand"),
    path("weighings/<slug:weighing_id>/", pot_views.correct_weighing, name="correct-weighing"),
    path("boards/new/", board_views.new_board, name="new-board"),
    path("boards/<slug:board_id>/", board_views.board, name="board"),
    path("boards/<slug:board_id>/weigh/", board_views.weigh_board, name="weigh-board"),
    path("boards/<slug:board_id>/tare/", board_views.tare, name="tare"),
    path("boards/<slug:board_id>/decorate/", many_views.decorate, name="decorate-board"),
    path("boards/<slug:board_id>/mark/", many_views.mark, name="mark-board"),
    path("forms/", form_views.forms, name="forms"),
    path("forms/new/", form_views.new_form, name="new-form"),
    path("forms/<slug:form_id>/", form_views.form, name="form"),
    path("forms/<slug:form_id>/draw/", form_views.draw, name="draw-form"),
]
