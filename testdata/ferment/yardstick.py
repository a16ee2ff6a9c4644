# The yardstick for one fit: the same readings, the same two curves, by SciPy's
# curve_fit. Reads "hours,height" lines and a number of times, prints JSON.
import json, sys, time
import numpy as np
from scipy.optimize import curve_fit

data = np.genfromtxt(sys.argv[1], delimiter=",", skip_header=1)
h, y = data[:, 0], data[:, 1]
gompertz = lambda t, a, mu, lag: a * np.exp(-np.exp(np.clip(mu * np.e / a * (lag - t) + 1, -500, 50)))
logistic = lambda t, a, mu, lag: a / (1 + np.exp(np.clip(4 * mu / a * (lag - t) + 2, -500, 500)))
start = (y.max(), y.max() / h.max() * 2, h.max() / 5)
seconds, answer = [], None
for _ in range(int(sys.argv[2])):
    begun = time.process_time()
    fits = [curve_fit(f, h, y, start, maxfev=20000)[0] for f in (gompertz, logistic)]
    rss = [float(((f(h, *p) - y) ** 2).sum()) for f, p in zip((gompertz, logistic), fits)]
    answer = fits[int(np.argmin(rss))]
    seconds.append(time.process_time() - begun)
print(json.dumps({"seconds": sorted(seconds)[len(seconds) // 2], "a": float(answer[0]), "mu": float(answer[1]), "lag": float(answer[2])}))
