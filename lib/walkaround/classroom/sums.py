"""A lesson's sums as they are written on paper: Python's arithmetic and what came of it, without its code."""

import ast
import html
import math
import re

_SIGNS = {ast.Add: (" + ", 1), ast.Sub: (" − ", 1), ast.Mult: (" × ", 2), ast.Div: (" / ", 2)}
_SILENT = {"round", "float", "degrees"}  # what they do to a number is no step of the sum
_FUNCTIONS = {"sin", "cos", "tan", "asin", "acos", "atan"}
_NAMES = {**vars(math), "min": min, "float": float, "round": lambda value, _=0: value}
_POWER = 4


def on_paper(source, result):
    """Return lines of HTML for a cell's source and the text of its result: the sum, or the result without it.

    >>> on_paper("round(40 * (1540 / 339) ** 0.5, 1)", "85.3"), on_paper("balance([1540]).round(2)", "np.float64(4.5)")
    (['40 × (1,540 / 339)<sup>0.5</sup> ≈ 85.3'], ['4.5'])
    """
    try:
        asked = ast.parse(source, mode="eval").body
        shown, unit = result.strip(), ""
        if isinstance(asked, ast.Call) and getattr(asked.func, "id", "") == "print":
            asked, *more = asked.args
            unit = "".join(f" {ast.literal_eval(part)}" for part in more)
            shown = shown.removesuffix(unit)
        several = isinstance(asked, ast.List | ast.Tuple)
        parts, values = (asked.elts, ast.literal_eval(shown)) if several else ([asked], [ast.literal_eval(shown)])
        return [_line(part, value, unit) for part, value in zip(parts, values, strict=True)]
    except (ValueError, SyntaxError, KeyError):
        return [html.escape(_plain(line)) for line in result.strip().splitlines()]


def _line(part, value, unit):
    text, _ = _written(part)  # before it is computed: what is written is arithmetic and nothing else
    unrounded = eval(compile(ast.Expression(part), "", "eval"), {"__builtins__": {}}, _NAMES)
    sign = "=" if math.isclose(unrounded, float(f"{value:.6g}"), rel_tol=1e-12) else "≈"
    return f"{text} {sign} {value:,.6g}{html.escape(unit)}".replace(f"{sign} -", f"{sign} −")


def _written(node):
    """An expression as HTML, and how strongly its parts hold together; KeyError for what is no arithmetic."""
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        return f"{node.value:,}", 9
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return f"−{_held(node.operand, _POWER)}", 1
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Pow):
        return f"{_held(node.left, 5)}<sup>{_written(node.right)[0]}</sup>", _POWER
    if isinstance(node, ast.BinOp):
        sign, strength = _SIGNS[type(node.op)]
        binds_right = isinstance(node.op, ast.Sub | ast.Div)
        return f"{_held(node.left, strength)}{sign}{_held(node.right, strength + binds_right)}", strength
    if isinstance(node, ast.Name) and node.id == "pi":
        return "π", 9
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        return _called(node.func.id, node.args)
    raise KeyError(ast.dump(node))


def _called(name, arguments):
    if name in _SILENT:
        return _written(arguments[0])
    texts = [_written(argument)[0] for argument in arguments]
    if name == "sqrt":
        return f"√({texts[0]})", 9
    if name == "hypot":
        return f"√({_held(arguments[0], 5)}<sup>2</sup> + {_held(arguments[1], 5)}<sup>2</sup>)", 9
    if name == "radians":
        return f"{_held(arguments[0], 5)}°", 9
    if name == "min":
        return f"the smaller of {' and '.join(texts)}", 0
    if name in _FUNCTIONS:
        return f"{name}({texts[0]})", 9
    raise KeyError(name)


def _held(node, least):
    text, strength = _written(node)
    return text if strength >= least else f"({text})"


def _plain(text):
    """A result without what NumPy and Python write round it.

    >>> _plain("array([185.,  90.])"), _plain("Order(least=13.0, most=37.0)"), _plain("[908.1 875.1] hPa")
    ('185, 90', 'least 13.0, most 37.0', '908.1, 875.1 hPa')
    """
    text = re.sub(r"^(?:np\.\w+|array)\((.*)\)$", r"\1", text.strip())
    text = re.sub(r"^[A-Z]\w+\((\w+=.*)\)$", lambda found: found[1].replace("=", " "), text)
    text = re.sub(r"\[([^\]]*)\]", lambda found: ", ".join(re.split(r"[,\s]+", found[1].strip())), text)
    return re.sub(r"(\d)\.(?!\d)", r"\1", text)
