"""Which words of a plan in another language stand for which of the trade's English ones? Only what gives a plan its shape.

German      "Tag 1 Beine", "3 Sätze à 45 Sek", "10 pro Seite"      -> "Day 1 Beine", "3 sets of 45 sec", "10 per side"
Spanish     "Lunes", "3 series de 10", "descanso 90 s"             -> "Monday", "3 sets of 10", "rest 90 s"
French      "Séance 2", "8 par jambe", "repos 2 min"               -> "Session 2", "8 per leg", "rest 2 min"
Dutch, Italian, Portuguese, Polish and the Scandinavian languages likewise.

Names of exercises stay as they are: the coach is asked about each once, and the answer is remembered.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.language.blocks.letters import unaccented


@dataclass(frozen=True, slots=True)
class OtherLanguage:
    """marks: words that no English plan has; two different ones tell the language. words: (pattern, English), in order."""

    marks: re.Pattern[str]
    words: tuple[tuple[re.Pattern[str], str], ...]

    def in_english(self, text: str) -> str:
        """The plan's own words in English, all else as it is."""
        for pattern, word in self.words:
            text = pattern.sub(word, text)
        return text


def other_language(text: str) -> OtherLanguage | None:
    """The language of a plan that is not in English; None for an English one."""
    start = unaccented(text[:20_000])
    told = [(len({found.lower().split()[0] for found in language.marks.findall(start)}), language) for language in _LANGUAGES]
    most, language = max(told, key=lambda pair: pair[0])
    return language if most >= 2 else None


_ACCENTED = {
    "a": "[aàáâãäåą]", "c": "[cçć]", "e": "[eèéêëę]", "i": "[iìíîï]", "l": "[lł]", "n": "[nñń]", "o": "[oòóôõöø]", "s": "[sś]", "u": "[uùúûü]", "z": "[zźż]",
}  # fmt: skip


def _language(marks: str, *words: tuple[str, str]) -> OtherLanguage:
    """Words are written without accents below; a letter that may bear one is found with it and without."""

    def accented(pattern: str) -> str:
        # A letter behind a backslash or within a class is syntax, not spelling.
        return re.sub(r"(\\.|\[[^\]]*\]|\(\?[:=!<]+)|([aceilnosuz])", lambda m: m[1] or _ACCENTED[m[2]], pattern)

    return OtherLanguage(
        re.compile(rf"\b({marks})\b", re.I),
        tuple((re.compile(rf"(?<![\w-])(?:{accented(pattern)})(?!\w)", re.I), word) for pattern, word in words),
    )


_MOST = (
    r"max(?:imal|imum|imo|imaal|imalt)?\.?|massimo|maks(?:imum|imalt|ymalnie|\.)?",
    "max",
)  # as many as possible, much alike in all of them
_LANGUAGES = (
    _language(
        r"wdh|wiederholungen|sa?tze|saetze|u?bung(?:en)?|uebung(?:en)?|ruhetag|tag\s+\d|wochen|unterkorper|oberkorper|und|aber|nicht|jeweils|pro\s+seite|je\s+seite|sek(?:unden)?|aufwarmen|aufwaermen|"
        r"montags?|dienstags?|mittwochs?|donnerstags?|freitags?|samstags?|sonntags?",
        (r"wie(?=\s+(?:tag\s*\d|einheit\s*\d|mo|di|mi|do|fr|sa|so|\w+tag)(?!\w))", "as"), (r"aber", "but"), (r"und", "and"), (r"(?:trainings)?tag(?=\s*(?:\d|[a-f]\b))", "Day"), (r"einheit(?=\s*\d)", "Session"),
        (r"ruhetage?|pausentag|trainingsfrei", "Rest day"), (r"wochen", "Weeks"), (r"woche(?=\s*\d)", "Week"),
        (r"letzter\s+satz|letzten\s+satz", "last set"), (r"s(?:a|ae)tze?\s+(?:a|mit|je)", "sets of"), (r"s(?:a|ae)tze", "sets"), (r"satz(?=\s*\d)", "set"),
        (r"wdh\.?|wiederholungen", "reps"), (r"sek(?:unden)?\b\.?", "sec"), (r"minuten?", "min"), (r"schritte", "steps"), (r"runden", "rounds"),
        (r"(?:pro|je)\s+(?:seite|bein|arm)", "per side"), (r"links\s+(?:zuerst|beginnen|anfangen)", "left side first"),
        (r"rechts\s+(?:zuerst|beginnen|anfangen)", "right side first"), (r"schwache(?:re)?\s+seite\s+zuerst", "weaker side first"),
        (r"aufw(?:a|ae)rmen", "Warm-up"), (r"pause(?=\s*[:=]?\s*\d)", "rest"),
        (r"bis\s+zum\s+(?:muskel)?versagen|so\s+viele\s+wie\s+m(?:o|oe)glich", "AMRAP"), (r"oder(?=\s)", "or"), (r"sonst|ansonsten", "or"), _MOST, (r"ersatz(?=\s*:)", "sub"),
        (r"montags?", "Monday"), (r"dienstags?", "Tuesday"), (r"mittwochs?", "Wednesday"), (r"donnerstags?", "Thursday"), (r"freitags?", "Friday"),
        (r"samstags?|sonnabends?", "Saturday"), (r"sonntags?", "Sunday"),
    ),
    _language(
        r"lunes|martes|miercoles|jueves|viernes|semanas?|series?\s+de|repeticiones|descanso|dia\s+\d|sesion\s+\d|por\s+(?:lado|pierna|brazo)|cada\s+(?:lado|pierna|brazo)|calentamiento|segundos|al\s+fallo",
        (r"dia\s+de\s+descanso", "Rest day"), (r"dia(?=\s*(?:\d|[a-f]\b))", "Day"), (r"sesion(?=\s*(?:\d|[a-f]\b))", "Session"),
        (r"semanas", "Weeks"), (r"semana(?=\s*\d)", "Week"), (r"(?:la\s+)?ultima\s+serie", "last set"), (r"series?\s+de", "sets of"), (r"series", "sets"),
        (r"repeticiones", "reps"), (r"segundos|seg\.?", "sec"), (r"minutos?", "min"), (r"pasos", "steps"), (r"metros", "metres"), (r"rondas|vueltas", "rounds"),
        (r"por\s+(?:lado|pierna|brazo)", "per side"), (r"cada\s+(?:lado|pierna|brazo)", "each side"), (r"(?:lado\s+)?izquierd[oa]\s+primero", "left side first"),
        (r"(?:lado\s+)?derech[oa]\s+primero", "right side first"), (r"(?:el\s+)?lado\s+debil\s+primero", "weaker side first"), (r"calentamiento", "Warm-up"),
        (r"descanso(?=\s*[:=]?\s*\d)", "rest"), (r"descanso", "Rest"), (r"(?:hasta\s+el|al)\s+fallo|lo\s+que\s+puedas", "AMRAP"), (r"superserie", "superset"),
        (r"ejercicios?", "Exercise"), (r"orden", "Order"), (r"peso|carga", "Load"), (r"notas", "Notes"), (r"alternativa(?=\s*:)", "sub"), (r"(?:si\s+no|de\s+lo\s+contrario)(?=\s*[:,])", "or"), _MOST, (r"(?<=\w\s)o(?=\s\w)", "or"),
        (r"lunes", "Monday"), (r"martes", "Tuesday"), (r"miercoles", "Wednesday"), (r"jueves", "Thursday"), (r"viernes", "Friday"), (r"sabado", "Saturday"), (r"domingo", "Sunday"),
    ),
    _language(
        r"lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche|semaines?|series?\s+de|repetitions?\s+par|repos|jour\s+\d|seance\s+\d|par\s+(?:cote|jambe|bras)|chaque\s+(?:cote|jambe|bras)|echauffement|secondes",
        (r"jour\s+de\s+repos", "Rest day"), (r"jour(?=\s*(?:\d|[a-f]\b))", "Day"), (r"seance(?=\s*(?:\d|[a-f]\b))", "Session"),
        (r"semaines", "Weeks"), (r"semaine(?=\s*\d)", "Week"), (r"(?:la\s+)?derniere\s+serie", "last set"), (r"series?\s+de", "sets of"), (r"series", "sets"),
        (r"repetitions?|repets", "reps"), (r"secondes?", "sec"), (r"pas(?=\s*(?:$|[,;.)]))", "steps"), (r"metres", "metres"), (r"tours", "rounds"),
        (r"par\s+(?:cote|jambe|bras)", "per side"), (r"chaque\s+(?:cote|jambe|bras)", "each side"), (r"(?:cote\s+)?gauche\s+d'abord", "left side first"),
        (r"(?:cote\s+)?droite?\s+d'abord", "right side first"), (r"cote\s+faible\s+d'abord", "weaker side first"), (r"echauffement", "Warm-up"),
        (r"repos(?=\s*[:=]?\s*\d)", "rest"), (r"repos", "Rest"), (r"(?:jusqu'a\s+l'|a\s+l')echec", "AMRAP"),
        (r"exercices?", "Exercise"), (r"sinon", "or"), _MOST, (r"ordre", "Order"), (r"charge|poids", "Load"), (r"remarques", "Notes"), (r"(?<=\w\s)ou(?=\s\w)", "or"),
        (r"lundi", "Monday"), (r"mardi", "Tuesday"), (r"mercredi", "Wednesday"), (r"jeudi", "Thursday"), (r"vendredi", "Friday"), (r"samedi", "Saturday"), (r"dimanche", "Sunday"),
    ),
    _language(
        r"maandag|dinsdag|woensdag|donderdag|vrijdag|zaterdag|zondag|weken|sets\s+van|herhalingen|rust|rustdag|dag\s+\d|per\s+(?:kant|zijde|been)|elke\s+(?:kant|zijde|been)|seconden|opwarming|warming-up",
        (r"rustdag", "Rest day"), (r"dag(?=\s*(?:\d|[a-f]\b))", "Day"), (r"weken", "Weeks"), (r"(?:de\s+)?laatste\s+set", "last set"), (r"sets\s+van", "sets of"),
        (r"herhalingen|herh\.?", "reps"), (r"seconden", "sec"), (r"minuten", "min"), (r"stappen|passen", "steps"), (r"rondes", "rounds"),
        (r"per\s+(?:kant|zijde|been|arm)", "per side"), (r"elke\s+(?:kant|zijde|been|arm)", "each side"), (r"links\s+(?:eerst|beginnen)", "left side first"),
        (r"rechts\s+(?:eerst|beginnen)", "right side first"), (r"zwakk?e\s+(?:kant|zijde)\s+eerst", "weaker side first"), (r"opwarming|warming-up", "Warm-up"),
        (r"rust(?=\s*[:=]?\s*\d)", "rest"), (r"rust", "Rest"), (r"tot\s+falen", "AMRAP"), (r"anders(?=\s*[:,])", "or"), _MOST, (r"oefening(?:en)?", "Exercise"), (r"volgorde", "Order"), (r"gewicht", "Load"),
        (r"opmerkingen|notities", "Notes"), (r"(?<!sets\s)(?<=\w\s)of(?=\s\w)", "or"),
        (r"maandag", "Monday"), (r"dinsdag", "Tuesday"), (r"woensdag", "Wednesday"), (r"donderdag", "Thursday"), (r"vrijdag", "Friday"), (r"zaterdag", "Saturday"), (r"zondag", "Sunday"),
    ),
    _language(
        r"lunedi|martedi|mercoledi|giovedi|venerdi|settimane|serie\s+(?:da|di)|ripetizioni|riposo|giorno\s+\d|seduta\s+\d|per\s+(?:lato|gamba|braccio)|ogni\s+(?:lato|gamba|braccio)|secondi|riscaldamento|a\s+cedimento",
        (r"giorno\s+di\s+riposo", "Rest day"), (r"giorno(?=\s*(?:\d|[a-f]\b))", "Day"), (r"seduta(?=\s*(?:\d|[a-f]\b))", "Session"),
        (r"settimane", "Weeks"), (r"settimana(?=\s*\d)", "Week"), (r"(?:l')?ultima\s+serie", "last set"), (r"serie\s+(?:da|di)", "sets of"), (r"serie", "sets"),
        (r"ripetizioni|rip\.?", "reps"), (r"secondi|sec\.?", "sec"), (r"minuti", "min"), (r"passi", "steps"), (r"metri", "metres"), (r"giri", "rounds"),
        (r"per\s+(?:lato|gamba|braccio)", "per side"), (r"ogni\s+(?:lato|gamba|braccio)", "each side"), (r"(?:prima\s+(?:il\s+)?sinistr[oa]|sinistr[oa]\s+prima)", "left side first"),
        (r"(?:prima\s+(?:il\s+)?destr[oa]|destr[oa]\s+prima)", "right side first"), (r"lato\s+debole\s+prima", "weaker side first"), (r"riscaldamento", "Warm-up"),
        (r"(?:riposo|recupero)(?=\s*[:=]?\s*\d)", "rest"), (r"riposo", "Rest"), (r"a\s+cedimento", "AMRAP"), (r"esercizio|esercizi", "Exercise"), (r"ordine", "Order"),
        (r"carico|peso", "Load"), (r"oppure", "or"), (r"altrimenti|sennò", "or"), _MOST, (r"(?<=\w\s)o(?=\s\w)", "or"),
        (r"lunedi", "Monday"), (r"martedi", "Tuesday"), (r"mercoledi", "Wednesday"), (r"giovedi", "Thursday"), (r"venerdi", "Friday"), (r"sabato", "Saturday"), (r"domenica", "Sunday"),
    ),
    _language(
        r"segunda(?:-feira)?|terca(?:-feira)?|quarta(?:-feira)?|quinta(?:-feira)?|sexta(?:-feira)?|semanas|series\s+de|repeticoes|treino\s+\d|dia\s+\d|por\s+(?:lado|perna|braco)|cada\s+(?:lado|perna|braco)|segundos|aquecimento|ate\s+a?\s*falha",
        (r"dia\s+de\s+descanso", "Rest day"), (r"dia(?=\s*(?:\d|[a-f]\b))", "Day"), (r"treino(?=\s*(?:\d|[a-f]\b))", "Session"),
        (r"semanas", "Weeks"), (r"semana(?=\s*\d)", "Week"), (r"(?:a\s+)?ultima\s+serie", "last set"), (r"series?\s+de", "sets of"), (r"series", "sets"),
        (r"repeticoes", "reps"), (r"segundos|seg\.?", "sec"), (r"minutos?", "min"), (r"passos", "steps"), (r"metros", "metres"), (r"rodadas|voltas", "rounds"),
        (r"por\s+(?:lado|perna|braco)", "per side"), (r"cada\s+(?:lado|perna|braco)", "each side"), (r"(?:lado\s+)?esquerdo\s+primeiro", "left side first"),
        (r"(?:lado\s+)?direito\s+primeiro", "right side first"), (r"lado\s+fraco\s+primeiro", "weaker side first"), (r"aquecimento", "Warm-up"),
        (r"descanso(?=\s*[:=]?\s*\d)", "rest"), (r"descanso", "Rest"), (r"ate\s+(?:a\s+|à\s+)?falha", "AMRAP"), (r"exercicios?", "Exercise"), (r"senao|caso\s+contrario", "or"), _MOST, (r"ordem", "Order"),
        (r"carga|peso", "Load"), (r"notas", "Notes"), (r"(?<=\w\s)ou(?=\s\w)", "or"),
        (r"segunda(?:-feira)?", "Monday"), (r"terca(?:-feira)?", "Tuesday"), (r"quarta(?:-feira)?", "Wednesday"), (r"quinta(?:-feira)?", "Thursday"),
        (r"sexta(?:-feira)?", "Friday"), (r"sabado", "Saturday"), (r"domingo", "Sunday"),
    ),
    _language(
        r"poniedzialek|wtorek|sroda|czwartek|piatek|sobota|niedziela|tygodni[ea]?|seri[ei]\s+po|powtorzen(?:ia)?|przerwa|odpoczynek|dzien\s+\d|trening\s+\d|na\s+(?:strone|noge|reke)|kazd[aą]\s+(?:strona|noga|reka)|rozgrzewka|sekund|cwiczeni[ea]|maks",
        (r"dzien\s+wolny|dzien\s+odpoczynku", "Rest day"), (r"dzien(?=\s*(?:\d|[a-f]\b))", "Day"), (r"trening(?=\s*(?:\d|[a-f]\b))", "Session"),
        (r"tygodni[ea]?", "Weeks"), (r"tydzien(?=\s*\d)", "Week"), (r"ostatnia\s+seria", "last set"), (r"seri[ei]?\s+po", "sets of"), (r"seri[ei]", "sets"),
        (r"powtorzen(?:ia)?|powt\.?", "reps"), (r"sekund[y]?|sek\.?", "sec"), (r"minut[ay]?", "min"), (r"krokow", "steps"), (r"metrow", "metres"), (r"rund[y]?|obwod(?:y|ow)", "rounds"),
        (r"na\s+(?:kazda\s+)?(?:strone|noge|reke)", "per side"), (r"kazda\s+(?:strona|noga|reka)", "each side"), (r"najpierw\s+lewa|lewa\s+najpierw", "left side first"),
        (r"najpierw\s+prawa|prawa\s+najpierw", "right side first"), (r"slabsza\s+strona\s+najpierw", "weaker side first"), (r"rozgrzewka", "Warm-up"),
        (r"(?:przerwa|odpoczynek)(?=\s*[:=]?\s*\d)", "rest"), (r"do\s+upadku", "AMRAP"), (r"lub|albo", "or"), (r"inaczej(?=\s*[:,])|w\s+przeciwnym\s+razie", "or"), _MOST,
        (r"poniedzialek", "Monday"), (r"wtorek", "Tuesday"), (r"sroda", "Wednesday"), (r"czwartek", "Thursday"), (r"piatek", "Friday"), (r"sobota", "Saturday"), (r"niedziela", "Sunday"),
    ),
    _language(
        r"mandag|tirsdag|tisdag|onsdag|torsdag|fredag|lordag|sondag|uker|veckor|uger|sett\s+(?:av|a)|repetitioner|repetisjoner|gentagelser|hvile|vila|hviledag|vilodag|dag\s+\d|okt\s+\d|pass\s+\d|(?:per|hver|varje)\s+(?:side|sida|be(?:i)?n|arm)|opp?varming|opvarmning|uppvarmning|sekunder|ovelser?|ovning(?:ar)?",
        (r"hviledag|vilodag", "Rest day"), (r"dag(?=\s*(?:\d|[a-f]\b))", "Day"), (r"(?:okt|pass)(?=\s*(?:\d|[a-f]\b))", "Session"),
        (r"uker|veckor|uger", "Weeks"), (r"(?:uke|vecka|uge)(?=\s*\d)", "Week"), (r"(?:siste|sista|sidste)\s+s(?:e|æ)tt?", "last set"), (r"s(?:e|æ)tt?\s+(?:av|a|pa|af)", "sets of"),
        (r"serier|sett", "sets"), (r"repetitioner|repetisjoner|gentagelser", "reps"), (r"sekunder|sek\.?", "sec"), (r"minutt?er", "min"), (r"steg|skritt|skridt", "steps"), (r"meter", "metres"),
        (r"runder|varv", "rounds"), (r"(?:per|pr\.?|hver|varje)\s+(?:side|sida|be(?:i)?n|arm)", "per side"), (r"venstre\s+forst|vanster\s+forst", "left side first"),
        (r"hoyre\s+forst|hojre\s+forst|hoger\s+forst", "right side first"), (r"svak(?:este|este)?\s+sid[ea]\s+forst", "weaker side first"),
        (r"opp?varming|opvarmning|uppvarmning", "Warm-up"), (r"(?:hvile|vila|pause|paus)(?=\s*[:=]?\s*\d)", "rest"), (r"til\s+utmattelse|till\s+failure", "AMRAP"), (r"eller", "or"), (r"(?:annars|ellers)", "or"), _MOST,
        (r"mandag", "Monday"), (r"ti(?:r)?sdag", "Tuesday"), (r"onsdag", "Wednesday"), (r"torsdag", "Thursday"), (r"fredag", "Friday"), (r"l(?:o|ø)rdag", "Saturday"), (r"s(?:o|ø)ndag", "Sunday"),
    ),
)  # fmt: skip
