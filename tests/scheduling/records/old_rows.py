"""Rows as databases of any version hold them, parents first; people and bees are invented."""

from datetime import UTC, date, datetime, time
from typing import Any

AT = datetime(2027, 5, 12, 15, 30, tzinfo=UTC)

_ANN: dict[str, Any] = {
    "id": 1,
    "crew_id": 1,
    "name": "Ann",
    "name_folded": "ann",
    "role": "owner",
    "zone": "America/Chicago",
    "morning": time(6, 30),
    "feeder_litres": 0.946,
    "stopped": False,
    "cautioned_on": date(2027, 5, 1),
    "daily_word": False,
    "next_morning_at": AT,
    "yard_id": 1,
    "created_at": AT,
}

_EGGS: dict[str, Any] = {
    "seq": 1,
    "uid": "e1",
    "crew_id": 1,
    "yard_id": 1,
    "box": 4,
    "letter": "b",
    "kind": "eggs",
    "day": date(2027, 5, 12),
    "recorded_at": AT,
    "person_id": 1,
    "channel": "console",
    "message": "m1",
    "note": "",
}

OLD_ROWS: dict[str, list[dict[str, Any]]] = {
    "crew": [{"id": 1, "name": "Ann's bees", "look_at": 0.7, "give_up_at": None, "weekdays": "56"}],
    "yard": [
        {
            "id": 1,
            "crew_id": 1,
            "name": "River",
            "name_folded": "river",
            "zone": "America/Chicago",
            "latitude": 41.3,
            "longitude": -92.6,
        }
    ],
    "person": [_ANN, {**_ANN, "id": 2, "name": "Ben", "name_folded": "ben", "role": "keeper"}],
    "address": [
        {"id": 1, "person_id": 1, "channel": "phone", "address": "11"},
        {
            "id": 2,
            "person_id": 2,
            "channel": "phone",
            "address": "12",
            "unreachable_since": AT,
        },
    ],
    "unit": [
        {"id": 1, "yard_id": 1, "box": 4, "letter": "b"},
        {"id": 2, "yard_id": 1, "box": 7, "letter": ""},
    ],
    "entry": [
        _EGGS,
        {**_EGGS, "seq": 2, "uid": "e2", "kind": "strike", "value": {"uid": "e1"}},
    ],
    "invite": [
        {"code": "ABC234", "crew_id": 1, "made_by": 1, "made_at": AT},
        {
            "code": "XYZ567",
            "crew_id": 1,
            "made_by": 1,
            "made_at": AT,
            "used_by": 2,
            "used_at": AT,
        },
    ],
    "message_known": [{"channel": "sms", "message_id": "m0"}],
    "inbox": [
        {
            "id": 1,
            "channel": "phone",
            "message_id": "m1",
            "address": "11",
            "text": "4b eggs",
            "sender": "Ann",
            "sent_at": AT,
            "received_at": AT,
            "state": "done",
        }
    ],
    "outbox": [
        {
            "id": 1,
            "key": "answer:phone:m1",
            "purpose": "answer",
            "person_id": 1,
            "channel": "phone",
            "address": "11",
            "text": "Noted: 4b eggs.",
            "buttons": [[["undo", "undo"]]],
            "state": "sent",
            "attempts": 1,
            "doubts": 0,
            "planned_at": AT,
            "next_try_at": AT,
            "carrier_said": "",
        }
    ],
    "number_asked": [
        {
            "id": 1,
            "crew_id": 1,
            "made_by": 1,
            "channel": "sms",
            "address": "+12025550123",
            "name": "Cy",
            "made_at": AT,
        }
    ],
    "stranger": [{"channel": "sms", "address": "+12025550124", "answered_at": AT}],
    "set_up_change": [
        {
            "id": 1,
            "crew_id": 1,
            "person_id": 1,
            "channel": "phone",
            "message": "m1",
            "made_at": AT,
            "after_entry": 0,
            "parts": {"yard 1": {"name": ["River", "Creek"]}},
        }
    ],
    "founding_code": [{"code": "ABCD2345", "made_at": AT}],
    "wrong_code": [
        {"id": 1, "channel": "phone", "address": "12", "tried_at": AT, "looked_at": True}
    ],
    "answers_by_text": [
        {
            "channel": "sms",
            "address": "+12025550123",
            "day": AT.date(),
            "segments": 7,
            "told": False,
        }
    ],
    "pace": [{"channel": "phone", "address": "11", "free_at": AT}],
    "talk": [{"person_id": 1, "unanswered": "", "more": ["the rest"]}],
    "weather_hour": [{"yard_id": 1, "at": AT, "temperature_c": 21.5, "measured": True}],
    "weather_day": [{"yard_id": 1, "day": AT.date(), "flight_hours": 4.5, "measured": True}],
    "ready_morning": [
        {"person_id": 1, "day": AT.date(), "made_of": "a1", "parts": ["Hi"], "buttons": []}
    ],
    "in_hand": [{"channel": "console", "message_id": "m2", "run": "r1", "deaths": 1}],
    "heartbeat": [{"name": "tick:outbox", "at": AT}],
    "delivery_report": [
        {
            "id": 1,
            "channel": "sms",
            "carrier_id": "m1",
            "key": "17/0",
            "delivery": "delivered",
            "reported_at": AT,
        }
    ],
    "message_part": [
        {
            "id": 1,
            "channel": "sms",
            "sender": "+12025550123",
            "reference": 7,
            "header_octets": 6,
            "total": 2,
            "number": 1,
            "octets": b"\x004\x00b",
            "received_at": AT,
        }
    ],
    "weather_asked": [
        {
            "yard_id": 1,
            "latitude": 41.3,
            "longitude": -92.6,
            "answered_at": AT,
            "failures": 0,
            "next_at": AT,
        }
    ],
}
