package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// Without a locale, or with one that names no language, the terminal stays silent.
func TestTheToolkitDoesNotComplainOfTheLocale(t *testing.T) {
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	for _, set := range [][]string{nil, {"LANG=C"}, {"LC_ALL=POSIX", "LANG=de_AT.UTF-8"}, {"LANG=C.UTF-8"}, {"LANG=en_GB.UTF-8"}} {
		child := exec.Command(exe, "-test.run", "^$")
		for _, v := range os.Environ() {
			if !strings.HasPrefix(v, "LC_") && !strings.HasPrefix(v, "LANG") {
				child.Env = append(child.Env, v)
			}
		}
		child.Env = append(child.Env, set...)
		out, err := child.CombinedOutput()
		if err != nil || strings.Contains(string(out), "Fyne") {
			t.Errorf("%v: %v: %s", set, err, out)
		}
	}
}
