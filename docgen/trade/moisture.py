"""Moisture content that wood comes to in a room."""

from __future__ import annotations


def equilibrium(celsius: float, humidity: float) -> float:
    """Return the equilibrium moisture content in %, at `celsius` and relative `humidity` in % (0 to 100).

    Source: Wood Handbook, Equation 4-5, constants for °C. The handbook holds 0.1 % meaningless for real wood.
    ValueError for a humidity outside 0 to 100.
    """
    if not 0 <= humidity <= 100:
        raise ValueError(f"relative humidity {humidity} % is not between 0 and 100")
    t, h = celsius, humidity / 100.0
    w = 349 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 0.000736 * t - 0.00000273 * t * t
    k1 = 6.27 - 0.00938 * t - 0.000303 * t * t
    k2 = 1.91 + 0.0407 * t - 0.000293 * t * t
    kh = k * h
    hydrate = (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh)
    return 1800.0 / w * (kh / (1 - kh) + hydrate)


def swing(celsius: float, low: float, high: float) -> tuple[float, float]:
    """Return the moisture contents (dry, moist) in % for a room between two relative humidities in %."""
    a, b = sorted((low, high))
    return equilibrium(celsius, a), equilibrium(celsius, b)
