"""What stands on one page: the load sheet, filled in and blank, the warm-up table, and the list of the round."""

from pathlib import Path

from walkaround import aircraft, measures
from walkaround.classroom import to_pdf
from walkaround.classroom.load_figure import envelope_svg
from walkaround.classroom.marks_figure import same_letters, svg_of
from walkaround.classroom.pages import SHEETS, printed_page
from walkaround.exercises import pocket_list
from walkaround.exercises.own_folder import source
from walkaround.exercises.plan_view import PlanView
from walkaround.lessons import preheat
from walkaround.lessons.loading import demos
from walkaround.lessons.table import LESSONS
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.loading import basic_weight_and_moment, load_sheet
from walkaround.physics.loading.words import say as say_amount
from walkaround.physics.loading.words import sentence

AIRCRAFT, LOAD = "morrowlark_four", "two up, weekend bags"
NAMES = {"zero_fuel": "zero fuel", "take_off": "take-off"}


def print_all(folder, sheet="A4", progress=lambda what, done, total: None, units=None):
    """Print each of these pages into a folder; returns the paths written, raises as `to_pdf.write`.

    They are in a system of units, or in the one last chosen on a page.
    """
    with measures.shown_in(units):
        made = {
            "load-sheet": load_sheet_page(sheet=sheet),
            "load-sheet-blank": load_sheet_page(sheet=sheet, blank=True),
            "warm-up-table": warm_up_page(sheet=sheet),
            "round": round_page(sheet=sheet),
        }
    documents = [to_pdf.Document(Path(folder) / name, page) for name, page in made.items()]
    return to_pdf.write(documents, lambda done, total: progress("pages", done, total), tagged=True)


@in_chosen_units
def load_sheet_page(name=AIRCRAFT, sheet="A4", blank=False):
    """Return a load sheet as a page of HTML, as bytes: for a ready-made load, or blank to fill in by hand.

    `name` is a demo aircraft's, or the path of an aircraft file.
    """
    craft = aircraft.with_sections(name)
    values = demos.ready_made(craft, *demos.PRESETS[LOAD])
    stations = {s.name: values[s.name] for s in craft.stations}
    fuel = {t.name: values[t.name] for t in craft.fuel.tanks}
    flight = None if blank else load_sheet(craft, stations, fuel, 0.0, values["trip fuel"])
    return printed_page(
        f"Load sheet: {craft.name}",
        "load_sheet.html",
        sheet,
        left="Load sheet",
        right=craft.name,
        craft=craft,
        lines=_lines(craft, flight, stations, fuel, values["trip fuel"]),
        limits=_limits(craft),
        verdict=sentence(flight) if flight and flight.loadable else "",
        picture=envelope_svg(craft, flight),
        blank=blank,
    )


def _lines(craft, flight, stations, fuel, trip):
    """Rows of the load sheet, (name, weight, arm, moment, whether it is a sum), all texts; empty ones to fill in."""
    unit, density = craft.units, craft.fuel.density

    def number(value, of):
        return say_amount(value, of).removesuffix(f" {of}")

    def item(what, weight, arm, fixed=False):
        moment_unit = f"{unit.weight}-{unit.arm}"
        filled = (number(weight, unit.weight), number(weight * arm, moment_unit))
        weight_text, moment = filled if flight or fixed else ("", "")
        return what, weight_text, number(arm, unit.arm), moment, False

    def total(what, condition):
        if not flight:
            return what, "", "", "", True
        c = flight.condition(condition)
        moment_unit = f"{unit.weight}-{unit.arm}"
        return what, number(c.weight, unit.weight), number(c.cg, unit.arm), number(c.moment, moment_unit), True

    empty, moment = basic_weight_and_moment(craft)
    yield item("empty aircraft", empty, moment / empty, fixed=True)
    for s in craft.stations:
        yield item(f"{s.name} (at most {say_amount(s.maximum, unit.weight)})", stations[s.name], s.arm)
    yield total("zero fuel", "zero fuel")
    for t in craft.fuel.tanks:
        amount = f"{fuel[t.name]:g}" if flight else "____"
        yield item(f"{t.name}, {amount} {unit.volume} × {density:.3g} {unit.weight}", fuel[t.name] * density, t.arm)
    yield total("take-off", "take-off")
    if flight:
        before, after = flight.condition("take-off"), flight.condition("landing")
        burnt, moved = before.weight - after.weight, before.moment - after.moment
        arm = moved / burnt if burnt else craft.fuel.tanks[0].arm
        yield item(f"less fuel used in flight, {trip:g} {unit.volume}", burnt, arm)
    else:
        yield f"less fuel used in flight, ____ {unit.volume}", "", "", "", False
    yield total("landing", "landing")


def _limits(craft):
    """The weight limits in words."""
    for what in ("zero_fuel", "ramp", "take_off", "landing"):
        limit = getattr(craft.limits, what)
        if limit is not None:
            yield f"{NAMES.get(what, what)} {say_amount(limit, craft.units.weight)}"
    for c in craft.combined_limits:
        yield f"{' and '.join(c.holds)} together {say_amount(c.maximum, craft.units.weight)}"


def warm_up_page(name=AIRCRAFT, sheet="A4"):
    """Return the table of minutes until an engine is ready as a page of HTML, as bytes; the sheet lies across."""
    table = preheat.hangar_table(name)
    with same_letters():
        picture = svg_of(table.figure)
    return printed_page(
        table.title,
        "warm_up.html",
        sheet,
        left="Warm-up table",
        right="Walkaround workbook",
        across=True,
        picture=picture,
        says=repr(table),
    )


def round_page(name=AIRCRAFT, sheet="A4"):
    """Return the list of the round, stop by stop, as a page of HTML, as bytes."""
    if sheet not in SHEETS:
        raise ValueError(f"the sheet is {sheet!r}; allowed: {', '.join(SHEETS)}")
    craft = aircraft.with_sections(name, "dimensions")
    plan = PlanView(craft.dimensions, [lesson.place for lesson in LESSONS])
    drawing = plan.still([lesson.number for lesson in LESSONS])
    page = pocket_list.page(drawing, {}, "", source() / "notebooks")
    # The page's own script shrinks the letters until all fits. WeasyPrint runs none: small letters then, none cut off.
    without = "main{font-size:7pt;line-height:1.12;height:auto;overflow:visible;column-fill:balance}"
    own = f"</style><style>@page{{size:{sheet}}}</style><noscript><style>{without}</style></noscript>"
    return page.replace("</style>", own, 1).encode("utf-8")
