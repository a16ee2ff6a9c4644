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
		{lang.L("few"), "few"}, // a word of the catalogue that names a plural, too
		{lang.N("{{.N}} min ago", 3, map[string]any{"N": 3}), "3 min ago"},
	} {
		if tt.got != tt.want {
			t.Errorf("%q is said, want %q", tt.got, tt.want)
		}
	}
}

func TestListed(t *testing.T) {
	got, err := listed([]byte(`{"other": "sonst", "{{.N}} days": {"one": "ein Tag", "other": "{{.N}} Tage"}}`))
	if err != nil {
		t.Fatal(err)
	}
	forms := []string{
		`[{"id":"other","other":"sonst"},{"id":"{{.N}} days","one":"ein Tag","other":"{{.N}} Tage"}]`,
		`[{"id":"{{.N}} days","one":"ein Tag","other":"{{.N}} Tage"},{"id":"other","other":"sonst"}]`,
	}
	if s := string(got); s != forms[0] && s != forms[1] {
		t.Errorf("listed as %s", s)
	}
}
