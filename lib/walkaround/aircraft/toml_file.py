"""Reading a TOML file as a model: a mistake is a line that names the file, the key, the value and what is allowed."""

import re
import tomllib
from pathlib import Path

from pydantic import ValidationError

from walkaround.checks import short

MOST_BYTES = 1_000_000
ALLOWED = 'name = "text in straight quotes", 0.5 (a point, no comma), true, [1, 2] or 2026-11-30T18:00:00+01:00'


class AircraftFileError(ValueError):
    """A file can't be used; `problems` has a line for each mistake: file, key, value, what is allowed."""

    def __init__(self, problems):
        self.problems = tuple(problems)
        super().__init__("\n".join(self.problems))


def read_as(model, path):
    """Read a TOML file as a model, or raise AircraftFileError naming every mistake."""
    found, problems = checked(model, content(path), Path(path).name)
    if problems:
        raise AircraftFileError(problems)
    return found


def content(path):
    """Content of a TOML file as a dict, or AircraftFileError that names the file, the line and what is wrong."""
    path = Path(path)
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise AircraftFileError([f"{path.name}: there is no such file in {path.parent}"]) from None
    except OSError as error:
        raise AircraftFileError([f"{path.name}: can't be read: {error.strerror}"]) from None
    if len(data) > MOST_BYTES:
        raise AircraftFileError([f"{path.name}: larger than {MOST_BYTES:,} bytes"])
    try:
        return tomllib.loads(data.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        why = f"byte {error.start} is not UTF-8; save the file as UTF-8"
    except tomllib.TOMLDecodeError as error:
        at, lines = re.search(r" \(at line (\d+), .*", str(error)), data.decode("utf-8-sig").splitlines()
        line = int(at[1]) if at else len(lines)
        bad = lines[line - 1].strip() if 0 < line <= len(lines) else ""
        bad = "" if "secret" in bad else f" in {short(bad)}"  # a secret is never shown, not even in a message
        why = f"not TOML: {str(error).split(' (at ')[0]}{bad}; allowed: {ALLOWED}"
    except RecursionError:
        line, why = 1, "nested too deep"
    raise AircraftFileError([f"{path.name}, line {line}: {why}"])


def checked(model, data, file_name):
    """The content of a file as a model, and a line for each mistake; None for the model if there are any."""
    try:
        return model.model_validate(data), []
    except ValidationError as error:
        return None, [f"{file_name}: {_problem(model, e)}" for e in error.errors()]


def _problem(model, error):
    key = ""
    for part in error["loc"]:
        key += f"[{part}]" if isinstance(part, int) else f".{part}" if key else str(part)
    kind, context = error["type"], error.get("ctx", {})
    section = _section_at(model, error["loc"])
    if kind == "missing":
        return f"{key} is missing; allowed: {_wanted(section, error['loc'][-1])}"
    if kind == "extra_forbidden":
        known = ", ".join(section.model_fields)
        return f"{key} is {short(error['input'])}; allowed: no such key here (known: {known})"
    if kind == "value_error":
        return f"{key}: {context['error']}" if key else str(context["error"])
    if kind == "literal_error":
        return f"{key} is {short(error['input'])}; allowed: {context['expected']}"
    if kind == "greater_than":
        allowed = f"more than {context['gt']:g}"
    elif kind == "greater_than_equal":
        allowed = f"at least {context['ge']:g}"
    else:
        allowed = error["msg"].removeprefix("Input should be ").removeprefix("a valid ").split(", unable")[0]
        allowed += ", with a decimal point and no quotes" * (kind == "float_parsing")
    return f"{key} is {short(error['input'])}; allowed: {allowed}"


def _section_at(model, loc):
    """The model that holds the key at the end of `loc`."""
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


def _wanted(section, key):
    field = section.model_fields.get(key)
    if field is None:
        return "a value"
    choices = getattr(field.annotation, "__args__", ())
    if choices and all(isinstance(c, str) for c in choices):
        return " or ".join(map(repr, choices))
    return {float: "a number", str: "a text", bool: "true or false"}.get(field.annotation, "this section or list")
