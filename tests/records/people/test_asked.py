"""What a page asks: kept where it can be, else said beside its field."""

import pytest
from django.test import RequestFactory

from wareboard.core.errors import WeighingError
from wareboard.records.glazes.forms import BucketForm
from wareboard.records.people.asked import answered, asking
from wareboard.records.people.entry import EntryRefused

TOO_HEAVY = WeighingError("Too heavy for a bucket.", field="name", seen="Rill", accepted="less")


def keep_name(**facts):
    return facts["name"]


@pytest.mark.parametrize(
    ("sent", "kept"), [(None, None), ({"name": "Rill"}, "Rill"), ({"name": ""}, None)]
)
def test_what_was_sent_and_can_be_is_kept(sent, kept):
    assert answered(BucketForm(sent), keep_name, beside="name") == kept


@pytest.mark.parametrize("refused", [EntryRefused("Too heavy for a bucket."), TOO_HEAVY])
@pytest.mark.parametrize(("beside", "field"), [("name", "name"), (None, "__all__")])
def test_what_was_refused_stands_beside_its_field(refused, beside, field):
    def refuse(**facts):
        raise refused

    form = BucketForm({"name": "Rill"})

    assert answered(form, refuse, beside=beside) is None
    assert form.errors == {field: ["Too heavy for a bucket."]}


@pytest.mark.parametrize(("sent", "status"), [(None, 200), ({"name": ""}, 422)])
def test_a_page_says_in_its_status_whether_something_was_refused(studio, sent, status):
    request = RequestFactory().get("/")
    form = BucketForm(sent)

    reply = asking(request, "parts/_field.html", form, field=form["name"])

    assert reply.status_code == status
