"""Lives to play: invented people and blocks, a player with its own clock, and the platform's stand-in."""
