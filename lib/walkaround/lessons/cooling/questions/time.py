"""Sums on time: how soon a limit is reached with no air at all, and how a temperature creeps up to where it settles."""

from walkaround.assessment.builders import number

_LEFT = 0.37  # 1/e: what is left of a gap after one time constant


def questions(v, g):
    """Questions on time, for a student's draws `v` and `Givens` `g`."""
    return _plugs(v, g), _gap(v, g)


def _plugs(v, g):
    takes_up, limit = g.section.heads_kj_per_k, g.section.head_limit_c
    heat_kw = v.number("plugs heat", 36, 42) if g.shaft_kw < 100 else v.number("plugs heat", 66, 78)
    begins = v.number("plugs begin", 150, 200, 2)
    left = limit - begins
    answer = takes_up * left / heat_kw
    return number(
        "plugs",
        "Both plugs left in",
        f"Both plugs are in, and after the run-up the heads are at {begins:.0f} °C. At take-off power {heat_kw:.0f} kW "
        f"flow into them, and next to nothing flows out. They take up {takes_up:g} kJ for each °C. After how many "
        f"seconds are they at their limit of {limit:.0f} °C?",
        answer=answer,
        unit="s",
        tolerance=0.8,
        points=2,
        hint="How many kJ does it take to warm them from there to the limit? A kW is a kJ each second.",
        worked=(
            f"{limit:.0f} − {begins:.0f} = {left:.0f} °C",
            f"{left:.0f} × {takes_up:g} ÷ {heat_kw:.0f} = {answer:.1f} s",
        ),
        wrong=[
            (takes_up * limit / heat_kw, "from 0 °C", f"They begin at {begins:.0f} °C, not at 0."),
            (answer / 60, "in minutes", "That is in minutes. A kW is a kJ each second."),
            (left * heat_kw / takes_up, "turned round", "The kJ that are needed, divided by the kJ of each second."),
        ],
    )


def _gap(v, g):
    constant, times = v.pick("constant", (1.0, 1.2, 1.4)), v.pick("times", (1, 2))
    begins, settles = v.number("gap begins", 130, 160, 2), v.number("gap settles", 250, 300, 2)
    gap = settles - begins
    factors = " × ".join(["0.37"] * times)
    left = gap * _LEFT**times
    answer = settles - left
    minutes = constant * times
    return number(
        "gap",
        "How soon it gets there",
        f"With a plug in, the heads on that side would settle at {settles:.0f} °C. They begin at {begins:.0f} °C, and "
        f"every {constant:.1f} minutes what is left of the gap shrinks to 37 % of it. How hot are they after "
        f"{minutes:.1f} minutes?",
        answer=answer,
        unit="°C",
        tolerance=1.5,
        points=2,
        hint="How large is the gap at first? How much of it is left then? That is how far below they still are.",
        worked=(
            f"{settles:.0f} − {begins:.0f} = {gap:.0f} °C of gap",
            f"{gap:.0f} × {factors} = {left:.1f} °C are left",
            f"{settles:.0f} − {left:.1f} = {answer:.1f} °C",
        ),
        wrong=[
            (
                begins + left,
                "what is left taken for what is done",
                "37 % is what is left of the gap, not what is done.",
            ),
            (settles * (1 - _LEFT**times), "from 0 °C", f"They begin at {begins:.0f} °C: the gap is from there."),
            (settles, "settled at once", "That is where they end. They are not there yet."),
        ],
    )
