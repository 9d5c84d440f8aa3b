"""The page of an engine: what holds it back, its plan, what was found, every wheel, what is due, its life."""

from __future__ import annotations

from collections.abc import Iterable

from axlebook.records import fields
from axlebook.records.engine import Engine
from axlebook.records.history import history_of

from ..annual_condition import not_judged_part, quantities_part
from ..annual_defects import restricted
from ..annual_due import due_of, due_part
from ..annual_findings import findings_part
from ..annual_parts import Part, listed
from ..condition_view import Axle, EngineCondition
from ..history_view import view_of
from ..of_engine import of_engine
from ..plan_drawing import drawings
from ..plan_view import plan
from ..unread import unread_item
from .ground import Ground
from .life import life_parts, pictures_of, text_of
from .page import Page

# What stands on record and what was found are two things: a wheel past its limit holds back without any tag.
NOT_HELD = "No tag, restriction or waiver in force is on record. What is outside a limit stands under What was found."


def engine_page(ground: Ground, engine: Engine, condition: EngineCondition) -> Page:
    """The page of one engine."""
    book, id = ground.book, engine.id
    found = history_of(book, id)
    view = view_of(book, found) if found else None
    path = book.paths.get(id, "")
    return Page(
        ground.links.page[id],
        f"Engine {engine.number or id}",
        _about(engine),
        id,
        tuple(unread_item(of_engine(book, id, ground.report.findings))),
        plan=drawings(id, plan(condition)),
        first=tuple(_parts(ground, engine, condition)),
        pictures=pictures_of(ground, id, view) if view else (),
        parts=tuple(life_parts(ground, id, view)) if view else (),
        record=text_of(ground, path),
        record_path=path,
    )


def _about(engine: Engine) -> str:
    kind, built = fields.text(engine.tree, "wheel_arrangement"), fields.text(engine.tree, "built")
    told = ", ".join(filter(None, (engine.id, kind, f"built {built}" if built else "")))
    return f"{told}."


def _parts(ground: Ground, engine: Engine, condition: EngineCondition) -> Iterable[Part]:
    book, id = ground.book, engine.id
    yield Part("restrictions", "What holds it back", tuple(restricted(book, id)), nothing=NOT_HELD)
    yield _wheelsets(condition)
    found = of_engine(book, id, ground.report.findings)
    yield findings_part(found)
    yield not_judged_part(condition, ground.report._replace(findings=tuple(found)).causes)
    yield quantities_part(book, condition)
    yield due_part(book, [engine], due_of(book, id), [])


def _wheelsets(condition: EngineCondition) -> Part:
    """Its wheelsets and what is on them, each with its page."""
    rows = [(axle.at, axle.wheelset, ", ".join(_tires(axle))) for axle in condition.axles if axle.at]
    tables = (listed("From the record's dated lines", ("Where", "Wheelset", "Tires read on it"), rows),) if rows else ()
    return Part("wheelsets", "Its wheelsets", (), tables, nothing="No wheelset stands on it.")


def _tires(axle: Axle) -> list[str]:
    return [part for part in dict.fromkeys(row.part for row in axle.rows) if part not in ("", axle.wheelset)]
