"""Which shelf holds which class: the unit of work gets one attribute for each."""

from __future__ import annotations

from sqlalchemy.orm import Session

from bot.training import people
from storage import tables
from storage.shelf import Shelf


class Shelves:
    """All values of the domain, within one transaction."""

    def __init__(self, session: Session) -> None:
        self.groups = Shelf(session, tables.GroupRow, people.Group)
        self.invites = Shelf(session, tables.InviteRow, people.Invite)
        self.claims = Shelf(session, tables.ClaimRow, people.Claim)
        self.members = Shelf(session, tables.MemberRow, people.Member)
        self.revisions = Shelf(session, tables.RevisionRow, people.Revision)
        self.assignments = Shelf(session, tables.AssignmentRow, people.Assignment)
        self.sessions = Shelf(session, tables.SessionRow, people.Session)
        self.messages = Shelf(session, tables.MessageRow, people.Message)
        self.records = Shelf(session, tables.RecordRow, people.KeptRecord)
        self.asked = Shelf(session, tables.AskedRow, people.Asked)
        self.pains = Shelf(session, tables.PainRow, people.Pain)
        self.relays = Shelf(session, tables.RelayRow, people.Relay)
        self.swaps = Shelf(session, tables.SwapRow, people.SwapTaken)
        self.advice = Shelf(session, tables.AdviceRow, people.Advice)
        self.own_names = Shelf(session, tables.OwnNameRow, people.OwnName)

    def forget(self) -> None:
        """Look everything up anew: a part of the transaction was undone."""
        for shelf in vars(self).values():
            shelf.forget()
