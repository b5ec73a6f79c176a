"""Which other exercise can this member do now, why, and what changes?

Hard limits first (limits.py): kit at hand, the joint that hurts, room, noise, what another slot of today already is. What is left is
ranked (ranking.py) by a computed likeness (likeness.py): pattern, prime and helping muscles, plane, lever, sides, stability, difficulty,
phase. The coach's own substitute stands first whenever the limits allow it. changes.py says what is different to do; words.py why.
"""

from bot.training.substitutes.changes import slot_under
from bot.training.substitutes.ranking import coachs_own, substitutes_for, unknown_of
from bot.training.substitutes.same import kit_version
from bot.training.substitutes.values import Reason, Substitute, can_do

__all__ = ["Reason", "Substitute", "can_do", "coachs_own", "kit_version", "slot_under", "substitutes_for", "unknown_of"]
