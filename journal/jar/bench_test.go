package jar_test

import (
	"testing"
	"time"

	"twinloaf/journal/jar"
	"twinloaf/journal/jar/jartest"
)

// One picture, as small as it has to be, read and thrown away; and the path through
// 200 of them.
func BenchmarkLook(b *testing.B) {
	s := (&jartest.Scene{Frames: 2, Every: time.Minute, Peak: 2, ToPeak: time.Hour}).Begin()
	t, err := jar.NewTracker(s.Picture(0), s.Marks())
	if err != nil {
		b.Fatal(err)
	}
	img := s.Picture(1)
	for b.Loop() {
		t.Look(img)
	}
}

func BenchmarkTrace(b *testing.B) {
	s := (&jartest.Scene{Frames: 200, Every: 5 * time.Minute, Peak: 2, ToPeak: 6 * time.Hour}).Begin()
	t, err := jar.NewTracker(s.Picture(0), s.Marks())
	if err != nil {
		b.Fatal(err)
	}
	strips := make([]jar.Strip, s.Frames)
	for i := range strips {
		strips[i] = t.Look(s.Picture(i))
	}
	for b.Loop() {
		if _, err := t.Trace(b.Context(), s.Times(), strips, nil); err != nil {
			b.Fatal(err)
		}
	}
}
