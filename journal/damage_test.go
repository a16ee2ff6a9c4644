package journal

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"maps"
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
	"twinloaf/journal/journaltest/race"
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
	long := &Bake{Name: "long", At: clock.now, Notes: strings.Repeat("a long day, ", 2000)} // over several pages
	do("others", func(tx *Tx) error {
		return errors.Join(
			Put(tx, long), Put(tx, &Reading{Culture: culture.ID, At: clock.now}), Put(tx, &Move{Culture: culture.ID, At: clock.now}),
			Put(tx, &TempLog{Culture: culture.ID}), Put(tx, &Series{Name: "stack of books"}), Put(tx, &Flour{Name: "Spelt"}), Put(tx, &Formula{Name: "Daily", Number: 1}),
			Put(tx, &Trial{Name: "two flours", At: clock.now}), Put(tx, &View{Name: "wet", Filter: []byte("{}")}))
	})
	ta := &Tasting{Name: "two loaves", At: clock.now, Bakes: bakes[:2]}
	do("plan a tasting", func(tx *Tx) error { return Put(tx, ta) })
	if err := j.DoWithoutUndo("seal", func(tx *Tx) error {
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

// A mutation is one way in which a file is damaged.
type mutation struct {
	what string // the kind of page and the bucket, or what else it is
	how  string
	do   func(file []byte) []byte
}

// mutations lists what is done to a file: each page of it, of whatever kind and bucket, has
// one bit flipped at every place of its head and of an element, and at some of its keys and
// values, 16 bytes overwritten in each of these parts, is zeroed, and is where the file is
// cut short; the two pages that the file begins with are zeroed together, too.
func mutations(t *testing.T, file []byte, held store.Contents) (all []mutation) {
	t.Helper()
	page := os.Getpagesize()
	kinds := pagesOf(t, file, held)
	r := rand.New(rand.NewPCG(7, 7))
	add := func(n int, how string, do func(file []byte) []byte) {
		all = append(all, mutation{kinds[n], fmt.Sprintf("page %d, %s: %s", n, kinds[n], how), do})
	}
	for n := range len(file) / page {
		if kinds[n] == "" {
			continue // nothing was ever written there
		}
		at := n * page
		flip := func(off int) {
			bit := r.IntN(8)
			add(n, fmt.Sprintf("bit %d of byte %d", bit, off), func(f []byte) []byte { f[at+off] ^= 1 << bit; return f })
		}
		over := func(off int) {
			add(n, fmt.Sprintf("16 bytes from %d", off), func(f []byte) []byte {
				for i := range 16 {
					f[at+off+i] ^= byte(1 + (off+i)%255)
				}
				return f
			})
		}
		for _, off := range []int{0, 8, 9, 10, 12, 16, 17, 20, 24, 28, 33, 40, 47, 60, 72} {
			flip(off)
		}
		for range 4 {
			flip(80 + r.IntN(page-80))
		}
		over(0)
		over(16)
		over(48 + r.IntN(200))
		over(page - 16 - r.IntN(page/2))
		add(n, "zeroed", func(f []byte) []byte { clear(f[at : at+page]); return f })
		add(n, "cut short before it", func(f []byte) []byte { return f[:at] })
		add(n, "cut short within it", func(f []byte) []byte { return f[:at+1+r.IntN(page-1)] })
	}
	kinds[0] = "both meta"
	add(0, "zeroed with the second", func(f []byte) []byte { clear(f[:2*page]); return f })
	add(0, "overwritten with the second", func(f []byte) []byte {
		for i := range 2 * page {
			f[i] = byte(r.Uint32())
		}
		return f
	})
	return dealt(all)
}

// dealt orders mutations so that each sort of page comes in turn.
func dealt(all []mutation) (out []mutation) {
	var sorts []string
	of := map[string][]mutation{}
	for _, m := range all {
		if of[m.what] == nil {
			sorts = append(sorts, m.what)
		}
		of[m.what] = append(of[m.what], m)
	}
	rand.New(rand.NewPCG(1, 1)).Shuffle(len(all), func(i, k int) { all[i], all[k] = all[k], all[i] })
	clear(of)
	for _, m := range all {
		of[m.what] = append(of[m.what], m)
	}
	for len(out) < len(all) {
		for _, s := range sorts {
			if left := of[s]; len(left) > 0 {
				out, of[s] = append(out, left[0]), left[1:]
			}
		}
	}
	return out
}

// pagesOf tells of each page of a file its kind and the bucket of what is on it: by the
// checksum of its values, which holds the bucket's name, or by what the journal holds.
func pagesOf(t *testing.T, file []byte, held store.Contents) []string {
	t.Helper()
	buckets := map[string]string{}
	for k := range held {
		bucket, key, _ := strings.Cut(k, "\x00")
		buckets[key] = bucket
	}
	path := filepath.Join(t.TempDir(), "pages.db")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true, PreLoadFreelist: true})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	page := os.Getpagesize()
	out := make([]string, len(file)/page)
	err = db.View(func(tx *bolt.Tx) error {
		for n := 0; n < len(out); n++ {
			info, err := tx.Page(n)
			if err != nil || info == nil {
				break // behind the last page that is in use
			}
			kind := info.Type
			if kind == "leaf" || kind == "branch" {
				kind += " of " + bucketOn(file[n*page:], kind == "leaf", buckets)
			}
			out[n] = kind
			for range info.OverflowCount {
				n++
				out[n] = "overflow of " + kind
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// bucketOn finds the bucket of the first key on a page.
func bucketOn(p []byte, leaf bool, buckets map[string]string) string {
	order := binary.NativeEndian
	at := 16
	pos, size := int(order.Uint32(p[at:])), int(order.Uint32(p[at+4:]))
	if leaf {
		pos, size = int(order.Uint32(p[at+4:])), int(order.Uint32(p[at+8:]))
		key := string(p[at+pos : at+pos+size])
		value := p[at+pos+size : at+pos+size+int(order.Uint32(p[at+12:]))]
		if order.Uint32(p[at:]) != 0 {
			return "the buckets"
		}
		for _, kind := range append(Kinds(), store.BucketHistory, sideSummaries, sideDerived, sideVault, sideAside) {
			if _, err := store.Unwrap(string(kind), key, value); err == nil {
				return string(kind)
			}
		}
	}
	if b, ok := buckets[string(p[at+pos:at+pos+size])]; ok {
		return b
	}
	return "an earlier state"
}

// A damaged journal is opened with the damage told by name, or refused in words: it
// takes no process down but the one that looks first, loses nothing without saying so,
// goes on being used, and keeps the damaged file. TWINLOAF_MUTATIONS says how many of the
// list are tried; a child process looks at each first.
func TestADamagedJournalLosesNothingInSilence(t *testing.T) {
	file, held := lived(t)
	all := mutations(t, file, held)
	most := race.Cases(36, 24)
	if n, err := strconv.Atoi(os.Getenv("TWINLOAF_MUTATIONS")); err == nil {
		most = n
	}
	look := inspectInChild(t)
	outcomes, pages, tries := map[string]int{}, map[string]int{}, 0
	for n, m := range all[:min(most, len(all))] {
		out := m.do(bytes.Clone(file))
		if bytes.Equal(out, file) {
			continue
		}
		tries++
		pages[m.what]++
		outcomes[mustOpenOrTell(t, out, held, look)]++
		if t.Failed() {
			t.Fatalf("mutation %d: %s", n, m.how)
		}
		if tries%200 == 0 {
			t.Logf("%d: %v", tries, outcomes)
		}
	}
	t.Logf("%d mutations of %d: %v, of %d sorts of pages: %v", tries, len(all), outcomes, len(pages), pages)
	for _, kind := range []string{"meta", "both meta", "freelist", "branch of ", "leaf of ", "overflow of "} {
		if !slices.ContainsFunc(slices.Collect(maps.Keys(pages)), func(p string) bool { return strings.HasPrefix(p, kind) }) {
			t.Errorf("no page of the kind %q was damaged", kind)
		}
	}
}

// A branch that names its first page by a later key than the page begins with is found, though
// every key can be looked up: bbolt would put the page in twice at the next change.
func TestTheFirstKeyOfABranch(t *testing.T) {
	file, held := lived(t)
	look, page, tries := inspectInChild(t), os.Getpagesize(), 0
	for n, kind := range pagesOf(t, file, held) {
		if !strings.HasPrefix(kind, "branch of ") || race.Enabled && tries == 3 {
			continue
		}
		out := bytes.Clone(file)
		first := out[n*page+16:] // after the page's header: the key's place, its size, the page
		at, size := binary.NativeEndian.Uint32(first), binary.NativeEndian.Uint32(first[4:])
		first[at+size-1] = 0xff
		tries++
		if what := mustOpenOrTell(t, out, held, look); what == "nothing to be seen" {
			t.Errorf("%s, page %d: nothing was seen", kind, n)
		}
	}
	if tries == 0 {
		t.Error("there is no branch")
	}
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
		case bucket == sideDerived || bucket == sideAside || bucket == "meta" || bucket == sideSummaries || bucket == store.BucketLinks:
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
	if summaries, err := j.BakeSummaries(); err != nil || len(summaries) == 0 || summaries[0].Name != "the day after" && len(summaries) < 2 {
		t.Errorf("the shelf has %d summaries, %v", len(summaries), err)
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
