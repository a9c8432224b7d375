"""What a typed line at a target is about: patterns of its words, each with the phrase of ours that would have said it.

The order counts: what comes first is likelier where a line fits several.
"""

from __future__ import annotations

_POINT = r"(?P<point>north[ -]?east|north[ -]?west|south[ -]?east|south[ -]?west|north|south|east|west)"
_CHILDREN = (
    r"(kids?|youngsters?|lads?|children|child|little ones?|toddlers?|daughter|son|boys?|girls?|beginners?|newcomers?|visitors?"
    r"|guests?|gran(ny|dad|dma|dpa)?"
    r"|family|class|pupils|year olds?)"
)
_MORE = (
    r"\b(mood for|throw|to|skip to|twin|how about|something|anything|any|an?|one|some|more|got|go|give|show|try|another|couple"
    r"|few|fancy|want|please|next|do|see)\b"
)
_SIGHTS = (
    r"\b(rings?|doughnut|disc|disk|ball|blobs?|glow\w*|patch|smudge|haze|cloud of stars|points?|dots?|colou?rs?"
    r"|blue|gold\w*|orange|yellow|red|white"
    r"|green\w*|oval|round|long|core|heart|middle|centre|nucleus|stars|sparkl\w*|grain\w*|diamonds?|swarm"
    r"|pearls?|arms?|lanes?|bands?|belts?|moons?"
    r"|shadow|craters?|mountains?|edge|wings?|both|them|the pair|it)\b"
)
"""What people name when they tell what they see."""
_KINDS = (
    (r"\b(globulars?|globs?|balls? of stars)\b", "any globulars"),
    (r"\bopen clusters?\b", "open clusters"),
    (r"\b(planetar(y|ies)|smoke rings?|shells? of gas|dying stars?)\b", "planetaries"),
    (r"\b(galax(y|ies)|island universes?|spirals?|star cit(y|ies))\b", "galaxies"),
    (r"\b(nebula[es]?|gas clouds?|clouds? of gas|glowing gas)\b", "nebulas"),
    (r"\b(doubles?|double stars?|twin stars?|pairs?|binary|binaries|split(table|ter)?s?)\b", "doubles"),
    (r"\b(red|carbon|orange|crimson) stars?\b|\bsomething (red|crimson)\b|\bvariables?\b", "carbon stars"),
    (r"\bclusters?\b", "clusters"),
    (r"\b(planets?|wanderers)\b", "planets"),
)
_ANY_KIND = rf"({'|'.join(pattern for pattern, _ in _KINDS)})"
_OBSTACLE = r"\b(trees?|branches|leaves|roof|house|chimney|hill|wall|building|hedge|barn|church)\b"
NIGHT: tuple[tuple[str, str], ...] = (
    # What is asked of the night.
    (
        r"^how much (longer|more) (until|till|to)\b|\b(dawn|sunrise|daylight|daybreak)\b|\bshould (I|i|we) pack\b"
        r"|\b(get\w*|grow\w*|turn\w*|starts?|be) light\b|\bhow much (night|darkness|dark)\b",
        "when does it get light",
    ),
    (
        r"\b(forecast|weather|rain\w*)\b|^(is|will|would|does|do you think|any chance|think)\b.*\b(stay|remain|hold"
        r"|last|keep|going to|gonna)\b"
        r".*\b(clear\w*|cloudy|dry|fine|all night)\b|\bwill (the|these|this|that) clouds?\b",
        "what's the weather doing",
    ),
    (
        r"\b(shot|shoot\w*|flash\w*|streak\w*|whizz\w*|crossed|crossing|flew|flying|moving|moved|zipp\w*|drifting)\b"
        r".*\b(across|over|overhead|sky|past|by|through|fast|star|light|dot)\b.*\b(what|was|is|who)\b"
        r"|\bwhat\b.*\b(flash|streak|moving|crossed|shot|flew|zipped)\b|\b(meteors?|satellites?|space station|shooting star|fireball)\b",
        "any meteors",
    ),
    (r"\bcomets?\b", "any comets"),
    (
        r"\bmoon('s)?\b.*\b(on its way|come|comes|coming|rise|rises|appear|arrive|spoil\w*|interfere"
        r"|in the way)\b.*|^when\b.*\bmoon('s)?\b",
        "what about the moon",
    ),
    (
        r"^(so |and )?(how long|how much time|when|have (i|we) got time|is there time)\b.*\b(stay|above|below"
        r"|behind|before it|drops?|lose"
        r"|sets?|sinks?|horizon|trees|hill)\b",
        "is it well placed",
    ),
    # What is asked of it.
    (
        r"^(is|was|are) (it|that|this|they)( thing| one)? (a|an)\b|^what (on earth |exactly )?(is|are) (that|this|it|those)\b",
        "what kind of thing is it",
    ),
    (r"\bhow old\b|\bage\b|\bhow long (has|have)\b.*\b(been around|existed|lived|there)\b|\b(young|born)\b", "how old is it"),
    (
        r"^(how (far|big|bright|wide|large|hot|heavy|many stars|many light)|is (it|this|that) (very |really "
        r"|so )?(big|bright|far|hot|large)\b|is it (bigger|larger|older|nearer)|any fun"
        r"|can (it|they) be|do they)\b",
        "tell me more",
    ),
    (
        r"\bhow many\b.*\b(see|seen|looked|done|had|logged|visited|bagged)\b|\b(read|tell|give|check|show)\b.*\b(my"
        r"|the|our) (list|log|notes|journal|diary)\b"
        r"|\b(what|which)\b.*\b(have|did) (I|i|we)\b.*\b(seen?|bag|bagged|done|looked|visited)\b|\b(what"
        r"|which)( ones)? (i've|we've|i have|we have) (seen|looked|done|found)\b|\b(tally|score|so far|the count)\b"
        r"|\bremind (me|us)\b.*\b(done|seen)\b"
        r"|\bhow (am|are) (I|i|we) doing\b"
        r"|\bhow long\b.*\b(list|log)\b",
        "how many have we seen",
    ),
    (
        r"\b(still to come|to come|menu|programme|program|lined up|remain|on after|after (this|that)|up next|did (I|i|we) miss"
        r"|left to (see|do))\b|\banything left\b|\bwhat\b.*\b(else|more)\b.*\b(got|have|there|offer|store|list|tonight)\b"
        r"|\bwhat\b.*\b(coming|planned|in store|on offer|on the cards)\b",
        "what's still to come",
    ),
    # What would else be taken for what comes after.
    (r"^(i've |i have |it's |now )?cent(re|er)d (it|now)\b", "found it"),
    (r"\b(add|put|enter) (that|this|it)\b.*\b(to|on|in|down)\b", "seen it"),
    (
        r"\b(at|in|with|better|more|less|higher|lower|need) (a )?(low|high|lower|higher|more|less)? ?(power"
        r"|magnification)\b",
        "which eyepiece",
    ),
    (r"\b(out of|low on|no more|losing) (juice|charge)\b", "my battery"),
    (rf"\b{_POINT}('s| is)? the only\b", "only the {point} is clear"),
    (r"\b(ordinary|couple of|few) (ordinary )?stars\b|\bgive up\b|\bwhere('s| is) it hiding\b", "nothing there"),
    (r"\bas high as\b|\bhow (long|much longer)\b.*\b(up|visible|there)\b", "is it well placed"),
    (r"\bopen clusters?\b", "open clusters"),
    (
        r"\b(should|shall|do|would) (i|we) (swap|change|switch)\b|\b(enough|right|best) or\b.*\b(swap|change"
        r"|another|more)\b",
        "which eyepiece",
    ),
    (r"^(it's|it is|yes|yep|i have it|got it)\b.*\bthere\b.*\b(averted|just|barely|faint\w*)\b", "found it"),
    (r"\bnever (seen|saw)\b.*\b(so|such|like|anything|better)\b", "wow"),
    (
        r"\b(trick|best way|way) (to|of|for) (see|seeing|spot|spotting)\b|\bhow (will|do|would|can) (i|we) (know"
        r"|recogni[sz]e|tell)\b",
        "what should I see",
    ),
    (r"\b(right|wrong) (place|spot|field|area)\b.*\b(no|not|don't|can't|nothing)\b", "nothing there"),
    # What was enough, and what is never wanted.
    (
        rf"\b(not another|no more|enough|sick of|tired of|had my fill of|bored with|bored of|done with)\b.*{_ANY_KIND}"
        r"|\b(not impressed|unimpressed|underwhelm\w*|yawn|meh|(?<!seeing's )(?<!seeing is )rubbish|dull"
        r"|disappoint\w*|boring)\b|\bspoil (me|us)\b|\bfifteen minutes\b",
        "what's best now",
    ),
    (
        r"\b(strike|drop|forget|bother|spare|scrap|cross)\b.*\b(that|this|it|me)\b|\b(hate|can't stand|loathe"
        r"|never again)\b|\b(don't|do not|never|not)\b.*\b(offer|bother|that one|want)\b",
        "never that one",
    ),
    (
        r"\b(two|one|three|a few|couple) more\b|\b(last|final) (one|look|thing|object)\b|\bone for the road\b"
        r"|\bmove on\b|\bmoving (on|along)\b|\b(on|off) (we|you|I|i) go\b|\bwhere (to )?(now|next|to)\b"
        r"|\bwe can (leave|go)\b|\bleave (this|that|it) (one|now|here|be)\b"
        r"|\b(had|taken) (my|our|a good) look\b|\bseen (all|what)\b.*\b(there|need|want)\b",
        "next target",
    ),
    # The sky, the glass, the mount, the observer.
    (r"^((i'm|we're|i am|we are|and|ok|okay|right|well) )*(back|here)( now| again| here)?$", "I'm back"),
    (rf"\b(only|just)\b.*\b{_POINT}\b.*\b(clear|free|open|usable|left|play)\b", "only the {point} is clear"),
    (rf"\b(apart from|except( for)?|everywhere but|all but|bar|but not) ((in|to) )?(the )?{_POINT}\b", "only the {point} is clear"),
    (rf"\b(gap|hole|window|slot|strip)\b.*\b{_POINT}\b", "only the {point} is clear"),
    (
        r"\bno (more )?clouds?\b|\bclouds?\b.*\b(left|lifted|over|parted|thinned|broken|breaking)\b|\b(good|fine"
        r"|clear|better) again\b|\bbrightened\b"
        r"|\b(clear|open|opened|opening|cleared|clearing|gone|back)\b.*\b(again|now|up)\b.*|\b(clouds?|sky|stars?"
        r"|gap|hole)\b.*\b(gone|away|clear|cleared|open|opened|gap|hole|back|returned|moved off|passed)\b",
        "it's clear again",
    ),
    (
        r"\b(clouds?|clouded|clouding|cloudy|overcast|covered|murk|murky|haze|hazy|mist rolling|transparency"
        r"|thin stuff|cirrus|milky sky)\b",
        "cloud's coming",
    ),
    (
        r"\b(dew|dewed|fogg?y?|fogging|fogged|mist|misted|misty|misting|wet|damp|soaking|soaked|frost|frosted"
        r"|steamed|condensation|moisture)\b",
        "it's dewed up",
    ),
    (
        r"\b(battery|batteries|volts?|voltage|power ?pack|power ?tank|(low|losing|out of|no) power"
        r"|power's? (is )?(low|getting|going|dropping|dying))\b",
        "my battery",
    ),
    (
        r"\b(nudged?|bump(ed)?|knock(ed)?|kick(ed)?|tripped|fell|shoved|ran into|hit|stumbled|moved the (tripod|mount)|walked into)\b",
        "someone kicked it",
    ),
    (
        r"\b(drift\w*|tracking|wander(ed|ing|s)|slipp?\w*|slid\w*|alignment|pointing|goto|go to is|lands?|landing"
        r"|misses|creep\w*|stay|hold)\b"
        r"|\b(i|we|i've|we've) lost it\b|\bout of (view|the field|sight)\b|\bvanished\b",
        "it's drifting",
    ),
    (r"\b(back|here)\b.*\b(again|now|at it)\b|\bi'm back\b|\bi've returned\b", "I'm back"),
    (
        r"\b(break|tea|coffee|cocoa|cuppa|snack|cold|freezing|frozen|warm|rest|chocolate|drink|sit down|pause|loo"
        r"|wee|toilet|inside|indoors|back in|numb|taking (five|ten))\b",
        "take a break",
    ),
    (
        r"\b(bed|bedtime|home|pack|finish|finished|night|enough|quits|knackered|exhausted|tired|sleepy|wrap(ping)?"
        r"|go in|going in|heading in|call it|shut\w* (down|up)|asleep|i'm off|stop (there|now)|for today)\b",
        "that's all",
    ),
    (
        r"\b(moonlight|moonrise)\b|\bmoon('s)?\b.*\b(bright|drowns?|wash\w*|spoil\w*|problem|kills|nuisance|bother\w*|trouble"
        r"|about to|rising|glare)\b",
        "the Moon is too bright",
    ),
    (
        r"\b(pin ?points?|seeing|blur\w*|focus\w*|crisp|soft|mushy|fuzzy stars|doughnuts?|bloated|boiling)\b|\b(not"
        r"|isn't|can't|won't|get)\b.*\bsharp\b",
        "it's blurry",
    ),
    (
        r"\b(danc\w*|breez\w*|gust\w*|windy?|shak\w*|judder\w*|wobbl\w*|wiggl\w*|jitter\w*|jump(ing|y|s about"
        r"|s around)|vibrat\w*|trembl\w*|buzz\w*|bounc\w*)\b",
        "it's shaking",
    ),
    (
        r"\b(lights?|floodlights?|torch|headlights?|headlamp|lamp|flashlight)\b.*\b(on|got|me|us|in|bright|came)\b|\b(bright"
        r"|white) (torch|light)\b|\b(dazzl\w*|night vision|dark adapt\w*|adapted)\b",
        "I was dazzled",
    ),
    (r"\b(upside|flipped|mirror\w*|swapped|inverted|back to front|reversed|other way (up|round))\b", "it's upside down"),
    # The eyepiece and the filter.
    (r"\b(filters?|u ?h ?c|o (three|3))\b|\b(hurts? (my|the|your) eyes?|blinding)\b", "which filter"),
    (r"\b(won't|can't|cannot|not|doesn't)\b.*\bsplit\b", "which eyepiece"),
    (
        r"\b(eyepieces?|magnif\w*|power|millimet\w*|mil|mm|barlow|lens|zoom|more glass|ocular|swap)\b|\b(twenty|ten"
        r"|five|fifteen|thirty|\d+)( five)? or\b",
        "which eyepiece",
    ),
    (
        r"\b(save|leave|keep|hold|put|park|shelve|do|try|ask me|come back|return)\b.*\b(for|until|till|when|once|about (it|that))\b.*"
        r"\b(higher|later|midnight|better|up|darker|risen|then)\b|\b(not yet)\b|\bin (an hour|half an hour|a while|a bit)\b$",
        "maybe later",
    ),
    # Whether it is there.
    (
        r"\b(spot on|bang on)\b|\b(it's|now|is) split\b|\b(see|got|have) (both|two|them both)\b|\b(both|two) (stars"
        r"|of them)\b|\btwo of them\b",
        "found it",
    ),
    (
        r"^(and |now |oh |yes |yeah |ah |wow |there |i think )*(i|we|you|they|he|she)( can|'ve got|'ve| have| do"
        r"| could)? (just |now |really |clearly )*(see|saw|got|have"
        rf"|split|make out|resolve|spot)\b(?!.*\b(not|no|nothing|none|what|only|but|cloud\w*|which|where|if)\b).*{_SIGHTS}"
        rf"|^(it's|it is|it looks|looks|that's|they're|they are) (like|just like|a bit like|rather like|got|round"
        rf"|oval|long|like a).*{_SIGHTS}"
        r"|\btwo (tiny |bright |little |small )*(points|dots|stars|pinpricks)\b",
        "found it",
    ),
    (
        r"\b(hint|averted|meant to|features?|particular|structure|suspicion|granular|avert|supposed|suspect\w*|not sure|unsure|hunt for"
        r"|look for|notice|comes and goes|shape"
        r"|arms?|lanes?|colou?r in it|ought to)\b"
        r"|\bhow many (moons|stars) should\b|\bit's\b.*\b(faint\w*|dim\w*|small\w*|tiny)\b|\bcolou?r\b.*\b(meant"
        r"|supposed|should|it|is)\b|\b(hardly|barely)\b|\bwhich way round\b",
        "what should I see",
    ),
    (
        r"\b(can't|cannot|can not|don't|doesn't|not|no|nope|nothing|nowhere|couldn't|never|without)\b.*\b(see|find"
        r"|finding|trace|hint|pick|there|luck"
        r"|sign|show|spot|joy|seen|where)\b"
        r"|\b(blank|blackness|black(?! hole)|empty|nothing|zilch|swept|picking|wrong (patch|place|field|spot)"
        r"|only stars|just stars|all i see)\b",
        "nothing there",
    ),
    (
        rf"\b(behind|in the way|hid(es|den|ing)?|block\w*|front of|obscur\w*|below the)\b.*{_OBSTACLE}"
        rf"|{_OBSTACLE}.*\b(way|front|block\w*|hid\w*|before it)\b",
        "it's behind a tree",
    ),
    (
        r"\b(worth it|worth waiting|wait for|time before|long (before|until|till)|stay (up|above)|drops? (behind"
        r"|below)|how high|how low|higher|lower|climb\w*|placed|setting|sets|sink\w*"
        r"|past its|better later|clear the|go(es)? behind|transit\w*|culminat\w*|peak\w*|altitude|lose it"
        r"|until when|how much time|gone)\b",
        "is it well placed",
    ),
    # Easier and harder.
    (
        r"\b(too|less|so)\b.*\b(hard|faint|difficult|demanding|dim)\b|\bdon't get it\b|\b(beyond me|back off"
        r"|struggle|softer|gentler|tenth magnitude|drop the|simpler|simple)\b"
        r"|\b(something|anything|an|one|more|go|show|try)\b.*\b(easier|simpler|easy)\b",
        "something easier",
    ),
    (
        r"\b(takes? (some|a bit of|more) (work|effort|patience|finding)|work for it|harder|challeng\w*|difficult"
        r"|fainter|tough\w*|trickier|stretch|sweat|up the ante|proper test|test (me"
        r"|my|us)|too easy|tricky)\b",
        "something harder",
    ),
    (
        r"\b(brighter|really bright|very bright|properly bright|more (punch|oomph|light)|jumps? out|stands? out"
        r"|hits? you|in your face|punchy)\b",
        "something brighter",
    ),
    (r"\b(tight|separat\w*|apart|companion|surface brightness)\b", "tell me more"),
    (
        rf"^(what|how) about (the|my|our) {_CHILDREN}\b|\b{_CHILDREN}\b.*\b(next|like|show|something|bored|for|look"
        rf"|get|impress|wants?|enjoy)\b|\b(for|next"
        rf"|something|show|impress|what can|got)\b.*\b{_CHILDREN}\b",
        "something for the kids",
    ),
    # Where else.
    (rf"^(?=.*\b(any\w*|something|what|what's|whats|good|see|look)\b).*?\b{_POINT}\b", "anything in the {point}"),
    (r"\brising\b", "anything in the east"),
    (
        r"\b(near|nearby|around here|in this area|close at hand|next to|close (by|to)|round (this|that|here)"
        r"|around (this|that|it)|in (the|this) (area|region|neighbourhood|part)|while (we|i)('re| are|'m)? (in"
        r"|here)|neighbours?|same field|this field|in the field)\b",
        "what else is near here",
    ),
    (r"\b(by hand|on foot|star ?hop)\b", "where is it"),
    (r"\b(later|later on)$", "maybe later"),
    (
        r"\b(previous|the (one|thing) before|before (this|that)|from before|the earlier one|back to (the|that)"
        r"|last one again|return to)\b",
        "back to the last one",
    ),
    # What is written down.
    (
        r"\b(put|mark|count|get)\b.*\b(down|as (seen|done|observed))\b|\b(log|logged|note|notes|notebook|jot|write"
        r"|records?|recorded|observed|enter|book|journal|diary|entry|tick|bagged)\b",
        "seen it",
    ),
    # A kind of thing.
    *((rf"{_MORE}.*{pattern}|^{pattern}|{pattern} (please|then|now)$", phrase) for pattern, phrase in _KINDS),
    (r"\b(something|anything|show|nice|lovely|star)\b.*\b(colou?r|colou?red|colou?rful|blue|golden)\b", "something colourful"),
    (r"\b(describe|look like|should|details?|moons|rings?|belts?|spot|craters?|bands?|visible|dust)\b", "what should I see"),
    (
        r"\b(it|this|that) (is|was)\b.*\b(best|favourite|highlight)\b|^(that's|that was|it's)\b.*\b(best|good|great"
        r"|something|stunning|special)\b|\bfavourite\b",
        "wow",
    ),
    (
        r"\b(best|recommend|suggest|pick of|pleaser|spectacular|finest|showpiece|showy|highlights?|famous|special"
        r"|pretty|overhead|zenith|meridian|exciting|worth seeing|impress\w*|different"
        r"|fancy|go from here|big|huge|giant|massive|enormous)\b",
        "what's best now",
    ),
    (
        r"\b(later|midnight|another time|not now|not tonight|tomorrow|hold that|shelve|pin in it|save that"
        r"|park (that|it|this)|too low|come back to)\b",
        "maybe later",
    ),
    (
        r"\b(wow|ooh|oh|blimey|crikey|moly|gosh|whoa|great|loves?|loved|lovely|beautiful|amazing|cool|fantastic"
        r"|wonderful|stunning|gorgeous|superb|ace|unreal|marvellous|incredible|fabulous|brilliant|magic)\b",
        "wow",
    ),
    (
        r"\b(got|found|there|centred|centered|view|have|sees|see|glimpsed?|resolved|landed|holding|make it out|bang|spot on|looking at"
        r"|eyepiece)\b.*\b(it|is|now|one|on|averted|middle|centre|core|too)\b"
        r"|\bin (view|the eyepiece|the finder)\b|\b(centred|centered|spot on|fuzzy patch|fuzzy blob|glow)\b"
        r"|\bthere we go\b|\bthat's the one\b|\bbang in\b|\bbullseye\b|\bon target\b|\b(dead|right) in the (centre|center|middle)\b"
        r"|\blanded on\b|\bmake it out\b|\bholding it\b",
        "found it",
    ),
    (
        r"\b(next|another|more|last|first|skip|else|onto|onwards?|after this|carry me on|forward|ahead|proceed"
        r"|push on|start|pass|leave|seen plenty)\b",
        "next target",
    ),
)
