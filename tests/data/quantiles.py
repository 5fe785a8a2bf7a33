"""Quantiles of Student's t and tolerance factors by scipy, for quantiles.csv.

python3 tests/data/quantiles.py rewrites the file beside it.
"""

import math
import pathlib

import scipy
from scipy import stats

lines = [
    f"# source: scipy {scipy.__version__}, tests/data/quantiles.py; mark: derived",
    "kind,n,share,confidence,value",
]
for share in (0.001, 0.05, 0.5, 0.75, 0.9, 0.95, 0.975, 0.999):
    lines.append(f"normal,0,{share},0,{float(stats.norm.ppf(share))!r}")
    for nu in (1, 2, 3, 4, 5, 7, 10, 19, 29, 100, 998):
        lines.append(f"student,{nu},{share},0,{float(stats.t.ppf(share, nu))!r}")
for n in (2, 3, 4, 5, 8, 10, 30, 100):
    for share in (0.9, 0.95):
        for confidence in (0.75, 0.9, 0.95):
            k = stats.nct.ppf(confidence, n - 1, stats.norm.ppf(share) * math.sqrt(n))
            lines.append(f"tolerance,{n},{share},{confidence},{float(k / math.sqrt(n))!r}")
# Welch's interval and degrees of freedom.
first = [12.1, 10.8, 13.4, 11.5, 12.6]
second = [9.7, 12.9, 8.8]
found = stats.ttest_ind(first, second, equal_var=False)
lines.append(f"welch-freedom,8,0,0,{float(found.df)!r}")
path = pathlib.Path(__file__).with_name("quantiles.csv")
path.write_text("\n".join(lines) + "\n")
