"""What the figures of a sharing must hold, from the engine's state alone."""

from collections.abc import Mapping

from generator.engine.places import UNITS, place_name
from generator.engine.sharing import Sharing, Stage


def in_group(group: str, look: str, counts: Mapping[int, int]) -> dict[str, int]:
    return {f"{group}-{place_name(place)}-{look}": count for place, count in counts.items() if count}


def on_trays(sharing: Sharing, stage: Stage) -> dict[str, int]:
    """What a stage has added is full, all else on the trays is light."""
    expected: dict[str, int] = {}
    number = 0
    for tray in sharing.trays(stage.after):
        new = stage.level + len(str(tray.stands_for)) - 1
        for _ in range(tray.sharers):
            number += 1
            holds = dict(enumerate(tray.holds))
            fresh = {new: stage.rounds if new in holds else 0}
            holds[new] = holds.get(new, 0) - fresh[new]
            expected |= in_group(f"tray-{number}", "full", fresh) | in_group(f"tray-{number}", "light", holds)
    assert number == sharing.sharers
    return expected


def assert_middle(counted: Mapping[str, int], stage: Stage, last: bool) -> None:
    """In the middle lies what the engine says, and what has gone is dotted; at the end all of it is in the dish."""
    for place, (start, end) in enumerate(zip(stage.start, stage.end, strict=True)):
        full, light, dotted, left = (
            counted.get(f"{group}-{place_name(place)}-{look}", 0)
            for group, look in (("middle", "full"), ("middle", "light"), ("middle", "dotted"), ("left", "full"))
        )
        came = 10 * stage.exchanged.at(place + 1)
        assert full + light + left == end
        assert dotted == start + came - end
        assert left == (end if last else 0)
        assert light <= start
        assert full <= came


def assert_stage(counted: Mapping[str, int], sharing: Sharing, stage: Stage) -> None:
    assert_middle(counted, stage, stage.level == UNITS and not stage.goes_on)
    exchanged = dict(enumerate(stage.exchanged))
    come = {place - 1: 10 * count for place, count in exchanged.items()}
    rest = {key: count for key, count in counted.items() if not key.startswith(("middle", "left"))}
    assert rest == (
        on_trays(sharing, stage) | in_group("to-bank", "full", exchanged) | in_group("from-bank", "dotted", come)
    )


def laid_out(sharing: Sharing) -> dict[str, int]:
    """The number in the middle, and at the bank what it will have to give."""
    start = dict(enumerate(sharing.start))
    ready = {place: sharing.pieces_needed[place] - count for place, count in start.items()}
    return in_group("middle", "full", start) | in_group("ready", "light", ready)


def left_over(sharing: Sharing) -> dict[str, int]:
    return in_group("left", "full", dict(enumerate(sharing.end.middle)))


def at_the_end(sharing: Sharing) -> dict[str, int]:
    """Every tray full, what is left over apart; where nothing was exchanged, dotted what was given."""
    full: dict[str, int] = {}
    trays = [tray.holds for tray in sharing.trays(sharing.end) for _ in range(tray.sharers)]
    for number, holds in enumerate(trays, start=1):
        full |= in_group(f"tray-{number}", "full", dict(enumerate(holds)))
    given = zip(sharing.start, sharing.end.middle, strict=True)
    gone = {} if sharing.exchanges else {place: start - left for place, (start, left) in enumerate(given)}
    return full | left_over(sharing) | in_group("middle", "dotted", gone)
