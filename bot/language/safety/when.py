"""Is what is told of now, of some day before, long ago, over, or only imagined?"""

from __future__ import annotations

import re

LONG_AGO = re.compile(
    r" (?:last (?:year|month|summer|winter|spring|autumn|christmas)|(?:years?|months|decades|yrs) (?:ago|back)|in (?:19|20)\d\d|when i was|"
    r"as a (?:kid|child|teen|teenager)|used to|history of|in the past|childhood|once had|runs in|family history|back in (?:the|19|20)\S*|"
    r"died of|passed away|as a baby|ages ago|(?<! stopped)(?<! finished)(?<! rested) long ago|at school|years old|"
    r"(?:at age|at the age of|aged|when aged) \w+|at (?:age )?(?:[5-9]|1\d|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen)"
    r" (?:falling|climbing|playing|skiing|skating|riding|jumping|on (?:a|my) (?:bike|trampoline|skateboard|horse)|in (?:school|pe))(?!.* (?:today|tonight|now|just|this (?:morning|afternoon|evening))(?= |$)))(?= |$)"
)
RECENT = re.compile(
    r" (?:yesterday|last (?:night|week|session|time|workout|monday|tuesday|wednesday|thursday|friday|saturday|sunday|set of last)|the other (?:day|night)|"
    r"(?:on )?(?:monday|tuesday|wednesday|thursday|friday|saturday|sunday)s?|(?:a few|few|couple|two|three|2|3|4|5) (?:of )?(?:days|weeks) (?:ago|back)|"
    r"days ago|a week ago|weeks ago|earlier this week|at the weekend)(?= |$)"
)
STILL = re.compile(
    r" (?:since|still|again|now|today|just|keeps|keep|wont|currently|hurts|hurting|is|feels|am|im|cant|having|getting|right|ever|constantly|every)(?= |$)"
)
# What is told of today's work is today's, whatever day is named beside it.
THIS_SET = re.compile(
    r" (?:(?:this|that|last|first|second|third|my|one|next) (?:set|rep|one)|[a-h][1-9]|reps?|same as|(?<!was )(?<!were )(?<!been )(?:hurting|aching|aches))(?= |$)"
)
# "Stairs were fine yesterday, today I get to the third one and gasp": the day named before is only compared with.
TODAY_TOO = re.compile(
    r" (?:today|tonight|this morning) (?:i|my|its|it|theres)(?! (?:am |is |feel |feeling |feels |all |much |been |was |totally )*"
    r"(?:fine|ok|okay|better|good|great|alright|gone|normal|over|back to))(?= |$)"
)
OVER = re.compile(
    r" (?:fine now|ok now|okay now|better now|good now|alright now|all good|(?:fine|ok|okay|good|better|great|alright|gone) (?:today|again|this morning)|gone now|its gone|is gone|went away|gone away|has gone|gone again|passed now|it passed|"
    r"cleared up|feeling better|feel better|recovered|settled now|back to normal|am fine|im fine|im ok|im okay|no problem now|all fine)(?= |$)"
)
IMAGINED = re.compile(
    r" (?:what if|in case|if (?:i|you|we|someone|anyone|somebody|anybody) (?:ever |should |do |did |was to |were to )?(?:get|feel|start|have|had|felt|got|faint|pass|become|experience|develop|collapse)|"
    r"do i stop when|worried (?:that )?(?:i|ill|id) (?:might|will|may|could|would)?|afraid of|scared of|avoid|prevent|signs of|symptoms of|stop (?:me|myself) from)(?= |$)"
)
# "Hit my head ... I mean hit my goal": taken back in the next breath.
TAKEN_BACK = re.compile(r" (?:just kidding|only kidding|just joking|only joking|i mean)(?= |$)")
