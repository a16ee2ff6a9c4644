//go:build walk

package main

import (
	"encoding/json"
	"os"
	"os/signal"
	"syscall"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/outline"
)

// With the tag walk, the program answers SIGUSR1 by writing what its window
// shows to the file named by TWINLOAF_OUTLINE, so that cmd/walk knows where to
// click. Everything else is as in the program that people run.
func answerOutlines(main kit.Main) {
	path := os.Getenv("TWINLOAF_OUTLINE")
	if path == "" {
		return
	}
	asked := make(chan os.Signal, 1)
	signal.Notify(asked, syscall.SIGUSR1)
	go func() {
		for range asked {
			main(func() { writeOutline(main, path) })
		}
	}()
}

func writeOutline(main kit.Main, path string) {
	var things []outline.Thing
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		if f, ok := w.Canvas().Content().(*kit.Frame); ok && f.Moving() { // what is on its way cannot be clicked on
			time.AfterFunc(20*time.Millisecond, func() { main(func() { writeOutline(main, path) }) })
			return
		}
		things = append(things, outline.Of(w)...)
	}
	b, err := json.Marshal(things)
	if err != nil {
		return
	}
	if os.WriteFile(path+".part", b, 0o600) == nil {
		_ = os.Rename(path+".part", path)
	}
}
