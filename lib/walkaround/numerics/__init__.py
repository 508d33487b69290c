"""Mathematics that knows no subject: sums of exponentials, least squares, rows of settings."""
