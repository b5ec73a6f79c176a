"""How are bench and hands set: an angle, a grip? These words also fit inside a name, so they are read only behind it."""

from __future__ import annotations

import re

from bot.language.blocks.scan import Scan

_ANGLE = re.compile(
    r"(?P<sign>-\s?)?(?<!\d)(?P<angle>\d{1,2})\s*-?\s*(?:°|deg(?:rees?)?\b)(?:\s*(?:incline|decline|bench|angle))*", re.I
)
_INCLINE_AT = re.compile(r"\b(?:bench|incline)\s+(?:at|to|set\s+to)\s+(?P<angle>\d{1,2})\b(?!\s*(?:kg|lb|x|rep))", re.I)
_GRIP_WORDS = r"neutral|pronated|supinated|overhand|underhand|wide|close|narrow|mixed|hook|false|reverse|semi-?supinated|shoulder[\s-]width|hammer|rotating|palms[\s-](?:up|down|in|facing(?:\s+(?:in|each\s+other|away|you|forward))?)"
_GRIP = re.compile(
    rf"\b(?P<grip>(?:medium[\s-]|slightly\s+)?(?:{_GRIP_WORDS})(?:[\s/-]+(?:{_GRIP_WORDS}))?)(?:[\s-]*grip\b|(?<=palms.up)|(?<=palms.in)|(?<=palms.down)|(?<=each other))|\bgrip\s*[:=]\s*(?P<grip2>[^,;|\n\x00]+)",
    re.I,
)


def _is_of_the_body(text: str, found: re.Match[str]) -> bool:
    """ "Elbows at 45 degrees to the body" says nothing of a bench."""
    before, after = text[max(0, found.start() - 30) : found.start()], text[found.end() : found.end() + 20]
    return bool(
        re.search(r"\b(?:elbows?|knees?|arms?|torso|feet|toes|hips?|hinge|back|shins?)\b[^,;]*$", before, re.I)
        or re.match(r"\s*(?:to|from|at)\s+(?:the|your)\s+(?:body|torso|hips?|knees?|floor)", after, re.I)
    )


def take_angles_and_grips(scan: Scan) -> None:
    for pattern in (_ANGLE, _INCLINE_AT):
        for found in scan.take(pattern, lambda found: not _is_of_the_body(scan.left, found)):
            down = ("sign" in found.groupdict() and found["sign"]) or re.search("decline", found[0], re.I)
            scan.out.fields["angle_deg"] = -int(found["angle"]) if down else int(found["angle"])
    for found in scan.take(_GRIP):
        scan.out.fields["grip"] = (found["grip"] or found["grip2"]).strip().lower()
