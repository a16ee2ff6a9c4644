package app

import (
	"context"
	"io"
	"strings"
	"testing"

	"twinloaf/app/clipboard"
	"twinloaf/app/pages"
)

// Ctrl+V hands the page a picture that is on the clipboard without a file, or the files
// that a list there names; what is not there is told.
func TestAPictureIsPasted(t *testing.T) {
	w := newWindow(t)
	var notes []string
	a, _ := fake(w, &notes)
	w.Go(pages.Route{Name: "one"})
	holds := func(kind, data string, err error) {
		w.clipboard = func(_ context.Context, kinds ...string) (string, []byte, error) {
			if len(kinds) == 0 || kinds[0] != "text/uri-list" {
				t.Errorf("asked for %q", kinds)
			}
			return kind, []byte(data), err
		}
		a.took = nil
		w.keys.Press("Ctrl+V")
		w.env.Wait()
	}
	holds("image/png", "a picture", nil)
	if len(a.took) != 1 || !strings.HasSuffix(a.took[0].Name, ".png") {
		t.Fatalf("the page was given %+v", a.took)
	}
	r, err := a.took[0].Open()
	if err != nil {
		t.Fatal(err)
	}
	if b, err := io.ReadAll(r); err != nil || string(b) != "a picture" {
		t.Errorf("the picture is %q, %v", b, err)
	}
	holds("text/uri-list", "# two files\r\nfile:///tmp/loaf.jpg\r\nfile:///tmp/cro%C3%BBte.png\r\n", nil)
	if len(a.took) != 2 || a.took[1].Path != "/tmp/croûte.png" {
		t.Errorf("the page was given %+v", a.took)
	}
	for err, want := range map[error]string{clipboard.ErrNothing: "no picture on the clipboard", clipboard.ErrTooLarge: "too large"} {
		holds("", "", err)
		if got := w.frame.ToastText(); len(a.took) != 0 || !strings.Contains(got, want) {
			t.Errorf("%v: said %q", err, got)
		}
	}
	if got := notPasted(false); !strings.Contains(got, "cannot be pasted") || strings.Contains(notPasted(true), "cannot") {
		t.Errorf("where it cannot be, it says %q", got)
	}
}
