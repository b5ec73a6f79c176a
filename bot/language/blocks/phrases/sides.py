"""How do the two sides of the body share the sets?"""

from __future__ import annotations

import re

from bot.language.blocks.scan import Scan
from bot.training.blocks import Sides

_LIMB = r"(?:side|leg|arm|hand|way|limb|foot|direction)s?\b"
_SIDES = (
    (Sides.ONE_SIDE_THROUGH, re.compile(rf"(?:do\s+|finish\s+|complete\s+)?\ball\s+(?:\d+\s+)?sets?\s+(?:on\s+|of\s+|for\s+|with\s+)?(?:the\s+)?(?:left|right|one|1|first|weak\w*|same)(?:\s+{_LIMB})?(?:\s+first)?(?:\s*(?:,|and|&|then|before|->)\s*)*(?:then\s+|all\s+)*(?:on\s+|moving\s+to\s+|the\s+|switch(?:ing)?(?:\s+to)?\s*)*(?:the\s+)?(?:other|right|left|second)?(?:\s+{_LIMB})?|\bone\s+side\s+(?:all\s+the\s+way\s+)?through\b|\bfinish\s+(?:one|all\s+sets\s+on\s+one)\s+{_LIMB}(?:\s+(?:first|before\s+[\w ]+))?", re.I)),
    (Sides.WEAKER_FIRST, re.compile(rf"\b(?:start(?:ing)?\s+(?:with|on)\s+)?(?:your\s+|the\s+)?weak(?:er)?(?:\s+{_LIMB})?\s+(?:goes\s+|comes\s+|leads?\s+)?f(?:ir|ri)st(?:[,;]?\s*(?:and\s+|then\s+)?(?:the\s+)?(?:strong(?:er)?|other|match)\b[\w ]*)?|\b(?:start(?:ing)?|begin)\s+(?:with|on)\s+(?:your\s+|the\s+)?weak(?:er)?(?:\s+{_LIMB})?", re.I)),
    (Sides.LEFT_FIRST, re.compile(rf"\b(?:start(?:ing)?\s+(?:with|on)\s+)?(?:your\s+|the\s+)?left(?:\s+{_LIMB})?\s+(?:goes\s+|comes\s+)?f(?:ir|ri)st|\b(?:start(?:ing)?|begin)\s+(?:with\s+|on\s+)?(?:your\s+|the\s+)?left(?:\s+{_LIMB})?", re.I)),
    (Sides.RIGHT_FIRST, re.compile(rf"\b(?:start(?:ing)?\s+(?:with|on)\s+)?(?:your\s+|the\s+)?right(?:\s+{_LIMB})?\s+(?:goes\s+|comes\s+)?f(?:ir|ri)st|\b(?:start(?:ing)?|begin)\s+(?:with\s+|on\s+)?(?:your\s+|the\s+)?right(?:\s+{_LIMB})?", re.I)),
    (Sides.ALTERNATING, re.compile(r"(?<=[\d,;(\x00])\s*\balternat(?:ing|e)(?:\s+(?:sides|legs|arms|each\s+rep))?\b(?=\s*(?:$|[,;.)|\n\x00]))|\balternat(?:ing|e)\s+(?:sides|legs|arms)\b", re.I)),
    (Sides.EACH, re.compile(rf"(?:,\s*)?(?:\b(?:each|per|ea\.?)\s*/?\s*{_LIMB}|(?:(?<=\d)|(?<=reps)|(?<=secs)|(?<=sec)|(?<=\ds)|(?<=\dm)|(?<=\d m)|(?<=steps)|(?<=seconds))\s+an?\s+(?:side|leg|arm|hand)\b|(?<=[\ds\"'mcnpt])\s*/\s*{_LIMB}|\be/[sla]\b|(?<=\d)\s*e[la]\b|(?<=\d)\s*/?\s*(?:es|ea|ps)\b\.?|(?<=\d[sm])\s+(?:es|ea|ps)\b\.?|\bp/s\b|\bl/r\b|\bl\s*\+\s*r\b|\bl\s*&\s*r\b|(?<=\d)\s*/\s*s\b|\bleft\s+(?:and|&)\s+right\b|(?<=[\dscmnp'\"])\s+each\b(?:\s*{_LIMB})?(?!\s+(?:set|week|round|session|rep|time|exercise|drop|of)))", re.I)),
)  # fmt: skip


def take_sides(scan: Scan) -> None:
    for sides, pattern in _SIDES:
        for _found in scan.take(pattern):
            if sides is not Sides.EACH or "sides" not in scan.out.fields:
                scan.out.fields["sides"] = sides
