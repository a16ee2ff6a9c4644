#!/usr/bin/python3
"""A yardstick for the benchmarks: the steps of package crumb on one photo, in Python.

    python3 yardstick.py PHOTO PXMM [TIMES]

Each step is one or two calls of scikit-image, scipy, numpy or Pillow, chosen for
speed: colours in bytes, everything after them in float32; the slice looked for in a
small picture; the working scale 10 pixels to the mm, by Pillow's box filter; the
light blurred on blocks of a millimetre. It peels the crust by its depth alone, and
neither joins basins again nor redraws edges, so that it does rather less than package
crumb. It is no other program's method.

It prints a line of JSON: the seconds of each run, decoding apart, by the clock and of
the processor; the most memory that was in use, in MB, in all and beyond what was in
use before; and what was measured.
"""
import json
import sys
import time

import numpy as np
from PIL import Image
from scipy import ndimage
from skimage import filters, measure, morphology, segmentation

WORK_PX_PER_MM = 10
CRUST_MM = 3.5
LIGHT_SIGMA_MM = 8
SPECK_MM, GLINT_MM = 0.33, 0.8


def slice_depth(photo, px_per_mm):
    """How deep in the slice each place of a small picture lies, in mm."""
    k = max(1, round(max(photo.size) / 360))
    small = np.asarray(photo.resize((photo.width // k, photo.height // k), Image.NEAREST)).astype(np.float32)
    border = np.concatenate([small[:4].reshape(-1, 3), small[-4:].reshape(-1, 3), small[:, :4].reshape(-1, 3), small[:, -4:].reshape(-1, 3)])
    far = np.sqrt(((small - np.median(border, axis=0)) ** 2).sum(axis=2))
    face = ndimage.binary_fill_holes(far > filters.threshold_otsu(far) / 2)
    labels = measure.label(ndimage.binary_opening(face, morphology.disk(5)))
    face = labels == np.argmax(np.bincount(labels.ravel())[1:]) + 1
    return Image.fromarray(ndimage.distance_transform_edt(face).astype(np.float32) * (k / px_per_mm))


def at_working_scale(photo, depth, px_per_mm):
    """The crumb's part of the photo and of its mask, and the pixels to a mm."""
    step = max(1.0, px_per_mm / WORK_PX_PER_MM)
    size = (round(photo.width / step), round(photo.height / step))
    crumb = np.asarray(depth.resize(size, Image.BILINEAR)) > CRUST_MM
    rows, columns = np.flatnonzero(crumb.any(axis=1)), np.flatnonzero(crumb.any(axis=0))
    box = np.s_[rows[0]:rows[-1] + 1, columns[0]:columns[-1] + 1]
    colours = np.asarray(photo.resize(size, Image.BOX))[box]
    return colours @ np.array([0.299, 0.587, 0.114], np.float32), crumb[box], px_per_mm / step


def flatten(grey, crumb, px):
    """Brightness over that of the walls around, widely blurred on blocks of a mm."""
    b = round(px)
    h, w = grey.shape
    pad = ((0, -h % b), (0, -w % b))

    def blurred(a):
        a = np.pad(a, pad)
        blocks = a.reshape(a.shape[0] // b, b, a.shape[1] // b, b).sum(axis=(1, 3), dtype=np.float32)
        return ndimage.gaussian_filter(blocks, LIGHT_SIGMA_MM * px / b, mode="constant")

    walls = crumb & (grey > filters.threshold_otsu(grey[crumb]))
    light = blurred(np.where(walls, grey, np.float32(0))) / np.maximum(blurred(walls), 1e-6)
    light = Image.fromarray(light).resize((w + -w % b, h + -h % b), Image.BILINEAR)
    return grey / np.maximum(np.asarray(light)[:h, :w], 1)


def measured(photo, px_per_mm):
    grey, crumb, px = at_working_scale(photo, slice_depth(photo, px_per_mm), px_per_mm)
    flat = flatten(grey, crumb, px)
    disc = [int(np.pi / 4 * (mm * px) ** 2) + 1 for mm in (SPECK_MM, GLINT_MM)]
    cells = crumb & (flat < filters.threshold_otsu(flat[crumb]))
    cells = morphology.remove_small_holes(morphology.remove_small_objects(cells, disc[0]), disc[1])
    deep = ndimage.distance_transform_edt(cells).astype(np.float32)
    smooth = ndimage.gaussian_filter(deep, 1)
    peaks, _ = ndimage.label((smooth == ndimage.maximum_filter(smooth, 5)) & cells, np.ones((3, 3)))
    labels = segmentation.watershed(-deep, peaks, mask=cells)
    props = measure.regionprops_table(labels, properties=("area", "inertia_tensor"))
    return {"cells": len(props["area"]), "open": float(cells.sum() / crumb.sum()), "mean_mm2": float(props["area"].mean() / px**2)}


def memory(what):
    """A line of /proc/self/status, in MB."""
    with open("/proc/self/status") as f:
        return next(int(line.split()[1]) / 1024 for line in f if line.startswith(what))


def main():
    photo, px_per_mm = Image.open(sys.argv[1]), float(sys.argv[2])
    photo.load()
    with open("/proc/self/clear_refs", "w") as f:
        f.write("5")  # the peak counts from here
    before, clock, processor = memory("VmRSS"), [], []
    for _ in range(int(sys.argv[3]) if len(sys.argv) > 3 else 3):
        start, work = time.perf_counter(), time.process_time()
        found = measured(photo, px_per_mm)
        clock.append(time.perf_counter() - start)
        processor.append(time.process_time() - work)
    peak = memory("VmHWM")
    print(json.dumps({"clock": clock, "processor": processor, "peak_mb": peak, "more_mb": peak - before} | found))


if __name__ == "__main__":
    main()
