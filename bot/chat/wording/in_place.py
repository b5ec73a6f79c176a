"""What is said in the place of a message that cannot be put together, or that the platform will not take: a fault of ours, told kindly.

These sentences depend on nothing: no reply's fields, no marks, no buttons.
"""

from __future__ import annotations

from bot.chat.outgoing import Outgoing

_FAULT = (
    "I had a message for you here and could not put it together. That is a fault on my side and the operator will see it. "
    "What you sent me is kept."
)
_EMERGENCY = (
    "Stop training now. What you wrote can be an emergency: if it is, call your local emergency number, or have someone near you call. "
    "(The rest of my answer is missing because of a fault on my side.)"
)
_PAIN = (
    "Leave out what hurts for today; if it gets worse, or you feel unwell, ask your doctor. "
    "(The rest of my answer is missing because of a fault on my side. What you sent me is kept.)"
)
_INSTEAD = {
    **dict.fromkeys(("StopAndCall", "StopAndAsk", "SeeSomeoneToday", "AreYouAllRight", "WarningSigns"), _EMERGENCY),
    **dict.fromkeys(("Caution", "AskPainWhere", "AskPainHowBad", "PainNoted"), _PAIN),
}


def in_place_of(kind: str) -> Outgoing:
    """A message that stands in for one of this kind."""
    return Outgoing(text=_INSTEAD.get(kind, _FAULT))
