"""What frames a simulated ledger: engine, wheelsets, tires, instruments, people, limits, a plan."""

from __future__ import annotations

from datetime import date
from typing import Any

from tests.demo.parameters import FIRST_YEAR, TOOLS, Tool
from tests.demo.railway import LAST_YEAR, Railway, Wheelset

ENGINE = "e-7"
Tree = dict[str, Any]
_STEEL = {
    "modulus": "29500000 psi",
    "poisson": "0.29",
    "expansion": "6.5e-6 /degF",
    "source": "invented for a test",
}


def fixed_records(railway: Railway, lines: list[Tree], closed_on: date) -> dict[str, Tree]:
    """The undated records of a railway."""
    trees = {"ledger.yaml": _ledger(railway, closed_on), f"engines/{ENGINE}.yaml": _engine(railway, lines)}
    for one in railway.drivers:
        trees[f"drivers/{one.id}.yaml"] = _driver(railway, one)
        for side, number in (("left", 1), ("right", 2)):
            trees[f"tires/t-{one.id[2:]}{number}.yaml"] = _tire(railway, "")
            if one is railway.renewed:
                trees[f"tires/t-{one.id[2:]}{number + 2}.yaml"] = _tire(railway, f"{one.id}-{side}")
    for one in railway.trucks:
        trees[f"wheelsets/{one.id}.yaml"] = _truck(one)
    for tool in TOOLS.values():
        trees[f"instruments/{tool.id}.yaml"] = _instrument(tool)
    trees["instruments/pyrometer-1.yaml"] = _pyrometer()
    for person in ("lead", "v1", "v2", "v3", "machinist"):
        trees[f"people/{person}.yaml"] = {"kind": "person", "role": f"invented, {person}", "from": "2008-01"}
    trees["limits/own.yaml"] = _limits()
    trees["plans/own-annual.yaml"] = _plan()
    return trees


def _ledger(railway: Railway, closed_on: date) -> Tree:
    sets = [
        {"set": id, "adopted_on": f"{FIRST_YEAR}-01-05", "adopted_by": "board minute 1"}
        for id in ("own", "arm-mm-shrinkage")
    ]
    return {
        "kind": "ledger",
        "railway": f"Simulated railway {railway.seed} (invented)",
        "defaults": {"track_gauge": "4 ft 8 1/2 in", "display_units": "inch", "limit_sets": sets},
        "reference_temperature": "68 degF",
        "shop_temperatures": {"at_least": "35 degF", "at_most": "95 degF"},
        "materials": {"tire steel": _STEEL, "cast steel": _STEEL},
        "closed_on": closed_on.isoformat(),
    }


def _engine(railway: Railway, lines: list[Tree]) -> Tree:
    return {
        "kind": "engine",
        "number": "7",
        "wheel_arrangement": railway.arrangement,
        "built": "1923",
        "weight_on_drivers": {
            "value": f"{34000 * len(railway.drivers)} lb",
            "source": "weigh bill (invented)",
            "stated_on": "1950",
        },
        "wheelsets": sorted(lines, key=lambda line: (line["at"], line["from"])),
        "placed_in_service": f"{FIRST_YEAR}-05-01",
    }


def _driver(railway: Railway, one: Wheelset) -> Tree:
    center = {
        "material": "cast steel",
        "nominal_diameter": f"{railway.center} in",
        "rim_inside_diameter": f"{railway.center - 8} in",
        "rim_width": "5 1/2 in",
        "spokes": "14",
        "spoke_section": "3 1/4 in x 2 in",
        "hub_diameter": "15 in",
        "solid": "no",
        "divided_rim": "no",
        "welds": "none known",
    }
    return {
        "kind": "driver",
        "axle": {
            "main": "yes" if one is railway.drivers[-1] else "no",
            "bearings": "plain",
            "journals": "inside",
            "original_journal_diameter": "8 1/2 in",
            "stamped_end": "left",
            "source": "stamp",
        },
        "datum": "punch mark on the left axle end, above the stamp",
        "register": {
            "lips": "outside",
            "nominal_distance": "64 1/4 in",
            "sense": "between the two outside seats; back-to-back = distance - both flange-back-to-register",
        },
        "centers": {f"{one.id}-{side}": {"first_side": side, **center} for side in ("left", "right")},
    }


def _tire(railway: Railway, ordered_for: str) -> Tree:
    tree: Tree = {
        "kind": "tire",
        "marks": {"heat": "K9", "serial": f"S-{railway.seed}", "stamped": "outside face"},
        "steel": {
            "specification": "invented",
            "class": "B",
            "yield_strength": "75000 psi",
            "tensile_strength": "130000 psi",
            "heat_ceiling": "500 degF",
            "source": "certificate (invented)",
        },
        "form": {
            "flange": "flanged",
            "contour": "template-a",
            "nominal_width": "5 3/4 in",
            "seat_width": "5 1/2 in",
            "flange_back_to_register": "5 1/2 in",
            "located_by": "lip outside",
            "fastened_by": "nothing",
        },
    }
    if not ordered_for:
        return tree
    bore = railway.center - railway.allowance
    tree["marks"]["made_on"] = str(railway.renewed_in - 1)
    tree["ordered"] = {
        "ordered_on": f"{railway.renewed_in - 1}-03-01",
        "for_center": ordered_for,
        "bore": {
            "at_least": f"{bore - 0.012:.3f} in",
            "at_most": f"{bore + 0.012:.3f} in",
            "temperature": "68 degF",
        },
        "allowance": f"{railway.allowance:.3f} in",
        "received_on": f"{railway.renewed_in}-01-06",
    }
    return tree


def _truck(one: Wheelset) -> Tree:
    return {
        "kind": "wheelset",
        "made": "one-piece",
        "material": "wrought",
        "wear": "multi-wear",
        "plate": "curved",
        "nominal_diameter": "30 in",
        "axle": {
            "bearings": "plain",
            "journals": "inside",
            "original_journal_diameter": "6 in",
            "stamped_end": "A",
            "source": "stamp",
        },
        "datum": f"chisel mark on the A end of {one.id}",
    }


def _certificates() -> list[Tree]:
    return [
        {
            "number": f"C-{year}",
            "issued_on": f"{year}-12-10",
            "expires_on": f"{year + 2}-12-31",
            "by": "county measuring laboratory (invented)",
        }
        for year in range(FIRST_YEAR - 3, LAST_YEAR + 1, 2)
    ]


def _length(tool: Tool, number: float) -> str:
    part = tool.stated if number == float(tool.stated) else tool.division
    if part.denominator in (32, 64, 128):
        return f"{part.numerator}/{part.denominator} in"
    return f"{number:g} in"


def _instrument(tool: Tool) -> Tree:
    tree: Tree = {
        "kind": "instrument",
        "type": tool.type,
        "measures": list(tool.measures),
        "range": {"at_least": tool.low, "at_most": tool.high},
        "resolution": _length(tool, float(tool.division)),
        "expanded_uncertainty": _length(tool, float(tool.stated)),
        "coverage_factor": "2",
        "expansion": "6.4e-6 /degF",
    }
    if tool.one_turn:
        tree["one_turn"] = tool.one_turn
    if tool.where:
        tree["where"] = tool.where
    if tool.id.startswith(("rule", "feelers")):
        return tree | {"no_certificate": "checked against the railway's own rule each winter"}
    return tree | {"certificates": _certificates()}


def _pyrometer() -> Tree:
    return {
        "kind": "instrument",
        "type": "contact pyrometer",
        "range": {"at_least": "50 degF", "at_most": "900 degF"},
        "resolution": "1 degF",
        "contact": "pyrometer",
        "certificates": _certificates(),
    }


def _limits() -> Tree:
    def limit(quantity: str, word: str, figure: str, **more: Any) -> Tree:
        return {
            "id": f"own-{quantity.replace('_', '-')}-{word.replace('_', '-')}",
            "quantity": quantity,
            **more,
            "stage": "shop",
            "out_when": {word: figure},
            "clause": "page 1",
        }

    return {
        "kind": "limit-set",
        "title": "Own limits of a simulated railway (invented)",
        "source": {
            "title": "Notebook of a simulated railway (invented)",
            "edition": str(FIRST_YEAR),
            "seen_on": f"{FIRST_YEAR}-01-05",
        },
        "decision": "as written",
        "limits": [
            limit("tire_thickness", "under", "1 1/2 in"),
            limit("rim_thickness", "under", "1 in"),
            limit("flange_thickness", "at_most", "15/16 in", where="3/8 in above tread"),
            limit("flange_height", "over", "1 3/4 in"),
            limit("tread_hollow", "over", "5/16 in"),
            limit("back_to_back", "under", "52 7/8 in"),
            limit("back_to_back", "over", "53 5/8 in"),
            limit("lateral", "over", "3/4 in"),
            limit("register_gap", "over", "0.003 in"),
            limit("journal_diameter", "under", "7 1/2 in"),
        ],
        "practices": [
            {
                "id": "own-shrinkage",
                "quantity": "interference",
                "follows": "arm-mm-shrinkage/shrinkage-allowance",
                "tolerance": {"minus": "0.008 in", "plus": "0.008 in"},
                "stage": "practice",
                "applies_to": {"role": "driver"},
                "clause": "page 2",
            }
        ],
    }


def _plan() -> Tree:
    asked = (
        ("tire_thickness", ["0 deg", "120 deg", "240 deg"]),
        ("flange_thickness", ["worst"]),
        ("flange_height", ["worst"]),
        ("back_to_back", ["0 deg", "120 deg", "240 deg"]),
    )
    return {
        "kind": "plan",
        "purposes": ["annual"],
        "title": "Annual of a simulated railway",
        "minimum_positions": "3",
        "asks": [
            {"quantity": quantity, "roles": ["driver"], "positions": positions, "stage": "asked"}
            for quantity, positions in asked
        ],
    }
