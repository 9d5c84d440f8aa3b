"""The measures that templates show, for a railway that works in millimetres: round figures, as its shop would write."""

from __future__ import annotations

import re

_METRIC = {
    "1/32 in": "1 mm", "1 1/8 in": "28 mm", "1 1/4 in": "32 mm", "2 7/16 in": "62 mm", "2 1/2 in": "63 mm",
    "3 in": "75 mm", "5 in": "125 mm", "5 1/2 in": "140 mm", "5 3/4 in": "145 mm", "8 in": "200 mm",
    "8 1/2 in": "215 mm", "12 in": "305 mm", "14 in": "350 mm", "18 in": "460 mm", "30 in": "750 mm",
    "33 in": "840 mm", "36 in": "920 mm", "44 in": "1120 mm", "53 1/4 in": "1360 mm", "60 in": "1500 mm",
    "64 1/4 in": "1630 mm", "4 ft 8 1/2 in": "1435 mm",
    "0.012 in": "1 mm", "1 ft": "1 m",  # a shrinkage and the length it is for
    "0.001 in": "0.01 mm", "0.004 in": "0.1 mm", "0.014 in": "0.35 mm", '".025 in"': "0.5 mm", "0.046 in": "1.17 mm",
    "7.986 in": "199.65 mm", "43.951 in": "1118.80 mm", "43.954 in": "1118.88 mm",
    "3/8 in above tread": "10 mm above tread", "3 in x 2 in": "75 mm x 50 mm", "1 1/2 in square": "40 mm square",
    "36000 lb": "16 t", "98000 lb": "44 t", "143000 lb": "65 t", "75000 psi": "520 MPa", "125000 psi": "860 MPa",
    "20 long tonf": "200 kN", "50 long tonf": "500 kN", "75 long tonf": "750 kN", "45 short tonf": "400 kN",
    "54 degF": "12 degC", "68 degF": "20 degC", "500 degF": "260 degC", "350 to 375 degF": "175 to 190 degC",
    "50 degF": "30 degC", "6.4e-6 /degF": "11.5e-6 /degC", "6.5e-6 /degF": "11.7e-6 /degC",
    "25 mph": "40 km/h", "34 mi": "55 km",
}  # fmt: skip
_VALUE = re.compile(rf"(?<=: )(?:{'|'.join(map(re.escape, _METRIC))})(?=$|  # )", re.MULTILINE)


def in_metric(template: str) -> str:
    """A template whose measures are metric; what stands in words, ids and choices stays.

    >>> in_metric("# throw: 12 in  # Half the stroke: 12 in.\\n# taper: 1 in 20")
    '# throw: 305 mm  # Half the stroke: 12 in.\\n# taper: 1 in 20'
    """
    return _VALUE.sub(lambda found: _METRIC[found[0]], template)
