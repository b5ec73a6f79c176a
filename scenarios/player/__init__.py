"""People who use the bot through the stand-in, and the play that ties them, the program and the clock together."""

from scenarios.player.group import Group
from scenarios.player.opened import OpenedPlay, opened
from scenarios.player.person import Person
from scenarios.player.play import Play, Settles

__all__ = ["Group", "OpenedPlay", "Person", "Play", "Settles", "opened"]
