//go:build yardstick && linux

package crumb_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"syscall"
	"testing"
	"time"

	"twinloaf/journal/crumb"
)

// A measuring is what a program took for measuring one photo several times: seconds
// by the clock and of the processors, and MB of memory at the most, in all and
// beyond what was in use before.
type measuring struct {
	Clock     []float64 `json:"clock"`
	Processor []float64 `json:"processor"`
	Peak      float64   `json:"peak_mb"`
	More      float64   `json:"more_mb"`
	Cells     int       `json:"cells"`
	Open      float64   `json:"open"`
}

// BenchmarkBesideYardstick measures the same photo with this package and with the
// same steps in Python, one after the other, and sets them side by side. It
// wants python3 with scikit-image, hence its build tag.
func BenchmarkBesideYardstick(b *testing.B) {
	for _, size := range []struct {
		name string
		w, h int
	}{{"2 megapixels", 1640, 1230}, {"12 megapixels", 4000, 3000}} {
		b.Run(size.name, func(b *testing.B) {
			data, k := benchJPEG(b, size.w, size.h)
			for b.Loop() {
				ours, theirs := measureHere(b, data, k, 5), measureThere(b, data, k, 5)
				b.ReportMetric(middleOf(ours.Clock), "s")
				b.ReportMetric(middleOf(theirs.Clock), "yardstick-s")
				b.ReportMetric(middleOf(theirs.Clock)/middleOf(ours.Clock), "times")
				b.ReportMetric(middleOf(ours.Processor), "cpu-s")
				b.ReportMetric(middleOf(theirs.Processor), "yardstick-cpu-s")
				b.ReportMetric(ours.More, "MB")
				b.ReportMetric(theirs.More, "yardstick-MB")
				b.ReportMetric(0, "ns/op") // of both together: it says nothing
				b.Logf("%d cells, %.3f open, %.0f MB in all; the yardstick: %d, %.3f, %.0f MB; processor time %.1f times ours",
					ours.Cells, ours.Open, ours.Peak, theirs.Cells, theirs.Open, theirs.Peak, middleOf(theirs.Processor)/middleOf(ours.Processor))
			}
		})
	}
}

func measureHere(b *testing.B, data []byte, k float64, times int) measuring {
	img := decodeJPEG(b, data)
	debug.FreeOSMemory()
	if err := os.WriteFile("/proc/self/clear_refs", []byte("5"), 0o200); err != nil { // the peak counts from here
		b.Fatal(err)
	}
	m := measuring{}
	before := memoryMB(b, "VmRSS")
	for range times {
		start, work := time.Now(), processorSeconds(b)
		r, err := crumb.Measure(context.Background(), img, 0, crumb.Options{PxPerMM: k})
		if err != nil {
			b.Fatal(err)
		}
		m.Clock = append(m.Clock, time.Since(start).Seconds())
		m.Processor = append(m.Processor, processorSeconds(b)-work)
		m.Cells, m.Open = r.Counted, r.Measured(crumb.Porosity).Value
	}
	m.Peak = memoryMB(b, "VmHWM")
	m.More = m.Peak - before
	runtime.KeepAlive(img)
	return m
}

func measureThere(b *testing.B, data []byte, k float64, times int) measuring {
	photo := filepath.Join(b.TempDir(), "photo.jpg")
	if err := os.WriteFile(photo, data, 0o600); err != nil {
		b.Fatal(err)
	}
	cmd := exec.Command("/usr/bin/python3", "../../testdata/crumb/yardstick.py", photo, fmt.Sprint(k), fmt.Sprint(times))
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		b.Fatalf("running the yardstick, which wants python3 with scikit-image: %v", err)
	}
	var m measuring
	if err := json.Unmarshal(out, &m); err != nil {
		b.Fatal(err)
	}
	return m
}

// memoryMB reads a line of what Linux says of this process.
func memoryMB(b *testing.B, line string) float64 {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		b.Fatal(err)
	}
	for l := range strings.Lines(string(status)) {
		if rest, ok := strings.CutPrefix(l, line+":"); ok {
			var kB float64
			if _, err := fmt.Sscan(rest, &kB); err != nil {
				b.Fatal(err)
			}
			return kB / 1024
		}
	}
	b.Fatalf("no %s", line)
	return 0
}

// processorSeconds is how long the processors have worked for this process.
func processorSeconds(b *testing.B) float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano()).Seconds()
}
