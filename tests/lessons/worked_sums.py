"""The sums that worked answers print: the numbers left of a sign of equality give the number right of it."""

import re
from itertools import pairwise

UNITS = (
    "°C", "°", "US gal", "gal", "lb-in", "kg-mm", "kg-cm", "kg-m", "lb", "kg", "mL", "L", "qt", "g", "kJ", "MJ", "kWh",
    "Wh", "Ah", "mm²", "mm", "cm", "in", "mΩ", "Ω", "W", "V", "A", "N·m", "rpm", "h", "min", "nights", "%",
)  # fmt: skip
UNIT = re.compile(rf"(?<=[\d)]) ?(?:{'|'.join(UNITS)})(?![A-Za-z])(?:/h|/US gal|/L)?")
NUMBER = r"[−(]*√?\d[\d,]*(?:\.\d+)?\)*"
SUM = re.compile(rf"{NUMBER}(?: [×÷+−] {NUMBER})+$")


def equations(line):
    """Each sum in a line as (what is printed left of the sign of equality, its value, the number printed right)."""
    for left, right in pairwise(UNIT.sub("", line).split(" = ")):
        printed, result = SUM.search(left), re.match(r"−?[\d,]*\d(?:\.\d+)?", right)
        if printed and result:
            python = printed[0].replace(",", "").replace("×", "*").replace("÷", "/").replace("−", "-")
            python = re.sub(r"√([\d.]+)", r"\1**0.5", python)
            yield printed[0], eval(python, {"__builtins__": {}}), result[0].replace(",", "").replace("−", "-")


def holds(value, printed):
    """Whether a value, rounded to as many digits as are printed, is what is printed."""
    return abs(value - float(printed)) <= 0.5 * 10.0 ** -len(printed.partition(".")[2]) + 1e-9


def keys_of_sums(papers):
    """Keys of the questions whose worked answers print sums, once each of them has been seen to hold."""
    seen = set()
    for asked in papers:
        for q in asked.questions:
            for line in q.worked:
                for printed, value, result in equations(line):
                    assert holds(value, result), (asked.student, q.key, printed, value, result)
                    seen.add(q.key)
    return seen


def results(question):
    """The numbers that a question's worked sums come to, as printed, in order."""
    return [result for line in question.worked for _, _, result in equations(line)]
