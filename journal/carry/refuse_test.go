package carry_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/blind"
	"twinloaf/journal/carry"
	"twinloaf/journal/faultdisk"
	"twinloaf/journal/journaltest"
	"twinloaf/journal/photo"
)

const (
	aID = "01JQ0000000000000000000001"
	bID = "01JQ0000000000000000000002"
	cID = "01JQ0000000000000000000003"
)

// byHand makes an archive of records that no journal here would write.
func byHand(tb testing.TB, records map[string][]string) []byte {
	tb.Helper()
	var out bytes.Buffer
	w := archive.NewWriter(&out, archive.Manifest{Scope: archive.Whole})
	for kind, lines := range records {
		var bodies []jsontext.Value
		for _, l := range lines {
			bodies = append(bodies, jsontext.Value(l))
		}
		if err := w.Records(tb.Context(), kind, bodies); err != nil {
			tb.Fatal(err)
		}
	}
	if _, err := w.Close(tb.Context()); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

func TestWhatCannotBeBroughtInIsToldAndTheRestGoesIn(t *testing.T) {
	for name, tt := range map[string]struct {
		records map[string][]string
		refused map[string]carry.Why // by ID
		new     int
	}{
		"a newer record": {map[string][]string{"bake": {
			`{"id":"` + aID + `","v":2,"name":"From tomorrow","at":{"unheard":"of"}}`, `{"id":"` + bID + `","v":1,"at":"2026-03-04T08:54:00Z"}`}},
			map[string]carry.Why{aID: carry.Newer}, 1},
		"a weight that cannot be": {map[string][]string{"feeding": {
			`{"id":"` + aID + `","v":1,"at":"2026-03-04T08:54:00Z","flourG":-5}`, `{"id":"` + bID + `","v":1,"at":"2026-03-04T08:54:00Z","flourG":50}`}},
			map[string]carry.Why{aID: carry.Impossible}, 1},
		"a kind nobody knows": {map[string][]string{"sourdoughmap": {`{"id":"` + aID + `","v":1}`}, "bake": {`{"id":"` + bID + `","v":1}`}},
			map[string]carry.Why{aID: carry.Newer}, 1},
		"what belongs to a newer record": {map[string][]string{
			"culture": {`{"id":"` + aID + `","v":2}`}, "feeding": {`{"id":"` + bID + `","v":1,"culture":"` + aID + `"}`}},
			map[string]carry.Why{aID: carry.Newer, bID: carry.NoOwner}, 0},
		"what is no bake": {map[string][]string{"bake": {`{"id":"` + aID + `","v":1,"at":12}`, `{"id":"` + bID + `","v":1,"steps":{}}`}},
			map[string]carry.Why{aID: carry.NoRecord, bID: carry.NoRecord}, 0},
		"a broken temperature log": {map[string][]string{"templog": {`{"id":"` + aID + `","v":1,"packed":"//8=","count":3}`}},
			map[string]carry.Why{aID: carry.NoRecord}, 0},
		"a tasting in pieces": {map[string][]string{"tasting": {`{"id":"` + aID + `","v":1,"plan":[]}`, `{"id":"` + bID + `","v":1,"result":7}`}},
			map[string]carry.Why{aID: carry.NoRecord, bID: carry.NoRecord}, 0},
		"a sealed tasting": {map[string][]string{"tasting": {`{"id":"` + aID + `","v":1,"sealed":"2026-03-04T08:54:00Z"}`}},
			map[string]carry.Why{aID: carry.SealedThere}, 0},
		"a photo without its file": {map[string][]string{"photo": {
			`{"id":"` + aID + `","v":1,"hash":"` + strings.Repeat("0", 64) + `"}`, `{"id":"` + bID + `","v":1,"hash":"../../../etc/passwd"}`, `{"id":"` + cID + `","v":1,"hash":7}`}},
			map[string]carry.Why{aID: carry.NoPicture, bID: carry.NoPicture, cID: carry.NoRecord}, 0},
	} {
		t.Run(name, func(t *testing.T) {
			into := fresh(t)
			file := byHand(t, tt.records)
			ar := compare(t, into.Journal, file)
			refused := map[string]carry.Why{}
			for _, it := range ar.Of(carry.Refused) {
				refused[string(it.ID)] = it.Why
			}
			if fmt.Sprint(refused) != fmt.Sprint(tt.refused) || len(ar.Of(carry.New)) != tt.new {
				t.Errorf("refused %v and %d new, want %v and %d", refused, len(ar.Of(carry.New)), tt.refused, tt.new)
			}
			if done := bring(t, into.Journal, file, carry.KeepBoth); done.Records != tt.new || len(contents(t, into.Journal)) != tt.new {
				t.Errorf("brought %+v, and there are %v", done, contents(t, into.Journal))
			}
		})
	}
}

func TestASealedTastingDoesNotTravel(t *testing.T) {
	k := filled(t)
	plan := blind.Plan{Method: blind.Triangle, Mode: blind.WithHelper, Rounds: 2, Tasters: []string{"Ines"},
		Loaves: [2]blind.Loaf{{ID: string(k.bake)}, {ID: string(k.otherBake)}}}
	rec := &journal.Tasting{Name: "Gorse or not", At: k.Now(), Bakes: []journal.ID{k.bake, k.otherBake}}
	if err := rec.SetSetting(blind.Setting{Plan: plan}); err != nil {
		t.Fatal(err)
	}
	do(t, k.Journal, func(tx *journal.Tx) error { return journal.Put(tx, rec) })
	before := take(t, k.Journal) // not sealed yet: it travels
	plating, err := k.Plate(rec.ID)
	if err != nil {
		t.Fatal(err)
	}
	card, err := plating.Card()
	if err != nil {
		t.Fatal(err)
	}
	lines, err := card.Lines()
	if err != nil {
		t.Fatal(err)
	}
	if err := plating.Seal(); err != nil {
		t.Fatal(err)
	}
	sealed, err := journal.Get[journal.Tasting](k, rec.ID)
	if err != nil {
		t.Fatal(err)
	}

	p, err := carry.Pack(t.Context(), k.Journal)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.LeftOut) != 1 || p.LeftOut[0].Name != "Gorse or not" || p.LeftOut[0].Why != archive.Sealed {
		t.Errorf("before it is written, left out is %+v", p.LeftOut)
	}
	file := take(t, k.Journal)
	a, err := archive.Open(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	if l := a.Manifest.LeftOut; len(l) != 1 || l[0].ID != string(rec.ID) || l[0].Why != archive.Sealed {
		t.Errorf("the manifest leaves out %+v", l)
	}
	for _, m := range a.Manifest.Records {
		err := a.Records(t.Context(), m, func(r archive.Record) error {
			// Neither the seal nor a code that says where a loaf lies is anywhere.
			for _, secret := range []string{sealed.Commitment, `"` + lines[0].Plates[0].Label + `"`} {
				if strings.Contains(string(r.Body), secret) {
					t.Errorf("%s holds %s", r.Kind, secret)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}

	// Coming home, the plan of before meets the sealed tasting, which stays as it is.
	ar := compare(t, k.Journal, before)
	i := slices.IndexFunc(ar.Items, func(it carry.Item) bool { return it.ID == rec.ID })
	if ar.Items[i].Standing != carry.Refused || ar.Items[i].Why != carry.SealedHere {
		t.Errorf("it stands as %+v", ar.Items[i])
	}
	bring(t, k.Journal, before, carry.TakeTheirs)
	if now, err := journal.Get[journal.Tasting](k, rec.ID); err != nil || !now.IsSealed() || now.Commitment != sealed.Commitment {
		t.Errorf("the sealed tasting is %+v, %v", now, err)
	}
}

func TestAnAlteredPhotoChangesNothing(t *testing.T) {
	k, into := filled(t), fresh(t)
	file := take(t, k.Journal)
	i := bytes.Index(file, []byte("\xff\xd8\xff")) // in a photo, which is not packed
	file[i+200] ^= 1
	ar := compare(t, into.Journal, file)
	_, err := ar.BringIn(t.Context(), carry.Order{Label: "bring in"})
	if !errors.Is(err, archive.ErrAltered) || !strings.Contains(err.Error(), "photos/") {
		t.Errorf("got %v", err)
	}
	same(t, contents(t, into.Journal), nil)
}

func TestStoppingHalfWayLeavesNothing(t *testing.T) {
	k, into := filled(t), fresh(t)
	ar := compare(t, into.Journal, take(t, k.Journal))
	ctx, cancel := context.WithCancel(t.Context())
	_, err := ar.BringIn(ctx, carry.Order{Label: "bring in", Progress: func(int64) { cancel() }})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	same(t, contents(t, into.Journal), nil)
}

func TestWhatIsBeingBroughtInIsNotSwept(t *testing.T) {
	k, into := filled(t), fresh(t)
	var swept error
	var once sync.Once // it is told from several goroutines
	_, err := compare(t, into.Journal, take(t, k.Journal)).BringIn(t.Context(), carry.Order{
		Label: "bring in", Progress: func(int64) { once.Do(func() { _, swept = into.SweepOriginals(t.Context()) }) },
	})
	if err != nil || !errors.Is(swept, journal.ErrAdding) {
		t.Errorf("bringing in: %v; sweeping meanwhile: %v", err, swept)
	}
}

func TestAFullDiskAtAnyStepLeavesNoRecord(t *testing.T) {
	k := filled(t)
	file := take(t, k.Journal)
	full := errors.New("no space left")
	for _, step := range []faultdisk.Op{faultdisk.Mkdir, faultdisk.Create, faultdisk.Write, faultdisk.Sync, faultdisk.Close, faultdisk.Rename, faultdisk.SyncDir} {
		for nth := 1; nth <= 2; nth++ {
			faults := new(faultdisk.Disk)
			into, _ := journaltest.Open(t, journal.Options{Photos: faults.Photos()})
			ar := compare(t, into, file)
			faults.Fail(step, nth, 1, full)
			_, err := ar.BringIn(t.Context(), carry.Order{Label: "bring in"})
			if !errors.Is(err, full) {
				t.Errorf("%s %d: got %v", step, nth, err)
			}
			for name := range contents(t, into) {
				// A photo that had its name already may stay, whole and named by no record.
				if h, err := photo.ParseHash(strings.TrimSuffix(name, ".jpg")); err != nil || (step != faultdisk.Mkdir && step != faultdisk.Rename && step != faultdisk.SyncDir) || !into.HasOriginal(h.String()) {
					t.Errorf("%s %d: %s is left", step, nth, name)
				}
			}
			faults.Heal()
			if _, err := ar.BringIn(t.Context(), carry.Order{Label: "bring in"}); err != nil {
				t.Errorf("%s %d: afterwards: %v", step, nth, err)
			}
			same(t, contents(t, into), contents(t, k.Journal))
		}
	}
}

func TestAJournalThatChangedMeanwhileIsNotWrittenOver(t *testing.T) {
	mine, theirs, file := parted(t)
	ar := compare(t, mine.Journal, file)
	do(t, mine.Journal, func(tx *journal.Tx) error {
		return journal.Change(tx, theirs.bake, func(b *journal.Bake) { b.Notes = "just now" })
	})
	before := contents(t, mine.Journal)
	_, err := ar.BringIn(t.Context(), carry.Order{Label: "bring in", Way: func(*carry.Item) carry.Way { return carry.TakeTheirs }})
	if !errors.Is(err, carry.ErrChanged) {
		t.Errorf("got %v", err)
	}
	same(t, contents(t, mine.Journal), before)
}
