"""Addresses of the pages that need several rooms."""

from django.urls import path

from wareboard.records.people.later import pages_of

from . import today

app_name = "pages"
page = pages_of(__package__)
urlpatterns = [
    path("", today.today, name="today"),
    path("stores/materials/<slug:material_id>/", page("material.material_page"), name="material"),
    path("stores/lots/<slug:lot_id>/", page("lot.lot_page"), name="lot"),
    path("glazes/", page("glazes.home"), name="glazes"),
    path("glazes/buckets/<slug:bucket_id>/", page("bucket.bucket_page"), name="bucket"),
    path("glazes/buckets/<slug:bucket_id>/grams/", page("grams.grams"), name="grams"),
    path("shelf/what-changed/", page("what_changed.what_changed"), name="what-changed"),
    path("shelf/pots/<slug:pot_id>/", page("story.story_page"), name="story"),
    path("ware/pots/<slug:pot_id>/", page("pot.pot_page"), name="pot"),
    path("ware/pots/<slug:pot_id>/weigh/", page("weigh.weigh"), name="weigh"),
    path("ware/pots/<slug:pot_id>/dip/", page("dip.dip_page"), name="dip"),
    path("ware/coats/<slug:coat_id>/", page("dip.coat_page"), name="coat"),
    path("ware/coats/<slug:coat_id>/others/", page("dip.dip_others"), name="dip-others"),
    path("ware/coats/<slug:coat_id>/right/", page("dip.correct_coat"), name="correct-coat"),
    path("ware/boards/<slug:board_id>/pots/", page("arrange.arrange"), name="arrange"),
    path("ware/boards/<slug:board_id>/dip/", page("dip_board.dip_board"), name="dip-board"),
    path("kiln/firings/<slug:firing_id>/opening/", page("opening.opening"), name="opening"),
    path(
        "kiln/firings/<slug:firing_id>/opening/photo/<slug:level>/",
        page("opening.shelf_photo"),
        name="shelf-photo",
    ),
    path(
        "kiln/firings/<slug:firing_id>/opening/<slug:pot_id>/",
        page("judging.opened_pot"),
        name="opened-pot",
    ),
    path(
        "kiln/firings/<slug:firing_id>/opening/<slug:pot_id>/thumb/",
        page("judging.thumb"),
        name="thumb",
    ),
    path(
        "kiln/firings/<slug:firing_id>/all-the-rest-good/",
        page("opening.all_the_rest_good"),
        name="all-the-rest-good",
    ),
    path(
        "kiln/firings/<slug:firing_id>/hopes/<slug:hope_id>/",
        page("judging.hope"),
        name="hope-answered",
    ),
    path("cautions/", page("cautions.cautions"), name="cautions"),
    path("undo/<slug:kind>/<slug:entry_id>/", page("undo.undo_entry"), name="undo"),
]
