"""Slips in the book itself: limits from memory, a session typed twice, impossible days, an edited figure."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from fractions import Fraction

from .answer import Answer
from .figures import exact, in_fractions, number_and_rest, unit
from .ground import Ground, Slip, Slips
from .written import Written

COMPARISONS = ("under", "at_most", "over", "at_least")


def limit_from_memory(ground: Ground) -> Slips:
    """A published limit set altered, or a limit of the railway's own that no longer says where it is from."""
    ways = ground.shuffled([_published_altered(ground), _without_clause(ground)])
    for way in ways:
        yield from way


def _limits(record: Written) -> Iterator[tuple[int, str, str]]:
    for number, limit in enumerate(record.tree.get("limits", ())):
        for word in COMPARISONS:
            text = limit.get("out_when", {}).get(word)
            if isinstance(text, str) and exact(text) is not None:
                yield number, word, text


def _published_altered(ground: Ground) -> Slips:
    for record in ground.of_kind("limit-set"):
        if record.tree.get("decision") != "as written" or "tightens" in record.tree:
            continue
        for number, word, text in ground.shuffled(_limits(record)):
            new = _other_figure(ground, text)
            limit = record.tree["limits"][number]
            if not new or exact(new) == exact(text):
                continue
            pointer = f"/limits/{number}/out_when/{word}"
            answer = Answer(
                "limit-from-memory",
                record.path,
                (pointer, ""),
                text,
                new,
                f"{record.id}/{limit['id']}",
                f"{limit['clause']} says {text}; a published set is never edited",
            )
            yield Slip(answer, (record.instead(pointer, new),), ((record.path, ""),))


def _other_figure(ground: Ground, text: str) -> str:
    """A figure that someone might remember: a sixteenth or an eighth off, or a few millimeters."""
    value, number = exact(text), number_and_rest(text)[0]
    if value is None or "ft" in text:
        return ""
    step = (
        Fraction(1, 16)
        if in_fractions(text)
        else Fraction(1, 100)
        if "." in number and "mm" not in text
        else Fraction(1)
    )
    new = value / unit(text) + step * ground.rng.choice((-2, -1, 1, 2))
    if new <= 0:
        return ""
    if in_fractions(text):
        whole, part = divmod(new, 1)
        shown = " ".join([str(whole)] * bool(whole) + [str(part)] * bool(part))
    else:
        shown = f"{float(new):g}"
    return shown + number_and_rest(text)[1]


def _without_clause(ground: Ground) -> Slips:
    for record in ground.of_kind("limit-set"):
        if "tightens" not in record.tree:
            continue
        for number, limit in ground.shuffled(enumerate(record.tree.get("limits", ()))):
            pointer = f"/limits/{number}/clause"
            if f"{pointer}#key" not in record.places:
                continue
            answer = Answer(
                "limit-from-memory",
                record.path,
                (pointer, f"/limits/{number}"),
                str(limit["clause"]),
                "",
                f"{record.id}/{limit['id']}",
                "where this limit is from is not said",
            )
            yield Slip(answer, (record.without(pointer),), ((record.path, ""),))


def two_files_for_one_session(ground: Ground) -> Slips:
    """A session typed a second time, under another name."""
    paths = {one.path for one in ground.readings}
    for record in ground.of_kind("inspection"):
        if record.path not in paths or len(record.id) > 56:
            continue
        ending = ground.rng.choice(("-2", "-b", "-copy"))
        path = record.path.removesuffix(".yaml") + ending + ".yaml"
        if path in ground.records:
            continue
        answer = Answer(
            "two-files-for-one-session",
            path,
            ("",),
            "",
            record.path,
            str(record.tree.get("engine") or record.id),
            f"the same day, people and figures as {record.id}",
            (record.path,),
        )
        yield Slip(answer, (), ((path, ""), (record.path, "")), new_texts={path: record.text})


def date_impossible(ground: Ground) -> Slips:
    """A day in the future, before the tire was made, or in no calendar."""
    ways = ground.shuffled([_in_future(ground), _before_it_existed(ground), _in_no_calendar(ground)])
    for way in ways:
        yield from way


def _dated(record: Written, pointer: str, new: str, why: str) -> Slip:
    subject = str(record.tree.get("engine") or record.tree.get("tire") or record.id)
    answer = Answer("date-impossible", record.path, (pointer,), str(record.at(pointer)), new, subject, why)
    return Slip(answer, (record.instead(pointer, new),), ((record.path, ""),))


def _closed_on(ground: Ground) -> date | None:
    for record in ground.records.values():
        if record.tree.get("kind") == "ledger" and record.tree.get("closed_on"):
            return date.fromisoformat(str(record.tree["closed_on"]))
    return None


def _sessions(ground: Ground) -> list[Written]:
    paths = {one.path for one in ground.readings}
    return [one for one in ground.of_kind("inspection") if one.path in paths]


def _in_future(ground: Ground) -> Slips:
    closed = _closed_on(ground)
    for record in _sessions(ground):
        if closed is not None:
            day = closed + timedelta(days=ground.rng.randint(20, 3000))
            yield _dated(
                record, "/measured_on", day.isoformat(), f"after {closed}, the day the book was closed"
            )


def _before_it_existed(ground: Ground) -> Slips:
    for record in _sessions(ground):
        parts = {str(one.get("part", "")) for one in record.tree["readings"]}
        for part in sorted(parts):
            tire = ground.records.get(f"tires/{part}.yaml")
            made = str(tire.at("/marks/made_on") or "") if tire else ""
            if made[:4].isdigit():
                day = str(record.tree["measured_on"])
                new = f"{int(made[:4]) - ground.rng.randint(1, 9)}{day[4:]}"
                yield _dated(record, "/measured_on", new, f"{part} was made in {made}")


def _in_no_calendar(ground: Ground) -> Slips:
    for record in _sessions(ground):
        day = str(record.tree["measured_on"])
        new = ground.rng.choice((f"{day[:4]}-02-30", f"{day[:4]}-06-31", f"{day[:4]}-13-{day[8:]}"))
        yield _dated(record, "/measured_on", new, "there is no such day")


def signed_reading_edited(ground: Ground) -> Slips:
    """A signed figure put right by hand where a correction tells what it was: no git needed."""
    for record in ground.of_kind("correction"):
        pointer, was = str(record.tree.get("at", "")), str(record.tree.get("was", ""))
        found = [one for one in ground.records.values() if one.id == record.tree.get("record")]
        if not found or not pointer or found[0].at(pointer) != was or "signed" not in found[0].tree:
            continue
        new = str(record.tree["is"])
        answer = Answer(
            "signed-reading-edited",
            found[0].path,
            (pointer,),
            was,
            new,
            str(found[0].tree.get("engine") or found[0].id),
            f"{record.id} says that the signed record reads {was}",
            (record.path,),
        )
        yield Slip(answer, (found[0].instead(pointer, new),), ((found[0].path, pointer), (record.path, "")))
