"""How is a text brought to words that the signs can be looked for in? Case, apostrophes, slips and slang folded away.

    "My chest's REALLY tite, cant breeth!!" -> my chests really tight , cant breath

Each word keeps the place it had in the text. A misspelt word is mended to a word of the signs when it is near one and is no
everyday word itself ("cheat", "heat", "paint" stay as they are).
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

from rapidfuzz import process
from rapidfuzz.distance import OSA

from bot.language.safety.signs import HARMLESS

_TOKEN = re.compile(r"[^\W\d_]+(?:['’‘`´][^\W\d_]+)*|\d+(?:[.,]\d+)?|[,;:/+\-–—()]|[.!?\n]+|[^\w\s]", re.UNICODE)
_APOSTROPHES = re.compile("['’‘`´]")
_STRETCHED = re.compile(r"([a-z])\1{2,}")
_ENDS = frozenset(".!?\n;")
_LAUGHS = frozenset("😂🤣😆😅😹💀☠😝🙈😜😁😄")
_HELP_SIGNS = frozenset("🆘🚑")

# Written as one, or as it sounds. Left: as typed; right: as the signs say it. Common slips of thumbs and dictation.
_SAID_AS: dict[str, str] = {
    "chestpain": "chest pain", "chestpains": "chest pain", "cantbreathe": "cant breathe", "cantbreath": "cant breathe",
    "passedout": "passed out", "blackedout": "blacked out", "blackout": "black out", "blackouts": "black out", "blackd": "blacked",
    "light-headed": "lightheaded", "lighthead": "lightheaded", "headrush": "head rush", "heartattack": "heart attack",
    "cannot": "cant", "cnt": "cant", "carnt": "cant", "kant": "cant", "canot": "cant", "couldnt": "cant", "coudnt": "cant", "couldn": "cant",
    "unable": "cant", "didn": "didnt", "doesn": "doesnt", "isn": "isnt", "wasn": "wasnt", "won": "wont", "don": "dont", "haven": "havent",
    "im": "im", "ive": "ive", "id": "id", "u": "you", "ur": "your", "r": "are", "n": "and", "nd": "and", "w": "with", "wit": "with",
    "rlly": "really", "rly": "really", "v": "very", "realy": "really", "gona": "gonna", "ma": "my", "mi": "my", "mah": "my",
    "brest": "chest", "breast": "chest", "chst": "chest", "chests": "chest", "ches": "chest", "chess": "chest", "chesty": "chest", "torso": "chest",
    "tite": "tight", "thight": "tight", "tigt": "tight", "tihgt": "tight", "tightning": "tightness", "tied": "tied",
    "breth": "breath", "breeve": "breathe", "breave": "breathe", "brethe": "breathe", "breef": "breathe", "breev": "breathe", "breaf": "breathe", "breathin": "breathing", "breeving": "breathing", "bref": "breath",
    "breeth": "breathe", "breathing": "breathing", "breething": "breathing", "brething": "breathing", "breatheing": "breathing",
    "feint": "faint", "feinted": "fainted", "fented": "fainted", "fainty": "faint", "nub": "numb", "num": "numb", "nums": "numb", "numbed": "numb",
    "numbing": "numb", "nummb": "numb", "nom": "nom", "pane": "pain", "panes": "pain", "payn": "pain", "paine": "pain", "pian": "pain", "pains": "pain", "pin": "pin",
    "hart": "heart", "haert": "heart", "hearts": "heart", "hearth": "heart", "ticker": "heart",
    "pe": "pee", "urin": "urine", "wee": "pee", "peeing": "pee", "piss": "pee", "dizy": "dizzy", "dizzzy": "dizzy", "dizzi": "dizzy",
    "hurtz": "hurts", "hrts": "hurts", "hurst": "hurts", "hurtin": "hurting", "hertz": "hurts", "acheing": "aching", "akes": "aches", "ake": "ache", "akeing": "aching",
    "achey": "achy", "shoulde": "shoulder", "sholder": "shoulder", "sholda": "shoulder", "nee": "knee", "nees": "knees", "neee": "knee", "rist": "wrist", "elbo": "elbow", "bak": "back", "bck": "back",
    "colapsed": "collapsed", "fell": "fell", "siezure": "seizure", "seizur": "seizure", "seisure": "seizure", "slured": "slurred",
    "bloods": "blood", "blod": "blood", "vomitting": "vomiting", "puked": "vomited", "puking": "vomiting", "stummy": "stomach",
    "preg": "pregnant", "preggo": "pregnant", "preggers": "pregnant", "prego": "pregnant", "pregnent": "pregnant", "preagnant": "pregnant", "pregant": "pregnant",
    "tlk": "talk", "tlking": "talking", "tolk": "talk", "rite": "right", "rihgt": "right", "mouf": "mouth", "mowth": "mouth", "spek": "speak", "cudnt": "cant",
    "wnt": "wont", "lft": "left", "rght": "right", "armm": "arm", "hed": "head", "hedache": "headache", "eys": "eyes", "stumach": "stomach", "fase": "face", "tung": "tongue", "throte": "throat",
    "ambo": "ambulance", "doms": "doms", "dom": "doms", "lightheadedness": "lightheaded", "lightheadness": "lightheaded",
    "wooziness": "woozy", "dizziness": "dizzy", "dizzyness": "dizzy", "faintness": "faint", "breathlessness": "breathless",
    "brb": "brb", "omg": "omg", "lmao": "lol", "lmfao": "lol", "rofl": "lol", "haha": "lol", "hahaha": "lol", "hehe": "lol", "loool": "lol", "lool": "lol",
    "hahah": "lol", "ha": "lol", "jk": "lol", "hahahaha": "lol", "xd": "lol",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Word:
    """One word as the signs say it, and where it stood: text[start:end]."""

    word: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Clause:
    """The words between two full stops, and the same as a line with a space before each word."""

    words: tuple[Word, ...]

    @property
    def line(self) -> str:
        return "".join(f" {word.word}" for word in self.words)

    def said(self, text: str, start: int, end: int) -> tuple[int, int]:
        """Where in the text stood what line[start:end] was made of?"""
        at, inside = 0, []
        for word in self.words:
            if start <= at + 1 < end:
                inside.append(word)
            at += 1 + len(word.word)
        return (inside[0].start, inside[-1].end) if inside else (0, 0)


def clauses_of(text: str, vocabulary: frozenset[str]) -> tuple[Clause, ...]:
    """Cut a text into clauses of folded, mended words. vocabulary: the words that a misspelt one may be mended to."""
    found: list[Clause] = []
    words: list[Word] = []
    for token, start, end in _tokens(text):
        if token[0] in _ENDS or token == "but":
            if words:
                found.append(Clause(tuple(words)))
            words = []
            continue
        words += [Word(part, start, end) for part in mend(token, vocabulary).split()]
    if words:
        found.append(Clause(tuple(words)))
    return tuple(found)


def _tokens(text: str) -> list[tuple[str, int, int]]:
    # Letters are folded one by one, so that the text keeps its length and every word its place.
    plain = "".join(_plain(letter) for letter in text)
    found = []
    for match in _TOKEN.finditer(plain):
        token = _APOSTROPHES.sub("", match.group())
        if token in _LAUGHS:
            token = "lol"
        elif token in _HELP_SIGNS:
            token = "help"
        elif not token or not (token[0].isalnum() or token[0] in _ENDS or token in ",/"):
            continue
        found.append((_STRETCHED.sub(r"\1\1", token), match.start(), match.end()))
    return found


def _plain(letter: str) -> str:
    folded = unicodedata.normalize("NFKD", letter).lower()
    return folded[0] if folded else letter


@lru_cache(maxsize=1)
def _everyday() -> frozenset[str]:
    """Common English words that are near a word of the signs, one a line; and every word of the harmless phrases."""
    lines = (files(__package__) / "everyday.txt").read_text(encoding="utf-8").splitlines()
    harmless = re.findall(r"[a-z]{3,}", " ".join(HARMLESS).replace("_", " "))
    return frozenset(line for line in lines if not line.startswith("#")) | frozenset(harmless)


@lru_cache(maxsize=8192)
def mend(token: str, vocabulary: frozenset[str]) -> str:
    if token in _SAID_AS:
        return _SAID_AS[token]
    if token in vocabulary or len(token) < 4 or token in _everyday() or not token[0].isalpha():
        return token
    room = 2 if len(token) >= 8 else 1
    near = process.extractOne(token, vocabulary_list(vocabulary), scorer=OSA.distance, score_cutoff=room)
    # A short word is mended only when its ends hold: a slip is inside a word more often than at its first letter.
    if near and (len(near[0]) >= 5 or (near[0][0] == token[0] and len(token) <= 4 + room and near[0][-1] == token[-1])):
        return str(near[0])
    return token


@lru_cache(maxsize=4)
def vocabulary_list(vocabulary: frozenset[str]) -> tuple[str, ...]:
    return tuple(sorted(word for word in vocabulary if len(word) >= 4))
