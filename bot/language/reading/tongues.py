"""What are exercises and band colours called in other tongues? Everyday gym names only (common practice), each by its English words.

Members write in English with crumbs of their own language: "sentadillas 40 10 10", "Beinpresse 90 12", "bande rouge 12".
"""

from __future__ import annotations

_NAMES = {
    "squat": "sentadilla sentadillas kniebeuge kniebeugen accroupi agachamento agachamentos przysiad przysiady knäböj knebøy kniebuiging",
    "leg press": "beinpresse prensa pressa presse-à-cuisses",
    "deadlift": "kreuzheben rumänisch deadliften marklyft markløft stacco stacchi",
    "bench press": "bankdrücken bankdruck bänkpress benkpress supino wyciskanie bankdrukken panca banca",
    "press": "schulterdrücken schulterpresse schulterdruck desenvolvimento développé drücken lento militar",
    "row": "rudern remo remos remada remadas rowing tirage roeien wiosłowanie rodd roing rematore",
    "pull up": "klimmzug klimmzüge dominada dominadas traction tractions optrekken optrekking podciąganie chins räckhäv trazioni barra-fixa",
    "push up": "liegestütz liegestütze liegestützen flexiones flexión lagartijas pompe pompes pompki armhävningar opdrukken piegamenti flexão flexões",
    "pulldown": "tirage latzug latziehen jalón jalones puxada puxadas",
    "lunge": "ausfallschritt ausfallschritte zancada zancadas fente fentes wykroki utfall afundo afundos affondo affondi uitvalspas",
    "curl": "bizeps bizepscurl bíceps bicipiti rosca roscas uginanie",
    "extension": "trizeps tríceps tricipiti triceps-extension",
    "raise": "seitheben élévation élévations elevaciones laterales elevações alzate zijwaarts",
    "plank": "plancha plancia prancha planken gainage unterarmstütz deska plankan brett",
    "dip": "fondos barrenstütz svikt dippen",
    "hip thrust": "beckenheben hüftheben empuje-de-cadera",
    "bridge": "puente brücke pont brug mostek",
    "calf": "waden wadenheben gemelos pantorrillas mollets panturrilha łydki",
    "carry": "farmerwalk paseo-del-granjero marche-du-fermier",
    "swing": "kettlebellschwung balanceo",
    "crunch": "bauchpressen abdominales abdos brzuszki buikspieren addominali",
    "leg curl": "beinbeuger beincurl isquios",
    "leg extension": "beinstrecker extensiones quadriceps",
    "step up": "aufsteiger subidas",
    "shrug": "schulterheben encogimientos",
}
NAMES: dict[str, tuple[str, ...]] = {}  # word -> what it may mean, for "tirage" is a row as well as a pull-down
for _meant, _words in _NAMES.items():
    for _word in _words.split():
        NAMES[_word] = (*NAMES.get(_word, ()), _meant)

_COLOURS = {
    "yellow": "jaune gelb gelbe amarillo amarilla amarelo amarela geel gele giallo gialla żółta",
    "red": "rouge rot rotes rote rojo roja vermelho vermelha rood rode rosso rossa czerwona",
    "green": "vert verte grün grünes grüne verde groen groene zielona",
    "blue": "bleu bleue blau blaue azul blauw blauwe niebieska",
    "black": "noir noire schwarz schwarze negro negra preto preta zwart zwarte nero nera czarna",
}
COLOURS: dict[str, str] = {word: meant for meant, words in _COLOURS.items() for word in words.split()}
