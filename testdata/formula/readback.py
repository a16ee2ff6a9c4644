"""Reads a calendar file from standard input with Python's icalendar and prints
one line of JSON for each entry: what an independent reader makes of it."""

import json
import sys
from datetime import timezone

import icalendar

calendar = icalendar.Calendar.from_ical(sys.stdin.buffer.read())
for event in calendar.walk("VEVENT"):
    alarms = []
    for alarm in event.walk("VALARM"):
        before = -alarm["TRIGGER"].dt
        alarms.append({
            "action": str(alarm["ACTION"]),
            "minutesBefore": before.total_seconds() / 60,
            "rings": (event["DTSTART"].dt - before).astimezone(timezone.utc).isoformat(),
            "text": str(alarm["DESCRIPTION"]),
        })
    print(json.dumps({
        "uid": str(event["UID"]),
        "stamp": event["DTSTAMP"].dt.astimezone(timezone.utc).isoformat(),
        "start": event["DTSTART"].dt.astimezone(timezone.utc).isoformat(),
        "end": event["DTEND"].dt.astimezone(timezone.utc).isoformat(),
        "summary": str(event["SUMMARY"]),
        "note": str(event.get("DESCRIPTION", "")),
        "alarms": alarms,
    }))
