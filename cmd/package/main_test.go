package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestWhatIsLaidIsThere(t *testing.T) {
	for to, from := range laid {
		data, err := os.ReadFile(filepath.Join("..", "..", filepath.FromSlash(from)))
		if err != nil || len(data) == 0 {
			t.Errorf("%s is to be laid at %s: %v", from, to, err)
		}
	}
	for _, want := range []string{"Package: twinloaf\n", "Version: 1.2\n", "Architecture: arm64\n", "Depends: libc6"} {
		if !strings.Contains(controlText("1.2", "arm64"), want) {
			t.Errorf("the control file does not say %q", want)
		}
	}
}

// The package, the Flatpak and the toolkit tell one version.
func TestOneVersion(t *testing.T) {
	version, err := versionOf(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	flatpak, err := os.ReadFile(filepath.Join("..", "..", "assets", "package", "app.twinloaf.Twinloaf.yml"))
	if err != nil || !strings.Contains(string(flatpak), "help.release="+version+`"`) {
		t.Errorf("the Flatpak does not build version %s (%v)", version, err)
	}
}

// The licences go with the package.
func TestTheLicencesGoAlong(t *testing.T) {
	path := filepath.Join(t.TempDir(), "doc", "copyright")
	if err := writeCopyright(path); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	for _, want := range []string{"fyne.io/fyne/v2 v", "GNU LESSER GENERAL PUBLIC LICENSE", "SIL OPEN FONT LICENSE", "Twinloaf itself has been given no licence"} {
		if err != nil || !strings.Contains(string(text), want) {
			t.Errorf("%q does not go along (%v)", want, err)
		}
	}
}
