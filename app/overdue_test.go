package app

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// That something is overdue is said by kit.Due, in one form, and by nobody else.
func TestOverdueIsSaidInOnePlace(t *testing.T) {
	said := regexp.MustCompile(`lang\.[LN]\("[^"]*overdue`)
	var where []string
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		if err == nil && said.Match(text) {
			where = append(where, filepath.ToSlash(path))
		}
		return err
	})
	if err != nil || len(where) != 1 || where[0] != "kit/due.go" {
		t.Errorf("%v, %v", where, err)
	}
}
