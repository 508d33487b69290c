"""Aircraft files: reading them, with every mistake named at once, and the invented demo aircraft."""

from functools import cache
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from walkaround.aircraft.in_units import shown
from walkaround.aircraft.schema import Aircraft, cross_problems
from walkaround.aircraft.toml_file import AircraftFileError, checked, content
from walkaround.checks import short

DEMO_FOLDER = Path(__file__).parent


def read(path):
    """Read an aircraft file (TOML) and return an `Aircraft`, or raise AircraftFileError naming every mistake.

    >>> read(DEMO_FOLDER / "morrowlark_four.toml").units.weight
    'lb'
    """
    return check(content(path), Path(path).name)


def check(data, file_name):
    """Check the content of an aircraft file, a dict as tomllib gives it; returns and raises as `read`."""
    aircraft, problems = checked(Aircraft, data, file_name)
    for key, value, allowed in [*_names_twice(data), *cross_problems(_sound_parts(data))]:
        problems.append(f"{file_name}: {key} is {short(value)}; allowed: {allowed}")
    if problems:
        raise AircraftFileError(problems)
    return aircraft


def demo_names():
    """File names of the demo aircraft without their ending, sorted.

    >>> demo_names()
    ['morrowlark_four', 'tansy_two']
    """
    return sorted(p.stem for p in DEMO_FOLDER.glob("*.toml") if "[empty]" in p.read_text(encoding="utf-8"))


@cache
def demo(name):
    """Return a demo aircraft by its file name without ending, or raise ValueError listing those there are."""
    if name not in demo_names():
        raise ValueError(f"demo aircraft {name!r} is not there; allowed: {', '.join(demo_names())}")
    return read(DEMO_FOLDER / f"{name}.toml")


def with_sections(name, *sections):
    """Return the aircraft of a demo name or of a file's path, in the units that things are shown in.

    Raises ValueError if an optional section is missing.

    >>> with_sections("tansy_two", "speeds").name
    'Tansy Two'
    """
    aircraft = demo(name) if name in demo_names() else read(name)
    for section in sections:
        if getattr(aircraft, section) is None:
            raise ValueError(f"the file of {aircraft.name} has no section [{section}]; this needs it")
    return shown(aircraft)


def _sound_parts(data):
    # A mistake in one section must not hide those between two others, so each is judged by itself.
    parts = {}
    for name, field in Aircraft.model_fields.items():
        if name in data:
            try:
                adapter = TypeAdapter(field.rebuild_annotation())
                parts[name] = adapter.validate_python(data[name])
            except ValidationError:
                continue
    return parts


def _names_twice(data):
    # On the bare data, so that a mistake in one item does not hide two items of one name.
    fuel = data.get("fuel")
    lists = {
        "stations": data.get("stations"),
        "envelopes": data.get("envelopes"),
        "fuel.tanks": fuel.get("tanks") if isinstance(fuel, dict) else None,
    }
    for key, items in lists.items():
        seen = set()
        for i, item in enumerate(items if isinstance(items, list) else []):
            name = item.get("name") if isinstance(item, dict) else None
            if isinstance(name, str) and name.casefold() in seen:
                yield f"{key}[{i}].name", name, "each name once; an item above has this one already"
            elif isinstance(name, str):
                seen.add(name.casefold())
