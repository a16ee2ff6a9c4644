package words

import (
	"testing"

	"fyne.io/fyne/v2/lang"
)

func TestLoad(t *testing.T) {
	if err := Load(); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ got, want string }{
		{lang.L("few"), "few"}, // a word that names a plural, too
		{lang.L("Other"), "Other"},
		{lang.N("{{.N}} minutes", 3, map[string]any{"N": 3}), "3 minutes"},
		{lang.N("{{.N}} minutes", 1, map[string]any{"N": 1}), "1 minute"},
	} {
		if tt.got != tt.want {
			t.Errorf("%q is said, want %q", tt.got, tt.want)
		}
	}
}
