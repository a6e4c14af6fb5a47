"""At the opening, a photo of each shelf before anything is touched."""

import io

from django.urls import reverse
from ware_samples import photo

from wareboard.records.kiln.models import ShelfPhoto


def test_a_photo_of_a_shelf_is_kept_as_it_came_and_shown(signed_in, url, firing):
    photo_url = reverse("pages:shelf-photo", args=[firing.pk, "top"])

    reply = signed_in.post(photo_url, {"photo": photo(), "entry_id": "a-photo"})

    kept = ShelfPhoto.objects.get(firing=firing)
    page = signed_in.get(url).content.decode()
    assert reply.url == f"{url}#shelf-top"
    assert (kept.level, kept.original.came_as) == ("top", "pot.jpg")
    assert reverse("pictures:view", args=[kept.original_id, "small"]) in page
    assert page.count("First a photo, before anything is touched") == 1


def test_a_photo_sent_twice_is_kept_once(signed_in, firing):
    photo_url = reverse("pages:shelf-photo", args=[firing.pk, "top"])

    for _ in range(2):
        signed_in.post(photo_url, {"photo": photo(), "entry_id": "a-photo"})

    assert ShelfPhoto.objects.filter(firing=firing).count() == 1


def test_undo_takes_a_photo_back(signed_in, url, firing):
    signed_in.post(reverse("pages:shelf-photo", args=[firing.pk, "top"]), {"photo": photo()})
    undo = signed_in.get(url).context["undo"]

    signed_in.post(undo["url"], {"next": url})

    assert undo["say"] == "Kept: photo, top."
    assert not ShelfPhoto.objects.standing().filter(firing=firing).exists()


def test_what_is_no_photo_is_explained_and_nothing_stored(signed_in, firing):
    photo_url = reverse("pages:shelf-photo", args=[firing.pk, "top"])
    text = io.BytesIO(b"only words")
    text.name = "words.png"

    none, words = signed_in.post(photo_url), signed_in.post(photo_url, {"photo": text})

    assert (none.status_code, words.status_code) == (422, 422)
    assert "No photo came with it: take one, then keep it." in none.content.decode()
    assert "This file is no photo that can be kept." in words.content.decode()
    assert not ShelfPhoto.objects.filter(firing=firing).exists()


def test_a_shelf_that_no_kiln_has_is_not_here(signed_in, firing):
    reply = signed_in.post(
        reverse("pages:shelf-photo", args=[firing.pk, "attic"]), {"photo": photo()}
    )

    assert reply.status_code == 404
