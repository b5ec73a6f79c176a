"""What does a column of a table hold, by the words of its head? In any order and wording, also one thing of single weeks.

Written without accents, in the languages whose words of the trade other_languages.py knows.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from bot.language.blocks.letters import unaccented


class Column(NamedTuple):
    """What a column holds. number: of the set or week; unit: as its head says ("Rest (min)", "kg", "RIR")."""

    name: str
    number: int = 0
    unit: str = ""


_COLUMNS: tuple[tuple[str, str], ...] = (
    ("set_n", r"set\s*#?\s*(\d{1,2})"),
    ("set_n", r"(?:serie|satz|sett|seria)\s*#?\s*(\d{1,2})"),
    ("week_n", r"(?:week|wk|woche|w|semana|semaine|settimana|tydzien|uke|vecka|uge)\s*#?\s*(\d{1,2})"),
    ("warm_up", r"(?:warm(?:ing)?[\s-]*ups?|w/?u|ramp(?:\s+up)?|aufwa(?:e)?rmen|aquecimento|calentamiento|echauffement|riscaldamento|opwarming|rozgrzewka|upp?varm\w+|oppvarming)(?:\s+sets?)?(?:\s*#?\d)?"),
    ("day", r"day|session|workout|training day|training|weekday|tag|trainingstag|einheit|dia(?:\s+da\s+semana)?|treino|sessao|sesion|entren(?:o|amiento)|jour(?:nee)?|seance|entrainement|dag|trainingsdag|giorno|seduta|allenamento|dzien|trening|tra?enings?dag|okt|pass"),
    ("slot", r"slot|order|#|id|ex\.?\s*#|no\.?|nr\.?|number|label|code|group|superset|block|pos(?:ition)?|platz|nummer|reihenfolge|station|spot|bloco|bloque|bloc|blok|blocco|ordem|orden|ordre|ordine|volgorde|kolejnosc|rekkefolge|ordning|grup(?:o|a)|gruppo|groupe|gruppe|n[oº°]\.?|lp\.?"),
    ("exercise", r"(?:main\s+)?(?:exercises?|movements?|lifts?|drills?)(?:\s*(?:name|/\s*\w+))?|activit(?:y|ies)|names?(?:\s+of\s+(?:the\s+)?(?:exercise|movement|lift|drill))?|what|u(?:e)?bung(?:en)?|exercicios?|ejercicios?|exercices?|oefening(?:en)?|esercizi?o?|cwiczeni[ea]|ovning(?:ar)?|ovelser?n?|movimi?entos?|mouvements?|bewegung(?:en)?"),
    ("sets", r"(?:#|no\.?|number)?\s*(?:of\s+)?(?:working\s+|work\s+)?sets?|series|rounds?|s|set\s+count|how\s+many\s+sets|sa(?:e)?tze?|serier?|seri[ai]|sett|satser|rondas?|rodadas?|tours?|giri|rondes?|runden"),
    ("reps", r"r|(?:target\s+)?(?:reps?|repetitions?)(?:\s*(?:range|per set|each set|target|goal|/\s*\w+|\(.*\)))?|rep range|wdh\.?|wiederholungen|how many|how much|what to do|what you do|dose|target|duration|time|volume|sets\s*(?:x|×|&|and|/)\s*reps|prescription|scheme|amount|count|reps?\s+or\s+(?:time|secs?|seconds|distance)|time\s*/\s*reps|work|repet\w+|reps?\.?|ripetizioni|rip\.?|herh(?:alingen|\.)?|powt(?:orzenia|\.)?|gentagelser|prescricao|prescripcion|prescrizione|vorgabe|umfang|voorschrift|zalecenie|(?:serier?|seri[ae]s|sa(?:e)?tze?|sett?|sets)\s*(?:x|×|&|e|y|et|und|en|i|och|og|/)\s*\w+\.?|quanti(?:dade|dad|te|ta)|cantidad|cuant[oa]s|combien|wieviel|hoeveel|ile|antal"),
    ("tempo", r"(?:rep\s+)?tempo(?:\s*\(.*\))?|speed|cadence|cadencia|rit[hm]*o|rythme|cadenza"),
    ("rest", r"rests?(?:\s*(?:time|period|between sets|interval))?(?:\s*\(?(?:s|secs?|seconds|min)\)?)?|rest\s+after|recover|time\s+off|down\s?time|pause|pausen|recovery|breaks?(?:\s*\(?(?:s|secs?|seconds|min)\)?)?|pausas?|descansos?|intervalos?|repos|recup(?:eration|\.)?|recupero|riposo|rust(?:tijd)?|pauze|przerw[ay]|odpoczynek|vila|hvile|pauser?|paus(?:ezeit)?|satzpause"),
    ("load", r"(?:start(?:ing)?\s+|working\s+|suggested\s+|target\s+)?(?:load|weight)s?|intensity|kg|kilos?|lbs?|pounds?|%\s*1rm|last|gewicht|cargas?|pesos?|charges?|poids|carico|ciezar|obciazenie|vikt|vekt|va?egt|belast(?:ning|ung|ing)"),
    ("effort", r"(?:target\s+)?(?:rpe|rir)|rpe\s*/\s*rir|effort|how\s+hard|feel"),
    ("sides", r"sides?|per side"),
    ("kit", r"kit|equipment|gear|tools?|what\s+you\s+need"),
    ("sub", r"subs?|substitutes?|alternatives?|alt\.?|swaps?|instead|regression|option|plan\s+b|or|if\s+not|easier(?:\s+option)?|replacement|replace\s+with|no\s+kit\??|alternativas?|alternatiev?e?n?|variantes?|ersatz|substitut[oi]s?|zamienniki?|alternativ(?:er|t)?|senao|sinon|sonst|altrimenti|anders"),
    ("cue", r"cues?|tips?|hints?|coaching cues?|focus|technique|form|key\s+points?|points|watch\s+out|how(?:\s+to)?|dicas?|consejos?|conseils?|tecnica|technik|techniek|wskazowki"),
    ("demo", r"demo|video|link|url"),
    ("note", r"(?:coach(?:'s|es|ing)?\s+|your\s+|extra\s+)?notes?|comments?|remarks?|details?|info|hinweise?|bemerkung(?:en)?|notiz(?:en)?|remember(?:\s+this)?|reminders?|(?:keep\s+in|bear\s+in)\s+mind|don'?t\s+forget|think\s+of|notas?|obs(?:erva\w+)?\.?|remarques?|opmerking(?:en)?|notities|uwagi|anteckning(?:ar)?|merknad(?:er)?|bema?erkning(?:er)?|kommentar(?:er|e)?|commentaires?|comentarios?|anmerkung(?:en)?|osservazioni"),
)  # fmt: skip


NUMBERED = ("set_n", "week_n")
_UNIT = re.compile(r"\b(?:s|secs?|seconds|sek|min(?:s|utes)?|kgs?|kilos?|lbs?|pounds?|rir|rpe)\b|%")


@lru_cache(maxsize=2048)
def column_of(cell: str) -> Column | None:
    """The column whose head a cell is; None for other words."""
    words = re.sub(r"[:*_]+", " ", unaccented(cell).lower()).strip()
    bare = re.sub(r"\s*(?:\([^)]*\)|\[[^\]]*\]|in\s+(?:kg|lbs?|sec|min|s))$", "", words).strip()
    unit = _UNIT.search(words)
    for name, pattern in _COLUMNS:
        found = re.fullmatch(pattern, words) or re.fullmatch(pattern, bare)
        if found:
            return Column(name, int(found[1]) if name in NUMBERED else 0, unit[0] if unit else "")
    return _of_week(words)


_OF_WEEK = re.compile(
    r"(?P<before>.*?)[\s(]*\b(?:weeks?|wks?|wochen?|w)\s*#?(?P<week>\d{1,2})(?:\s*(?:-|–|to)\s*(?:w(?:ee)?k?)?\s*\d{1,2}|\s*\+)?[\s):]*(?P<behind>.*)"
)
_BY_WEEK = ("sets", "reps", "tempo", "rest", "load", "effort")


def _of_week(words: str) -> Column | None:
    """ "Rest W3-4", "Week 2 reps": one thing of the weeks from that one on."""
    found = _OF_WEEK.fullmatch(words)
    what = f"{found['before']} {found['behind']}".strip() if found else ""
    column = column_of(what) if what else None
    return Column(column.name, int(found["week"]), column.unit) if found and column and column.name in _BY_WEEK else None


def header_of(row: Sequence[str]) -> dict[int, Column]:
    """Column -> what it holds, if this row is a header: it names the exercise and at least one more column."""
    named = {n: column for n, cell in enumerate(row) if cell and (column := column_of(cell))}
    names = [column.name for column in named.values()]
    return named if "exercise" in names and len(names) >= 2 else {}
