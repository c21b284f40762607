"""Reads a calendar on standard input with icalendar (RFC 5545) and writes its events as JSON."""
import json
import sys

import icalendar

calendar = icalendar.Calendar.from_ical(sys.stdin.buffer.read())
events = []
for e in calendar.walk("VEVENT"):
    alarms = [a for a in e.subcomponents if a.name == "VALARM"]
    rule = e["RRULE"]
    events.append({
        "uid": str(e["UID"]), "summary": str(e["SUMMARY"]), "description": str(e["DESCRIPTION"]),
        "start": e.decoded("DTSTART").isoformat(), "end": e.decoded("DTEND").isoformat(), "stamp": e.decoded("DTSTAMP").isoformat(),
        "freq": rule["FREQ"][0], "interval": rule["INTERVAL"][0],
        "alarm_s": [a.decoded("TRIGGER").total_seconds() for a in alarms],
    })
json.dump({"version": str(calendar["VERSION"]), "errors": [str(x) for x in getattr(calendar, "errors", [])], "events": events}, sys.stdout)
