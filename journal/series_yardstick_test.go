//go:build yardstick

package journal

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"golang.org/x/image/draw"

	"twinloaf/journal/photo/phototest"
)

// A series of pictures of 12 megapixels from a folder into the journal and on to its curve,
// beside vipsthumbnail (Debian's libvips-tools) over the same files, by the clock and by the
// processor, with the most memory that was in use. By hand:
//
//	go test -tags ci,yardstick -run xxx -bench TakeSeriesBesideYardstick -benchtime 1x ./journal
func BenchmarkTakeSeriesBesideYardstick(b *testing.B) {
	const frames = 200
	s := rowOf(frames)
	dir := b.TempDir()
	var files []Picture
	for i := range frames {
		name := fmt.Sprintf("IMG_%04d.jpg", i)
		path := filepath.Join(dir, name)
		big := image.NewRGBA(image.Rect(0, 0, 3000, 4000))
		small := s.Picture(i)
		draw.ApproxBiLinear.Scale(big, big.Rect, small, small.Rect, draw.Src, nil)
		var out bytes.Buffer
		if err := jpeg.Encode(&out, big, &jpeg.Options{Quality: 92}); err != nil {
			b.Fatal(err)
		}
		exif := phototest.EXIF{Taken: s.At(i).Format("2006:01:02 15:04:05")}
		if err := os.WriteFile(path, phototest.WithEXIF(out.Bytes(), exif.Block()), 0o600); err != nil {
			b.Fatal(err)
		}
		files = append(files, Picture{Name: name, Path: path})
	}
	runtime.GC()
	for b.Loop() {
		j := openTest(b, b.TempDir(), newClock())
		id := begun(b, j, s, files)
		var most atomic.Uint64
		stop := make(chan struct{})
		go func() {
			for {
				select {
				case <-stop:
					return
				case <-time.After(20 * time.Millisecond):
					var m runtime.MemStats
					runtime.ReadMemStats(&m)
					most.Store(max(most.Load(), m.HeapSys-m.HeapReleased+m.StackSys))
				}
			}
		}()
		began, busy := time.Now(), processorOf(b, syscall.RUSAGE_SELF)
		if _, err := j.TakeSeries(b.Context(), id, nil); err != nil {
			b.Fatal(err)
		}
		taken := time.Since(began)
		if _, err := j.FollowSeries(b.Context(), id); err != nil {
			b.Fatal(err)
		}
		took, worked := time.Since(began), processorOf(b, syscall.RUSAGE_SELF)-busy
		close(stop)
		b.ReportMetric(taken.Seconds(), "s-to-take")
		b.ReportMetric(took.Seconds(), "s")
		b.ReportMetric(worked.Seconds(), "processor-s")
		b.ReportMetric(float64(most.Load())/1e6, "MB")
		began, busy = time.Now(), processorOf(b, syscall.RUSAGE_CHILDREN)
		for _, f := range files {
			cmd := exec.Command("vipsthumbnail", "--size", "480x480", "-o", filepath.Join(dir, "out.jpg"), f.Path)
			if out, err := cmd.CombinedOutput(); err != nil {
				b.Logf("vipsthumbnail (libvips-tools) is not to be had: %v %s", err, out)
				return
			}
		}
		b.ReportMetric(took.Seconds()/time.Since(began).Seconds(), "times-vipsthumbnail")
		b.ReportMetric(worked.Seconds()/(processorOf(b, syscall.RUSAGE_CHILDREN)-busy).Seconds(), "times-its-processor")
	}
}

// processorOf is how long this process, or its children, have had a processor.
func processorOf(b *testing.B, who int) time.Duration {
	b.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(who, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
