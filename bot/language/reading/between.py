"""Does something unheard of stand between the counts of two sets, so that the second may be no set at all?"""

from __future__ import annotations

import itertools
import re

from bot.language.reading.drafts import Draft
from bot.language.reading.numbers import NUMBER_WORDS, PLURAL_WORDS
from bot.language.reading.words import LEXICON

_SAID_OF_SETS = frozenset(",urzsimepxfwoh&ELRHCBcbQqIPFgGtTWKZMSVA0")


# What people write between two sets of one exercise. Any other word there may mean that the second number is no set.
_SAID_BETWEEN = """
    kgx lbx lbsx repsx kg kgs kilo kilos lb lbs pound pounds x for reps rep and then with w set sets each es e s side sides
    on of at the in l r left right n rest rested resting break min mins minutes sec secs seconds rpe rir bar warm up ups wu
    first second third fourth fifth last one two three four next now top work working got did only just but followed by i a
    per arm leg done again also after that it was were drop dropped down to back m metres meters steps failure fail hand
    hands dbs k both stack
"""
_BETWEEN_SETS = frozenset(_SAID_BETWEEN.split())
_WORDS = re.compile(r"[^\W\d_]+")


def _of_sets(word: str) -> bool:
    """Does the word, or what stands before an x glued to it ("dbsx10"), belong to set talk?"""
    return any(LEXICON.get(each, "?") in _SAID_OF_SETS for each in (word, word.removesuffix("x")))


_AN_ADJECTIVE = re.compile(r"\ban?\s+[a-z]+\s*$")  # "then a sad 8"


def strange_words_between(drafts: list[Draft], folded: str) -> bool:
    """ "30 x 8, falhei na 9": does something unheard of stand between the counts of two sets?"""
    for one, other in itertools.pairwise(drafts):
        if not one.count_words or not other.count_words or one.count_words[-1] is other.count_words[0]:
            continue
        between = _AN_ADJECTIVE.sub(" ", folded[one.count_words[-1].end : other.count_words[0].start])
        if any(
            word not in _BETWEEN_SETS
            and word.removesuffix("x") not in _BETWEEN_SETS
            and word not in NUMBER_WORDS
            and word not in PLURAL_WORDS
            and not _of_sets(word)
            for word in _WORDS.findall(between)
        ):
            return True
        if (
            re.search(r"[.!?]\s", between)
            and re.search(r"[a-z]", between)
            and not re.search(r"set|then|warm|top|\n|\d\s*[x×*]", between)
        ):
            return True
    return False
