"""Photos that records cite, as a report may show them: told by their first bytes, never by their name.

Only JPEG and PNG are shown; anything else, an SVG or a page among it, is named and stays in the ledger. A file that is
not the one that was cited is not shown as if it were.
"""

from __future__ import annotations

import hashlib
from base64 import b64encode
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from axlebook.records.attached import Cited

ENDINGS = {"image/jpeg": "jpg", "image/png": "png"}
_JPEG, _PNG = b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n"


@dataclass(frozen=True)
class Photo:
    """One attachment as it is to be told; `media` is '' where it cannot be shown, and `why` says why."""

    cited: Cited
    media: str
    content: bytes
    why: str = ""

    @property
    def words(self) -> str:
        """What it shows, for who cannot see it."""
        return self.cited.shows or f"what {self.cited.record} cites as {self.cited.file}; it does not say what is seen"

    @property
    def caption(self) -> str:
        """What it shows, and which record cites it."""
        told = f"{self.cited.shows}. " if self.cited.shows else ""
        return f"{told}Cited by {self.cited.record}, attachments/{self.cited.file}."

    @property
    def name(self) -> str:
        """A name for a copy that says nothing but what is in it."""
        return f"{self.cited.sha256[:24]}.{ENDINGS[self.media]}"

    @property
    def uri(self) -> str:
        """The photo inside the page."""
        return f"data:{self.media};base64,{b64encode(self.content).decode('ascii')}"


def media_of(content: bytes) -> str:
    r"""The kind of picture that bytes are; '' where they are none that is shown.

    >>> media_of(b"\xff\xd8\xff\xe0 and so on"), media_of(b"<svg onload='alert(1)'>")
    ('image/jpeg', '')
    """
    if content.startswith(_JPEG):
        return "image/jpeg"
    return "image/png" if content.startswith(_PNG) else ""


def photos_of(cited: Iterable[Cited], contents: Mapping[str, bytes]) -> tuple[Photo, ...]:
    """The attachments that are cited, each once, with what was read of them."""
    once = {(one.record, one.file, one.sha256): one for one in cited}
    return tuple(_photo(one, contents.get(one.file)) for one in once.values())


def _photo(cited: Cited, content: bytes | None) -> Photo:
    if content is None:
        return Photo(cited, "", b"", "it is not there, or is too large to be shown")
    if hashlib.sha256(content).hexdigest() != cited.sha256:
        return Photo(cited, "", b"", "the file that is there is not the one that was cited")
    media = media_of(content)
    return Photo(cited, media, content) if media else Photo(cited, "", b"", "it is no JPEG or PNG")


def within_budget(photos: Iterable[Photo], each: int | None, together: int) -> tuple[Photo, ...]:
    """The photos of a report in one file: one that is over a budget in bytes is named and not shown."""
    found, used = [], 0
    for photo in photos:
        size = len(photo.content)
        if photo.media and each is not None and size > each:
            found.append(Photo(photo.cited, "", b"", "it is larger than the ledger's photo_budget"))
        elif photo.media and used + size > together:
            found.append(Photo(photo.cited, "", b"", "the photos before it fill this report"))
        else:
            used += size if photo.media else 0
            found.append(photo)
    return tuple(found)
