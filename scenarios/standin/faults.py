"""How is the stand-in told to misbehave? By rules that each wait for some calls and then spoil them.

    standin.misbehave(refuse(too_many(3)), times=2, method="sendMessage")
    standin.misbehave(cut_after(), chat_id=mira.id)          # the message arrives, its answer is lost
    hold = standin.misbehave(held()); ...; hold.release()    # slow for as long as the test likes

A rule is used up after `times` calls (None: never). The first rule that fits is taken.
"""

from __future__ import annotations

import asyncio
from dataclasses import dataclass, field

from scenarios.standin.refusal import Refusal


@dataclass
class Fault:
    """What happens to a call. refusal: it is answered so, without effect. cut: "before" or "after" the effect; "" answers."""

    refusal: Refusal | None = None
    cut: str = ""
    slow_s: float = 0.0
    gate: asyncio.Event | None = None
    garbage: bytes | None = None

    def release(self) -> None:
        """Let held calls go on."""
        if self.gate:
            self.gate.set()


def refuse(refusal: Refusal) -> Fault:
    """Answer with an error, without any effect."""
    return Fault(refusal=refusal)


def cut_before() -> Fault:
    """Cut the connection before anything has happened."""
    return Fault(cut="before")


def cut_after() -> Fault:
    """Let it happen, and cut the connection instead of answering."""
    return Fault(cut="after")


def slow(seconds: float) -> Fault:
    """Answer so many wall-clock seconds late; for trying things by hand. Tests use `held`."""
    return Fault(slow_s=seconds)


def held() -> Fault:
    """Keep the call waiting until `release()`."""
    return Fault(gate=asyncio.Event())


def garbage(body: bytes = b"<html>not what you asked for</html>") -> Fault:
    """Let it happen, and answer with something that is no JSON."""
    return Fault(garbage=body)


@dataclass
class _Rule:
    fault: Fault
    left: int | None
    method: str | None
    chat_id: int | None
    skip: int = 0


@dataclass
class Faults:
    """The rules in force."""

    _rules: list[_Rule] = field(default_factory=list)

    def add(self, fault: Fault, *, times: int | None, method: str | None, chat_id: int | None, after: int) -> None:
        self._rules.append(_Rule(fault, times, method.lower() if method else None, chat_id, after))

    def clear(self) -> None:
        for rule in self._rules:
            rule.fault.release()
        self._rules.clear()

    def for_call(self, method: str, chat_id: object) -> Fault | None:
        """The fault that this call meets, counted as used. A rule without a method leaves getUpdates alone."""
        if not self._rules:
            return None
        for rule in self._rules:
            fits_method = rule.method == method if rule.method else method != "getupdates"
            if not fits_method or (rule.chat_id is not None and str(rule.chat_id) != str(chat_id)):
                continue
            if rule.skip:
                rule.skip -= 1
                continue
            if rule.left is not None:
                rule.left -= 1
                if rule.left <= 0:
                    self._rules.remove(rule)
            return rule.fault
        return None
