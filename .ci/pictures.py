"""Make README's pictures again, from the workbook itself, in .ci/pictures:

    python .ci/pictures.py

tests/browser/test_pictures.py makes them too and compares them with those that are stored.
"""

import io
import sys
import tempfile
from pathlib import Path

from PIL import Image
from walkaround.assessment.questions import paper
from walkaround.classroom import demo_course, results
from walkaround.classroom.course import read_course
from walkaround.lessons.table import find

sys.path.append(str(Path(__file__).parents[1] / "tests" / "browser"))
from lab_in_chromium import FLAGS, Lab, chromium, open_in_its_place, wait_for_kernel

FOLDER = Path(__file__).parent / "pictures"
WINDOW = {"width": 1280, "height": 860}
MARGIN = 6


def demonstration(page, _folder):
    """The instruments just after take-off, with the pitot cover left on."""
    open_in_its_place(page, "notebooks/03-pitot_static.ipynb")
    page.wait_for_selector(".wa-stage[data-frames]")
    wait_for_kernel(page)
    page.evaluate("window.jupyterapp.shell.collapseLeft()")
    return in_setting(page, "pitot cover left on, just airborne")


def in_setting(page, preset):
    """The demonstration that is open, in another ready-made setting."""
    stage = page.locator(".wa-stage").first
    before = stage.locator(".wa-sentence").inner_text()
    stage.get_by_label("ready-made").select_option(preset)
    says = "before => document.querySelector('.wa-stage .wa-sentence').innerText !== before"
    page.wait_for_function(says, arg=before)
    return part(page, stage, 1112, 612)


def exercise(page, _folder, key="shift"):
    """A question with a wrong answer, which is told what went wrong."""
    open_in_its_place(page, "exercises/01-loading.ipynb")
    page.evaluate("window.jupyterapp.shell.collapseLeft()")
    page.get_by_label("Your name").fill("Marta Kovalenko")
    page.keyboard.press("Enter")
    questions = paper(find("loading").questions, "Marta Kovalenko").questions
    number, question = next((i, q) for i, q in enumerate(questions) if q.key == key)
    page.get_by_label("question", exact=True).first.select_option(str(number))
    box = page.locator(".wa-answer", has_text=question.text)
    box.get_by_label("Your answer").fill(f"{question.wrong_turns[1].answer:.1f}")
    page.keyboard.press("Enter")
    box.get_by_text(question.wrong_turns[1].says).wait_for()
    return part(page, page.locator(".wa-who"), 730, 650)


def class_report(page, folder):
    """What a class found hard, question by question."""
    course = read_course(demo_course.make(folder / "course"))
    results.mark_and_write(course)
    report = page.context.new_page()
    report.goto((course.results / "class-report.html").as_uri())
    made = part(report, report.get_by_role("heading", name="How hard each question was").first, 1012, 572)
    report.close()
    return made


PICTURES = {"demonstration": demonstration, "exercise": exercise, "class-report": class_report}


def part(page, top, width, height):
    """Return a picture of a part of the window that begins at an element, once nothing moves there."""
    top.evaluate(
        """async top => {
            top.style.scrollMarginTop = '6px';
            for (let last = '', same = 0; same < 30; ) {
                // A page that has just run is held where it stood, until someone points at it.
                top.closest('.jp-WindowedPanel-outer')?.dispatchEvent(new Event('mousedown'));
                top.scrollIntoView();
                await new Promise(requestAnimationFrame);
                const now = document.body.innerText + top.dataset.frames + JSON.stringify(top.getBoundingClientRect());
                same = now === last ? same + 1 : 0;
                last = now;
            }
        }"""
    )
    box = top.bounding_box()
    place = {"x": box["x"] - MARGIN, "y": box["y"] - MARGIN, "width": width, "height": height}
    shot = Image.open(io.BytesIO(page.screenshot(clip=place)))
    return shot.convert("RGB").quantize(256, kmeans=2, dither=Image.Dither.NONE)


def main():
    """Make all of them."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        lab = Lab(Path(folder))
        try:
            page = play.chromium.launch(executable_path=chromium(), args=FLAGS).new_context(viewport=WINDOW).new_page()
            page.goto(lab.url("").replace("/tree/", ""))
            page.wait_for_function("window.jupyterapp?.shell.restored")
            for name, make in PICTURES.items():
                path = FOLDER / f"{name}.png"
                make(page, Path(folder)).save(path, optimize=True)
                print(f"{path}: {path.stat().st_size // 1000} kB")
        finally:
            lab.stop()


if __name__ == "__main__":
    main()
