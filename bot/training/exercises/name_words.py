"""Which words of a name carry it, and which are found in everyday talk as well? Lists, by ear and by common practice."""

from __future__ import annotations

from collections.abc import Sequence

from bot.training.exercises.folding import word_set

# A word that says how, not what: little is lost when a name does not have it.
SOFT = word_set("""w weight weighted loaded heavy light slow tempo pause paused strict standard regular normal basic full
    exercise standing set rep work classic bodyweight alternating each per leg arm""")
# Words that say how it is done and leave the exercise what it is.
MANNER = word_set("tempo pause paused slow strict standard regular normal basic explosive controlled")
# Words that describe many exercises and, alone, name none of them.
MODIFIERS = word_set("""one two arm leg dumbbell barbell kettlebell band body seated standing incline decline flat high low
    wide close grip lying hip side front back reverse knee chest floor wall chair box towel ball exercise foot heel elevated
    bodyweight strap machine cable supported alternating neutral overhead over under half full mini plate bar ez weight
    weighted hold up down out tall top bottom left right shoulder cross single""")
# Names that are everyday English too: in a sentence they count only beside a number or when they are on today's plan.
EVERYDAY = word_set("""calf reardelt running walking jogging skipping bicycle stepper sprawl sprint punche goodmorning hinge
    bench bridge step stepup stepdown run jog walk stretch swing getup situp clean carry march row press childpose crawl wave
    climb hang punch skip stair bike boxing pigeon swimmer superman halo hollow windmill clam hydrant scissor rower hammer
    wiper twist climber jack""")
# Near an exercise's name by a letter or two, yet never meant as one inside a sentence.
OTHER_WORDS = word_set("""process progress spring waiting workout claim caution caption follow following dropping lunch lunchtime bunch branch
    planned plans plane place places breath breathe press pressure preset rash raised rise praise shoulders should sweat
    square squash squeeze squid calm call half halt carry curry curve cure curls planet twisted twitch bench beach teach reach
    french swim swims swam swimming dinner drips drop drops group grips strips tips trips ships""")
BAR_OF = word_set("pullup chinup dip")  # "pull-up bar" is a thing, not a set
PLACING = word_set("on in at for")
ARTICLES = word_set("a the my this that your")


def only_describes(words: Sequence[str]) -> bool:
    """Do the words name no movement ("arm", "incline")? "Bench" alone is what people call the press."""
    return all(word in MODIFIERS for word in words) and tuple(words) != ("bench",)
