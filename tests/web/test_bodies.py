"""A sender who is slow or falls silent holds nobody up."""

import io
import socket
import threading
import time

import pytest

from wareboard.web.bodies import BodiesFirst, FellSilent, read_whole
from wareboard.web.limits import LARGEST_BODY_BYTES, announced_bytes


class Line:
    """A sender whose words come when the test says so."""

    def __init__(self) -> None:
        self.here, self.there = socket.socketpair()

    def read(self, size: int) -> bytes:
        return self.here.recv(size)

    def send(self, words: bytes) -> None:
        self.there.sendall(words)

    def hang_up(self) -> None:
        self.there.close()


@pytest.fixture
def line():
    found = Line()
    yield found
    found.there.close()
    found.here.close()


def ask(program, source, length, host="localhost"):
    said = []
    environ = {"CONTENT_LENGTH": length, "HTTP_HOST": host, "wsgi.input": source}
    answer = b"".join(program(environ, lambda status, _headers: said.append(status)))
    return said, answer


def repeat(environ, start_response):
    start_response("200 OK", [])
    return [environ["wsgi.input"].read()]


@pytest.mark.parametrize("size", [1, 1 << 16, (1 << 20) + 1, 3_000_001])
def test_body_arrives_as_it_was_sent(size):
    sent = bytes(range(256)) * (size // 256 + 1)

    said, answer = ask(BodiesFirst(repeat, at_once=1), io.BytesIO(sent[:size]), str(size))

    assert (said, answer) == (["200 OK"], sent[:size])


def test_what_comes_after_the_announced_length_is_not_read():
    _, answer = ask(BodiesFirst(repeat, at_once=1), io.BytesIO(b"potter"), "3")

    assert answer == b"pot"


def test_sender_who_falls_silent_is_let_go(line):
    line.send(b"half a ph")

    said, answer = ask(BodiesFirst(repeat, at_once=1, silent_for_s=0.1), line, "900")

    assert said == ["408 Request Timeout"]
    assert b"Send it again" in answer


def test_sender_who_hangs_up_is_let_go_at_once(line):
    line.send(b"half a ph")
    line.hang_up()
    began = time.monotonic()

    with pytest.raises(FellSilent):
        read_whole(line, 900, silent_for_s=30)

    assert time.monotonic() - began < 5


def test_slow_sender_who_goes_on_is_waited_for(line):
    def speak() -> None:
        for word in (b"slow", b"ly ", b"sent"):
            time.sleep(0.05)
            line.send(word)

    threading.Thread(target=speak).start()

    said, answer = ask(BodiesFirst(repeat, at_once=1, silent_for_s=2.0), line, "11")

    assert (said, answer) == (["200 OK"], b"slowly sent")


def test_slow_sender_takes_nobodys_turn(line):
    program = BodiesFirst(repeat, at_once=1, silent_for_s=2.0)
    slow = threading.Thread(target=ask, args=(program, line, "9"))
    slow.start()

    said, _ = ask(program, io.BytesIO(b"quick"), "5")

    assert said == ["200 OK"]
    assert slow.is_alive()
    line.send(b"slow word")
    slow.join()


@pytest.mark.parametrize(
    ("length", "host"),
    [("5", "evil.example"), (str(LARGEST_BODY_BYTES + 1), "localhost"), ("x", "localhost")],
)
def test_what_is_refused_anyway_is_not_read_first(length, host):
    source = io.BytesIO(b"never")

    ask(BodiesFirst(lambda _e, _s: [], at_once=1), source, length, host)

    assert source.tell() == 0


@pytest.mark.parametrize(
    ("text", "size"),
    [(None, 0), ("", 0), ("0", 0), ("17", 17), ("-1", None), ("1e3", None), ("\u0663", None)],
)
def test_announced_length_is_read_strictly(text, size):
    assert announced_bytes(text) == size
