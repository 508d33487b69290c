"""Mathematics that knows no subject: sums of exponentials, thermostats' cycles, least squares."""
