//go:build yardstick

package jar_test

import (
	"bytes"
	"context"
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

	"twinloaf/journal/jar"
	"twinloaf/journal/jar/jartest"
	"twinloaf/journal/photo"
)

// A series of pictures of 12 megapixels, from files, beside vipsthumbnail (Debian's
// libvips-tools) over the same files, with the most memory that was in use. By hand:
//
//	go test -tags yardstick -run xxx -bench BesideYardstick -benchtime 1x ./journal/jar
func BenchmarkBesideYardstick(b *testing.B) {
	const frames, different = 200, 20
	s := jartest.Random(2, frames)
	dir := b.TempDir()
	var names []string
	for i := range different {
		big := image.NewRGBA(image.Rect(0, 0, 3000, 4000))
		small := s.Picture(i * frames / different)
		draw.CatmullRom.Scale(big, big.Rect, small, small.Rect, draw.Src, nil)
		var out bytes.Buffer
		if err := jpeg.Encode(&out, big, &jpeg.Options{Quality: 92}); err != nil {
			b.Fatal(err)
		}
		name := filepath.Join(dir, fmt.Sprintf("%03d.jpg", i))
		if err := os.WriteFile(name, out.Bytes(), 0o600); err != nil {
			b.Fatal(err)
		}
		names = append(names, name)
	}
	load := func(_ context.Context, i int) (*image.RGBA, error) {
		data, err := os.ReadFile(names[i*different/frames])
		if err != nil {
			return nil, err
		}
		p, err := photo.Decode("x.jpg", data, photo.Limits{})
		if err != nil {
			return nil, err
		}
		return p.Fit(480), nil
	}
	for b.Loop() {
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
		began, busy := time.Now(), processor()
		if _, err := jar.Follow(b.Context(), s.Times(), load, []jar.Job{{Marks: s.Marks()}}); err != nil {
			b.Fatal(err)
		}
		took := time.Since(began)
		close(stop)
		b.ReportMetric(took.Seconds(), "s")
		b.ReportMetric((processor() - busy).Seconds(), "processor-s") // what else the computer does counts not
		b.ReportMetric(float64(most.Load())/1e6, "MB")
		if vips := thumbnails(b, dir, names, frames); vips > 0 {
			b.ReportMetric(took.Seconds()/vips.Seconds(), "times-vipsthumbnail")
		}
	}
}

// thumbnails is how long vipsthumbnail takes for as many pictures; 0 where it is not to be
// had.
func thumbnails(b *testing.B, dir string, names []string, frames int) time.Duration {
	began := time.Now()
	for i := range frames {
		cmd := exec.Command("vipsthumbnail", "--size", "480x480", "-o", filepath.Join(dir, "out.jpg"), names[i*len(names)/frames])
		if out, err := cmd.CombinedOutput(); err != nil {
			b.Logf("vipsthumbnail (libvips-tools) is not to be had: %v %s", err, out)
			return 0
		}
	}
	return time.Since(began)
}

// processor is how long this process has had a processor.
func processor() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
