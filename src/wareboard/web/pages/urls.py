"""Addresses of the pages that need several rooms."""

from django.urls import path

from . import bucket, story, today, undo, what_changed

app_name = "pages"
urlpatterns = [
    path("", today.today, name="today"),
    path("glazes/buckets/<slug:bucket_id>/", bucket.bucket_page, name="bucket"),
    path("shelf/what-changed/", what_changed.what_changed, name="what-changed"),
    path("shelf/pots/<slug:pot_id>/", story.story_page, name="story"),
    path("undo/<slug:kind>/<slug:entry_id>/", undo.undo_entry, name="undo"),
]
