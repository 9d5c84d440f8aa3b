"""`axlebook enter`: readings typed at the wheel, weighed at once, written as one new record at the end."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import click

from . import CannotRun
from .options import COLOR, LEDGER, options

if TYPE_CHECKING:
    from axlebook.checks._questions import Target
    from axlebook.records.book import Book
    from axlebook.records.entry.state import State
    from axlebook.records.entry.walk import Setting
    from axlebook.sources.drafts import Draft, Pen

    from .asking import Voice
    from .enter_setting import Shelf
    from .enter_sheet import Named
    from .opened import Opened


@click.command()
@click.argument("about", metavar="[ENGINE|WHEELSET|TIRE|SHEET]", required=False)
@click.option("--purpose", metavar="PURPOSE", help="The occasion, as the plans name it: annual, periodic, receiving.")
@click.option("--plain", is_flag=True, help="One prompt a line, no color: for a screen reader.")
@click.option("--resume", is_flag=True, help="Go on with the last draft, without asking.")
@click.option("--new", "anew", is_flag=True, help="Begin anew, whatever drafts there are.")
@options(COLOR, LEDGER)
def command(
    about: str | None, purpose: str | None, plain: bool, resume: bool, anew: bool, color: bool | None,
    ledger: str | None,
) -> int:  # fmt: skip
    """Enter readings one by one, in walking order: what the ledger's plans ask for.

    With the id at the foot of a paper sheet its boxes are asked in the order of its pages, and what changed on record
    since it was printed is told first.

    Each reading is shown in both units and weighed at once against all that is on record. An unlikely one is asked
    about; one outside a limit is said. Every answer is on the disk before the next question: after a power cut the
    same command goes on where it stopped. At the end one new record is shown and, if you say so, written.

    At any question: ? what is meant, u undo, q stop and go on later, s skip. At a box: n not measured because ..., n
    here the same at every angle here, n all on every wheel left, 2nd 2 13/32 in: a second person's reading of the box
    before, r 3: box number 3 again, e end here with what is open left open. Then: w write, b back.

    \b
      axlebook enter e-12 --purpose annual
      axlebook enter d-2
      axlebook enter e-12-annual-2026-02-28-3cbde4ca   the id of a paper sheet
      axlebook enter t-2603 --purpose receiving
    """
    from .asking import voice
    from .enter_setting import take_shelf
    from .enter_sheet import named_at
    from .opened import open_ledger

    if sys.stdin is None or sys.stderr is None:
        raise CannotRun(f"standard {'error' if sys.stdin else 'input'} is closed: nothing can be asked and answered.")
    found = open_ledger(ledger)
    speaks = voice(plain, color)
    shelf = take_shelf(found.root)
    named = named_at(shelf, about, purpose)
    draft = None if anew else _draft(found, named, resume, speaks)
    return _Entry(found, shelf, named.or_of(draft.about if draft else {}), speaks).run(draft)


def _draft(found: Opened, named: Named, resume: bool, speaks: Voice) -> Draft | None:
    """The draft to go on with; one that someone else is writing is not offered."""
    from axlebook.sources.drafts import is_held, read_drafts

    there = [
        draft
        for draft in read_drafts(found.root)
        if named.about in ("", draft.about.get("about"))
        and named.purpose in ("", draft.about.get("purpose"))
        and not is_held(draft.path)
    ]
    if not there:
        if resume:
            raise CannotRun("there is no draft to go on with.")
        return None
    if resume:
        return there[0]
    return next((draft for draft in there if _wanted(draft, speaks)), None) if _is_asked() else None


def _is_asked() -> bool:
    return sys.stdin.isatty()


def _wanted(draft: Draft, speaks: Voice) -> bool:
    from axlebook.records.entry.words import Prompt

    from .asking import read_line

    about = draft.about
    heading = (
        f"There is a draft of {about.get('started', '')}: {about.get('about', '')} {about.get('purpose', '')}".strip()
    )
    while True:
        speaks.ask(
            Prompt(
                f"{heading}, {len(draft.events)} answer{'s' * (len(draft.events) != 1)} so far.",
                (),
                "Go on with it? yes or no",
            )
        )
        line = read_line()
        if line is None:
            raise CannotRun("stopped; nothing was changed.")
        if line.lower() in ("y", "yes", "n", "no"):
            return line.lower().startswith("y")


def _answers(many: int) -> str:
    return f"{many} answer{' is' if many == 1 else 's are'}"


@dataclass
class _Entry:
    """One entry from its first question to its record."""

    found: Opened
    shelf: Shelf
    named: Named
    speaks: Voice
    resumed: bool = False

    def run(self, draft: Draft | None) -> int:
        """Ask until the record is written or the person goes."""
        from axlebook.records.entry.state import fold
        from axlebook.sources.drafts import Held, Pen, begin

        if not self.named.about:
            raise CannotRun("name what is measured: an engine, a wheelset or a tire, such as axlebook enter e-12")
        setting, target = self._setting(draft)
        self.resumed = draft is not None
        state = fold(draft.events if draft else ())
        try:
            pen = Pen(draft.path) if draft else begin(self.found.root, self._started())
        except Held:
            raise CannotRun("someone is entering into this draft right now.") from None
        except OSError as error:
            raise CannotRun(f"the draft cannot be written ({error.strerror}).") from None
        try:
            return self._converse(setting, state, pen, self.shelf.book, target)
        except OSError as error:
            if isinstance(error, BrokenPipeError):
                raise
            raise CannotRun(f"{error.strerror}. The answers before this one are in the draft.") from None
        except KeyboardInterrupt:
            self.speaks.break_off()
            go_on = self._go_on(refused=True)
            raise CannotRun(f"stopped. The answers before this one are kept as a draft. {go_on}") from None
        finally:
            pen.close()

    def _setting(self, draft: Draft | None) -> tuple[Setting, Target]:
        from axlebook.sources.drafts import read_last

        from .enter_setting import read_setting
        from .enter_sheet import since

        last, sheet = read_last(self.found.root), self.named.sheet
        id = sheet.id if sheet else ""
        setting, target = read_setting(self.shelf, self.named.about, self.named.purpose, last, id)
        if sheet is not None and draft is None:
            for words in since(self.shelf, target, sheet, self.named.purpose):
                self.speaks.tell(words)
        return setting, target

    def _started(self) -> dict[str, str]:
        """What a draft says of itself."""
        told = {"about": self.named.about, "purpose": self.named.purpose, "started": self.shelf.today.isoformat()}
        return told | ({"sheet": self.named.sheet.id} if self.named.sheet else {})

    def _converse(self, setting: Setting, state: State, pen: Pen, book: Book, target: Target) -> int:
        from axlebook.records.entry.machine import answer
        from axlebook.records.entry.words import prompt

        from .asking import read_line

        state = self._begin(setting, state, pen)
        shown = ""
        while True:
            shown = self._preview(setting, state, shown, target)
            self.speaks.ask(prompt(setting, state))
            try:
                line = read_line()
            except KeyboardInterrupt:
                line = None
            if line is None:
                self.speaks.break_off()
                return self._left(state, pen, ended=True)
            step = answer(setting, state, line)
            for event in step.events:
                pen.write(event)
            state = step.state
            self.speaks.say(step.said)
            if step.stop:
                return self._left(state, pen, ended=False)
            if step.write:
                return self._write(setting, state, pen, book, target)
            self._remember(step.events, state)

    def _begin(self, setting: Setting, state: State, pen: Pen) -> State:
        """What was told on the command line, or what was answered already and is still in doubt."""
        from axlebook.records.entry.doubt import said_of
        from axlebook.records.entry.state import apply

        if self.named.purpose and "purpose" not in state.header:
            event = {"header": "purpose", "is": self.named.purpose}
            pen.write(event)
            state = apply(state, event)
        elif state.log:
            self.speaks.tell(f"{_answers(len(state.log))} here already.")
        if state.unsettled is not None:
            self.speaks.say(said_of(setting, state, state.unsettled))
        return state

    def _remember(self, events: tuple[Mapping[str, Any], ...], state: State) -> None:
        from axlebook.records.entry.header import HEADER
        from axlebook.sources.drafts import write_last

        if any("header" in event for event in events):
            write_last(self.found.root, {f.key: state.header[f.key] for f in HEADER
                                         if f.kept_for_next and state.header.get(f.key)})  # fmt: skip

    def _preview(self, setting: Setting, state: State, shown: str, target: Target) -> str:
        """At the end the record is shown as it will be, once for every form it takes."""
        from axlebook.records.entry.walk import asked_now, draft_of

        asked = asked_now(setting, state)
        if asked.field is not None or asked.question is not None:
            return ""
        from .enter_written import text_of

        draft = draft_of(setting, state)
        text = "" if draft.is_empty else text_of(self.found.root, "", draft.tree)
        if text and text != shown:
            self.speaks.tell("The record as it will be written:")
            self.speaks.show(text)
        return text

    def _left(self, state: State, pen: Pen, *, ended: bool) -> int:
        """The person goes, or the pipe has ended; a draft in which nothing was answered is put away."""
        from axlebook.sources.drafts import put_away

        words, go_on = f"{_answers(len(state.log))} kept as a draft; no record was written.", self._go_on(refused=ended)
        if len(state.log) <= bool(self.named.purpose):  # the occasion alone, which the command line told
            pen.close()
            put_away(pen.path)
            words, go_on = "Nothing was answered: no draft is kept, and no record was written.", ""
        if ended:
            raise CannotRun(" ".join(filter(None, ("the answers ended early.", words, go_on))))
        before, _, command = go_on.partition(": ")
        self.speaks.tell(f"{words} {before}:" if command else words)
        self.speaks.show(command)  # whole, to be copied
        return 0

    def _go_on(self, *, refused: bool) -> str:
        """What to type to go on; in a refusal the ledger is named by what prints it."""
        purpose = f" --purpose {self.named.purpose}" if self.named.purpose else ""
        from .opened import named_again

        again = "" if refused else named_again(self.found)
        return f"Go on with: axlebook enter{again} {self.named.about}{purpose} --resume"

    def _write(self, setting: Setting, state: State, pen: Pen, book: Book, target: Target) -> int:
        from axlebook.records.entry.walk import draft_of
        from axlebook.sources.drafts import put_away

        from . import terminal
        from .enter_written import after_words, find_written, write_record

        tree, taken = draft_of(setting, state).tree, frozenset(book.paths)
        # A power cut may have come between the record and the end of its draft: it is not written twice.
        path = find_written(self.found.root, tree, target.id, taken) if self.resumed else None
        if path is not None:
            self.speaks.tell("This record was written already, before the draft was put away; it is not written again.")
        else:
            path = write_record(self.found.root, tree, target.id, taken)
        pen.close()
        put_away(pen.path)
        terminal.put(f"{self.found.beside}{path}\n")
        self.speaks.show(after_words(self.found, path, state.header, target.id))
        return 0
