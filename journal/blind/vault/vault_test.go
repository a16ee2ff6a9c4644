package vault_test

import (
	"bytes"
	"errors"
	"go/parser"
	"go/token"
	"io/fs"
	"math/rand/v2"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/vault"
)

// Only the journal, and the tests of blind, may import the vault: no screen, chart,
// export or search does, in any file of the module. Its file is the journal's alone, too.
func TestOnlyTheJournalImportsTheVaultAndTheStore(t *testing.T) {
	const root = "../../.."
	const vaultPath, storePath = "twinloaf/journal/blind/vault", "twinloaf/journal/store"
	seen := 0
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && d.Name() != ".." && strings.HasPrefix(d.Name(), ".") && len(d.Name()) > 1 && path != root {
			return fs.SkipDir
		}
		if filepath.Ext(path) != ".go" {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return nil // a file that does not parse imports nothing; the build says so
		}
		for _, imported := range file.Imports {
			name, err := strconv.Unquote(imported.Path.Value)
			if err != nil {
				return err
			}
			if name != vaultPath && name != storePath {
				continue
			}
			seen++
			folder, err := filepath.Rel(root, filepath.Dir(path))
			if err != nil {
				return err
			}
			folder = filepath.ToSlash(folder)
			test := strings.HasSuffix(path, "_test.go")
			tests := map[string]string{vaultPath: "journal/blind", storePath: "journal/store"}[name]
			if folder != "journal" && !(test && strings.HasPrefix(folder, tests)) {
				t.Errorf("%s imports %s; only package journal may", path, name)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen == 0 {
		t.Error("not even this test was seen: the walk looked in the wrong place")
	}
}

func TestAnEmptySealIsNotKept(t *testing.T) {
	if kept, err := vault.Bytes(blind.Sealed{}, nil); !errors.Is(err, blind.ErrSealed) || kept != nil {
		t.Errorf("kept %v of nothing: %v", kept, err)
	}
}

// What lies on the helper's paper opens what was locked, however it is typed; no
// other code does, nor anything that was changed.
func TestAPaperLocks(t *testing.T) {
	plan := blind.Plan{
		Method: blind.Triangle, Mode: blind.WithHelper, Tasters: []string{"Ines"}, Rounds: 2, KeyOnPaper: true,
		Loaves: [2]blind.Loaf{{ID: "h", Name: "Harbour"}, {ID: "g", Name: "Gorse"}},
	}
	random := rand.NewChaCha8([32]byte{5})
	draft, err := blind.Draw(plan, random)
	if err != nil {
		t.Fatal(err)
	}
	card, err := draft.Card()
	if err != nil {
		t.Fatal(err)
	}
	code := card.Code()
	if len(blind.TidyCode(code)) != 10 {
		t.Fatalf("the code is %q", code)
	}
	sealed, setting, err := draft.Seal()
	if err != nil {
		t.Fatal(err)
	}
	if card.Code() != "" {
		t.Error("the code can be read after sealing")
	}
	kept, err := vault.Bytes(sealed, random)
	if err != nil || !vault.Locked(kept) {
		t.Fatal(len(kept), err)
	}
	if _, err := vault.Restore(kept, setting); !errors.Is(err, vault.ErrLocked) {
		t.Errorf("it opened without the code: %v", err)
	}
	for _, typed := range []string{code, strings.ToLower(code), " " + strings.ReplaceAll(code, "-", " ") + " ", strings.ReplaceAll(strings.ReplaceAll(code, "0", "o"), "1", "l")} {
		again, err := vault.Unlock(kept, typed, setting)
		if err != nil {
			t.Errorf("%q: %v", typed, err)
			continue
		}
		if plain, err := vault.Plain(again); err != nil || vault.Locked(plain) || bytes.Contains(kept, plain[1:]) {
			t.Errorf("%q opened to %d bytes, %v", typed, len(plain), err)
		}
	}
	other := []byte(blind.TidyCode(code))
	other[3] ^= 1
	for what, typed := range map[string]string{"nothing": "", "another": string(other), "half of it": code[:5]} {
		if _, err := vault.Unlock(kept, typed, setting); !errors.Is(err, blind.ErrCode) {
			t.Errorf("%s: %v", what, err)
		}
	}
	for _, i := range []int{1, 20, 30, len(kept) - 1} {
		changed := bytes.Clone(kept)
		changed[i] ^= 1
		if _, err := vault.Unlock(changed, code, setting); !errors.Is(err, blind.ErrCode) {
			t.Errorf("byte %d changed: %v", i, err)
		}
	}
	if _, err := vault.Unlock(kept[:20], code, setting); !errors.Is(err, blind.ErrTampered) {
		t.Errorf("cut: %v", err)
	}
}

// The kept form of anything but what was sealed is refused and never panics.
func FuzzRestore(f *testing.F) {
	setting := blind.Setting{Servings: []blind.Serving{{Samples: []string{"248", "573", "719"}}}}
	setting.Plan.Method = blind.Triangle
	setting.Plan.Tasters = []string{"Ines"}
	f.Add([]byte{}, "")
	f.Add(make([]byte, 36), "00")
	f.Add(append([]byte{1}, make([]byte, 35)...), strings.Repeat("0", 64))
	f.Fuzz(func(t *testing.T, kept []byte, commitment string) {
		setting := setting
		setting.Commitment = commitment
		if _, err := vault.Restore(kept, setting); !errors.Is(err, blind.ErrTampered) {
			t.Fatalf("%d bytes restored: %v", len(kept), err)
		}
	})
}
