"""Filters that every template has at hand."""

import re

from django import template
from django.template.defaultfilters import stringfilter

register = template.Library()
NO_BREAK_SPACE = "\N{NO-BREAK SPACE}"
NUMBER_AND_UNIT = re.compile(r"(?<=\d) (?=(?:g|kg|lb|ml|l|US gal|mm|cm|%|°C|°F|h|min)\b|[%°])")


@register.filter(is_safe=True)
@stringfilter
def unbroken(text: str) -> str:
    """Keep each number on one line with its unit: for the large sentences.

    Parameters
    ----------
    text : str
        A sentence, as it is shown.
    """
    return NUMBER_AND_UNIT.sub(NO_BREAK_SPACE, text)
