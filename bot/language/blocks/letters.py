"""How is typed text evened out without moving a character? Dashes, quotes, crosses and spaces of all kinds become the plain ones.

Every replacement is one character for one, so that a place in the even text is the same place in the text as sent.
"""

from __future__ import annotations

import re
import unicodedata

_SAME = str.maketrans(
    {
        **dict.fromkeys("×✕✖╳х⨯", "x"),
        **dict.fromkeys("–—−‑‐‒―﹣－", "-"),
        **dict.fromkeys("’‘´`ʼ′", "'"),
        **dict.fromkeys("“”„«»″", '"'),
        **dict.fromkeys("\u00a0\u2007\u2009\u202f\u200b\u2060\t", " "),
        **dict.fromkeys("•●▪◦‣·∙■□►▶✓✔☐", "•"),
        "º": "°",
        "˚": "°",
        "\ufeff": " ",
        "，": ",",
        "：": ":",
        "…": ".",
        "→": "/",
        "➔": "/",
        "➜": "/",
    }
)
_CROSS = re.compile(r"(?<=\d)(\s?)\*(\s?)(?=\d|amrap|max)", re.I)
_BULLET = re.compile(r"^\s*(?:[•*+>]|-(?=\s)|o(?=\s{2,}))\s*")
_BOXED_LABEL = re.compile(r"^\s*\[([A-Ha-h]\d?|\d{1,2})\]\s*(?=[A-Za-z])")  # "[A1] Front squat"
_HASHES = re.compile(r"^\s*#{1,6}\s*")
NUMBER_WORDS = {
    word: number
    for number, word in enumerate(["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"], start=1)
}  # fmt: skip
_TENS = {"fifteen": 15, "sixteen": 16, "eighteen": 18, "twenty": 20, "twenty-five": 25, "thirty": 30, "forty": 40, "forty-five": 45, "fifty": 50,
    "sixty": 60, "seventy-five": 75, "ninety": 90}  # fmt: skip
_FIGURES = {**NUMBER_WORDS, **_TENS}
_WORD = "(?:" + "|".join(sorted(_FIGURES, key=len, reverse=True)) + ")"
# A word of number is a count beside what is counted; "one-arm row" keeps its word.
_COUNTED = r"(?:(?:clean|good|hard|more|full|slow|controlled|working|easy|solid|quality)\s+)?(?:x|times|lots\s+of|sets?|rounds?|reps?|repetitions?|steps|paces|metres|meters|seconds?|secs?|minutes?|mins?|warm-?\s?up sets?|drops?|weeks?|out\s+of|holds?|trips?|bouts?|all-?\s?out|burn-?\s?outs?|each|per|in\s+(?:the\s+tank|reserve)|left\s+in|short\s+of|shy\s+of|before\s+failure|away\s+from|from\s+failure|kilos?|kg|pounds?|lbs?)"
_COUNT_WORD = re.compile(
    rf"\b{_WORD}(?=(?:\s*(?:-|\bto\b|\bor\b)\s*(?:{_WORD}|\d+))?\s+{_COUNTED}\b)|(?<=\bto ){_WORD}(?=\s+{_COUNTED}\b)|(?<=out of )ten\b|(?<=sets of ){_WORD}(?:\s+to\s+{_WORD})?\b|"
    rf"(?<=[:,] ){_WORD}(?=\s*(?:[,.;]|$|\sto\b))",
    re.I,
)


def even(text: str) -> str:
    """The text with plain dashes, quotes, crosses and spaces; as long as before, every character at its place."""
    plain = text.translate(_SAME)
    if not plain.isascii():
        plain = "".join(" " if _is_decoration(char) else char for char in plain)
    return _CROSS.sub(lambda found: f"{found[1]}x{found[2]}", plain)


def _is_decoration(char: str) -> bool:
    """Emoji, variation marks and control characters say nothing."""
    if char in "°\n":
        return False
    return unicodedata.category(char) in ("So", "Sk", "Cf", "Mn", "Me", "Cc", "Co", "Cs") and char != "\u0301"


_UNSPLIT = str.maketrans({"ł": "l", "Ł": "L", "ø": "o", "Ø": "O", "æ": "ae", "Æ": "Ae", "ß": "ss"})


def unaccented(text: str) -> str:
    """Letters without their accents, which many leave out on a phone: "Exercício" -> "Exercicio"."""
    apart = unicodedata.normalize("NFD", text.translate(_UNSPLIT))
    return "".join(char for char in apart if not unicodedata.combining(char))


_HALF_MINUTE = re.compile(r"\b(?:a\s+)?half\s+a\s+minute\b", re.I)
_MINUTE = re.compile(r"\ba(?=\s+minute(?:'s)?\b)(?!\s+minute\s+and\s+a\s+half)", re.I)


def count_words_as_figures(text: str) -> str:
    """ "three sets of ten" needs figures: numbers in words become figures, padded to the same length."""
    text = _HALF_MINUTE.sub(lambda found: "30 s".ljust(len(found[0])), text)
    text = _MINUTE.sub(lambda found: "1" + found[0][1:], text)
    return _COUNT_WORD.sub(lambda found: re.sub(_WORD, _as_figure, found[0], flags=re.I), text)


def _as_figure(word: re.Match[str]) -> str:
    return str(_FIGURES[word[0].lower()]).ljust(len(word[0]))


def without_marks(text: str) -> str:
    """A line without what only sets it off: bullets, hashes, stars and underscores round words, a trailing pipe."""
    text = _HASHES.sub("", text)
    text = re.sub(r"\*\*|__|~~", "", text)
    text = _BOXED_LABEL.sub(r"\1. ", _BULLET.sub("", text))
    return text.strip().strip("|").strip()


def as_sent(line: str, text: str) -> str:
    """The part of a line that `text`, cut out of its even form, stands for; the even form where marks were taken from inside."""
    start = even(line).find(text)
    return line[start : start + len(text)] if start >= 0 else text


def controls_removed(text: str) -> str:
    """Line ends made one kind; characters that no one can see or type (and no spreadsheet can hold) taken out."""
    text = text.replace("\r\n", "\n").replace("\r", "\n").replace("\u2028", "\n").replace("\x0b", "\n").replace("\x0c", "\n")
    return "".join(
        char for char in text if char in "\n\t" or (ord(char) >= 32 and ord(char) != 127 and not 0xD800 <= ord(char) <= 0xDFFF)
    )
