"""Cooling: the heat of combustion against the air that gets through the cowl of a running engine."""

from walkaround.physics.cooling.airflow import bank_shares, cooling_speed_kt, series_share
from walkaround.physics.cooling.engine import CRANKCASE, LEFT, OIL, PARTS, RIGHT, Engine, Setting, Stream
from walkaround.physics.cooling.heat import fuel_heat_w, share_of_full
from walkaround.physics.cooling.over_time import Run, run, settled_c
