package backup

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/plainfile"
)

// A folder holds backups.
type folder struct {
	path string
	fs   FS
}

// list reads every backup in the folder, the latest first.
func (f folder) list(ctx context.Context) ([]Backup, error) {
	entries, err := os.ReadDir(f.path)
	if err != nil {
		return nil, err
	}
	var out []Backup
	for _, e := range entries {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if !e.IsDir() || !stampName.MatchString(e.Name()) {
			continue
		}
		b, err := read(filepath.Join(f.path, e.Name()))
		if err != nil {
			b = Backup{Path: filepath.Join(f.path, e.Name()), Damage: ErrDamaged, Unlisted: true}
			name, _, _ := strings.Cut(e.Name(), "Z")
			b.Made, _ = time.Parse(stampLayout, name+"Z")
		}
		out = append(out, b)
	}
	slices.SortStableFunc(out, func(a, b Backup) int { return b.Made.Compare(a.Made) })
	return out, nil
}

// part names the unfinished work of a journal.
func (f folder) part(journal string) string { return filepath.Join(f.path, partPrefix+journal) }

// clear deletes the unfinished work of a journal.
func (f folder) clear(journal string) error {
	for _, name := range []string{f.part(journal), f.part(journal) + "-gone"} {
		if _, err := os.Lstat(name); err != nil {
			continue
		}
		if err := f.fs.RemoveAll(name); err != nil {
			return err
		}
	}
	return nil
}

// vacant is the path of a backup made at a time, which nothing has yet.
func (f folder) vacant(made time.Time) string {
	stamp := made.UTC().Format(stampLayout)
	path := filepath.Join(f.path, stamp)
	for n := 2; ; n++ {
		if _, err := os.Lstat(path); errors.Is(err, os.ErrNotExist) {
			return path
		}
		path = filepath.Join(f.path, fmt.Sprintf("%s-%d", stamp, n))
	}
}

// publish gives finished work its name, after when it was made.
func (f folder) publish(part string, made time.Time) (string, error) {
	path := f.vacant(made)
	if err := f.fs.SyncDir(part); err != nil {
		return "", err
	}
	if err := f.fs.Rename(part, path); err != nil {
		return "", err
	}
	return path, f.fs.SyncDir(f.path)
}

// remove takes a backup away: first its name, so that no half of it is ever listed.
func (f folder) remove(b Backup, journal string) error {
	gone := f.part(journal) + "-gone"
	if err := f.fs.RemoveAll(gone); err != nil {
		return err
	}
	if err := f.fs.Rename(b.Path, gone); err != nil {
		return err
	}
	if err := f.fs.SyncDir(f.path); err != nil {
		return err
	}
	return f.fs.RemoveAll(gone)
}

// describe writes what is beside the records of a backup.
func (f folder) describe(part string, b Backup, originals []Original) error {
	var sums strings.Builder
	if err := writeSums(&sums, b.SHA256, originals); err != nil {
		return err
	}
	if err := writeWhole(f.fs, filepath.Join(part, sumsName), []byte(sums.String())); err != nil {
		return err
	}
	data, err := json.Marshal(b, jsontext.WithIndent("  "))
	if err != nil {
		return err
	}
	return writeWhole(f.fs, filepath.Join(part, manifestName), data)
}

// sweep deletes the originals that no backup in the folder needs. It deletes nothing
// while it cannot tell what one of them needs, or another journal is at work there.
func (f folder) sweep(ctx context.Context, journal string) error {
	for _, p := range matching(f.path, partPrefix+"*") {
		if !strings.HasPrefix(p, f.part(journal)) {
			return nil
		}
	}
	all, err := f.list(ctx)
	if err != nil {
		return err
	}
	needed := map[string]bool{}
	for _, b := range all {
		originals, err := b.Originals()
		if err != nil {
			return nil // nobody can tell
		}
		for _, o := range originals {
			needed[o.name()] = true
		}
	}
	for _, path := range matching(f.path, originalsDir+"/??/*") {
		if err := ctx.Err(); err != nil {
			return err
		}
		name, err := filepath.Rel(filepath.Join(f.path, originalsDir), path)
		if err != nil || needed[name] {
			continue
		}
		if err := f.fs.Remove(path); err != nil {
			return err
		}
	}
	return nil
}

// sumOf reads a file from the disk and gives its SHA-256 in hexadecimal.
func sumOf(ctx context.Context, path string) (string, error) {
	r, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer r.Close()
	uncached(r)
	sum := sha256.New()
	if _, err := io.Copy(sum, plainfile.WithContext(ctx, r)); err != nil {
		return "", err
	}
	return hexOf(sum.Sum(nil)), nil
}

// matching lists what is below a folder and fits a pattern with slashes.
func matching(dir, pattern string) []string {
	names, err := fs.Glob(os.DirFS(dir), pattern)
	if err != nil {
		return nil // there are no wrong patterns here
	}
	for i, name := range names {
		names[i] = filepath.Join(dir, filepath.FromSlash(name))
	}
	return names
}
