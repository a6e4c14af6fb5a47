"""Addresses of the pages that need several rooms."""

from django.urls import path

from . import (
    arrange,
    bucket,
    cautions,
    dip,
    dip_board,
    glazes,
    grams,
    judging,
    lot,
    material,
    opening,
    pot,
    story,
    today,
    undo,
    weigh,
    what_changed,
)

app_name = "pages"
urlpatterns = [
    path("", today.today, name="today"),
    path("stores/materials/<slug:material_id>/", material.material_page, name="material"),
    path("stores/lots/<slug:lot_id>/", lot.lot_page, name="lot"),
    path("glazes/", glazes.home, name="glazes"),
    path("glazes/buckets/<slug:bucket_id>/", bucket.bucket_page, name="bucket"),
    path("glazes/buckets/<slug:bucket_id>/grams/", grams.grams, name="grams"),
    path("shelf/what-changed/", what_changed.what_changed, name="what-changed"),
    path("shelf/pots/<slug:pot_id>/", story.story_page, name="story"),
    path("ware/pots/<slug:pot_id>/", pot.pot_page, name="pot"),
    path("ware/pots/<slug:pot_id>/weigh/", weigh.weigh, name="weigh"),
    path("ware/pots/<slug:pot_id>/dip/", dip.dip_page, name="dip"),
    path("ware/coats/<slug:coat_id>/", dip.coat_page, name="coat"),
    path("ware/coats/<slug:coat_id>/others/", dip.dip_others, name="dip-others"),
    path("ware/coats/<slug:coat_id>/right/", dip.correct_coat, name="correct-coat"),
    path("ware/boards/<slug:board_id>/pots/", arrange.arrange, name="arrange"),
    path("ware/boards/<slug:board_id>/dip/", dip_board.dip_board, name="dip-board"),
    path("kiln/firings/<slug:firing_id>/opening/", opening.opening, name="opening"),
    path(
        "kiln/firings/<slug:firing_id>/opening/photo/<slug:level>/",
        opening.shelf_photo,
        name="shelf-photo",
    ),
    path(
        "kiln/firings/<slug:firing_id>/opening/<slug:pot_id>/",
        judging.opened_pot,
        name="opened-pot",
    ),
    path("kiln/firings/<slug:firing_id>/opening/<slug:pot_id>/thumb/", judging.thumb, name="thumb"),
    path(
        "kiln/firings/<slug:firing_id>/all-the-rest-good/",
        opening.all_the_rest_good,
        name="all-the-rest-good",
    ),
    path("kiln/firings/<slug:firing_id>/hopes/<slug:hope_id>/", judging.hope, name="hope-answered"),
    path("cautions/", cautions.cautions, name="cautions"),
    path("undo/<slug:kind>/<slug:entry_id>/", undo.undo_entry, name="undo"),
]
