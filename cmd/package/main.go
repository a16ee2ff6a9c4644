// Package makes a Debian package of the program with its icon, desktop entry, AppStream
// metadata, the MIME type of its archives, a man page and the licences of what it is made
// with. Run it from the root of the repository, with Debian's dpkg-deb:
// go run ./cmd/package -out /tmp. It builds the program itself, with -tags more in it; with
// -exe it packs one that is built already.
package main

import (
	"bytes"
	"compress/gzip"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"

	"twinloaf/assets/licences"
)

func main() {
	out := flag.String("out", ".", "the `folder` for the package")
	exe := flag.String("exe", "", "the `program` to pack; empty: build it")
	tags := flag.String("tags", "", "more build `tags`, such as walk, for a program that is built")
	version := flag.String("version", "", "the `version` of the package; empty: that of FyneApp.toml")
	flag.Parse()
	path, err := build(".", *out, *exe, *tags, *version)
	if err != nil {
		fmt.Fprintln(os.Stderr, "package:", err)
		os.Exit(1)
	}
	fmt.Println(path)
}

// laid are the files that the package lays, beside the program: where, and from where below
// the repository.
var laid = map[string]string{
	"usr/share/applications/app.twinloaf.Twinloaf.desktop":            "assets/package/app.twinloaf.Twinloaf.desktop",
	"usr/share/metainfo/app.twinloaf.Twinloaf.metainfo.xml":           "assets/package/app.twinloaf.Twinloaf.metainfo.xml",
	"usr/share/mime/packages/app.twinloaf.Twinloaf.xml":               "assets/package/app.twinloaf.Twinloaf.xml",
	"usr/share/man/man1/twinloaf.1.gz":                                "assets/package/twinloaf.1",
	"usr/share/icons/hicolor/scalable/apps/app.twinloaf.Twinloaf.svg": "assets/icon.svg",
}

// versionLine is that of FyneApp.toml.
var versionLine = regexp.MustCompile(`(?m)^Version = "([^"]+)"$`)

// versionOf is the version that the repository at root says the program has.
func versionOf(root string) (string, error) {
	text, err := os.ReadFile(filepath.Join(root, "FyneApp.toml"))
	if err != nil {
		return "", fmt.Errorf("looking for the version: %w", err)
	}
	found := versionLine.FindSubmatch(text)
	if found == nil {
		return "", fmt.Errorf("FyneApp.toml tells no version")
	}
	return string(found[1]), nil
}

// build packs the program of the repository at root into a file in out.
func build(root, out, exe, tags, version string) (path string, err error) {
	if version == "" {
		if version, err = versionOf(root); err != nil {
			return "", err
		}
	}
	tree, err := os.MkdirTemp("", "twinloaf-package-")
	if err != nil {
		return "", err
	}
	defer func() { _ = os.RemoveAll(tree) }()
	program := filepath.Join(tree, "usr", "bin", "twinloaf")
	if exe == "" {
		cmd := exec.Command("go", "build", "-tags", strings.Trim("nodynamic,"+tags, ","), "-trimpath",
			"-ldflags", "-s -w -X twinloaf/app/help.release="+version, "-o", program, "./cmd/twinloaf")
		cmd.Dir, cmd.Stderr = root, os.Stderr
		if err := cmd.Run(); err != nil {
			return "", fmt.Errorf("building the program: %w", err)
		}
	} else if err := copyFile(exe, program, 0o755); err != nil {
		return "", err
	}
	for to, from := range laid {
		if err := copyFile(filepath.Join(root, filepath.FromSlash(from)), filepath.Join(tree, filepath.FromSlash(to)), 0o644); err != nil {
			return "", err
		}
	}
	if err := writeCopyright(filepath.Join(tree, "usr", "share", "doc", "twinloaf", "copyright")); err != nil {
		return "", err
	}
	arch, err := exec.Command("dpkg", "--print-architecture").Output()
	if err != nil {
		return "", fmt.Errorf("asking dpkg for the architecture: %w", err)
	}
	machine := strings.TrimSpace(string(arch))
	control := filepath.Join(tree, "DEBIAN", "control")
	if err := os.MkdirAll(filepath.Dir(control), 0o755); err != nil {
		return "", err
	}
	if err := os.WriteFile(control, []byte(controlText(version, machine)), 0o644); err != nil {
		return "", err
	}
	path = filepath.Join(out, "twinloaf_"+version+"_"+machine+".deb")
	cmd := exec.Command("dpkg-deb", "--root-owner-group", "--build", tree, path)
	if said, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("packing: %w: %s", err, said)
	}
	return path, nil
}

// controlText describes the package to dpkg. The bell is played by what the desktop has for
// sounds: one of those suggested.
func controlText(version, arch string) string {
	return "Package: twinloaf\nVersion: " + version + "\nArchitecture: " + arch + `
Maintainer: Twinloaf <nobody@localhost>
Section: misc
Priority: optional
Depends: libc6, libgl1, libx11-6, libxcursor1, libxrandr2, libxinerama1, libxi6, libxxf86vm1
Suggests: pipewire-bin | pulseaudio-utils | alsa-utils
Description: bread journal
 Keeps natural leavens, bakes with their photos, and blind tastings of two
 loaves, and does the arithmetic.
`
}

// writeCopyright writes under which terms the program and what it is made with stand.
func writeCopyright(path string) error {
	list, err := licences.Read()
	if err != nil {
		return err
	}
	var b bytes.Buffer
	b.WriteString("Twinloaf itself has been given no licence: only its owner may copy it.\n\nIt is made with these parts of others:\n\n")
	for _, p := range list.Parts {
		fmt.Fprintf(&b, "%s\n", strings.Join(strings.Fields(p.Name+" "+p.Version+" ("+p.Licence+")"), " "))
	}
	for i, text := range list.Texts {
		b.WriteString("\n----------------------------------------------------------------------\n")
		for _, p := range list.Parts {
			if p.Text == i {
				fmt.Fprintf(&b, "%s\n", p.Name)
			}
		}
		fmt.Fprintf(&b, "\n%s\n", text)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, b.Bytes(), 0o644)
}

// copyFile copies a file; one whose name is to end in .gz is packed.
func copyFile(from, to string, mode os.FileMode) error {
	data, err := os.ReadFile(from)
	if err != nil {
		return fmt.Errorf("packing %s: %w", filepath.Base(to), err)
	}
	if filepath.Ext(to) == ".gz" {
		var b bytes.Buffer
		z := gzip.NewWriter(&b)
		if _, err := z.Write(data); err != nil {
			return err
		}
		if err := z.Close(); err != nil {
			return err
		}
		data = b.Bytes()
	}
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	return os.WriteFile(to, data, mode)
}
