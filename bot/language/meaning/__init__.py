"""What a text is about, as a row of numbers: texts about like things have like rows, also where they share no word."""

from bot.language.meaning.vectors import SIZE, meaning

__all__ = ["SIZE", "meaning"]
