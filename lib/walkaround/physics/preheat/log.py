"""A thermometer log: how warm engine, outside and heater air were at each reading, from a CSV file.

The first line names the columns, in any order; every line after it is one reading. Temperatures are in °C (`oil_c`) or
°F (`oil_f`):

    minutes     time of the reading, from any zero, rising
    oil_c       oil in the sump
    metal_c     crankcase
    cylinders_c a cylinder, if the engine's cylinders are treated separately
    outside_c   the air outside
    air_c       the heater's air where it enters the cowl, if a heater ran
    heater      on or off, from this reading to the next; left out: on throughout if there is an air column
    note        anything; not read

Columns are separated by commas, semicolons or tabs; with the last two, numbers may have a decimal comma. Empty lines
and lines that begin with # are skipped. Only the air may be left empty, where the heater is off.
"""

import csv
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from walkaround import checks
from walkaround.units import celsius

PARTS = ("metal", "oil", "cylinders")
_MEASURED = (*PARTS, "outside", "air")
_KNOWN = ("minutes", "heater", "note", *(f"{m}_{s}" for m in _MEASURED for s in "cf"))
_ON, _OFF = ("on", "1", "yes", "true"), ("off", "0", "no", "false")
_COLDEST_C, _WARMEST_C = -90.0, 300.0
_LONGEST = 20_000


@dataclass(frozen=True)
class Log:
    """A thermometer log: arrays with one value for each reading; temperatures in °C.

    `parts_c` is a dict of the parts that were measured; `air_c` is NaN where the heater was off.

    >>> log_from_text("minutes,oil_f,metal_f,outside_f\\n0,50,41,14\\n10,48.2,39.2,14").outside_c
    array([-10., -10.])
    """

    name: str
    minutes: np.ndarray
    parts_c: dict
    outside_c: np.ndarray
    air_c: np.ndarray
    heater_on: np.ndarray


def read_log(path):
    """Read a thermometer log from a CSV file: a `Log`. Raises ValueError naming the line and the column of a mistake.

    >>> read_log("nowhere.csv")
    Traceback (most recent call last):
    ...
    ValueError: nowhere.csv: there is no such file in .
    """
    path = Path(path)
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise ValueError(f"{path.name}: there is no such file in {path.parent}") from None
    except UnicodeDecodeError:
        raise ValueError(f"{path.name} is not UTF-8 text; save it as CSV with UTF-8") from None
    return log_from_text(text, path.name)


def log_from_text(text, name="log"):
    """Read a thermometer log from the text of a CSV file: a `Log`. Raises ValueError as `read_log` does.

    >>> log_from_text("minutes;oil_c;metal_c;outside_c\\n0;-5,5;-6;-8\\n10;-6,1;-7;-8").parts_c["oil"]
    array([-5.5, -6.1])
    """
    lines = [(i, line) for i, line in enumerate(text.splitlines(), 1) if line.strip() and not line.startswith("#")]
    if not lines:
        raise ValueError(f"{name}: nothing in it; allowed: a line of column names, then a line for each reading")
    if len(lines) > _LONGEST:
        raise ValueError(f"{name}: {len(lines) - 1} readings; allowed: up to {_LONGEST}")
    number, header = lines[0]
    divider = max(",;\t", key=header.count)
    columns = [c.strip().casefold() for c in next(csv.reader([header], delimiter=divider))]
    _check_columns(f"{name}: line {number}", columns)
    cells = {column: [] for column in columns}
    for number, line in lines[1:]:
        row = [cell.strip() for cell in next(csv.reader([line], delimiter=divider))]
        if len(row) != len(columns):
            raise ValueError(
                f"{name}: line {number} has {len(row)} columns; allowed: {len(columns)}, as line {lines[0][0]} has"
            )
        for column, cell in zip(columns, row, strict=True):
            cells[column].append((f"{name}: line {number}, column {column}", cell))
    return _log(name, cells, divider != ",")


def _check_columns(place, columns):
    unknown = [c for c in columns if c not in _KNOWN]
    if unknown:
        raise ValueError(f"{place}: column {unknown[0]!r} is not known; allowed: {', '.join(_KNOWN)}")
    for wanted in ("minutes", "oil", "metal", "outside"):
        found = [c for c in columns if c == wanted or c in (f"{wanted}_c", f"{wanted}_f")]
        if not found:
            says = wanted if wanted == "minutes" else f"{wanted}_c or {wanted}_f"
            raise ValueError(f"{place}: column {says} is missing; there are: {', '.join(columns)}")
    for measured in (*_MEASURED, "minutes", "heater"):
        found = [c for c in columns if c == measured or c[:-2] == measured]
        if len(found) > 1:
            raise ValueError(f"{place}: columns {found[0]} and {found[1]}; allowed: one column for {measured}")


def _log(name, cells, decimal_comma):
    on = np.array([_on_or_off(*cell) for cell in cells["heater"]]) if "heater" in cells else None
    read = {}
    for column, column_cells in cells.items():
        if column in ("heater", "note"):
            continue
        measured = column if column == "minutes" else column[:-2]
        may_be_empty = measured == "air" and on is not None
        values = [
            np.nan if may_be_empty and not cell and not on[i] else _number(place, cell, decimal_comma)
            for i, (place, cell) in enumerate(column_cells)
        ]
        if column != "minutes":
            values = celsius(values) if column.endswith("_f") else np.asarray(values)
            for (place, cell), value in zip(column_cells, values, strict=True):
                in_range = checks.at_least(value, _COLDEST_C) & checks.at_most(value, _WARMEST_C)
                if not np.isnan(value) and not in_range:
                    raise ValueError(f"{place} is {cell}; allowed: −90 to 300 °C")
        read[measured] = np.asarray(values, dtype=float)
    minutes = read["minutes"]
    for i in np.flatnonzero(np.diff(minutes) <= 0)[:1]:
        raise ValueError(
            f"{cells['minutes'][i + 1][0]} is {minutes[i + 1]:g}, after {minutes[i]:g}; allowed: later than that"
        )
    has_air = "air" in read
    if on is None:
        on = np.full(minutes.shape, has_air)
    if on.any() and not has_air:
        raise ValueError(
            f"{name}: the heater is on, but there is no column air_c or air_f; allowed: the heater's air in one"
        )
    return Log(
        name=name,
        minutes=minutes,
        parts_c={part: read[part] for part in PARTS if part in read},
        outside_c=read["outside"],
        air_c=read["air"] if has_air else np.full(minutes.shape, np.nan),
        heater_on=on,
    )


def _on_or_off(place, cell):
    if cell.casefold() in _ON:
        return True
    if cell.casefold() in _OFF:
        return False
    raise ValueError(f"{place} is {cell!r}; allowed: on or off")


def _number(place, cell, decimal_comma):
    if not cell:
        raise ValueError(f"{place} is empty; allowed: a number in every line")
    text = cell.replace("−", "-")
    if decimal_comma and "." not in text:
        text = text.replace(",", ".")
    try:
        value = float(text)
    except ValueError:
        value = np.nan
    if not np.isfinite(value):
        raise ValueError(f"{place} is {cell!r}; allowed: a number")
    return value
