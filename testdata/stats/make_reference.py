"""Slopes that journal/stats is checked against, computed in scipy 1.10.1:

    /usr/bin/python3 testdata/stats/make_reference.py > testdata/stats/scipy_reference.csv

scipy.stats.theilslopes takes Sen's normal limits with ties corrected, so only
rows with ties can be compared for their limits; slopes always can.
"""
from scipy import stats

print("what,input,value")
CASES = [
    ([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], [1, 2, 2, 3, 5, 4, 6, 6, 8, 9]),
    ([1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6], [5, 4, 4, 3, 3, 3, 2, 1, 2, 1, 0, 1]),
    ([0, 1, 2, 3, 4, 5, 6, 7], [1.2, 1.9, 3.3, 2.8, 4.9, 5.1, 4.7, 7]),
]
for x, y in CASES:
    key = " ".join(map(str, x)) + " | " + " ".join(map(str, y))
    slope, intercept, low, high = stats.theilslopes(y, x, 0.95)
    tied = len(set(x)) < len(x) or len(set(y)) < len(y)
    print(f'theil_slope,"{key}",{slope:.15g}')
    print(f'theil_intercept,"{key}",{intercept:.15g}')
    if tied:
        print(f'theil_lower,"{key}",{low:.15g}')
        print(f'theil_upper,"{key}",{high:.15g}')
