"""Does a text ask for another exercise? For which slot, and why: missing kit, pain, too hard, too easy, no room, noise, taken.

"no barbell, what instead of C1?"      -> C1, missing kit, barbell
"knees bad today"                      -> the slot that is due if it loads the knee, pain, knee (the reader of pain has it first)
"can I do goblet squats instead of B1" -> B1, a wish, and the exercise that is wanted
"swap tue and thu", "20 instead of 18" -> nothing: days and numbers, not exercises
"""

from bot.language.swaps.reading import SwapAsked, read_swap, things_named

__all__ = ["SwapAsked", "read_swap", "things_named"]
