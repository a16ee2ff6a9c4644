package words

import "testing"

func TestLoad(t *testing.T) {
	t.Setenv("LANGUAGE", "")
	t.Setenv("LC_ALL", "en_GB.UTF-8")
	if err := Load(); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ got, want string }{
		{L("few"), "few"}, // a word that names a plural, too
		{L("Other"), "Other"},
		{N("{{.N}} minutes", 3, map[string]any{"N": 3}), "3 minutes"},
		{N("{{.N}} minutes", 1, map[string]any{"N": 1}), "1 minute"},
		{L("{{.A}} of {{.B}}", map[string]any{"A": "{{.B}}", "B": 2}), "{{.B}} of 2"},
		{L("{{.A}} of {{.Nobody}}.", map[string]any{"A": 1}), "1 of ."},
		{L("an {{.Open"), "an {{.Open"},
	} {
		if tt.got != tt.want {
			t.Errorf("%q is said, want %q", tt.got, tt.want)
		}
	}
}

func TestTheLanguageChangesWhileTheProgramRuns(t *testing.T) {
	t.Cleanup(func() {
		if err := Speak("en"); err != nil {
			t.Error(err)
		}
	})
	for _, tt := range []struct{ tag, save, one, many string }{
		{"de", "Speichern", "1 Minute", "2 Minuten"},
		{"en", "Save", "1 minute", "2 minutes"},
		{"de", "Speichern", "1 Minute", "2 Minuten"},
	} {
		if err := Speak(tt.tag); err != nil {
			t.Fatal(err)
		}
		count := func(n int) string { return N("{{.N}} minutes", n, map[string]any{"N": n}) }
		if got := []string{L("Save"), count(1), count(2)}; got[0] != tt.save || got[1] != tt.one || got[2] != tt.many {
			t.Errorf("in %s it says %q", tt.tag, got)
		}
		if got := L("a sentence that no catalogue has, for {{.Who}}", map[string]any{"Who": "us"}); got != "a sentence that no catalogue has, for us" {
			t.Errorf("in %s it says %q", tt.tag, got)
		}
	}
}

// The plural forms are chosen as the language does, not as English does (Unicode CLDR,
// plural rules of Polish).
func TestPluralsAreTheLanguagesOwn(t *testing.T) {
	c, err := Read("pl", []byte(`[{"id": "{{.N}} loaves", "one": "{{.N}} chleb", "few": "{{.N}} chleby", "many": "{{.N}} chlebów", "other": "{{.N}} chleba"}]`))
	if err != nil {
		t.Fatal(err)
	}
	for n, want := range map[int]string{1: "{{.N}} chleb", 3: "{{.N}} chleby", 5: "{{.N}} chlebów", 22: "{{.N}} chleby", 0: "{{.N}} chlebów"} {
		if got := c.counted("{{.N}} loaves", n); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
	for _, bad := range []string{"{", `[{"id": "Save"}]`, `[{"other": "x"}]`} {
		if _, err := Read("de", []byte(bad)); err == nil {
			t.Errorf("%s is read", bad)
		}
	}
}

func TestTheComputersLanguage(t *testing.T) {
	for locale, want := range map[string]string{"de_AT.UTF-8": "de", "en_US.UTF-8": "en", "is_IS.UTF-8": "en", "de_DE.UTF-8": "de"} {
		t.Setenv("LANGUAGE", "")
		t.Setenv("LC_ALL", locale)
		if got := Spoken(""); got.Tag != want {
			t.Errorf("on a computer set to %s it speaks %s", locale, got.Tag)
		}
	}
	if Spoken("de").Name != "Deutsch" || Spoken("en").Tag != "en" {
		t.Error("a language that was chosen is not spoken")
	}
}
