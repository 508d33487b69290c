"""A round played through by keyboard, in JupyterLab: looked at, judged, handed in, and gone through again."""

from stage_on_page import StageOnPage
from walkaround.lessons.round.rounds import by_number
from walkaround.lessons.round.things import AS_IT_SHOULD_BE


def test_a_round_is_played_through_by_keyboard(opened):
    page = opened("notebooks/11-round.ipynb")
    played = by_number(1)
    game = StageOnPage(page)
    game.wait_until_it_says("Stop 1: the door pocket with the papers. What do you find?")
    misses = played.faults[-1]
    for stop in range(len(played.stops)):
        if stop:
            game.press("stop on the round", "ArrowRight")
        game.press("what to look at from this stop", "Home")
        for look, found in enumerate(played.at(stop)):
            if look:
                game.press("what to look at from this stop", "ArrowRight")
            game.wait_until_it_says(f"Stop {found.stop.number}: {found.thing.title}. What do you find?", spoken=False)
            finding = found.kind.name if found.kind and found is not misses else AS_IT_SHOULD_BE
            game.control("you find").focus()
            page.keyboard.type(finding)
            game.wait_until_it_says(f"You say: {finding}, 80 % sure.", spoken=False)
            if stop == look == 0:
                game.press("how sure you are, per cent", "End")
                game.wait_until_it_says("100 % sure.")
    before = game.picture
    game.press("hand in: show what was there", "Space")
    faults, things = len(played.faults), len(played.found)
    game.wait_until_it_says(f"The round: {faults - 1} of {faults} found, 1 missed, 0 imagined;")
    assert f"points of {things}" in game.words
    assert game.picture != before
    # Back to what was missed: it says what was there and what it would have done.
    game.press("stop on the round", "Home")
    game.press("stop on the round", "ArrowRight", played.stops.index(misses.stop))
    game.press("what to look at from this stop", "Home")
    game.press("what to look at from this stop", "ArrowRight", played.at(played.stops.index(misses.stop)).index(misses))
    game.wait_until_it_says(f"Missed: {misses.kind.name}. What shows it:")
    assert misses.kind.would(played.craft, played.day, misses.seen) in game.words
    # The next aircraft begins with nothing said.
    game.control("aircraft number").focus()
    page.keyboard.press("ArrowUp")
    game.wait_until_it_says("Judged so far: 0 of 24.")
