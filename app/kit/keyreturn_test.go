package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Two keys are written as "Enter"; the large one is bound, each time.
func TestEnterIsTheLargeKey(t *testing.T) {
	for range 20 {
		s, ok := ParseShortcut("Ctrl+Enter")
		custom, is := s.(*desktop.CustomShortcut)
		if !ok || !is || custom.KeyName != fyne.KeyReturn {
			t.Fatalf("bound to %+v", s)
		}
	}
}
