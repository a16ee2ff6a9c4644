// Package makes a Debian package of the program with its icon, desktop entry, AppStream
// metadata, the MIME type of its archives and a man page. Run it from the root of the
// repository, with Debian's dpkg-deb: go run ./cmd/package -out /tmp. With -exe it packs a
// program that is built already.
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

func main() {
	out := flag.String("out", ".", "the `folder` for the package")
	exe := flag.String("exe", "", "the `program` to pack; empty: build it")
	version := flag.String("version", "0.1.0", "the version of the package")
	flag.Parse()
	path, err := build(".", *out, *exe, *version)
	if err != nil {
		fmt.Fprintln(os.Stderr, "package:", err)
		os.Exit(1)
	}
	fmt.Println(path)
}

// laid are the files that the package lays, beside the program: where, and from where below
// the repository.
var laid = map[string]string{
	"usr/share/applications/app.twinloaf.desktop":            "assets/package/app.twinloaf.desktop",
	"usr/share/metainfo/app.twinloaf.metainfo.xml":           "assets/package/app.twinloaf.metainfo.xml",
	"usr/share/mime/packages/app.twinloaf.xml":               "assets/package/app.twinloaf.xml",
	"usr/share/man/man1/twinloaf.1":                          "assets/package/twinloaf.1",
	"usr/share/icons/hicolor/scalable/apps/app.twinloaf.svg": "assets/icon.svg",
}

// build packs the program of the repository at root into a file in out.
func build(root, out, exe, version string) (path string, err error) {
	tree, err := os.MkdirTemp("", "twinloaf-package-")
	if err != nil {
		return "", err
	}
	defer func() { _ = os.RemoveAll(tree) }()
	program := filepath.Join(tree, "usr", "bin", "twinloaf")
	if exe == "" {
		cmd := exec.Command("go", "build", "-tags", "nodynamic", "-trimpath", "-ldflags", "-s -w", "-o", program, "./cmd/twinloaf")
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

// controlText describes the package to dpkg.
func controlText(version, arch string) string {
	return "Package: twinloaf\nVersion: " + version + "\nArchitecture: " + arch + `
Maintainer: Twinloaf <nobody@localhost>
Section: misc
Priority: optional
Depends: libc6, libgl1, libx11-6, libxcursor1, libxrandr2, libxinerama1, libxi6, libxxf86vm1
Description: bread journal
 Keeps natural leavens, bakes with their photos, and blind tastings of two
 loaves, and does the arithmetic.
`
}

func copyFile(from, to string, mode os.FileMode) error {
	data, err := os.ReadFile(from)
	if err != nil {
		return fmt.Errorf("packing %s: %w", filepath.Base(to), err)
	}
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	return os.WriteFile(to, data, mode)
}
