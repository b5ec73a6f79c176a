"""What does a short answer to a question about a set add to the text that was asked about?

"12 reps"  asked: with which load?   "20"      -> "12 reps with 20"
"24 kg"    asked: and how many?      "12"      -> "24 kg x 12"
"8 each"   asked: with which load?   "red one" -> "8 each with red one"
"""

from __future__ import annotations

from bot.language.tokens import fold, tokens_of

_LOAD_WANTED = frozenset(("missing_load", "which_load", "bar_weight"))
_COUNT_WANTED = frozenset(("missing_count", "which_count"))
_LONGEST = 40
_FIRST_WORDS = ("with", "at", "the", "it was", "just", "only", "about", "used", "using", "w", "@", "x", "for")


def completed(first: str, code: str, answer: str) -> str | None:
    """The text asked about, completed by the answer; None if the answer says more, or something else, than was asked for.

    code: of the Question that was asked.
    """
    if len(answer) > _LONGEST or "?" in answer or "\n" in answer or code not in _LOAD_WANTED | _COUNT_WANTED:
        return None
    tokens = tokens_of(fold(answer))
    numbers = [token for token in tokens if token.kind in "nc"]
    words = [token.text for token in tokens if token.kind == "w"]
    if len(numbers) > 1 or len(words) > 5 or (not numbers and (code in _COUNT_WANTED or not words)):
        return None
    said = answer.strip(" .!,")
    for word in _FIRST_WORDS:
        if said.lower().startswith(word + " "):
            said = said[len(word) :].strip()
    joint = "with" if code in _LOAD_WANTED else "x"
    return f"{first.strip(' .!,')} {joint} {said}"


__all__ = ["completed"]
