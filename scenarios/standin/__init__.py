"""A stand-in for the chat platform: an HTTP server on loopback that speaks its Bot API and keeps its rules.

The program under test reaches it by its base URL alone. See `server.StandIn`; `faults` says how to make it misbehave, `calls` how
to assert on what the bot asked for.
"""

from scenarios.standin.arrivals import NotPossible
from scenarios.standin.calls import Call, CallLog
from scenarios.standin.chats import Chat, Message, User
from scenarios.standin.faults import Fault, cut_after, cut_before, garbage, held, refuse, slow
from scenarios.standin.refusal import Refusal, bad, blocked, moved, server_error, too_many
from scenarios.standin.server import StandIn

__all__ = [
    "Call",
    "CallLog",
    "Chat",
    "Fault",
    "Message",
    "NotPossible",
    "Refusal",
    "StandIn",
    "User",
    "bad",
    "blocked",
    "cut_after",
    "cut_before",
    "garbage",
    "held",
    "moved",
    "refuse",
    "server_error",
    "slow",
    "too_many",
]
