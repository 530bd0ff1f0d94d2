"""Pounds beside kilograms, pounds-force beside newtons."""

import pytest

from docgen.trade.weights import POUND_FORCE, force_told, moment_told, weight_told


def test_a_pound_force_is_the_weight_of_a_pound() -> None:
    assert pytest.approx(4.4482216152605, rel=1e-12) == POUND_FORCE  # NIST SP 811, table of conversion factors


def test_inch_packets_say_pounds_first_and_millimetre_packets_none() -> None:
    assert weight_told(6.4, "inch") == "14.1 lb (6.4 kg)" and weight_told(6.4, "mm") == "6.4 kg"
    assert force_told(24, "inch") == "5 lbf (24 N)" and force_told(24, "mm") == "24 N"
    assert moment_told(4.8, "inch") == "3.5 lbf·ft (4.8 N·m)" and moment_told(4.8, "mm") == "4.8 N·m"
