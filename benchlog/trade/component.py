"""The parts that are judged, in the order in which they are shown."""

from __future__ import annotations

from enum import StrEnum


class Component(StrEnum):
    """One part of a filter, in the trade's words."""

    WHOLE = "whole filter"
    GASKET = "gasket"
    CAN = "can"
    BASE_PLATE = "base plate"
    THREAD = "thread"
    ADBV = "anti-drain-back valve"
    BYPASS = "bypass valve"
    SPRING = "spring"
    CENTRE_TUBE = "centre tube"
    END_CAPS = "end caps"
    PLEATS = "pleats"
    MEDIA = "media"
    O_RINGS = "O-rings"
