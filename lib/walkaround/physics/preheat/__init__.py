"""Preheating a cold engine: the thermal network, the heater, its history, a plan, and a fit to a thermometer log."""

from walkaround.physics.preheat.air_heater import AirHeater
from walkaround.physics.preheat.energy import Heat, heat_balance
from walkaround.physics.preheat.engine import CYLINDERS, METAL, OIL, Engine, Part, SumpPad, warming
from walkaround.physics.preheat.history import History
from walkaround.physics.preheat.log import Log, log_from_text, read_log
from walkaround.physics.preheat.log_fit import Errors, Fit, LogCannotTellError, fit
from walkaround.physics.preheat.plans import Fuel, Plan, Spent, plan, spent
