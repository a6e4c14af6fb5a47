"""Pots, buckets and coats that tests of the ware room stand on, each with round figures.

The cylinder is 10 cm wide and 10 cm high, so its outside is π dm² and a bit of
school arithmetic tells what any page should say of it.
"""

import html
import math
import re
from datetime import timedelta
from io import BytesIO

from django.core.files.uploadedfile import SimpleUploadedFile
from django.utils import timezone
from PIL import Image

from wareboard.records.glazes.models import Bucket, Glaze, Reading
from wareboard.records.people.entry import keep
from wareboard.records.shelf.actions import judge
from wareboard.records.ware.models import (
    Board,
    BoardWeighing,
    Coat,
    Form,
    FormPoint,
    Pot,
    Standing,
    Weighing,
)

OUTSIDE_DM2 = 2 * math.pi * 5 * 10 / 100
SG = 1.5
SOLID = 2.6
PACKING = 0.5
# Brongniart, job sheet C3: by weight, d (SG - 1) / (SG (d - 1)) of the slop is dry.
DRY_FRACTION = SOLID * (SG - 1) / (SG * (SOLID - 1))


def cylinder(member, name="cylinder"):
    """A form whose outside is π dm², 0.5 cm of wall."""
    points = (FormPoint(r_cm=5, z_cm=0), FormPoint(r_cm=5, z_cm=10))
    return keep(Form, member, name=name, wall_mm=5, owner="form", parts=points)


def weighed(member, pot, weight_g, state, hours_ago):
    """A weighing of some hours ago."""
    at = timezone.now() - timedelta(hours=hours_ago)
    return keep(Weighing, member, pot=pot, weight_g=weight_g, state=state, at=at)


def board_weighed(member, board, weight_g, hours_ago):
    """A weighing of a plank with all that stands on it, of some hours ago."""
    when = timezone.now() - timedelta(hours=hours_ago)
    return keep(BoardWeighing, member, board=board, weight_g=weight_g, at=when)


def pot_of(member, form, **facts):
    """A pot made a week ago."""
    return keep(Pot, member, form=form, at=timezone.now() - timedelta(days=7), **facts)


def bucket_of(member, name="Limpet", *, weighed=True, **facts):
    """A bucket at SG 1.5, its bottle of 400 ml weighed a month ago."""
    glaze = keep(Glaze, member, name=name, **facts)
    bucket = keep(Bucket, member, glaze=glaze, name=f"{name} bucket")
    if weighed:
        keep(
            Reading,
            member,
            bucket=bucket,
            full_g=200 + 400 * SG,
            empty_g=200,
            volume_ml=400,
            at=timezone.now() - timedelta(days=30),
        )
    return bucket


def slop_g_for(mm):
    """How much slop the outside of the cylinder takes up for such a dry coat."""
    return mm * OUTSIDE_DM2 * 10 * PACKING * SOLID / DRY_FRACTION


def coat_of(member, pot, bucket, mm, *, hours_ago=200.0, side="outside", before_g=1000.0, **facts):
    """A coat on the outside that comes out so thick; not weighed where before_g is None."""
    at = timezone.now() - timedelta(hours=hours_ago)
    after_g = before_g + slop_g_for(mm) if before_g is not None else None
    facts = {"before_g": before_g, "after_g": after_g, "at": at, **facts}
    return keep(Coat, member, pot=pot, bucket=bucket, side=side, **facts)


def good_pots(member, form, bucket, *thicknesses_mm):
    """Pots that came out good with a coat so thick."""
    for mm in thicknesses_mm:
        pot = pot_of(member, form)
        coat_of(member, pot, bucket, mm)
        judge(member, pot, surface="outside", thumb="up")


def plank(member, pots=(), **facts):
    """A board with pots on it since yesterday."""
    board = keep(Board, member, name=facts.pop("name", "long plank"), **facts)
    for minutes, pot in enumerate(pots):
        at = timezone.now() - timedelta(days=1) + timedelta(minutes=minutes)
        keep(Standing, member, pot=pot, board=board, at=at)
    return board


def photo(size=(40, 30)):
    """A photo as a phone sends it, small."""
    file = BytesIO()
    Image.new("RGB", size, "#864").save(file, "JPEG")
    return SimpleUploadedFile("pot.jpg", file.getvalue(), content_type="image/jpeg")


def text_of(response):
    """What a page says, in one line, tags left out."""
    body = response.content.decode()
    start = body.find("<main")
    body = body[start:] if start >= 0 else body
    return re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", " ", body)))


def mine(model):
    """What the test's own studio holds and did not take back; the demo studio is there too."""
    return model._base_manager.filter(studio="test-studio", undone_at__isnull=True)


def chosen(bucket, side="outside", extent="whole", **more):
    """What is sent of a dip: bucket, side, extent, and what else is said."""
    return {"bucket": bucket.pk, "side": side, "extent": extent, **more}


def answered(client, url, bucket, mm, before_g=1000.0):
    """The page after a dip of the outside that comes out so thick."""
    after_g = before_g + slop_g_for(mm)
    sent = chosen(bucket, before_g=f"{before_g:.2f}", after_g=f"{after_g:.2f}")
    reply = client.post(url, sent)
    return client.get(reply["Location"])
