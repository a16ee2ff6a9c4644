package carry_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"twinloaf/assets/demo"
	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/carry"
	"twinloaf/journal/journaltest"
	"twinloaf/journal/photo/phototest"
)

// kitchen is a journal with one culture and its notes, one bake of it, and a photo of
// either: as much as there is to carry.
type kitchen struct {
	*journal.Journal
	clock                                   *journaltest.Clock
	culture, feeding, reading, bake, flour  journal.ID
	formula, loafPhoto, jarPhoto, otherBake journal.ID
}

// planted stands in the photos where a camera writes place and maker.
const planted = "PLACE-54.3N"

func fresh(tb testing.TB) *kitchen {
	tb.Helper()
	k := &kitchen{}
	k.Journal, k.clock = journaltest.Open(tb, journal.Options{})
	return k
}

func filled(tb testing.TB) *kitchen {
	tb.Helper()
	k := fresh(tb)
	do(tb, k.Journal, func(tx *journal.Tx) error {
		elder := &journal.Culture{Name: "Harbour"}
		flour := &journal.Flour{Name: "Whole rye", Notes: "from the mill"}
		if err := errors.Join(journal.Put(tx, elder), journal.Put(tx, flour), journal.Put(tx, &journal.Flour{Name: "Spelt"})); err != nil {
			return err
		}
		c := &journal.Culture{Name: "Gorse", Parent: elder.ID}
		form := &journal.Formula{Name: "Ferry loaf", Number: 1}
		if err := errors.Join(journal.Put(tx, c), journal.Put(tx, form)); err != nil {
			return err
		}
		f := &journal.Feeding{Culture: c.ID, At: k.Now(), Kept: 20, Flour: 50, Water: 50}
		r := &journal.Reading{Culture: c.ID, At: k.Now(), Rise: new(2.1)}
		b := &journal.Bake{Name: "Saturday", At: k.Now(), Culture: c.ID, Formula: form.ID,
			Ingredients: []journal.Ingredient{{ID: "1", Name: "whole  Rye", Role: "flour", Grams: 500}}}
		other := &journal.Bake{Name: "Sunday", At: k.Now(), From: b.ID}
		if err := errors.Join(journal.Put(tx, f), journal.Put(tx, r), journal.Put(tx, b), journal.Put(tx, other)); err != nil {
			return err
		}
		k.culture, k.feeding, k.reading, k.bake, k.flour = c.ID, f.ID, r.ID, b.ID, flour.ID
		k.formula, k.otherBake = form.ID, other.ID
		return nil
	})
	k.loafPhoto = addPhoto(tb, k.Journal, journal.Ref{Kind: journal.KindBake, ID: k.bake}, 1)
	k.jarPhoto = addPhoto(tb, k.Journal, journal.Ref{Kind: journal.KindReading, ID: k.reading}, 2)
	return k
}

func do(tb testing.TB, j *journal.Journal, fn func(tx *journal.Tx) error) {
	tb.Helper()
	if err := j.Do("test", fn); err != nil {
		tb.Fatal(err)
	}
}

func addPhoto(tb testing.TB, j *journal.Journal, owner journal.Ref, n int) journal.ID {
	tb.Helper()
	jpg := phototest.JPEG(phototest.Scene(40+n, 30), phototest.EXIF{Orientation: 1, Make: planted, GPS: planted})
	added, refused, err := j.AddPictures(tb.Context(), "add", owner, journal.RoleOther, []journal.Picture{{
		Name: fmt.Sprintf("p%d.jpg", n),
		Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(jpg)), nil },
	}}, nil)
	if err != nil || len(refused) > 0 {
		tb.Fatal(err, refused)
	}
	return added[0]
}

// take takes a journal, or a choice of it, away and gives the file.
func take(tb testing.TB, j *journal.Journal, chosen ...journal.Ref) []byte {
	tb.Helper()
	p, err := carry.Pack(tb.Context(), j, chosen...)
	if err != nil {
		tb.Fatal(err)
	}
	var out bytes.Buffer
	if _, err := p.Write(tb.Context(), &out, nil); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

func compare(tb testing.TB, j *journal.Journal, file []byte) *carry.Arrival {
	tb.Helper()
	a, err := archive.Open(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		tb.Fatal(err)
	}
	ar, err := carry.Compare(tb.Context(), j, a, nil)
	if err != nil {
		tb.Fatal(err)
	}
	return ar
}

// bring brings an archive in, each difference by way.
func bring(tb testing.TB, j *journal.Journal, file []byte, way carry.Way) carry.Brought {
	tb.Helper()
	done, err := compare(tb, j, file).BringIn(tb.Context(), carry.Order{
		Label: "bring in", Way: func(*carry.Item) carry.Way { return way },
		Named: func(name string) string { return name + " (brought in)" },
	})
	if err != nil {
		tb.Fatal(err)
	}
	return done
}

// counts are how many items there are of each standing.
func counts(ar *carry.Arrival) [4]int {
	var n [4]int
	for _, s := range []carry.Standing{carry.New, carry.Same, carry.Different, carry.Refused} {
		n[s] = len(ar.Of(s))
	}
	return n
}

// contents are all records as they are stored, and the originals there are.
func contents(tb testing.TB, j *journal.Journal) map[string]string {
	tb.Helper()
	out := map[string]string{}
	err := j.Snapshot(func(r journal.Reader) error {
		for _, kind := range journal.Kinds() {
			err := journal.EachRaw(r, kind, func(raw journal.Raw, damage error) error {
				out[string(kind)+" "+string(raw.ID)] = string(raw.Body)
				return damage
			})
			if err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		tb.Fatal(err)
	}
	for _, f := range files(tb, j) {
		out[f] = "a file"
	}
	return out
}

func files(tb testing.TB, j *journal.Journal) (out []string) {
	tb.Helper()
	err := filepath.Walk(filepath.Join(j.Dir(), "photos"), func(path string, info os.FileInfo, err error) error {
		if err == nil && !info.IsDir() {
			out = append(out, filepath.Base(path))
		}
		return err
	})
	if err != nil {
		tb.Fatal(err)
	}
	return out
}

func same(tb testing.TB, got, want map[string]string) {
	tb.Helper()
	for k, v := range want {
		if got[k] != v {
			tb.Fatalf("%s is %s, want %s", k, got[k], v)
		}
	}
	for k := range got {
		if _, ok := want[k]; !ok {
			tb.Errorf("%s should not be there: %s", k, got[k])
		}
	}
}

func TestAWholeJournalComesBackAsItWas(t *testing.T) {
	k := filled(t)
	do(t, k.Journal, func(tx *journal.Tx) error { return journal.MoveToBin[journal.Bake](tx, k.otherBake) })
	if err := k.Set("settings", func(s *journal.Settings) { s.Currency = "kr" }); err != nil {
		t.Fatal(err)
	}
	file := take(t, k.Journal)
	into := fresh(t)
	if n := counts(compare(t, into.Journal, file)); n != [4]int{len(contents(t, k.Journal)) - 2, 0, 0, 0} {
		t.Errorf("new, same, different, refused: %v", n)
	}
	done := bring(t, into.Journal, file, carry.KeepBoth)
	if done.Photos != 2 || !done.Undoable {
		t.Errorf("%+v", done)
	}
	same(t, contents(t, into.Journal), contents(t, k.Journal))
	if report, err := into.Check(t.Context(), false); err != nil || !report.Sound() {
		t.Errorf("%+v, %v", report, err)
	}
	// A second time there is nothing to do.
	if n := counts(compare(t, into.Journal, file)); n[carry.Same] != done.Records || n[carry.New]+n[carry.Different]+n[carry.Refused] != 0 {
		t.Errorf("the second time new, same, different, refused: %v", n)
	}
	if again := bring(t, into.Journal, file, carry.KeepBoth); again.Records != 0 {
		t.Errorf("the second time it brings %+v", again)
	}
	if label, err := into.Undo(); err != nil || label != "bring in" {
		t.Fatalf("undoing %q: %v", label, err)
	}
	for name := range contents(t, into.Journal) {
		if !slices.Contains(files(t, into.Journal), name) {
			t.Errorf("after undo there is %s", name)
		}
	}
}

func TestTheDemonstrationTravels(t *testing.T) {
	dir := t.TempDir()
	if err := demo.Build(t.Context(), dir, time.Date(2026, 3, 4, 8, 54, 0, 0, time.UTC), demo.Options{NoPictures: true}); err != nil {
		t.Fatal(err)
	}
	j, _ := journaltest.OpenIn(t, dir, journal.Options{})
	into := fresh(t)
	bring(t, into.Journal, take(t, j), carry.KeepBoth)
	same(t, contents(t, into.Journal), contents(t, j))
}

func TestABakeTakesAlongWhatBelongsToIt(t *testing.T) {
	k := filled(t)
	file := take(t, k.Journal, journal.Ref{Kind: journal.KindBake, ID: k.bake})
	kinds := map[journal.Kind]int{}
	ar := compare(t, fresh(t).Journal, file)
	for _, it := range ar.Of(carry.New) {
		kinds[it.Kind]++
		if it.Kind == journal.KindFlour && it.ID != k.flour {
			t.Errorf("the flour %q went along", it.Name)
		}
	}
	want := map[journal.Kind]int{journal.KindBake: 1, journal.KindCulture: 2, journal.KindFormula: 1, journal.KindFlour: 1, journal.KindPhoto: 1}
	if fmt.Sprint(kinds) != fmt.Sprint(want) {
		t.Errorf("with the bake went %v, want %v", kinds, want)
	}
	if ar.Manifest.Scope != archive.Choice || len(ar.Manifest.Chosen) != 1 || ar.Manifest.Chosen[0].ID != string(k.bake) {
		t.Errorf("the manifest says %+v", ar.Manifest)
	}
}

func TestACultureTakesItsDiary(t *testing.T) {
	k := filled(t)
	kinds := map[journal.Kind]int{}
	for _, it := range compare(t, fresh(t).Journal, take(t, k.Journal, journal.Ref{Kind: journal.KindCulture, ID: k.culture})).Of(carry.New) {
		kinds[it.Kind]++
	}
	want := map[journal.Kind]int{journal.KindCulture: 2, journal.KindFeeding: 1, journal.KindReading: 1, journal.KindPhoto: 1}
	if fmt.Sprint(kinds) != fmt.Sprint(want) {
		t.Errorf("with the culture went %v, want %v", kinds, want)
	}
}

func TestPlaceAndDeviceStayInAWholeJournalAndLeaveInNoChoice(t *testing.T) {
	k := filled(t)
	for name, tt := range map[string]struct {
		chosen []journal.Ref
		stays  bool
	}{
		"whole":   {nil, true},
		"bake":    {[]journal.Ref{{Kind: journal.KindBake, ID: k.bake}}, false},
		"culture": {[]journal.Ref{{Kind: journal.KindCulture, ID: k.culture}}, false},
	} {
		file := take(t, k.Journal, tt.chosen...)
		if bytes.Contains(file, []byte(planted)) != tt.stays {
			t.Errorf("%s: place and maker are in it: %v, want %v", name, !tt.stays, tt.stays)
		}
		a, err := archive.Open(bytes.NewReader(file), int64(len(file)))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range a.Manifest.Photos {
			if (p.Original == "") != tt.stays || tt.stays != k.HasOriginal(p.SHA256) || !tt.stays && !k.HasOriginal(p.Original) {
				t.Errorf("%s: a photo is %+v", name, p)
			}
		}
		// At home it is all known, though the files differ.
		if n := counts(compare(t, k.Journal, file)); n[carry.New]+n[carry.Different]+n[carry.Refused] != 0 {
			t.Errorf("%s: at home new, same, different, refused: %v", name, n)
		}
		into := fresh(t)
		bring(t, into.Journal, file, carry.KeepBoth)
		if report, err := into.Check(t.Context(), false); err != nil || !report.Sound() {
			t.Errorf("%s: %+v, %v", name, report, err)
		}
	}
}

// A photo that was deleted for good comes back from an archive that has it without place and
// device, while the file that it was made of is in the journal still: what is stored is
// counted, as it is on the way.
func TestThePicturesOfAnArrivalAreThoseThatAreStored(t *testing.T) {
	k := filled(t)
	file := take(t, k.Journal, journal.Ref{Kind: journal.KindBake, ID: k.bake})
	do(t, k.Journal, func(tx *journal.Tx) error { return tx.Remove(journal.Ref{Kind: journal.KindPhoto, ID: k.loafPhoto}) })
	for name, j := range map[string]*journal.Journal{"at home": k.Journal, "elsewhere": fresh(t).Journal} {
		ar := compare(t, j, file)
		stored := int64(0)
		if _, err := ar.BringIn(t.Context(), carry.Order{Label: "bring in", Progress: func(n int64) { stored = n }}); err != nil {
			t.Fatal(err)
		}
		if stored == 0 || ar.Bytes != stored {
			t.Errorf("%s: %d bytes of pictures were told, %d were stored", name, ar.Bytes, stored)
		}
		if again := compare(t, j, file); again.Bytes != 0 {
			t.Errorf("%s: of what is there now %d bytes are told again", name, again.Bytes)
		}
	}
}

func TestAPhotoWhoseFileIsGoneIsLeftOutByName(t *testing.T) {
	k := filled(t)
	p, err := journal.Get[journal.Photo](k, k.loafPhoto)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(k.Dir(), "photos", p.Hash[:2], p.Hash+".jpg")
	for _, break_ := range []func() error{
		func() error { return os.WriteFile(path, []byte("\xff\xd8\xff not it"), 0o644) },
		func() error { return os.Remove(path) },
	} {
		if err := break_(); err != nil {
			t.Fatal(err)
		}
		for _, chosen := range [][]journal.Ref{nil, {{Kind: journal.KindBake, ID: k.bake}}} {
			ar := compare(t, fresh(t).Journal, take(t, k.Journal, chosen...))
			out := ar.Manifest.LeftOut
			if len(out) != 1 || out[0].ID != string(k.loafPhoto) || out[0].Why != archive.NoPicture || out[0].Name != "p1.jpg" {
				t.Errorf("left out: %+v", out)
			}
		}
	}
}

func TestTakingAwayStops(t *testing.T) {
	k := filled(t)
	p, err := carry.Pack(t.Context(), k.Journal)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	if _, err := p.Write(ctx, io.Discard, func(int64) { cancel() }); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}
