"""Drawings of everything there is to look at on a round, by name: each takes a pen, what is seen, and the aircraft.

A drawing knows what is seen and nothing else: not whether it is right, nor what is wrong.
"""

from walkaround.lessons.round.drawings import airframe, cabin, engine, tanks

DRAWN = {name: getattr(module, name) for module in (airframe, cabin, engine, tanks) for name in module.DRAWS}
