package pages_test

import (
	"testing"

	"twinloaf/app/pages"
	"twinloaf/assets/words"
)

// A grain is said in the language of the window and kept as every journal has it; what the
// baker calls it otherwise stays.
func TestGrainsAreSaidInTheBakersLanguage(t *testing.T) {
	if err := words.Speak("de"); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := words.Speak("en"); err != nil {
			t.Error(err)
		}
	})
	for key, word := range map[string]string{"wheat": "Weizen", "rye": "Roggen", "oat": "Hafer", "tritordeum": "tritordeum"} {
		if got := pages.GrainWord(key); got != word {
			t.Errorf("%s is said %q, want %q", key, got, word)
		}
		if got := pages.GrainOf(" " + word + " "); got != key {
			t.Errorf("%s is kept as %q, want %q", word, got, key)
		}
	}
	if got := pages.GrainOf("Rye"); got != "rye" {
		t.Errorf("English typed in a German window is kept as %q", got)
	}
}
