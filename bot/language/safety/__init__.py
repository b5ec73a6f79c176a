"""Signs of emergencies, pain and cautions in what people write."""

from bot.language.safety.reading import SafetyReading, read_safety
from bot.language.safety.seen import EARLIER
from bot.language.safety.signs import Level

__all__ = ["EARLIER", "Level", "SafetyReading", "read_safety"]
