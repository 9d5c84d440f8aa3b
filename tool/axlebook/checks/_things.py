"""What kind of thing a quantity belongs to, and whether what a reading names is one."""

from __future__ import annotations

from axlebook.records.book import Book
from axlebook.records.forms import parse_place
from axlebook.records.reading import Reading

OF_TIRES = frozenset({"tire_thickness", "thickness_from_ring", "thickness_throat_to_counterbore"})
OF_FLANGES = frozenset({"flange_height", "flange_thickness", "flange_gradient"})


class Things:
    """Answers for one book."""

    def __init__(self, book: Book) -> None:
        self.book = book
        words = {**book.vocabulary.observations, **book.vocabulary.quantities}
        self.of = {name: word.of for name, word in words.items()}
        self.any_plain = any(tire.flange == "plain" for tire in book.tires.values())
        self._made_at: dict[tuple[str, str], str] = {}

    def always_wrong(self, quantity: str, place: str, part: str, engine: str) -> str | None:
        """Why the thing named can never have the quantity; None where it can."""
        of = self.of.get(quantity, "engine")
        if part:
            return self._part(quantity, of, part)
        spot = parse_place(place)
        if spot is None or of == "engine":
            return None
        if spot.number is None:
            return f"{place} is no wheelset"
        if of == "wheelset":
            return f"it belongs to both wheels together, and a side is named ({spot.side})" if spot.side else None
        if not spot.side:
            return "the side is missing"
        here = (engine, spot.axle)
        made = self._made_at.get(here)
        if made is None:
            made = self._made_at[here] = self._all_made(*here)
        return self.wrong_for_make(quantity, made) if made else None

    def _all_made(self, engine: str, axle: str) -> str:
        """How every wheelset is made that ever stood at a place; '' where they are not made alike, or none did."""
        lines = self.book.standing.lines.get((engine, axle), ())
        made = {self.book.wheelsets[line.wheelset].made for line in lines if line.wheelset in self.book.wheelsets}
        return made.pop() if len(made) == 1 else ""

    def wrong_for_make(self, quantity: str, made: str) -> str | None:
        """Why wheels of this make can never have the quantity; None where they can."""
        of = self.of.get(quantity, "engine")
        if made == "one-piece" and (of in ("tire", "center") or quantity in OF_TIRES):
            return f"the wheels there are one piece: they have no {'center' if of == 'center' else 'tire'}"
        if made == "tired" and quantity == "rim_thickness":
            return "the wheels there have tires: tire thickness is what is meant"
        return None

    def _part(self, quantity: str, of: str, part: str) -> str | None:
        book = self.book
        id, _, side = part.partition(" ")
        if id in book.tires:
            if of not in ("tire", "wheel"):
                return f"{id} is a tire"
            return self._flange(quantity, id)
        if id in book.centers:
            return None if of == "center" else f"{id} is a wheel center"
        if id not in book.wheelsets:
            return None
        wheelset = book.wheelsets[id]
        if of == "engine":
            return f"{id} is a wheelset"
        if side and side not in wheelset.ends:
            return f"the ends of {id} are named {' and '.join(wheelset.ends)}"
        if of == "wheelset":
            return f"it belongs to both wheels together, and a side is named ({side})" if side else None
        return self.wrong_for_make(quantity, wheelset.made) if side else "the side or end is missing"

    def _flange(self, quantity: str, tire: str) -> str | None:
        found = self.book.tires.get(tire)
        if quantity in OF_FLANGES and found is not None and found.flange == "plain":
            return f"{tire} is a plain tire: it has no flange"
        return None

    def depends_on_day(self, quantity: str) -> bool:
        """Whether the tire that was on that day decides."""
        return self.any_plain and quantity in OF_FLANGES

    def wrong_that_day(self, quantity: str, reading: Reading) -> str | None:
        """Why the tire that is named, or stood at the reading's place on its day, cannot have the quantity."""
        thing = self.book.thing_of("tire", reading)
        return self._flange(quantity, thing.id) if thing else None
