"""The tables of a division: its steps, its places, and putting it back together; what is right in each cell."""

import re
from functools import partial

from generator.engine.dealing import Action, Step
from generator.engine.sharing import Sharing
from tests.site.numbers_facts import On, Parts, Rule, about, dealt_at, pieces, served
from tests.site.numbers_words import ONE_FOR_EACH, PLACE, N, Right
from tests.site.page_text import PLACES, Block

_TWO_TRAYS = rf"(?P<ahead>{N}) (?:has|have) (?P<first>{N}) (?P<behind>{N}) (?:has|have) (?P<others>{N})"


def cell_rules(block: Block, sharing: Sharing) -> tuple[Rule, ...]:
    """The rules for a cell of a table that has rules of its own; none for any other text."""
    if block.caption.endswith("step by step"):
        return _step_rules(block, sharing)
    if block.caption.lower().endswith("place by place"):
        return _place_rules(block, sharing)
    if block.caption.startswith("From the trays back to"):
        return _back_together_rules(block, sharing)
    if block.label.startswith("Out of the bank at most > "):
        return (_is("pieces", sharing.pieces_needed.at(_place_worth(block.label))),)
    return ()


def _step_rules(block: Block, sharing: Sharing) -> tuple[Rule, ...]:
    numbered = re.match(rf"({N})\. ", block.row)
    steps = [step for step in sharing.steps if step.action is not Action.GO_ON]
    if not numbered or not 1 <= int(numbered[1]) <= len(steps):
        return ()
    step = steps[int(numbered[1]) - 1]
    side, _, worth = block.label.partition(" > ")
    is_set_aside = step.action is Action.SET_ASIDE
    if side == "Still to share":
        return (_is("steps", 0 if is_set_aside else sharing.to_share(step.after)),)
    if side == "In the middle":
        return (_is("steps", 0 if is_set_aside else step.after.middle[_place_worth(worth)]),)
    if side.startswith("The bank so far"):
        return (_is("steps", sharing.bank(step.after)[_place_worth(worth)]),)
    if tray := re.fullmatch(rf"Each tray|Tray for ({N})", side):
        return _tray_rules(sharing, step, int(tray[1] or 1))
    numbered_step = rf"(?P<at>{N})\. "
    at: Parts = {"at": lambda _: steps.index(step) + 1}
    return tuple(
        about("steps", numbered_step + pattern, **at, **more) for pattern, more in _hands(sharing, step).items()
    )


def _hands(sharing: Sharing, step: Step) -> dict[str, Parts]:
    """What the hands do in a step: the words after its number, and what is right in them."""
    match step.action:
        case Action.DEAL if sharing.ribbons:
            return {f"Give {ONE_FOR_EACH}": {"so": lambda on: served(on) == dealt_at(sharing, step.place)}}
        case Action.DEAL:
            return {f"Give one (?P<place>{PLACE}) to each": {"place": lambda _: {step.place}}}
        case Action.START:
            ahead: Parts = {"ahead": lambda _: step.after.ahead, "all": lambda _: sharing.sharers}
            return {f"Start a round: it reaches only (?P<ahead>{N}) of the (?P<all>{N}) trays": ahead}
        case Action.EXCHANGE:
            sent: Parts = {"sent": lambda _: {step.place}, "back": lambda _: {step.place - 1}}
            return {f"Exchange one (?P<sent>{PLACE}) for ten (?P<back>{PLACE})": sent}
    return {".*": {}}


def _place_worth(text: str) -> int:
    """The place of a power of ten as a column head writes it: 1,000 is 3."""
    return len(re.findall(r"\d", text)) - 1


def _tray_rules(sharing: Sharing, step: Step, stands_for: int) -> tuple[Rule, ...]:
    trays = [tray for tray in sharing.trays(step.after) if tray.stands_for == stands_for]
    if len(trays) == 1:
        return (_is("steps", trays[0].holds.value),)
    return (
        about(
            "steps",
            _TWO_TRAYS,
            ahead=lambda _: trays[0].sharers,
            first=lambda _: trays[0].holds.value,
            behind=lambda _: trays[1].sharers,
            others=lambda _: trays[1].holds.value,
        ),
    )


def _place_rules(block: Block, sharing: Sharing) -> tuple[Rule, ...]:
    side, _, worth = block.label.partition(" > ")
    if block.row == "left over" and worth:
        return (_is("places", sharing.end.middle.at(_place_worth(worth))),)
    stage = next((stage for stage in sharing.stages if stage.level == PLACES.get(block.row)), None)
    if stage is None:
        return ()
    if worth:
        middle = {"In the middle": stage.start, "Then in the middle": stage.end}
        return (_is("places", middle[side].at(_place_worth(worth))),)
    right: dict[str, Right] = {
        "In the middle": pieces(stage.start),
        "Each gets": stage.rounds,
        "For one": stage.rounds,
        "The answer": stage.rounds,
        "To the bank": pieces(stage.exchanged),
        "Then in the middle": pieces(stage.end),
    }
    return (_is("places", right[block.label]),) if block.label in right else ()


def _back_together_rules(block: Block, sharing: Sharing) -> tuple[Rule, ...]:
    """From the units up: what lies on the trays and apart, with what comes up, is the digit of the number."""
    if block.row not in PLACES:
        return ()
    place = PLACES[block.row]
    apart = sharing.end.middle
    together = up = brought = 0
    for at in range(place + 1):
        brought = up
        together = _on_trays(sharing, at) + apart[at] + brought
        up = together // 10
    if block.label == "Stays":
        return (_is("back together", together % 10),)
    if block.label == "Changed up":
        pattern = rf"(?P<ten>{N}) for (?P<one>{N} {PLACE})" if up else "(?P<none>nothing)"
        right: Parts = {"ten": lambda _: 10 * up, "one": lambda _: {place + 1: up}} if up else {"none": lambda _: 0}
        return (about("back together", pattern, **right),)
    parts = {"on the trays": _on_trays(sharing, place), "kept apart": apart[place], "changed up": brought}
    there = {name: pieces for name, pieces in parts.items() if pieces}
    named = {name.replace(" ", "_"): pieces for name, pieces in there.items()}
    pattern = r" \+ ".join(rf"(?P<{name.replace(' ', '_')}>{N}) {name}" for name in there) or "(?P<none>nothing)"
    rights: Parts = {name: partial(_always, pieces) for name, pieces in named.items()} or {"none": lambda _: 0}
    if len(there) > 1:
        pattern, rights = rf"{pattern} = (?P<sum>{N})", {**rights, "sum": lambda _: together}
    return (about("back together", pattern, **rights),)


def _always(right: Right, _: On) -> Right:
    return right


def _digit(number: int, place: int) -> int:
    return int(str(number)[-1 - place]) if place < len(str(number)) else 0


def _on_trays(sharing: Sharing, place: int) -> int:
    """A sharer who stands for 10^w holds the share w places larger."""
    widths = range(min(place + 1, len(sharing.mat)))
    return sum(sharing.mat[width] * _digit(sharing.quotient, place - width) for width in widths)


def _is(kind: str, right: Right) -> Rule:
    return about(kind, "(?P<n>.+)", n=lambda _: right)
