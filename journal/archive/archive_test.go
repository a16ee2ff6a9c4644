package archive_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"slices"
	"testing"
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/archive"
)

const (
	oneID = "01JQ0000000000000000000001"
	twoID = "01JQ0000000000000000000002"
)

var made = time.Date(2026, 3, 4, 8, 54, 0, 0, time.UTC)

func sumOf(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// whole is an archive with two bakes and a photo.
func whole(tb testing.TB) []byte {
	tb.Helper()
	var out bytes.Buffer
	w := archive.NewWriter(&out, archive.Manifest{Made: made, Scope: archive.Whole})
	pic := []byte("a picture, as far as an archive knows")
	if err := w.Photo(tb.Context(), sumOf(pic), ".jpg", "", pic); err != nil {
		tb.Fatal(err)
	}
	err := w.Records(tb.Context(), "bake", []jsontext.Value{
		jsontext.Value(`{"id":"` + oneID + `", "v":1, "name":"Harbour loaf", "later":{"a":[1,2.50]}}`),
		jsontext.Value(`{"id":"` + twoID + `","v":3,"name":7}`),
	})
	if err != nil {
		tb.Fatal(err)
	}
	w.LeaveOut(archive.LeftOut{Ref: archive.Ref{Kind: "tasting", ID: oneID}, Name: "Gorse or Ferry?", Why: archive.Sealed})
	if _, err := w.Close(tb.Context()); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

func open(b []byte) (*archive.Archive, error) {
	return archive.Open(bytes.NewReader(b), int64(len(b)))
}

// readAll reads everything that an archive holds.
func readAll(ctx context.Context, a *archive.Archive) (records []archive.Record, err error) {
	for _, m := range a.Manifest.Records {
		err := a.Records(ctx, m, func(r archive.Record) error { records = append(records, r); return nil })
		if err != nil {
			return nil, err
		}
	}
	for _, p := range a.Manifest.Photos {
		r, err := a.Photo(ctx, p)
		if err != nil {
			return nil, err
		}
		_, err = io.Copy(io.Discard, r)
		if err = errors.Join(err, r.Close()); err != nil {
			return nil, err
		}
	}
	return records, a.Verify(ctx, nil)
}

func TestWhatWasWrittenIsRead(t *testing.T) {
	a, err := open(whole(t))
	if err != nil {
		t.Fatal(err)
	}
	records, err := readAll(t.Context(), a)
	if err != nil {
		t.Fatal(err)
	}
	if len(records) != 2 || records[0].Name != "Harbour loaf" || records[0].ID != oneID || records[1].Version != 3 || records[1].Name != "" {
		t.Errorf("read %+v", records)
	}
	if want := `{"id":"` + oneID + `","v":1,"name":"Harbour loaf","later":{"a":[1,2.50]}}`; string(records[0].Body) != want {
		t.Errorf("a record reads %s, want %s", records[0].Body, want)
	}
	m := a.Manifest
	if !m.Made.Equal(made) || m.Scope != archive.Whole || len(m.Photos) != 1 || m.Photos[0].Ext() != ".jpg" || len(m.LeftOut) != 1 || m.LeftOut[0].Why != archive.Sealed {
		t.Errorf("the manifest reads %+v", m)
	}
}

func TestAPhotoThatIsNotItsHashIsNotWritten(t *testing.T) {
	w := archive.NewWriter(io.Discard, archive.Manifest{Made: made, Scope: archive.Whole})
	if err := w.Photo(t.Context(), sumOf([]byte("one")), ".jpg", "", []byte("another")); !errors.Is(err, archive.ErrAltered) {
		t.Errorf("got %v", err)
	}
}

func TestWritingAndReadingStop(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	a, err := open(whole(t))
	if err != nil {
		t.Fatal(err)
	}
	cancel()
	w := archive.NewWriter(io.Discard, archive.Manifest{Made: made, Scope: archive.Whole})
	if err := w.Records(ctx, "bake", nil); !errors.Is(err, context.Canceled) {
		t.Errorf("writing gives %v", err)
	}
	if _, err := readAll(ctx, a); !errors.Is(err, context.Canceled) || errors.Is(err, archive.ErrAltered) {
		t.Errorf("reading gives %v", err)
	}
}

func TestRecordsAreTheSameHoweverTheyAreWritten(t *testing.T) {
	one, err := archive.DigestOf(jsontext.Value(`{"a":1.0,"b":[true,"\u0041"]}`))
	if err != nil {
		t.Fatal(err)
	}
	for other, same := range map[string]bool{
		"{ \"b\":[true, \"A\"], \"a\":1}":  true,
		`{"a":1,"b":["A",true]}`:           false, // the order of a list says something
		`{"a":1,"b":[true,"A"],"c":false}`: false,
	} {
		d, err := archive.DigestOf(jsontext.Value(other))
		if err != nil || (d == one) != same {
			t.Errorf("%s: the same %v, want %v (%v)", other, d == one, same, err)
		}
	}
}

func TestACopyHasOneNameForEachContent(t *testing.T) {
	a, b := archive.Digest{1}, archive.Digest{2}
	first := archive.Beside(oneID, a)
	if first == oneID || first != archive.Beside(oneID, a) || first == archive.Beside(oneID, b) || first == archive.Beside(twoID, a) || first[:10] != oneID[:10] || len(first) != 26 {
		t.Errorf("%s", first)
	}
}

func TestRenamedReplacesNamesAndNothingElse(t *testing.T) {
	to := map[string]string{oneID: twoID}
	for _, tt := range []struct{ in, want string }{
		{`{"id":"` + oneID + `","arms":[{"bake":"` + oneID + `","n":1.50}]}`, `{"id":"` + twoID + `","arms":[{"bake":"` + twoID + `","n":1.50}]}`},
		{`{"` + oneID + `":"x` + oneID + `"}`, `{"` + oneID + `":"x` + oneID + `"}`},
		{`{"plan":{"loaf":"` + oneID + `"},"a":{"plan":"` + oneID + `"}}`, `{"plan":{"loaf":"` + oneID + `"},"a":{"plan":"` + twoID + `"}}`},
		{`{"plan":"` + oneID + `","b":"` + oneID + `"}`, `{"plan":"` + oneID + `","b":"` + twoID + `"}`},
		{`{}`, `{}`},
	} {
		got, err := archive.Renamed(jsontext.Value(tt.in), to, func(member string) bool { return member == "plan" })
		if err != nil || string(got) != tt.want {
			t.Errorf("%s became %s (%v), want %s", tt.in, got, err, tt.want)
		}
	}
}

// TestEverySingleAlteredByteIsTold flips each byte of the archive in turn. Where
// the archive can be read nevertheless, what is read is what was written.
func TestEverySingleAlteredByteIsTold(t *testing.T) {
	good := whole(t)
	a, err := open(good)
	if err != nil {
		t.Fatal(err)
	}
	want, err := readAll(t.Context(), a)
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	for i := range good {
		bad := slices.Clone(good)
		bad[i] ^= 0x20
		a, err := open(bad)
		if err == nil {
			var got []archive.Record
			if got, err = readAll(t.Context(), a); err == nil {
				if fmt.Sprint(got) != fmt.Sprint(want) {
					t.Fatalf("byte %d altered: the records read %v, and nothing is told", i, got)
				}
				continue // a time, or a field of the ZIP that nobody reads
			}
		}
		if !isRefusal(err) {
			t.Errorf("byte %d altered: %v", i, err)
		}
		told++
	}
	if told < len(good)*3/4 {
		t.Errorf("only %d of %d altered bytes were told", told, len(good))
	}
}

// isRefusal reports whether an error is one of the package's own sentences.
func isRefusal(err error) bool {
	for _, kind := range []error{archive.ErrNotArchive, archive.ErrNewer, archive.ErrDishonest, archive.ErrAltered, archive.ErrTooLarge} {
		if errors.Is(err, kind) {
			return true
		}
	}
	return false
}
