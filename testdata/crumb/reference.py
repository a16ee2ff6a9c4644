#!/usr/bin/python3
"""Reference values for the crumb tests, by scikit-image.

    python3 reference.py > reference.json

The pictures in samples/ are those that Debian's python3-skimage ships (0.19.3);
those in drawn/ are our own. Grey = (299 R + 587 G + 114 B + 500) // 1000 and
mask = grey > Otsu, both ways (the dark side as well), 4- and 8-connected.

The yardstick of the benchmarks is in yardstick.py.
"""
import glob
import json
import os
import sys

import numpy as np
import skimage
from scipy import ndimage
from skimage import filters, io, measure

HERE = os.path.dirname(os.path.abspath(__file__))


def grey(path):
    picture = io.imread(path)
    if picture.dtype == bool:
        picture = picture.astype(np.uint8) * 255
    if picture.ndim == 2:
        return picture
    rgb = picture[..., :3].astype(np.uint32)
    return ((299 * rgb[..., 0] + 587 * rgb[..., 1] + 114 * rgb[..., 2] + 500) // 1000).astype(np.uint8)


def regions(mask, connectivity):
    labels = measure.label(mask, connectivity=connectivity)
    found = measure.regionprops(labels)
    found.sort(key=lambda r: (-r.area, r.bbox))
    rows = [
        {
            "area": int(r.area),
            "bbox": [int(v) for v in r.bbox],
            "row": round(float(r.centroid[0]), 9),
            "col": round(float(r.centroid[1]), 9),
            "diameter": round(float(r.equivalent_diameter_area), 9),
            "eccentricity": round(float(r.eccentricity), 9),
            "major": round(float(r.axis_major_length), 9),
            "minor": round(float(r.axis_minor_length), 9),
        }
        for r in found[:40]
    ]
    areas = sorted(int(r.area) for r in found)
    return {"labels": int(labels.max()), "areas_sum": sum(areas), "areas_sum_squares": sum(a * a for a in areas), "largest": rows}


def values(path):
    g = grey(path)
    t = int(filters.threshold_otsu(g))
    mask = g > t
    d2 = ndimage.distance_transform_edt(mask) ** 2
    return {
        "picture": os.path.relpath(path, HERE),
        "otsu": t,
        "bright": {"4": regions(mask, 1), "8": regions(mask, 2)},
        "dark": {"4": regions(~mask, 1), "8": regions(~mask, 2)},
        "filled": int(ndimage.binary_fill_holes(mask).sum()),
        "distance_squared_sum": int(np.rint(d2).sum()),
        "distance_squared_max": int(np.rint(d2).max()),
    }


if __name__ == "__main__":
    paths = sorted(glob.glob(os.path.join(HERE, "samples", "*.png"))) + sorted(glob.glob(os.path.join(HERE, "drawn", "*.png")))
    json.dump({"scikit_image": skimage.__version__, "pictures": [values(p) for p in paths]}, sys.stdout, indent=1)
    print()
