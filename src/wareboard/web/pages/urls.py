"""Addresses of the pages that need several rooms."""

from django.urls import path

from . import bucket, glazes, grams, lot, material, story, today, undo, what_changed

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
    path("undo/<slug:kind>/<slug:entry_id>/", undo.undo_entry, name="undo"),
]
