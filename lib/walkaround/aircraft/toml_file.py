"""Reading a TOML file as a model: a mistake is a line that names the file, the key, the value and what is allowed."""

import tomllib
from pathlib import Path

from pydantic import ValidationError

from walkaround.checks import short


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
