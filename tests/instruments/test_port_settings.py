"""Settings of a serial scale: what is refused, and the list of ports."""

from __future__ import annotations

import dataclasses
from types import SimpleNamespace

import pytest

from benchlog.errors import ScaleFault
from benchlog.instruments import port_settings
from benchlog.instruments.port_settings import PortFound, PortSettings, Sending, list_ports
from benchlog.instruments.steady import SteadyRule

GOOD = PortSettings("/dev/ttyUSB0")


def test_usual_settings_stand():
    GOOD.check()
    assert (GOOD.baud, GOOD.bytesize, GOOD.parity, GOOD.stopbits) == (9600, 8, "N", 1)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"path": " "}, "No port is chosen"),
        ({"baud": 0}, "0 is not a speed"),
        ({"baud": 2**40}, "is not a speed"),
        ({"bytesize": 9}, "9 data bits"),
        ({"parity": "X"}, "'X' is not a parity"),
        ({"stopbits": 3}, "3 stop bits"),
        ({"sending": Sending.POLLED, "poll": b""}, "no text to ask with"),
        ({"poll_every_s": -1}, "below zero"),
        ({"unit": "meter"}, "'meter' is not a unit"),
        ({"rule": SteadyRule(equal_readings=0)}, "one reading"),
        ({"rule": SteadyRule(within_s=0)}, "above zero"),
    ],
)
def test_impossible_setting_is_named(change, words):
    with pytest.raises(ScaleFault, match=words):
        dataclasses.replace(GOOD, **change).check()


def test_ports_are_listed_by_path(monkeypatch):
    known = [
        SimpleNamespace(device="/dev/ttyUSB1", description="second"),
        SimpleNamespace(device="/dev/ttyUSB0", description=None),
    ]
    monkeypatch.setattr(port_settings.system_ports, "comports", lambda: known)
    assert list_ports() == [PortFound("/dev/ttyUSB0", ""), PortFound("/dev/ttyUSB1", "second")]


def test_system_can_be_asked_for_ports():
    assert all(port.path for port in list_ports())
