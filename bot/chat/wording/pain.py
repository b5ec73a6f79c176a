"""What is said when something hurts. Care first, no diagnosis, a person where a person is needed.

Source for the signs and the scale: published guidance (general patient guidance; Thomee 1997 and Silbernagel 2007 for
the ceiling of 5). Common practice: the local emergency number is named as such, since it differs by country.
"""

from __future__ import annotations

from bot.chat.wording import says
from bot.chat.wording.phrases import esc, lines
from bot.coaching import replies


@says(replies.StopAndCall)
def stop_and_call(reply: replies.StopAndCall) -> str:
    return (
        "<b>Stop training now.</b> What you describe can be an emergency. <b>Call your local emergency number</b>, or have someone near you "
        f"call. Do not drive yourself, and do not stay alone.{' Your coach is being told.' if reply.coach_told else ''}"
    )


@says(replies.StopAndAsk)
def stop_and_ask(reply: replies.StopAndAsk) -> str:
    return (
        "<b>Stop training now</b> and sit or lie down. If this is happening to you or to somebody near you, it can be an emergency: <b>call your local "
        "emergency number</b>, or have someone near you call. Do not wait for me or your coach. Is it?"
    )


@says(replies.OnlyWords)
def only_words(reply: replies.OnlyWords) -> str:
    return f"{esc(reply.member)} says it was only a manner of speaking."


@says(replies.SeeSomeoneToday)
def see_someone_today(reply: replies.SeeSomeoneToday) -> str:
    return (
        "<b>Stop for today.</b> What you describe should be looked at by a doctor today. If it gets worse, or you feel faint, short of breath "
        "or confused, call your local emergency number. Your coach is being told."
    )


@says(replies.AreYouAllRight)
def are_you_all_right(reply: replies.AreYouAllRight) -> str:
    return "Is that just hard work talking, or do you feel unwell? If it is chest pain, faintness or trouble breathing: stop, and call your local emergency number."


@says(replies.WarningSigns)
def warning_signs(reply: replies.WarningSigns) -> str:
    return (
        "Stop and call your local emergency number for: pain, pressure or tightness in the chest, jaw, neck or arm; fainting; severe breathlessness; a "
        "racing or irregular heartbeat that does not settle; sudden weakness, numbness, confusion, or trouble speaking or seeing; a sudden worst "
        "headache. Sharp pain in a joint: stop that exercise and tell me. Your doctor can say what holds for you."
    )


_CAUTIONS = {
    "eating": "How you eat, and how you feel about it, deserves a person: your doctor, a registered dietitian, or someone you trust. Training can wait.",
    "feelings": "That sounds hard. I am only a program; someone you trust, your doctor or a crisis line in your country can help. If you might harm "
    "yourself, call your local emergency number.",
    "pregnancy": "Training in pregnancy and after birth is for your doctor or midwife to clear first. Until they have, please do not follow "
    "the block as it stands. Stop at once and call them if you have bleeding, fluid loss, chest pain, dizziness, a bad headache, calf pain "
    "or swelling, breathlessness before you even start, contractions, or feel your baby move less.",
    "medication": "I cannot say anything about medication and training; your doctor or pharmacist can. Please ask them before the next session.",
    "diet": "Food, weight loss and supplements are outside what I can advise on; a registered dietitian or your doctor is the right person.",
    "diagnosis": "I cannot tell what it is, and nobody should by chat. A doctor or physiotherapist can look at it properly; until then leave "
    "out what brings it on.",
    "minor": "If you are under 18, training alone at home needs a parent's or guardian's consent and your coach's supervision. Please talk "
    "to both before the next session.",
    "self_harm": "I am glad you said it. I am only a program, so please talk to a person now: someone you trust, your doctor, or a crisis "
    "line in your country. If you might act on it, call your local emergency number.",
    "dizziness": "<b>Stop, and sit or lie down now</b>, legs up if you can; sip some water once your head is clear. If it does not pass in ten minutes or comes back, leave "
    "training for today and see a doctor. If you faint, or there is chest pain, a wild heartbeat, trouble breathing, seeing or speaking, weakness or numbness, or a "
    "bad headache with it, or you hit your head or are pregnant: call your local emergency number.",
    # Common practice: no training with a fever, and an easy start after it.
    "illness": "Sorry to hear that. Rest first: no training with a fever or while you feel properly ill, and an easy start once you are well. If it "
    "gets worse, or you are unsure when to start again, ask your doctor.",
}


@says(replies.Caution)
def caution(reply: replies.Caution) -> str:
    general = "That is something for your doctor or another licensed professional; please ask them before you go on."
    return f"{_CAUTIONS.get(reply.topic, general)} I am telling your coach as well."


@says(replies.AskWhetherItStillHurts)
def ask_whether_it_still_hurts(reply: replies.AskWhetherItStillHurts) -> str:
    return f"Noted. Does {f'your {esc(reply.part)}' if reply.part else 'it'} hurt today as well?"


@says(replies.AskPainWhere)
def ask_pain_where(reply: replies.AskPainWhere) -> str:
    stopped = (
        f"I have stopped {esc(reply.label)} {esc(reply.name)} for today. " if reply.label else "Leave that exercise for now. "
    )
    return f"{stopped}Where does it hurt?"


@says(replies.AskPainHowBad)
def ask_pain_how_bad(reply: replies.AskPainHowBad) -> str:
    return f"How bad is it, your {esc(reply.part)}: 0 is no pain, 10 the worst you can imagine?"


@says(replies.PainNoted)
def pain_noted(reply: replies.PainNoted) -> str:
    what = (
        f"{esc(reply.label)} {esc(reply.name)} stays out today and will not get heavier until it is cleared."
        if reply.label
        else ""
    )
    if reply.look:
        look = (
            "At that level please stop for today, and have a doctor or physiotherapist look at it before you load it again. "
            "If it is sudden and severe, or you feel unwell with it, call your local emergency number."
        )
    else:
        look = "Leave out whatever brings it on. If it is not gone by tomorrow, or comes back next week, have it looked at."
    return lines(
        f"Noted: {esc(reply.part)}{f', {reply.severity} of 10' if reply.severity is not None else ''}. {what}",
        look,
        "Your coach knows.",
    )


@says(replies.PainForCoach)
def pain_for_coach(reply: replies.PainForCoach) -> str:
    where = f"day {reply.day} {esc(reply.label)} {esc(reply.name)}" if reply.label else ""
    bad = f", {reply.severity} of 10" if reply.severity is not None else ""
    if reply.emergency:
        head = f"<b>{esc(reply.member)} may have an emergency.</b> I told them to stop and call their local emergency number. Please try to reach them."
    elif reply.topic:
        told = "I told them to stop and sit down." if reply.topic == "dizziness" else "I pointed them to a professional."
        head = f"<b>{esc(reply.member)}</b> wrote about {esc(reply.topic.replace('_', ' '))}. {told}"
    else:
        head = f"<b>{esc(reply.member)} reports pain</b>: {esc(reply.part or 'place not said yet')}{bad}"
    stopped = f"Stopped: {where}. It will not be progressed until you let it go on." if where and not reply.topic else ""
    return lines(head, f"“{esc(reply.text[:400])}”", stopped)


@says(replies.PainCleared)
def pain_cleared(reply: replies.PainCleared) -> str:
    if reply.to_coach:
        return f"{esc(reply.name)} goes on for {esc(reply.member)}; I have told them."
    return f"Your coach lets you go on with {esc(reply.name)}. Start lighter than before, and stop if it comes back."


@says(replies.BetterHeard)
def better_heard(reply: replies.BetterHeard) -> str:
    look = " Still, have a doctor look at it before you train again." if reply.emergency else ""
    rests = " What I stopped stays out until you hear from your coach." if reply.rests else ""
    return f"Good to hear.{look} I have told {esc(reply.coach)}.{rests}"


@says(replies.BetterForCoach)
def better_for_coach(reply: replies.BetterForCoach) -> str:
    look = "I asked them to have a doctor look at it first." if reply.emergency else ""
    return lines(f"<b>{esc(reply.member)} says it is better</b>:", f"“{esc(reply.text)}”", look)


@says(replies.SorenessNoted)
def soreness_noted(reply: replies.SorenessNoted) -> str:
    where = f" in your {esc(reply.part)}" if reply.part else ""
    return (
        f"Sore muscles{where} are common for a day or three after something new, and fade. Warm up well and go lighter if it limits you. "
        "If it is sharp, in a joint, or getting worse, tell me “it hurts” and where."
    )
