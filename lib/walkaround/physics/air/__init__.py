"""The air that an aircraft flies through: the standard atmosphere, airspeeds, flights and the take-off roll."""

from walkaround.physics.air import airspeed, atmosphere, flight, takeoff
from walkaround.physics.air.flight import Flight
from walkaround.physics.air.takeoff import Stop, TakeoffRoll, takeoff_roll
