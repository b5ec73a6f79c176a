"""Signs of emergencies, pain and cautions in what people write."""

from bot.language.safety.reading import EARLIER, SafetyReading, read_safety
from bot.language.safety.signs import Level

__all__ = ["EARLIER", "Level", "SafetyReading", "read_safety"]
