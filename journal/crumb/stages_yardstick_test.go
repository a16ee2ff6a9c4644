//go:build yardstick && linux

package crumb

import (
	"context"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"
	"time"

	"twinloaf/journal/crumb/phantom"
)

// BenchmarkStagesBesideYardstick sets the classic steps beside OpenCV's on the same
// picture at working scale, both on one thread, and gives the ratio of their times: below
// 1 is quicker than OpenCV. Of Otsu's step the threshold alone is the package's own, which counts
// its levels on the way, of pixels that are no bytes; counting and parting bytes, as OpenCV does, are done here. It wants python3 with OpenCV, hence its build tag.
func BenchmarkStagesBesideYardstick(b *testing.B) {
	p, err := phantom.Draw(context.Background(), phantom.Slice{Seed: 12, Width: 4000, Height: 3000,
		Cells: phantom.Cells{MedianMM: 1.2, LogSD: 0.6, Porosity: 0.38}, Light: phantom.Light{Noise: 3}})
	if err != nil {
		b.Fatal(err)
	}
	f, err := Prepare(context.Background(), p.Photo, Options{PxPerMM: p.Truth.PxPerMM})
	if err != nil {
		b.Fatal(err)
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	grey, cells := make([]byte, f.w*f.h), make([]byte, f.w*f.h)
	mask := make([]bool, f.w*f.h)
	threshold := (f.levels.cell + f.levels.wall) / 2
	for i, v := range f.rel {
		if f.crumb[i] {
			grey[i] = uint8(min(255, v>>6))
			mask[i] = float64(v) < threshold
		}
		cells[i] = byte(b2i(mask[i]))
	}
	const times = 40 // a busy machine leaves few of them alone
	for b.Loop() {
		theirs := stagesThere(b, grey, cells, f.w, f.h, times)
		var level, n int
		var d2 []uint16
		parted, pairs := make([]byte, len(grey)), new(pairCounts)
		ours := map[string]float64{
			"otsu": least(b, times, func() {
				level = otsu(pairs.histogram(grey))
				above(parted, grey, level)
			}),
			"components": least(b, times, func() {
				c := componentsOf(mask, f.w, f.h, true, false)
				labelsOf(c) // OpenCV paints them, too
				n = len(c.size) - 1
			}),
			"distance":  least(b, times, func() { d2 = distanceWithin(mask, f.w, f.h, mostReach) }),
			"watershed": least(b, times, func() { watershed(d2, f.w, f.h) }),
		}
		for i, v := range grey {
			if parted[i] != byte(b2i(int(v) > level)) {
				b.Fatalf("grey %d is %d against a level of %d", v, parted[i], level)
			}
		}
		deepest := uint16(0)
		for _, d := range d2 {
			deepest = max(deepest, d)
		}
		if n != theirs.Components || math.Abs(float64(level-theirs.Level)) > 1 || math.Abs(math.Sqrt(float64(deepest))-theirs.Deepest) > 0.01 {
			b.Errorf("level %d, %d components, deepest %.2f; OpenCV says %d, %d, %.2f", level, n, math.Sqrt(float64(deepest)), theirs.Level, theirs.Components, theirs.Deepest)
		}
		b.ReportMetric(0, "ns/op") // of all together: it says nothing
		b.Logf("%d by %d pixels, one thread, least of %d, OpenCV %s", f.w, f.h, times, theirs.OpenCV)
		for _, stage := range []string{"otsu", "components", "distance", "watershed"} {
			b.Logf("%-10s %6.2f ms, OpenCV %6.2f ms", stage, 1000*ours[stage], 1000*theirs.Seconds[stage])
			b.ReportMetric(ours[stage]/theirs.Seconds[stage], stage+"-ratio")
		}
	}
}

// pairCounts counts pairs of grey levels; it is made once, since new memory is slow at first.
type pairCounts [1 << 16]uint32

// histogram counts grey levels, two pixels at a time, so that half as many counters are raised. Eight pixels
// that are nought, as all are beyond the crumb, are counted together: a counter that is raised again at once
// has to wait for itself.
func (pairs *pairCounts) histogram(grey []byte) []int {
	clear(pairs[:])
	hist, noughts := make([]int, 256), 0
	n := len(grey) &^ 31
	for i := 0; i < n; i += 32 {
		some := grey[i : i+32 : i+32]
		for k := 0; k < 32; k += 8 {
			v := binary.LittleEndian.Uint64(some[k:])
			if v == 0 {
				noughts++
				continue
			}
			pairs[uint16(v)]++
			pairs[uint16(v>>16)]++
			pairs[uint16(v>>32)]++
			pairs[v>>48]++
		}
	}
	hist[0] = 8 * noughts
	for at := 0; at < len(pairs); at += 8 { // neighbours are alike: of most pairs there are none
		some, low := (*[8]uint32)(pairs[at:]), (*[8]int)(hist[at&255:])
		if some[0]|some[1]|some[2]|some[3]|some[4]|some[5]|some[6]|some[7] == 0 {
			continue
		}
		for k, n := range some {
			low[k] += int(n)
			hist[at>>8] += int(n)
		}
	}
	for _, v := range grey[n:] {
		hist[v]++
	}
	return hist
}

// above sets to 1 what is brighter than a level, 32 pixels at a time, and the rest to 0.
func above(out, grey []byte, level int) {
	const ones, low = 0x0101_0101_0101_0101, 0x7f7f_7f7f_7f7f_7f7f
	past := uint64(127-level&127) * ones // carries into a byte's highest bit what is more than the level's lower ones
	n := len(grey) &^ 31
	for i := 0; i < n; i += 32 {
		g, o := grey[i:i+32:i+32], out[i:i+32:i+32]
		a, b, c, d := binary.LittleEndian.Uint64(g), binary.LittleEndian.Uint64(g[8:]), binary.LittleEndian.Uint64(g[16:]), binary.LittleEndian.Uint64(g[24:])
		if level < 128 {
			a, b, c, d = a&low+past|a, b&low+past|b, c&low+past|c, d&low+past|d
		} else {
			a, b, c, d = (a&low+past)&a, (b&low+past)&b, (c&low+past)&c, (d&low+past)&d
		}
		binary.LittleEndian.PutUint64(o, a>>7&ones)
		binary.LittleEndian.PutUint64(o[8:], b>>7&ones)
		binary.LittleEndian.PutUint64(o[16:], c>>7&ones)
		binary.LittleEndian.PutUint64(o[24:], d>>7&ones)
	}
	for i, v := range grey[n:] {
		out[n+i] = byte(b2i(int(v) > level))
	}
}

// stages is what OpenCV says.
type stages struct {
	OpenCV            string             `json:"opencv"`
	Seconds           map[string]float64 `json:"seconds"`
	Level, Components int
	Deepest           float64
}

func stagesThere(b *testing.B, grey, cells []byte, w, h, times int) stages {
	dir := b.TempDir()
	for name, pixels := range map[string][]byte{"grey.raw": grey, "mask.raw": cells} {
		if err := os.WriteFile(filepath.Join(dir, name), pixels, 0o600); err != nil {
			b.Fatal(err)
		}
	}
	cmd := exec.Command("/usr/bin/python3", "../../testdata/crumb/stages.py", dir, fmt.Sprint(w), fmt.Sprint(h), fmt.Sprint(times))
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		b.Fatalf("running the yardstick, which wants python3 with OpenCV: %v", err)
	}
	var s stages
	if err := json.Unmarshal(out, &s); err != nil {
		b.Fatal(err)
	}
	return s
}

// least is the fewest seconds of the processor that a step took. Each time it is done once before: garbage
// is swept by then, and the pictures lie in the caches again, as they do for OpenCV, which no collector stops.
func least(b *testing.B, times int, step func()) float64 {
	best := math.Inf(1)
	for range times {
		runtime.GC()
		step()
		start := threadSeconds(b)
		step()
		best = min(best, threadSeconds(b)-start)
	}
	return best
}

func threadSeconds(b *testing.B) float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano()).Seconds()
}
