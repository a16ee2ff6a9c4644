package journal

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/crumb"
	"twinloaf/journal/formula"
	"twinloaf/journal/store"
)

// lived makes a journal with something in every bucket, the larger of them over many
// pages, and gives its file and all that is in it.
func lived(t *testing.T) (file []byte, held store.Contents) {
	t.Helper()
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	j.store.Bolt().NoSync = true
	do := func(label string, fn func(tx *Tx) error) {
		t.Helper()
		clock.Forward(time.Minute)
		if err := j.Do(label, fn); err != nil {
			t.Fatal(err)
		}
	}
	var bakes []ID
	culture := &Culture{Name: "Gorse", Born: clock.now}
	do("new culture", func(tx *Tx) error { return Put(tx, culture) })
	for i := range 90 {
		b := &Bake{Name: fmt.Sprintf("loaf %d", i), At: clock.now, Culture: culture.ID, Notes: strings.Repeat("windy ", 40)}
		do("new bake", func(tx *Tx) error { return Put(tx, b) })
		bakes = append(bakes, b.ID)
		do("photo", func(tx *Tx) error {
			return errors.Join(
				Put(tx, &Photo{Owner: RefOf(b), Hash: strconv.Itoa(i), Role: RoleCrumb, Added: clock.now, Caption: strings.Repeat("x", 50)}),
				Put(tx, &Feeding{Culture: culture.ID, At: clock.now, Flour: 60}))
		})
	}
	photos, err := All[Photo](j)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range photos[:40] {
		if _, err := j.KeepCrumb(p, crumb.Summary{Method: crumb.MethodVersion}); err != nil {
			t.Fatal(err)
		}
	}
	do("others", func(tx *Tx) error {
		return errors.Join(
			Put(tx, &Reading{Culture: culture.ID, At: clock.now}), Put(tx, &Move{Culture: culture.ID, At: clock.now}),
			Put(tx, &TempLog{Culture: culture.ID}), Put(tx, &Flour{Name: "Spelt"}), Put(tx, &Formula{Name: "Daily", Number: 1}),
			Put(tx, &Trial{Name: "two flours", At: clock.now}), Put(tx, &View{Name: "wet", Filter: []byte("{}")}))
	})
	ta := &Tasting{Name: "two loaves", At: clock.now, Bakes: bakes[:2]}
	do("plan a tasting", func(tx *Tx) error { return Put(tx, ta) })
	if err := j.DoOnce("seal", func(tx *Tx) error {
		ta.Sealed = clock.now
		if err := Put(tx, ta); err != nil {
			return err
		}
		return tx.st.Side(sideVault).Put(string(ta.ID), bytes.Repeat([]byte{7}, 80))
	}); err != nil {
		t.Fatal(err)
	}
	if err := j.Set("units", func(s *Settings) { s.Weight = "g" }); err != nil {
		t.Fatal(err)
	}
	for i := range 60 {
		do("flour", func(tx *Tx) error {
			return Change(tx, bakes[i], func(b *Bake) {
				b.Ingredients = []Ingredient{{ID: "f", Name: "Spelt", Role: formula.Flour, Grams: formula.Grams(100 + i)}}
			})
		})
	}
	if _, err := j.Undo(); err != nil {
		t.Fatal(err)
	}
	held = everything(t, j)
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	if file, err = os.ReadFile(filepath.Join(dir, FileName)); err != nil {
		t.Fatal(err)
	}
	return file, held
}

// damage alters a file by chance in one of the ways in which files are damaged, and
// tells how.
func damage(file []byte, r *rand.Rand) (out []byte, how string) {
	out = bytes.Clone(file)
	page := os.Getpagesize()
	n := r.IntN(len(file) / page)
	// As often as not it is where the structure is: the head of a page.
	at := n*page + r.IntN(page)
	if r.IntN(2) == 0 {
		at = n*page + r.IntN(256)
	}
	switch r.IntN(8) {
	case 0, 1, 2, 3:
		bit := r.IntN(8)
		out[at] ^= 1 << bit
		return out, fmt.Sprintf("bit %d of byte %d of page %d", bit, at%page, n)
	case 4, 5:
		for i := range 16 {
			if at+i < len(out) {
				out[at+i] = byte(r.Uint32())
			}
		}
		return out, fmt.Sprintf("16 bytes from %d of page %d", at%page, n)
	case 6:
		clear(out[n*page : (n+1)*page])
		return out, fmt.Sprintf("page %d zeroed", n)
	default:
		return out[:at], fmt.Sprintf("cut at byte %d of page %d", at%page, n)
	}
}

// A damaged journal is opened with the damage told by name, or refused in words: it
// takes no process down but the one that looks first, loses nothing without saying so,
// goes on being used, and keeps the damaged file. TWINLOAF_MUTATIONS says how many
// are tried.
func TestADamagedJournalLosesNothingInSilence(t *testing.T) {
	file, held := lived(t)
	tries, seed, look := 24, uint64(1), inspectInChild(t)
	if n, err := strconv.Atoi(os.Getenv("TWINLOAF_MUTATIONS")); err == nil {
		tries, seed, look = n, uint64(n), nil // what ends this process is seen, too
	}
	r := rand.New(rand.NewPCG(seed, 2))
	counts := map[string]int{}
	for n := range tries {
		out, how := damage(file, r)
		if bytes.Equal(out, file) {
			continue
		}
		what := mustOpenOrTell(t, out, held, look)
		counts[what]++
		if t.Failed() {
			t.Fatalf("mutation %d: %s", n, how)
		}
		if n%100 == 99 {
			t.Logf("%d: %v", n+1, counts)
		}
	}
	t.Logf("%d mutations: %v", tries, counts)
}

// mustOpenOrTell opens a damaged file, and gives what came of it.
func mustOpenOrTell(t *testing.T, file []byte, held store.Contents, look func(context.Context, string) error) string {
	t.Helper()
	dir := t.TempDir()
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, FileName)
	if err := os.WriteFile(path, file, 0o644); err != nil {
		t.Fatal(err)
	}
	opt := Options{Clock: newClock().Now, Inspect: look, GatherFor: time.Hour}
	j, err := Open(context.Background(), dir, opt)
	if err != nil {
		if !errors.Is(err, ErrDamaged) && !errors.Is(err, ErrNotJournal) {
			t.Errorf("refused: %v", err)
		}
		if now, _ := os.ReadFile(path); !bytes.Equal(now, file) {
			t.Error("refused and altered")
		}
		return "refused: " + errors.Unwrap(err).Error()
	}
	defer func() { _ = j.Close() }()
	j.store.Bolt().NoSync = true
	what := "nothing to be seen"
	if j.mended != nil {
		what = "mended to the letter"
		if !j.mended.Whole() {
			what = "told"
		}
		kept, err := os.ReadFile(filepath.Join(dir, j.mended.Kept))
		if err != nil || !bytes.Equal(kept, file) {
			t.Errorf("the damaged file was not kept: %v", err)
		}
	}
	if j.mended == nil {
		mustPassBolt(t, file)
	}
	if silent := untold(j.mended, held, everything(t, j)); len(silent) > 0 {
		t.Errorf("not told: %q of %v", silent, said(j.mended))
	}
	mustGoOn(t, j)
	return what
}

// mustPassBolt has bbolt check a file that our own look took for whole: it must find
// nothing that we do not.
func mustPassBolt(t *testing.T, file []byte) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "whole.db")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	defer os.Remove(path)
	db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	err = db.View(func(tx *bolt.Tx) error {
		for err := range tx.Check() {
			t.Errorf("bbolt finds: %v", err)
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
}

func said(s *SetAside) (out []string) {
	if s == nil {
		return nil
	}
	for _, l := range s.Lines() {
		out = append(out, l.String())
	}
	return out
}

// untold gives the keys that are not as they were and of which nothing was said.
func untold(s *SetAside, held, now store.Contents) (silent []string) {
	told := map[string]bool{}
	var unnamed []string
	steps := false
	if s != nil {
		steps = s.Steps > 0 || s.LastChange
		for _, i := range s.Items {
			for _, id := range i.IDs {
				told[string(i.Kind)+"\x00"+string(id)] = true
				if i.Seal {
					told[sideVault+"\x00"+string(id)] = true
				}
			}
		}
		for _, k := range s.Unnamed {
			unnamed = append(unnamed, string(k))
		}
	}
	keys := map[string]bool{}
	for k := range held {
		keys[k] = true
	}
	for k := range now {
		keys[k] = true
	}
	for k := range keys {
		bucket, _, _ := strings.Cut(k, "\x00")
		if bytes.Equal(held[k], now[k]) && (held[k] == nil) == (now[k] == nil) || told[k] {
			continue
		}
		switch {
		case bucket == sideDerived || bucket == sideAside || bucket == "meta" || bucket == sideCards || bucket == store.BucketLinks:
		case slices.Contains(unnamed, bucket) && now[k] == nil:
		case bucket == sideVault && (told[string(KindTasting)+strings.TrimPrefix(k, sideVault)] || slices.Contains(unnamed, string(KindTasting))):
		case bucket == store.BucketHistory && steps:
		default:
			silent = append(silent, k)
		}
	}
	if s != nil && s.LastChange && len(silent) == 1 {
		return nil // the last change, which was to one bake
	}
	return silent
}

// mustGoOn uses a journal: it is changed, its change taken back, its shelf listed, its
// history walked, and checked.
func mustGoOn(t *testing.T, j *Journal) {
	t.Helper()
	newBake(t, j, "the day after")
	if cards, err := j.Cards(); err != nil || len(cards) == 0 || cards[0].Name != "the day after" && len(cards) < 2 {
		t.Errorf("the shelf has %d cards, %v", len(cards), err)
	}
	if _, err := j.Undo(); err != nil {
		t.Errorf("undo: %v", err)
	}
	report, err := j.Check(context.Background(), false)
	if err != nil || report.Indexes != 0 || len(report.Unreadable) != 0 {
		t.Errorf("after mending: %+v, %v", report.Indexes, report.Unreadable)
	}
	if _, err := j.Undo(); err != nil && !errors.Is(err, ErrNothingToUndo) && !errors.Is(err, ErrMovedOn) {
		t.Errorf("undo once more: %v", err)
	}
}
