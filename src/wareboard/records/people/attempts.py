"""Guessing a password gets slower, for the guesser more than for the owner.

A try is written down before the password is looked at and struck out when it
was right, so that tries made at once do not slip past each other. The wait
follows the account and the address together; whoever guesses at many accounts,
or at one from many addresses, waits too, but never so long that the owner
could be kept out: from this machine the studio opens by a one-time key.
"""

import math
from datetime import datetime, timedelta

from django.db import models, transaction
from django.utils import timezone

from .models import Attempt

MEMORY = timedelta(hours=1)
LONGEST_WAIT_S = 60
# How many tries are free before waiting begins, and what the wait is built on.
FREE_FOR_PAIR = 5
FREE_FOR_ADDRESS = 20
FREE_FOR_ACCOUNT = 50
WAIT_FOR_ACCOUNT_S = 2
LONGEST_NAME = 60


def begin(name: str, address: str) -> int:
    """Write a try down, or say how long to wait before the next.

    Parameters
    ----------
    name : str
        The account that was named.
    address : str
        Where the try comes from.

    Returns
    -------
    int
        Seconds to wait; 0 where the password may be looked at now.
    """
    name, address = account_name(name), address[:LONGEST_NAME]
    now = timezone.now()
    with transaction.atomic():
        Attempt.objects.filter(at__lt=now - MEMORY).delete()
        wait_s = seconds_to_wait(name, address, now)
        if wait_s == 0:
            Attempt.objects.create(name=name, address=address, at=now)
    return wait_s


def succeeded(name: str, address: str) -> None:
    """Strike out the tries of somebody who knew the password after all."""
    Attempt.objects.filter(name=account_name(name), address=address[:LONGEST_NAME]).delete()


def account_name(name: str) -> str:
    """Give an account's name as tries are counted by it."""
    return name.strip().casefold()[:LONGEST_NAME] or "-"


def seconds_to_wait(name: str, address: str, now: datetime) -> int:
    """Give the longest of the three waits."""
    tries = Attempt.objects.all()
    pair = tries.filter(name=name, address=address)
    return max(
        still_to_wait(pair, FREE_FOR_PAIR, now),
        still_to_wait(tries.filter(address=address), FREE_FOR_ADDRESS, now),
        still_to_wait(tries.filter(name=name), FREE_FOR_ACCOUNT, now, longest_s=WAIT_FOR_ACCOUNT_S),
    )


def still_to_wait(
    tries: models.QuerySet[Attempt], free: int, now: datetime, *, longest_s: int = LONGEST_WAIT_S
) -> int:
    """Give the seconds left of a wait that doubles with every try beyond the free ones."""
    count = tries.count()
    if count < free:
        return 0
    last = tries.latest("at").at
    whole_s = min(longest_s, 2.0 ** min(count - free, 16))
    return max(0, math.ceil(whole_s - (now - last).total_seconds()))
