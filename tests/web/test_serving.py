"""What a worker makes ready while the reader of the first page is still on the way."""

from wareboard.web.serving import FIRST_PAGE, warm_up


def test_what_is_made_ready_is_what_the_first_page_is_made_of(demo_client):
    warm_up()

    used = {template.name for template in demo_client.get("/").templates}

    assert set(FIRST_PAGE) <= used
