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
// 1 is quicker than OpenCV. It wants python3 with OpenCV, hence its build tag.
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
	const times = 12
	for b.Loop() {
		theirs := stagesThere(b, grey, cells, f.w, f.h, times)
		var level, n int
		var d2 []int32
		parted := make([]byte, len(grey))
		ours := map[string]float64{
			"otsu": least(b, times, func() {
				level = otsu(histogram(grey))
				above(parted, grey, level)
			}),
			"components": least(b, times, func() {
				c := componentsOf(mask, f.w, f.h, true, false)
				labelsOf(c) // OpenCV paints them, too
				n = len(c.size) - 1
			}),
			"distance":  least(b, times, func() { d2 = distanceSquared(mask, f.w, f.h) }),
			"watershed": least(b, times, func() { watershed(d2, f.w, f.h) }),
		}
		for i, v := range grey {
			if parted[i] != byte(b2i(int(v) > level)) {
				b.Fatalf("grey %d is %d against a level of %d", v, parted[i], level)
			}
		}
		deepest := int32(0)
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

// histogram counts grey levels.
func histogram(grey []byte) []int {
	var hist [4][256]int // neighbours are often alike, and one count would wait for the other
	for len(grey) >= 8 {
		v := binary.LittleEndian.Uint64(grey)
		hist[0][byte(v)]++
		hist[1][byte(v>>8)]++
		hist[2][byte(v>>16)]++
		hist[3][byte(v>>24)]++
		hist[0][byte(v>>32)]++
		hist[1][byte(v>>40)]++
		hist[2][byte(v>>48)]++
		hist[3][byte(v>>56)]++
		grey = grey[8:]
	}
	for _, v := range grey {
		hist[0][v]++
	}
	for v := range hist[0] {
		hist[0][v] += hist[1][v] + hist[2][v] + hist[3][v]
	}
	return hist[0][:]
}

// above sets to 1 what is brighter than a level, eight pixels at a time, and the rest to 0.
func above(out, grey []byte, level int) {
	const ones = 0x0101_0101_0101_0101
	past := uint64(127-level&127) * ones // carries into a byte's highest bit what is more than the level's lower ones
	for len(grey) >= 8 {
		v := binary.LittleEndian.Uint64(grey)
		more := v&(127*ones) + past
		if level < 128 {
			more |= v
		} else {
			more &= v
		}
		binary.LittleEndian.PutUint64(out, more>>7&ones)
		grey, out = grey[8:], out[8:]
	}
	for i, v := range grey {
		out[i] = byte(b2i(int(v) > level))
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

// least is the fewest seconds of the processor that a step took.
func least(b *testing.B, times int, step func()) float64 {
	best := math.Inf(1)
	for range times {
		runtime.GC()
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
