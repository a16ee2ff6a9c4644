#!/usr/bin/python3
"""A yardstick for the benchmarks: four classic steps by OpenCV, on one thread.

    python3 stages.py FOLDER WIDTH HEIGHT [TIMES]

FOLDER holds raw bytes, WIDTH by HEIGHT: grey.raw, a picture; mask.raw, 0 or 1, its
cells. Each step does what the same step of package crumb does on the same bytes:
components with their areas, the exact distance to the wall, and the watershed from
the deepest places; and Otsu's threshold with the parting of the picture, of which the
package has the threshold and the benchmark the rest.

It prints a line of JSON: the least seconds of several runs of each step, and what
came of it.
"""
import json
import sys
import time

import cv2
import numpy as np

cv2.setNumThreads(1)


def least(times, step):
    best, out = float("inf"), None
    for _ in range(times):
        start = time.process_time()
        out = step()
        best = min(best, time.process_time() - start)
    return best, out


def main():
    folder, w, h = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    times = int(sys.argv[4]) if len(sys.argv) > 4 else 10
    grey, mask = (np.fromfile(f"{folder}/{name}.raw", np.uint8).reshape(h, w) for name in ("grey", "mask"))
    otsu, (level, _) = least(times, lambda: cv2.threshold(grey, 0, 1, cv2.THRESH_BINARY + cv2.THRESH_OTSU))
    components, (n, _, _, _) = least(times, lambda: cv2.connectedComponentsWithStats(mask, connectivity=4))
    distance, deep = least(times, lambda: cv2.distanceTransform(mask, cv2.DIST_L2, cv2.DIST_MASK_PRECISE))
    # Seeds are what the deepest places are by OpenCV's own dilation; that is not timed.
    peaks = ((deep == cv2.dilate(deep, np.ones((5, 5), np.uint8))) & (mask > 0)).astype(np.uint8)
    _, seeds = cv2.connectedComponents(peaks, connectivity=8)
    seeds = np.where(mask > 0, seeds, seeds.max() + 1).astype(np.int32)
    hills = cv2.cvtColor((255 - 255 * deep / max(float(deep.max()), 1)).astype(np.uint8), cv2.COLOR_GRAY2BGR)
    watershed = float("inf")
    for _ in range(times):
        markers = seeds.copy()
        start = time.process_time()
        cv2.watershed(hills, markers)
        watershed = min(watershed, time.process_time() - start)
    print(json.dumps({"opencv": cv2.__version__, "seconds": {"otsu": otsu, "components": components, "distance": distance, "watershed": watershed},
                      "level": int(level), "components": n - 1, "deepest": float(deep.max())}))


if __name__ == "__main__":
    main()
