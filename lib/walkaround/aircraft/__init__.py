"""Aircraft files: reading them, with every mistake named at once, and the invented demo aircraft."""

import tomllib
from functools import cache
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from walkaround.aircraft.schema import Aircraft, cross_problems

DEMO_FOLDER = Path(__file__).parent


class AircraftFileError(ValueError):
    """An aircraft file can't be used; `problems` has a line for each mistake: file, key, value, what is allowed."""

    def __init__(self, problems):
        self.problems = tuple(problems)
        super().__init__("\n".join(self.problems))


def read(path):
    """Read an aircraft file (TOML) and return an `Aircraft`, or raise AircraftFileError naming every mistake.

    >>> read(DEMO_FOLDER / "morrowlark_four.toml").units.weight
    'lb'
    """
    return check(content(path), Path(path).name)


def content(path):
    """Content of a TOML file as a dict, or AircraftFileError that names the file and what is wrong with it."""
    path = Path(path)
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise AircraftFileError([f"{path.name}: there is no such file in {path.parent}"]) from None
    except OSError as error:
        raise AircraftFileError([f"{path.name}: can't be read: {error.strerror}"]) from None
    except UnicodeDecodeError as error:
        raise AircraftFileError([f"{path.name}: byte {error.start} is not UTF-8; save the file as UTF-8"]) from None
    except tomllib.TOMLDecodeError as error:
        raise AircraftFileError([f"{path.name}: not TOML: {error}"]) from None


def check(data, file_name):
    """Check the content of an aircraft file, a dict as tomllib gives it; returns and raises as `read`."""
    try:
        aircraft, problems = Aircraft.model_validate(data), []
    except ValidationError as error:
        aircraft, problems = None, [_line(file_name, e) for e in error.errors()]
    for key, value, allowed in [*_names_twice(data), *cross_problems(_sound_parts(data))]:
        problems.append(f"{file_name}: {key} is {_short(value)}; allowed: {allowed}")
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
    """Return the aircraft of a demo name or of a file's path, or raise ValueError if an optional section is missing.

    >>> with_sections("tansy_two", "speeds").name
    'Tansy Two'
    """
    aircraft = demo(name) if name in demo_names() else read(name)
    for section in sections:
        if getattr(aircraft, section) is None:
            raise ValueError(f"the file of {aircraft.name} has no section [{section}]; this needs it")
    return aircraft


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
                yield f"{key}[{i}].name", name, "each name once; this one stands above already"
            elif isinstance(name, str):
                seen.add(name.casefold())


def _line(file_name, error):
    key = ""
    for part in error["loc"]:
        key += f"[{part}]" if isinstance(part, int) else f".{part}" if key else str(part)
    kind, context = error["type"], error.get("ctx", {})
    if kind == "missing":
        return f"{file_name}: {key} is missing; allowed: {_wanted(error['loc'])}"
    if kind == "extra_forbidden":
        return f"{file_name}: {key} is {_short(error['input'])}; allowed: no such key here ({_known(error['loc'])})"
    if kind == "value_error":
        return f"{file_name}: {key}: {context['error']}"
    if kind == "literal_error":
        return f"{file_name}: {key} is {_short(error['input'])}; allowed: {context['expected']}"
    bound = {"greater_than": "gt", "greater_than_equal": "ge"}.get(kind)
    allowed = (
        f"{'more than' if bound == 'gt' else 'at least'} {context[bound]:g}"
        if bound
        else error["msg"].removeprefix("Input should be ").removeprefix("a valid ").split(", unable")[0]
    )
    return f"{file_name}: {key} is {_short(error['input'])}; allowed: {allowed}"


def _section_of(loc):
    """Return the model that holds the key at the end of `loc`."""
    model = Aircraft
    for part in loc[:-1]:
        if isinstance(part, str) and part in model.model_fields:
            model = _model_in(model.model_fields[part].annotation) or model
    return model


def _model_in(annotation):
    if hasattr(annotation, "model_fields"):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        if found := _model_in(inner):
            return found
    return None


def _known(loc):
    return "known: " + ", ".join(_section_of(loc).model_fields)


def _wanted(loc):
    field = _section_of(loc).model_fields.get(loc[-1])
    if field is None:
        return "a value"
    choices = getattr(field.annotation, "__args__", ())
    if choices and all(isinstance(c, str) for c in choices):
        return " or ".join(map(repr, choices))
    return {float: "a number", str: "a text", bool: "true or false"}.get(field.annotation, "this section or list")


def _short(value):
    text = repr(value)
    return text if len(text) <= 60 else text[:57] + "…"
