"""The certificate of an instrument in use has run out.

What is judged: for every instrument that is not retired, the certificate that runs out last. When it ran out and the
instrument was used since it was issued, by readings, a heat log or a list of instruments, it counts as in use and is
outside. One that lay idle all that time is not assessed. Readings taken after the day are the business of
instrument-out-of-certificate.

What to do: have the instrument calibrated before it is used again and enter the new certificate; or enter
`retired_on:` when it is not used any more.

Source: the certificates in the instrument's own record.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book
from axlebook.records.due import Kind

from ._due import judged_due

ID = "certificate-expired"


def check(book: Book) -> Iterator[Finding]:
    """Judge the last certificate of every instrument."""
    return judged_due(book, ID, Kind.CERTIFICATE)
