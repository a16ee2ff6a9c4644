package archive_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"github.com/go-json-experiment/json"

	"twinloaf/journal/archive"
)

// A member is a file of a ZIP that is put together by hand.
type member struct {
	name string
	body []byte
	mode fs.FileMode
	pack bool
	// claim is the size that the manifest is told; 0 means the true one.
	claim int64
	flags uint16
}

// packed makes a ZIP of these members and no others.
func packed(tb testing.TB, members ...member) []byte {
	tb.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, m := range members {
		h := &zip.FileHeader{Name: m.name, Method: zip.Store, Flags: m.flags}
		if m.pack {
			h.Method = zip.Deflate
		}
		h.SetMode(0o644 | m.mode)
		w, err := z.CreateHeader(h)
		if err != nil {
			tb.Fatal(err)
		}
		if len(m.body) > 0 {
			if _, err := w.Write(m.body); err != nil {
				tb.Fatal(err)
			}
		}
	}
	if err := z.Close(); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

// listed makes a manifest that tells the truth about members, save where they
// claim otherwise, lets change alter it, and packs all.
func listed(tb testing.TB, change func(*archive.Manifest), members ...member) []byte {
	tb.Helper()
	readme := member{name: "README.md", body: []byte("none")}
	m := archive.Manifest{Format: "Twinloaf archive", Version: 1, Made: made, Scope: archive.Whole, Readme: about(readme)}
	for _, x := range members {
		switch {
		case strings.HasSuffix(x.name, "/"): // a folder's entry is no member
		case strings.HasPrefix(x.name, "records/"):
			kind := strings.TrimSuffix(strings.TrimPrefix(x.name, "records/"), ".jsonl")
			m.Records = append(m.Records, archive.Records{Member: about(x), Kind: kind, Count: bytes.Count(x.body, []byte("\n"))})
		case strings.HasPrefix(x.name, "photos/"):
			m.Photos = append(m.Photos, archive.Photo{Member: about(x)})
		}
	}
	if change != nil {
		change(&m)
	}
	body, err := json.Marshal(m)
	if err != nil {
		tb.Fatal(err)
	}
	return packed(tb, append([]member{{name: "manifest.json", body: body}, readme}, members...)...)
}

func about(m member) archive.Member {
	out := archive.Member{Path: m.name, Bytes: int64(len(m.body)), SHA256: sumOf(m.body)}
	if m.claim != 0 {
		out.Bytes = m.claim
	}
	return out
}

func bakes(lines ...string) member {
	return member{name: "records/bake.jsonl", body: []byte(strings.Join(lines, "\n") + "\n"), pack: true}
}

func photo(body []byte) member { return member{name: "photos/" + sumOf(body) + ".jpg", body: body} }

const loaf = `{"id":"` + oneID + `","v":1}`

func TestHostileArchivesAreRefusedInASentence(t *testing.T) {
	deep := `{"id":"` + oneID + `","v":1,"x":` + strings.Repeat("[", 100_000) + strings.Repeat("]", 100_000) + `}`
	for name, tt := range map[string]struct {
		zip  []byte
		want error
		says string
	}{
		"nothing":              {nil, archive.ErrNotArchive, ""},
		"no ZIP":               {[]byte(strings.Repeat("bread ", 1000)), archive.ErrNotArchive, ""},
		"another ZIP":          {packed(t, member{name: "letter.txt", body: []byte("x")}), archive.ErrDishonest, "letter.txt"},
		"an empty ZIP":         {packed(t), archive.ErrNotArchive, ""},
		"no manifest":          {packed(t, bakes(loaf)), archive.ErrNotArchive, ""},
		"manifest of a list":   {packed(t, member{name: "manifest.json", body: []byte("[]")}), archive.ErrNotArchive, ""},
		"manifest nested deep": {packed(t, member{name: "manifest.json", body: []byte(deep)}), archive.ErrNotArchive, ""},
		"manifest repeats a name": {packed(t, member{name: "manifest.json", body: []byte(`{"format":"Twinloaf archive","version":1,"version":1}`)}),
			archive.ErrNotArchive, ""},
		"manifest without a version": {listed(t, func(m *archive.Manifest) { m.Version = 0 }), archive.ErrNotArchive, ""},
		"a newer archive":            {listed(t, func(m *archive.Manifest) { m.Version = 2 }), archive.ErrNewer, ""},
		"newer, and not to be parsed": {packed(t, member{name: "manifest.json", body: []byte(`{"format":"Twinloaf archive","version":7,"records":"elsewhere"}`)}),
			archive.ErrNewer, ""},

		"up and out":           {listed(t, nil, member{name: "../../loaf.jsonl", body: []byte("x")}), archive.ErrDishonest, "../../loaf.jsonl"},
		"up within":            {listed(t, nil, member{name: "records/../bake.jsonl", body: []byte("x")}), archive.ErrDishonest, "records/../bake.jsonl"},
		"from the root":        {listed(t, nil, member{name: "/etc/loaf", body: []byte("x")}), archive.ErrDishonest, "/etc/loaf"},
		"a drive":              {listed(t, nil, member{name: `C:\loaf.jpg`, body: []byte("x")}), archive.ErrDishonest, "loaf.jpg"},
		"a backslash":          {listed(t, nil, member{name: `photos\loaf.jpg`, body: []byte("x")}), archive.ErrDishonest, "loaf.jpg"},
		"up in the manifest":   {listed(t, func(m *archive.Manifest) { m.Photos[0].Path = "photos/../../x.jpg" }, photo([]byte("x"))), archive.ErrDishonest, ""},
		"not its own hash":     {listed(t, func(m *archive.Manifest) { m.Photos[0].SHA256 = sumOf([]byte("y")) }, photo([]byte("x"))), archive.ErrDishonest, ""},
		"a name without end":   {listed(t, nil, member{name: strings.Repeat("long", 8000), body: []byte("x")}), archive.ErrDishonest, "…”"},
		"a name of no letters": {listed(t, nil, member{name: "records/\x00\x1b[2J.jsonl", body: []byte("x")}), archive.ErrDishonest, `\x1b`},
		"a link":               {listed(t, nil, member{name: photo([]byte("/etc/passwd")).name, body: []byte("/etc/passwd"), mode: fs.ModeSymlink}), archive.ErrDishonest, "photos/"},
		"a device":             {listed(t, nil, member{name: bakes().name, mode: fs.ModeDevice}), archive.ErrDishonest, "bake.jsonl"},
		"locked":               {listed(t, nil, member{name: bakes().name, body: []byte(loaf + "\n"), flags: 1}), archive.ErrDishonest, "password"},
		"a folder with bytes":  {listed(t, nil, member{name: "photos/x/", mode: fs.ModeDir}), archive.ErrDishonest, "photos/x/"},

		"one name twice":         {listed(t, func(m *archive.Manifest) { m.Records = m.Records[:1] }, bakes(loaf), bakes(loaf)), archive.ErrDishonest, "twice"},
		"named twice":            {listed(t, func(m *archive.Manifest) { m.Records = append(m.Records, m.Records[0]) }, bakes(loaf)), archive.ErrDishonest, "twice"},
		"larger letters":         {listed(t, nil, bakes(loaf), member{name: "records/BAKE.jsonl", body: []byte(loaf + "\n")}), archive.ErrDishonest, "BAKE"},
		"a manifest in capitals": {listed(t, nil, member{name: "MANIFEST.JSON", body: []byte("{}")}), archive.ErrDishonest, "MANIFEST"},

		"a member not listed":    {listed(t, func(m *archive.Manifest) { m.Records = nil }, bakes(loaf)), archive.ErrDishonest, "bake.jsonl"},
		"a missing member":       {listed(t, func(m *archive.Manifest) { m.Photos = []archive.Photo{{Member: about(photo([]byte("x")))}} }), archive.ErrAltered, "is missing"},
		"an altered record":      {listed(t, func(m *archive.Manifest) { m.Records[0].SHA256 = sumOf([]byte("y")) }, bakes(loaf)), archive.ErrAltered, "bake.jsonl"},
		"longer than it says":    {listed(t, nil, member{name: bakes().name, body: []byte(loaf + "\n"), claim: 5}), archive.ErrAltered, "bake.jsonl"},
		"shorter than it says":   {listed(t, nil, member{name: bakes().name, body: []byte(loaf + "\n"), claim: 500}), archive.ErrAltered, "bake.jsonl"},
		"of negative length":     {listed(t, nil, member{name: bakes().name, body: []byte(loaf + "\n"), claim: -5}), archive.ErrDishonest, ""},
		"one record too few":     {listed(t, func(m *archive.Manifest) { m.Records[0].Count = 2 }, bakes(loaf)), archive.ErrAltered, "bake.jsonl"},
		"a huge claim":           {listed(t, nil, member{name: bakes().name, body: []byte("x"), claim: 1 << 40}), archive.ErrTooLarge, "bake.jsonl"},
		"a claim that overflows": {listed(t, func(m *archive.Manifest) { m.Readme.Bytes, m.Photos[0].Bytes = 1<<63-1, 1<<63-1 }, photo([]byte("x"))), archive.ErrTooLarge, ""},
		"a bomb of a photo":      {listed(t, nil, packedPhoto(make([]byte, 30<<20))), archive.ErrTooLarge, "photos/"},
		"a bomb of records":      {listed(t, nil, member{name: bakes().name, body: make([]byte, 30<<20), pack: true}), archive.ErrTooLarge, "bake.jsonl"},
		"a bomb of a manifest":   {packed(t, member{name: "manifest.json", body: make([]byte, 30<<20), pack: true}), archive.ErrTooLarge, "manifest.json"},

		"nested 100,000 deep":   {listed(t, nil, bakes(deep)), archive.ErrAltered, "line 1"},
		"nested 100 deep":       {listed(t, nil, bakes(loaf, `{"id":"`+twoID+`","v":1,"x":`+strings.Repeat("[", 100)+strings.Repeat("]", 100)+`}`)), archive.ErrAltered, "line 2"},
		"two objects in a line": {listed(t, nil, bakes(loaf+loaf)), archive.ErrAltered, "line 1"},
		"half an object":        {listed(t, nil, bakes(loaf[:20])), archive.ErrAltered, "line 1"},
		"a list":                {listed(t, nil, bakes("[]")), archive.ErrAltered, "line 1"},
		"a repeated name":       {listed(t, nil, bakes(`{"id":"`+oneID+`","v":1,"v":1}`)), archive.ErrAltered, "line 1"},
		"bad UTF-8":             {listed(t, nil, bakes(`{"id":"`+oneID+`","v":1,"name":"`+"\xff"+`"}`)), archive.ErrAltered, "line 1"},
		"no ID":                 {listed(t, nil, bakes(`{"v":1}`)), archive.ErrAltered, "line 1"},
		"an ID that is a path":  {listed(t, nil, bakes(`{"id":"../../../../../../etc/pass","v":1}`)), archive.ErrAltered, "line 1"},
		"no version":            {listed(t, nil, bakes(`{"id":"`+oneID+`"}`)), archive.ErrAltered, "line 1"},
		"a record twice":        {listed(t, nil, bakes(loaf, loaf)), archive.ErrDishonest, "line 2"},
	} {
		t.Run(name, func(t *testing.T) {
			a, err := open(tt.zip)
			if err == nil {
				_, err = readAll(t.Context(), a)
			}
			if !errors.Is(err, tt.want) || !strings.Contains(fmt.Sprint(err), tt.says) || len(fmt.Sprint(err)) > 300 {
				t.Errorf("says %q, want %q with %q", err, tt.want, tt.says)
			}
		})
	}
}

// packedPhoto is a photo that is packed, as one that was unpacked and packed
// again would be.
func packedPhoto(body []byte) member {
	m := photo(body)
	m.pack = true
	return m
}

func TestAnArchiveThatWasUnpackedAndPackedAgainIsRead(t *testing.T) {
	zip := listed(t, nil, member{name: "records/", mode: fs.ModeDir}, member{name: "photos/", mode: fs.ModeDir}, bakes(loaf), packedPhoto([]byte("a loaf")))
	a, err := open(zip)
	if err != nil {
		t.Fatal(err)
	}
	if records, err := readAll(t.Context(), a); err != nil || len(records) != 1 {
		t.Errorf("%v, %v", records, err)
	}
}
