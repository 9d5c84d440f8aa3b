"""The JSON of a report, byte for byte, and held to the shipped schema."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

from tests.cli.commands import promised
from tests.reports.made import COUNTS, FULL, THIN, report

from axlebook.reports.as_json import render_report

GOLDEN = Path(__file__).parent / "report.json"


def test_a_report_byte_for_byte() -> None:
    assert render_report(FULL).encode() == GOLDEN.read_bytes()


def test_it_has_the_promised_form() -> None:
    told = promised(render_report(FULL))
    assert (told["format_version"], told["revision"], told["dirty"]) == (1, "a" * 40, True)
    assert told["counts"] == COUNTS
    assert [finding["waived"] for finding in told["findings"]] == [None] * 7 + ["w-1"]
    assert told["findings"][0]["figures"][1] == {
        "name": "limit at_most", "value": "15/16 in", "unit": "in", "from": "us-49-cfr-230/flange-thin",
    }  # fmt: skip
    assert "result" not in told


def test_a_fingerprint_holds_no_value_and_no_line() -> None:
    told = promised(render_report(report(THIN, replace(THIN, known_at=(99, 1)))))
    assert told["findings"][0]["fingerprint"] == told["findings"][1]["fingerprint"]


def test_nothing_but_ascii_leaves() -> None:
    text = render_report(report(THIN.waived_by("\u202ew\x1b\udcff")))
    assert text.isascii()
    assert json.loads(text)["findings"][0]["waived"] == "\u202ew\x1b\udcff"
