"""English for what somebody at a telescope runs into. At most two sentences each."""

from __future__ import annotations

from collections.abc import Mapping

from companion.languages.phrase import Chapter, Scene
from companion.talk.advice import Advice
from companion.talk.question_phrases import Advised

TOLD: Mapping[Advice, str] = {
    Advice.FIRST_TIME: (
        "Then we take our time: I say one thing, you do it and tell me when it's done. If a word is strange, ask what it is."
    ),
    Advice.BALCONY: (
        "A balcony will do: keep the tube's swing clear of the railing. Boards tremble when you shift your feet, so stand still to look."
    ),
    Advice.BLURRED: "Turn the focuser slowly, all the way if you must: it sharpens at one place only. Begin with the largest number in.",
    Advice.BRIGHT_DOT: "Turn the dot's little wheel down until it is barely there. A bright dot hides the star behind it.",
    Advice.RAIN: "Cap the tube, and cover everything: say hang on to wait. Touch no plug with wet hands.",
    Advice.COLD: "Warm up first: hat on, hands in your pockets, or indoors for ten minutes. Say hang on, and I keep our place.",
    Advice.COMPASS_WANDERS: (
        "Iron or a motor is near it: step five paces from the tripod, and keep keys and phone away. "
        "If it still won't rest, say another way."
    ),
    Advice.DARK_FOR_A_MARK: "Then take a far lamp that stands still, or a bright star. A star drifts, so be quick with the screws.",
    Advice.FINDER_STUCK: "Loosen all its screws half a turn first: one may be holding against another. Force nothing.",
    Advice.HOW_FAR_A_MARK: "Half a kilometre or more. Nearer than that, finder and tube look past each other.",
    Advice.HOW_LEVEL: ("The bubble touching its ring is enough. A degree off costs nothing with two alignment stars; several degrees do."),
    Advice.HOW_NORTH: "Within a finger or two at arm's length is enough. The alignment stars take care of the rest.",
    Advice.HOW_TALL: "As low as you can bear: short legs shake less. The eyepiece should come to your eye when you sit or stand upright.",
    Advice.INSECTS: "Long sleeves, and lights off: they come to light. Nothing sprayed near the glass.",
    Advice.LEGS_STUCK: "Loosen its lever fully and twist as you pull. With frost or sand in it, leave it short and shorten the others.",
    Advice.HARD_OF_HEARING: "I can be louder or slower, and say anything twice: just ask. Begun with text, I write instead.",
    Advice.ONE_HAND: "One thing at a time, and I wait. Lift nothing and loosen no clamp with one hand: have somebody hold the tube.",
    Advice.GLOVES: "In frost touch no bare metal: keep them on until a key or a screw needs a finger. To me you only talk.",
    Advice.LIGHTS: "Stand where a wall or a hood keeps that lamp from your eyes. It takes them half an hour to get used to the dark.",
    Advice.MOON_AS_MARK: "Yes, by night: take its edge. It drifts, so centre it again before you turn the last screw.",
    Advice.NO_BUBBLE: "Many phones have a level; lay yours on the tripod's plate. Or a flat dish with a little water in it.",
    Advice.NO_COMPASS: "Then without: say another way, and I name what can be seen from here. A map with a landmark will do, too.",
    Advice.NO_FINDER: "Then say skip this. With no finder, sight along the tube and use your lowest power.",
    Advice.NO_MARK: "A chimney, a mast, a lone tree on a ridge, a far lamp. If there's nothing, say skip this: the first star will do.",
    Advice.NO_TRIPOD: "Where I say tripod, take what it stands on: firm, and level both ways. For a part you don't have, say ready.",
    Advice.PHONE_COMPASS: "Good enough, away from the mount and from metal. Turn it once in a figure of eight first.",
    Advice.POLE_STAR: (
        "The two stars at the end of the Plough's bowl point to it, five times their gap on. "
        "It is only fairly bright, stands alone, and hardly moves."
    ),
    Advice.SLOPE: "Let one leg point downhill and make it the longest. Then level it by the bubble, and try that it can't tip.",
    Advice.SOFT_GROUND: "Press each leg in, or put a flat stone or board under it. Look at the bubble again after half an hour.",
    Advice.TABLE: "A heavy table will do, if it doesn't rock. Lean on nothing while you look.",
    Advice.TREE_NORTH: "No matter: the mount needn't see north, it only has to face it.",
    Advice.TURNED_ROUND: "That's how telescopes show things: upside down or mirrored. Nothing is wrong, and stars don't mind.",
    Advice.WHAT_I_CAN_DO: (
        "I lead you through the set-up, star by star, and then to things worth a look. "
        "Ask where something is, what a word means, or say help, at any time."
    ),
    Advice.WHICH_SCREW: "Try one a quarter turn and watch where its mark goes. If it goes away from your target, turn that one back.",
    Advice.WHO_YOU_ARE: (
        "A voice on your own machine that helps you set up the telescope. Nothing you say is sent anywhere or kept unless you ask."
    ),
    Advice.WIND: "Stand so that you shield it, legs short, nothing loose hanging. If the tube shakes all the time, wait for a lull.",
    Advice.WOBBLES: "Tighten the leg locks and the big screw under the mount. Then press each foot down, and touch nothing while you look.",
    Advice.BACKWARDS: "The view may be turned round: go by where the star moves, not by what the arrow says. Try one short press.",
    Advice.CABLE_CAUGHT: "If the mount turns, hold it with any arrow key, or switch it off. Free the cable, and lay it in a loose loop.",
    Advice.DOES_IT_MOVE: "If it moves or blinks, it's an aircraft or a satellite. A star stays put.",
    Advice.FOCAL_RATIO: (
        "That's how often the aperture goes into the focal length: multiply the two. An eyepiece has its own number, on its rim."
    ),
    Advice.FOGGED: "Don't wipe it. Warm it with your hand held near, and cap it while you don't look.",
    Advice.HOW_CENTRED: "As near the middle as you can: by that much every target will be off. A hair's breadth is nothing.",
    Advice.HOW_LONG_A_SLEW: "A minute at most for half a turn. Wait until the whirr has ended and a few seconds more.",
    Advice.HOW_LONG_A_STAR: "No hurry: before the alignment a star drifts slowly. Bring it back as often as you need.",
    Advice.KICKED: "First look at the bubble of the base. If it moved, say start again from level; if not, centre the star again.",
    Advice.LARGEST_FIGURE: "The one with the largest number on it: it shows the most sky. Change it when the star is in the middle.",
    Advice.MANY_STARS: "The one I named is the brightest of them. Look along the tube with one eye to be sure.",
    Advice.MENU: "Look under set-up or settings, behind the menu key. If it isn't there, say next line.",
    Advice.NOISE: "A whirr and a beep are usual, grinding isn't. Then hold it with an arrow key, and look for a tight cable.",
    Advice.NOT_TURNING: "Some wait for the key that confirms: look at the display. If it stays still, say give me another.",
    Advice.OVERSHOT: "Go back well past it, then come in again slowly. End with the same keys as always.",
    Advice.RESTARTED: "Then it has forgotten the time and its stars. Check plug and battery, then say go to the settings.",
    Advice.RUNAWAY: "Any arrow key holds it; else pull the power. Keep eyes and hands away until it stands.",
    Advice.SIGN: "North and east are plus, south and west are minus.",
    Advice.SWITCH: "Mostly beside the plug on the mount's foot or arm. Some have none: the plug itself is the switch.",
    Advice.TIRED_EYE: "Look away into the dark for a while, and breathe away from the eyepiece. Nothing runs away.",
    Advice.TOO_HIGH_FOR_ME: "Say give me another, and I pick a star at another height. Don't climb on anything in the dark.",
    Advice.WHICH_KEY: "The key that confirms: it may say enter, okay or select. Press it only when the star is in the middle.",
    Advice.WRONG_KEY: "One key on the handset leads back: key that line again. If a star went in wrongly, say back to the alignment.",
    Advice.DROPPED: "Leave it until you have a light on it: red, and pointed at the ground. Step nowhere before.",
    Advice.HEAVY: "Then don't lift it alone: put it down, take it apart, or wait for a second pair of hands. Lift with your legs.",
    Advice.COOLING: "Warm air in the tube makes stars boil. Half an hour outside is enough, for a large tube an hour: set up meanwhile.",
    Advice.DECIMALS: "Divide the minutes by sixty: thirty are nought point five. South and west are minus.",
    Advice.NOT_TAKEN: (
        "Some want all the noughts, or another order. Say month first or day first, twelve hours, or it has no seconds, and I say it so."
    ),
    Advice.POINT: "A star stays a point in any telescope: so it should be. Only planets and the Moon grow.",
    Advice.SAFETY: "Three things can hurt: the Sun in a telescope, a heavy tube, and cables in the dark. I say so where each one counts.",
    Advice.SCREEN: (
        "No screen need be read: I say it all, and somebody, or a phone, can read you the handset's display. "
        "Tell me: I'm blind, or: someone looks for me."
    ),
    Advice.STUCK: "Force nothing. Go back a little, look at it by a red light, and try again straight.",
    Advice.TIPS_OVER: "Hold the tube, and slide it away from the end that sinks, a little at a time. In balance it stays by itself.",
    Advice.VERDICT: (
        "Success, aligned or complete means it's content; failed, error or try again that it isn't. Some only beep, or show a menu."
    ),
    Advice.WHICH_TELESCOPE: (
        "The set-up needs nothing of it: say skip this. A label near the eyepiece has its figures in millimetres, for another day."
    ),
    Advice.DONT_HAVE_IT: "Then leave it out. Say ready, and we go on.",
    Advice.HOW_YOU_KNOW: "Time and zone come from this machine, the place from you or your profile. The sky I work out from those.",
    Advice.HOW_COMPASS: "Hold it flat, five paces from metal, and turn yourself until it shows my number. Then you face north.",
    Advice.HOW_KEYING: "With its number keys. Where there are none, up and down change a digit, and a side arrow goes on.",
    Advice.HOW_STEERING: "With the four arrow keys: fast until it's near, then slowly. Try one key, and see which way it goes.",
    Advice.LEGS_POINT: "Any way will do. On a slope let one point downhill.",
    Advice.LEG_SLIDES: (
        "Take the weight off it, pull it out, and tighten its lock again. If it still slides, push it in as far as it goes, "
        "and shorten the others, too."
    ),
    Advice.NO_RAIL: "Then hold it as it is made: in rings, a bracket or a fork. Let nothing go before it's tight.",
    Advice.ONE_EYEPIECE: "Then that one does for everything. Put it in.",
    Advice.WHAT_TO_BRING: (
        "Telescope, mount, tripod, the eyepiece with the largest number, and power. "
        "A compass and a bubble help; put on more than you think you need."
    ),
    Advice.EYE_HURT: (
        "Cap everything and rest your eyes: tonight's observing is over. "
        "A spot, a blur or pain is for a doctor at once, even if it doesn't hurt yet."
    ),
    Advice.HURT: (
        "Leave the telescope, sit or lie where you are safe, and keep warm. "
        "For more than a bruise ring somebody, or the emergency number: nothing here can't wait."
    ),
    Advice.UNWELL: ("Sit down away from the tripod, and get warm. If it doesn't pass soon, ring somebody, or the emergency number."),
    Advice.NUMB: "Warm them before you go on: under your arms, or indoors. Numb fingers drop things, and don't feel frozen metal.",
    Advice.THUNDER: (
        "Leave it standing and go into a house or a closed car now: lightning takes metal on open ground. "
        "Come out half an hour after the last thunder."
    ),
    Advice.SMOKE: (
        "With dry hands, pull the plug at the battery or the wall; if you can't, keep everybody away. "
        "Don't power it again tonight: have it looked at."
    ),
    Advice.TRAPPED: ("Pull the power first. Then have the tube held, loosen its clamp, and turn it back by hand."),
    Advice.TRIPOD_TIPS: (
        "Hold the tube with both arms if it leans; once it falls, step back. Then legs wide and short, and the heaviest thing low."
    ),
    Advice.LASER: (
        "Only where law and place allow it, and never near an aircraft, a road or a face. You don't need one: I say where to look."
    ),
    Advice.SOLAR_FILTER: (
        "It goes over the front, whole, made for this tube, the finder capped; one at the eyepiece can crack. "
        "I lead nobody to the Sun: learn that from somebody who does it."
    ),
    Advice.ADD_OR_SUBTRACT: (
        "Neither: my number has the correction in it, and it is what an ordinary compass shows there. "
        "If yours is corrected already, say: it shows true north."
    ),
    Advice.COMPASS_NORTH: (
        "Not yet, then: a compass's own north isn't true north. Turn until it shows the number I gave, and point the tube there."
    ),
    Advice.ALLOWED: "I can't know: ask whose ground it is, and keep to the rules of the place. If you're told to go, say let's pack up.",
    Advice.UNEASY: "Then go where you feel safe, indoors or into the car: nothing here can't wait. Say hang on, and I keep our place.",
    Advice.WHICH_LEG: "The bubble runs to the high side: make the leg on that side a little shorter. Small steps, and look again.",
}


TOLD_BY_TOUCH: Mapping[Advice, str] = {
    Advice.NO_BUBBLE: ("A phone that talks can tell you its slope: lay it flat on the plate. A level with a raised mark will do, too."),
    Advice.SCREEN: (
        "No screen need be read: I say it all, and somebody, or a phone, can read you the handset's display. "
        "If anybody comes, say: someone looks for me."
    ),
    Advice.HOW_LEVEL: "A phone that says its slope: one degree or less is enough. By a raised mark, when it lies between its two ridges.",
    Advice.KICKED: "First try the base by the phone or the raised mark. If it moved, say start again from level.",
    Advice.NOT_TURNING: "Some wait for the key that confirms: have the display read. If it stays still, say give me another.",
    Advice.SLOPE: "Let one leg point downhill and make it the longest. Level it by phone or raised mark, and try that it can't tip.",
    Advice.SOFT_GROUND: "Press each leg in, or put a flat stone or board under it. Try the level again after half an hour.",
    Advice.STUCK: "Force nothing. Go back a little, feel for what is in the way, and try again straight.",
    Advice.WHAT_TO_BRING: (
        "Telescope, mount, tripod, the largest eyepiece, and power. "
        "A phone or a compass that talks helps, and a cord; put on more than you think you need."
    ),
    Advice.WHICH_LEG: "Make the leg on the low side a little longer. Small steps, and try the level again.",
    Advice.NO_COMPASS: (
        "A phone that talks can be one, away from metal. Or take a wall or a street whose direction you know, and lay the tube by it."
    ),
}
"""Where the usual advice needs a good eye, and nobody looks."""


def advised(scene: Scene, *, about: Advice) -> str:
    """Say what helps."""
    by_touch = scene.sight is not None and scene.eyes is None
    return (TOLD_BY_TOUCH.get(about) if by_touch else None) or TOLD[about]


ADVICE = Chapter({Advised: advised})
