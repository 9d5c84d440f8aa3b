"""The calendar file: RFC 5545 by a reader that is not ours, and by hand."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from axlebook.reports.as_ics import Event, folded, render_ics

AS_OF = date(2026, 2, 28)
EVENT = Event("0123456789abcdef", date(2026, 3, 18), "e-12, driver-3; look", ("First line.", "a\\b, c"), "re-check")


def test_an_event_is_written_as_the_standard_has_it() -> None:
    assert render_ics([EVENT], AS_OF) == (
        "BEGIN:VCALENDAR\r\n"
        "VERSION:2.0\r\n"
        "PRODID:-//axlebook//due//EN\r\n"
        "CALSCALE:GREGORIAN\r\n"
        "BEGIN:VEVENT\r\n"
        "UID:0123456789abcdef@axlebook\r\n"
        "DTSTAMP:20260228T000000Z\r\n"
        "DTSTART;VALUE=DATE:20260318\r\n"
        "DTEND;VALUE=DATE:20260319\r\n"
        "SUMMARY:e-12\\, driver-3\\; look\r\n"
        "DESCRIPTION:First line.\\na\\\\b\\, c\r\n"
        "CATEGORIES:re-check\r\n"
        "TRANSP:TRANSPARENT\r\n"
        "END:VEVENT\r\n"
        "END:VCALENDAR\r\n"
    )


def test_another_reader_reads_back_what_was_written() -> None:
    [event] = Calendar.from_ical(render_ics([EVENT], AS_OF, alarm=7)).walk("VEVENT")
    assert str(event["SUMMARY"]) == "e-12, driver-3; look"
    assert str(event["DESCRIPTION"]) == "First line.\na\\b, c"
    assert event["DTSTART"].dt == date(2026, 3, 18)
    [alarm] = event.walk("VALARM")
    assert alarm["TRIGGER"].dt == timedelta(days=-7)


def test_text_of_a_record_cannot_begin_a_line_of_its_own() -> None:
    hostile = Event("x", AS_OF, "a\r\nEND:VCALENDAR\r\nBEGIN:VEVENT", ("b\nATTACH:x",), "c\u2028d")
    text = render_ics([hostile], AS_OF)
    assert text.count("\r\nEND:VCALENDAR") == 1
    assert "\r\nATTACH" not in text
    assert len(Calendar.from_ical(text).walk("VEVENT")) == 1


@given(st.text(max_size=300))
def test_a_folded_line_has_75_octets_at_most_and_unfolds_to_itself(text: str) -> None:
    line = "SUMMARY:" + "".join(sign for sign in text if sign not in "\r\n" and not "\ud800" <= sign <= "\udfff")
    parts = list(folded(line))
    assert all(len(part.encode()) <= 75 for part in parts)
    assert parts[0] + "".join(part[1:] for part in parts[1:]) == line
    assert all(part.startswith(" ") for part in parts[1:])


@given(st.text(max_size=80), st.dates())
def test_any_title_on_any_day_reads_back_as_one_event(title: str, day: date) -> None:
    assert len(Calendar.from_ical(render_ics([Event("x", day, title, (title,), "k")], AS_OF)).walk("VEVENT")) == 1
