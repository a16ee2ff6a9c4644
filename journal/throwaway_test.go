package journal

import (
	"context"
	"errors"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"twinloaf/journal/backup"
	"twinloaf/journal/photo"
)

// slowCache is a disk on which the making of a folder for thumbnails waits to be resumed.
type slowCache struct {
	photo.Disk
	once   sync.Once
	begun  chan struct{}
	resume chan struct{}
}

func (s *slowCache) MkdirAll(dir string) error {
	if strings.Contains(dir, string(filepath.Separator)+"cache"+string(filepath.Separator)) {
		s.once.Do(func() { close(s.begun) })
		<-s.resume
	}
	return s.Disk.MkdirAll(dir)
}

// A thumbnail that is being made, for which nobody waits any more, is not written into
// the folder of a demonstration that has closed, nor is anything that comes later.
func TestAClosedDemoLeavesNoFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "demo")
	clock := newClock()
	j := openTest(t, dir, clock)
	bake := newBake(t, j, "Ferry loaf")
	pictures := []Picture{picture("crumb.jpg", jpegBytes(t, 40, 30, color.White))}
	added, refused, err := j.AddPictures(t.Context(), "photos", Ref{Kind: KindBake, ID: bake}, RoleCrumb, pictures, nil)
	if err != nil || len(refused) > 0 {
		t.Fatal(err, refused)
	}
	ph, err := Get[Photo](j, added[0])
	if err != nil {
		t.Fatal(err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	disk := &slowCache{begun: make(chan struct{}), resume: make(chan struct{})}
	j, err = Open(t.Context(), dir, Options{Clock: clock.Now, Throwaway: true, Photos: disk})
	if err != nil {
		t.Fatal(err)
	}
	ctx, givenUp := context.WithCancel(t.Context())
	waited := make(chan error, 1)
	go func() {
		_, err := j.Thumb(ctx, ph.Hash, photo.Large)
		waited <- err
	}()
	<-disk.begun
	givenUp()
	if err := <-waited; !errors.Is(err, context.Canceled) {
		t.Fatalf("the thumbnail gives %v", err)
	}
	closed := make(chan error, 1)
	go func() { closed <- j.Close() }()
	select {
	case err := <-closed:
		t.Errorf("it closed, %v, while something was being written", err)
		closed <- err
	case <-time.After(50 * time.Millisecond): // long enough for a journal that does not wait
	}
	close(disk.resume)
	if err := <-closed; err != nil {
		t.Error(err)
	}
	_, _, err = j.AddPictures(t.Context(), "photos", Ref{Kind: KindBake, ID: bake}, RoleCrumb, pictures, nil)
	if !errors.Is(err, ErrClosed) {
		t.Errorf("adding a picture gives %v", err)
	}
	if _, err := j.BackUp(t.Context(), backup.Asked); err == nil {
		t.Error("a backup was made")
	}
	if _, err := os.Lstat(dir); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the folder: %v", err)
	}
}
