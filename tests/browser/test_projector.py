"""Demonstrations on pages of their own, as a class sees them: served by Voilà, nothing asked of the internet."""

import socket
import subprocess
import time
import urllib.request

import pytest
from stage_on_page import StageOnPage
from walkaround.classroom import projector

FIRST_PICTURE_S = 15.0  # on a busy machine; at rest it is two to three


@pytest.fixture(scope="module")
def served(browser, tmp_path_factory):
    pytest.importorskip("voila")
    folder = tmp_path_factory.mktemp("pages")
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    projector.write(folder)
    for file in folder.iterdir():  # a kernel is started for each lesson that stays
        if not file.name.startswith(("1-", "3-", projector.INDEX)):
            file.unlink()
    log = (folder.parent / "voila.log").open("w")
    process = subprocess.Popen(projector.command(folder, port, browser=False), stdout=log, stderr=subprocess.STDOUT)
    for _ in range(240):
        try:
            urllib.request.urlopen(f"http://127.0.0.1:{port}/", timeout=2).read()
            break
        except OSError:
            time.sleep(0.25)
    yield f"http://127.0.0.1:{port}/voila/render/"
    process.terminate()
    process.wait(20)


def test_links_lead_to_an_exercise_and_back_in_the_same_theme(browser, served):
    context = browser.new_context(viewport={"width": 1280, "height": 720})
    page = context.new_page()
    page.set_default_timeout(60_000)
    page.goto(served.replace("voila/render/", ""))  # what `walkaround show` opens
    page.get_by_role("heading", name="Demonstrations").wait_for()
    page.goto(f"{served}{projector.INDEX}?theme=dark")
    page.get_by_role("link", name="Load it and watch the balance").click()
    StageOnPage(page)
    page.get_by_role("link", name="Exercise: Weight and balance").click()
    page.get_by_label("Your name").fill("Class")
    page.keyboard.press("Enter")
    page.get_by_label("Your answer").fill("5")
    page.keyboard.press("Enter")
    page.get_by_text("2 tries left").wait_for()
    assert page.locator("body").get_attribute("data-jp-theme-light") == "false"
    page.get_by_role("link", name="What may still go into the holds").click()
    StageOnPage(page)
    page.get_by_role("link", name="All demonstrations").click()
    page.get_by_role("heading", name="Demonstrations").wait_for()
    context.close()


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_a_demonstration_has_a_page_of_its_own(browser, served, theme):
    context = browser.new_context(viewport={"width": 1280, "height": 720}, color_scheme=theme)
    page = context.new_page()
    page.set_default_timeout(60_000)
    outside = []
    page.on("request", lambda r: outside.append(r.url) if not r.url.startswith(("http://127.0.0.1", "data:", "blob:")) else None)  # fmt: skip
    page.goto(f"{served}{projector.INDEX}?theme={theme}")
    link = page.locator("a:has-text('Load it and watch the balance')")
    link.wait_for()
    begun = time.perf_counter()
    page.goto(f"{served}{link.get_attribute('href').split('/')[-1]}?theme={theme}")
    stage = StageOnPage(page)
    assert time.perf_counter() - begun < FIRST_PICTURE_S
    assert outside == []
    before = stage.picture
    stage.press("rear seats, lb", "ArrowRight", 4)
    stage.rest()
    assert stage.picture != before
    # A class predicts first: the answer is covered, and a key shows it.
    page.keyboard.press("r")
    assert not stage.root.locator(".wa-sentence").is_visible()
    assert stage.root.locator(".wa-curtain").is_visible()
    page.keyboard.press("r")
    assert stage.root.locator(".wa-sentence").is_visible()
    page.keyboard.press("f")
    page.wait_for_function("() => document.fullscreenElement?.classList.contains('wa-stage')")
    context.close()


def test_whoever_asks_for_less_motion_gets_a_still_picture_every_second(browser, served):
    context = browser.new_context(viewport={"width": 1280, "height": 720}, reduced_motion="reduce")
    page = context.new_page()
    page.set_default_timeout(60_000)
    page.goto(f"{served}3-pitot_static-flight.ipynb")
    stage = StageOnPage(page)
    stage.rest()
    before = int(stage.root.get_attribute("data-frames"))
    stage.control("moment of the flight, s").focus()
    page.keyboard.press("Space")
    page.wait_for_timeout(4200)
    page.keyboard.press("Space")
    assert 2 <= int(stage.root.get_attribute("data-frames")) - before <= 6
    context.close()
