"""What every live demonstration stands on: the stage, the live picture, PNG, and the style of all figures."""
