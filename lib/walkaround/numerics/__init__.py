"""Mathematics that knows no subject: sums of exponentials, least squares, helpers for arrays."""
