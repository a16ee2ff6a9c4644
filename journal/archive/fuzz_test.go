package archive_test

import (
	"context"
	"encoding/json"
	"testing"
	"time"

	"twinloaf/journal/archive"
)

// FuzzArchive opens and reads any bytes to the end. Whatever they are, reading
// ends, and either all is as the manifest says or a sentence of the package tells
// what is not.
func FuzzArchive(f *testing.F) {
	f.Add(whole(f))
	f.Add(listed(f, nil, bakes(loaf), packedPhoto([]byte("a loaf"))))
	f.Add(packed(f, member{name: "manifest.json", body: []byte(`{"format":"Twinloaf archive","version":1}`)}))
	f.Fuzz(func(t *testing.T, b []byte) {
		ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
		defer cancel()
		a, err := open(b)
		if err == nil {
			_, err = readAll(ctx, a)
		}
		if err != nil && !isRefusal(err) {
			t.Errorf("it ends with %v", err)
		}
	})
}

// FuzzManifest parses any bytes as a manifest. One that is taken names no member
// twice, none outside of the two folders, and no more bytes than the limit.
func FuzzManifest(f *testing.F) {
	a, err := open(whole(f))
	if err != nil {
		f.Fatal(err)
	}
	good, err := json.Marshal(a.Manifest)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add([]byte(`{"format":"Twinloaf archive","version":2}`))
	f.Fuzz(func(t *testing.T, b []byte) {
		m, err := archive.ParseManifest(b)
		if err != nil {
			if !isRefusal(err) {
				t.Errorf("it ends with %v", err)
			}
			return
		}
		if n := m.Bytes(); n < 0 || n > 1<<42 {
			t.Errorf("it claims %d bytes", n)
		}
		seen := map[string]bool{}
		for _, p := range m.Photos {
			if len(p.Path) < len("photos/.jpg")+64 || p.Path[:7] != "photos/" || p.Path[7:71] != p.SHA256 || seen[p.Path] {
				t.Errorf("a photo is named %q", p.Path)
			}
			seen[p.Path] = true
		}
		for _, r := range m.Records {
			if r.Path != "records/"+r.Kind+".jsonl" || r.Count < 0 || seen[r.Path] {
				t.Errorf("records of %q are named %q", r.Kind, r.Path)
			}
			seen[r.Path] = true
		}
	})
}
