"""Nonlinear least squares, and how sure its result is (G. A. F. Seber and C. J. Wild, Nonlinear Regression)."""

import numpy as np

_NUDGE = 1e-5
_ROUNDS = 100


def least_squares(model, parameters, readings, low=-np.inf, high=np.inf):
    """Parameters that make the sum of squares of reading minus model least; also the slopes and residuals there.

    Parameters: `model` takes a batch of parameters, shape (batch, parameters), and returns values, shape (batch,
    readings); `parameters`, where the search begins; `low` and `high`, bounds on the parameters (the model has to work
    a hundred-thousandth beyond them, too). Returns the parameters, the slopes of the model there (the Jacobian), shape
    (readings, parameters), and the residuals. Gauss-Newton steps, damped after Levenberg and Marquardt; slopes by
    central differences.

    >>> line = lambda batch: batch[:, :1] + batch[:, 1:] * np.arange(3.0)
    >>> least_squares(line, np.zeros(2), np.array([1.0, 3.0, 5.0]))[0].round(6).tolist()
    [1.0, 2.0]
    """
    damping, count = 1e-3, parameters.size
    nudges = _NUDGE * np.concatenate([np.eye(count), -np.eye(count)])
    for _ in range(_ROUNDS):
        values = model(np.concatenate([parameters[np.newaxis], parameters + nudges]))
        residuals = readings - values[0]
        jacobian = ((values[1 : 1 + count] - values[1 + count :]) / (2 * _NUDGE)).T
        scale = np.maximum(np.linalg.norm(jacobian, axis=0), 1e-12)
        for _ in range(20):
            damped = np.concatenate([jacobian / scale, np.sqrt(damping) * np.eye(count)])
            step = np.linalg.lstsq(damped, np.append(residuals, np.zeros(count)), rcond=None)[0] / scale
            step = np.clip(parameters + step, low, high) - parameters
            tried = readings - model((parameters + step)[np.newaxis])[0]
            if tried @ tried <= residuals @ residuals:
                break
            damping = min(damping * 5, 1e6)
        else:
            break  # no step is better: this is the minimum, to the last digit
        gained = residuals @ residuals - tried @ tried
        parameters, residuals, damping = parameters + step, tried, max(damping / 5, 1e-12)
        if gained <= 1e-10 * (residuals @ residuals) and np.max(np.abs(step)) < 1e-4:
            break
    return parameters, jacobian, residuals


def standard_errors(jacobian):
    """Standard errors of parameters, infinite for one that the readings say nothing about.

    The square roots of the diagonal of (JᵀJ)⁻¹. The Jacobian, shape (readings, parameters), is that of a model whose
    readings are each divided by their standard deviation.

    >>> standard_errors(np.ones((4, 1)) / 0.3).round(4).tolist()  # the mean of four readings good to 0.3 each
    [0.15]
    """
    scale = np.linalg.norm(jacobian, axis=0)
    inverse = np.linalg.pinv(jacobian / np.where(scale > 0, scale, 1.0), rcond=1e-12)
    return np.where(scale > 0, np.sqrt((inverse**2).sum(axis=1)) / np.where(scale > 0, scale, 1.0), np.inf)
