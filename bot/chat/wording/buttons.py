"""Which words stand on a button? Short, and as a person would type them."""

from __future__ import annotations

from typing import Any

from bot.chat.wording.phrases import ITEMS, LONG_WEEKDAYS, say_date
from bot.coaching import (
    ask_coach,
    coach,
    demos,
    join,
    log_sets,
    move_days,
    own_data,
    pain,
    publish,
    settings,
    show,
    swap,
    to_member,
)

_FIXED: dict[type[Any], str] = {
    join.Agree: "Yes, I agree",
    join.Decline: "No, leave",
    join.KitIsRight: "Done",
    log_sets.DoAfterAll: "Undo",
    log_sets.LeaveIt: "None of these",
    pain.AllRight: "Just hard work",
    pain.NotAllRight: "I feel unwell",
    pain.StillHurts: "Yes, it hurts today",
    pain.HurtsNoMore: "No, it is fine",
    pain.OnlyMeant: "Only a manner of speaking, all is well",
    pain.OnlySore: "just sore muscles",
    pain.ClearPain: "Let it go on",
    ask_coach.SendToCoach: "Ask my coach",
    ask_coach.PassOn: "Send it to my coach",
    ask_coach.AskAnyway: "I asked something else",
    ask_coach.KeepAnswer: "Yes, keep it",
    publish.PublishNow: "Publish now",
    publish.Withdraw: "Withdraw",
    publish.WhoHasIt: "Who has it",
    publish.TryAgain: "Try again",
    publish.ChangeOver: "Begin the new one",
    publish.FinishFirst: "Finish this one first",
    publish.StayLonger: "Two weeks more",
    demos.ForgetDemo: "Take it off",
    publish.KeepOwn: "It is my own exercise",
    swap.UndoSwap: "Undo",
    coach.TellEveryone: "Yes, send it",
    coach.DoNothing: "No, leave it",
    coach.Remove: "Yes, take them out",
    to_member.TellOne: "Yes, send it",
    to_member.TellNobody: "No, leave it",
    move_days.RestorePlan: "Undo",
    move_days.TakeBackSession: "Undo",
    move_days.KeepPlan: "Leave it as it is",
    own_data.Leave: "Yes, leave",
    own_data.AskLeave: "All of it, I leave the group",
    own_data.Erase: "Yes, erase all",
    own_data.Stay: "No, stay",
    show.ShowToday: "Today's session",
    show.ShowWeek: "My week",
}
_SETTINGS = {"unit": "Units", "place": "Place", "kit": "Kit", "days": "Days", "reminder": "Reminder"}


def button_words(deed: Any) -> str:
    """The words on the button of a deed."""
    match deed:
        case join.ChooseUnit():
            return "kilograms" if deed.unit.value == "kg" else "pounds"
        case join.ChoosePlace():
            return f"Same as my coach ({deed.zone})" if deed.name == deed.zone else deed.name
        case join.ToggleKit():
            return ITEMS[deed.item]
        case join.ChooseStart():
            return LONG_WEEKDAYS[deed.weekday]
        case join.ChooseReminder():
            return deed.at or "No reminders"
        case log_sets.TakeBack():
            return "Put it back" if deed.redo else "Take it back"
        case pain.PainWhere():
            return deed.part
        case settings.ChangeSetting():
            return _SETTINGS[deed.what]
        case settings.RestCalls():
            return f"Rest calls {'on' if deed.on else 'off'}"
        case publish.Preview():
            return f"See day {deed.day}"
        case publish.PublishOn():
            return f"Publish {say_date(deed.on)}"
        case swap.TakeSwap():
            return "For the whole block" if deed.whole_block else "Take it"
        case show.ShowDay():
            return f"Show day {deed.day}"
    return _FIXED.get(type(deed), type(deed).__name__)
