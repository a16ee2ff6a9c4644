package archive

import (
	"time"

	"github.com/go-json-experiment/json"

	"twinloaf/journal/say"
)

// The names of the two members that every archive has.
const (
	manifestName = "manifest.json"
	readmeName   = "README.md"
)

// formatName is what a manifest says that it is.
const formatName = "Twinloaf archive"

// version is the version of the format that this package writes. It reads that
// one and those before it.
const version = 1

// Scope says whether an archive is a whole journal.
type Scope string

// The scopes.
const (
	Whole  Scope = "whole"
	Choice Scope = "choice"
)

// A Manifest lists what an archive holds.
type Manifest struct {
	Format  string    `json:"format"`
	Version int       `json:"version"`
	Made    time.Time `json:"made"`
	Scope   Scope     `json:"scope"`
	// Chosen are the records that a choice was made of; empty for a whole journal.
	Chosen  []Ref     `json:"chosen,omitempty"`
	Readme  Member    `json:"readme"`
	Records []Records `json:"records"`
	Photos  []Photo   `json:"photos"`
	// LeftOut are the records that belong here and did not travel.
	LeftOut []LeftOut `json:"leftOut,omitempty"`
}

// A Ref names a record.
type Ref struct {
	Kind string `json:"kind"`
	ID   string `json:"id"`
}

// A Member is one file of an archive.
type Member struct {
	Path   string `json:"path"`
	Bytes  int64  `json:"bytes"`
	SHA256 string `json:"sha256"` // lower-case hexadecimal
}

// Records is the member that holds all records of one kind.
type Records struct {
	Member
	Kind  string `json:"kind"`
	Count int    `json:"count"`
}

// A Photo is the member that holds one photo. Photo records name it by its SHA256.
type Photo struct {
	Member
	// Original is the SHA-256 of the photo in the journal that it came from, where
	// place and device were taken out of the file on the way; empty where the file
	// is the original.
	Original string `json:"original,omitempty"`
}

// A LeftOut is a record that did not travel.
type LeftOut struct {
	Ref
	Name string `json:"name,omitempty"`
	Why  Why    `json:"why"`
}

// Why says why a record did not travel.
type Why string

// The reasons.
const (
	Sealed     Why = "sealed"     // a tasting whose assignment is secret still
	Unreadable Why = "unreadable" // its bytes are damaged
	NoPicture  Why = "no picture" // a photo whose original is missing or altered
	NotCleaned Why = "not cleaned"
)

// Bytes is how much the archive holds when it is unpacked, the manifest aside.
func (m *Manifest) Bytes() int64 {
	sum := m.Readme.Bytes
	for _, r := range m.Records {
		sum += r.Bytes
	}
	for _, p := range m.Photos {
		sum += p.Bytes
	}
	return sum
}

// members lists every member that the manifest names.
func (m *Manifest) members() []Member {
	out := []Member{m.Readme}
	for _, r := range m.Records {
		out = append(out, r.Member)
	}
	for _, p := range m.Photos {
		out = append(out, p.Member)
	}
	return out
}

// ParseManifest reads a manifest and checks all that can be checked of it alone:
// that it is one, of a version that can be read, and that every member that it names
// has an honest name, a possible size and a fingerprint, and is named once.
func ParseManifest(data []byte) (*Manifest, error) {
	var is struct {
		Format  string `json:"format"`
		Version int    `json:"version"`
	}
	// What it is comes first: a newer manifest may hold what cannot be parsed.
	if err := json.Unmarshal(data, &is); err != nil || is.Format != formatName || is.Version < 1 {
		return nil, refuse(ErrNotArchive, err)
	}
	if is.Version > version {
		return nil, ErrNewer
	}
	m := new(Manifest)
	if err := json.Unmarshal(data, m); err != nil {
		return nil, refuse(ErrNotArchive, err)
	}
	return m, m.check()
}

func (m *Manifest) check() error {
	if m.Readme.Path != readmeName {
		return odd(readmeName)
	}
	seen := map[string]bool{}
	for _, r := range m.Records {
		if kind, ok := recordsKind(r.Path); !ok || kind != r.Kind || r.Count < 0 {
			return odd(r.Path)
		}
	}
	for _, p := range m.Photos {
		hash, _, ok := photoHash(p.Path)
		if !ok || hash != p.SHA256 || p.Original != "" && !isHash(p.Original) {
			return odd(p.Path)
		}
		if p.Bytes > MaxPhoto {
			return large(p.Path)
		}
	}
	var records, all int64
	for _, x := range m.members() {
		switch {
		case seen[x.Path]:
			return refuse(ErrDishonest, nil, say.Of("it names “{{.Member}}” twice", named(x.Path)))
		case x.Bytes < 0 || !isHash(x.SHA256):
			return odd(x.Path)
		case x.Bytes > maxBytes-all:
			return large(x.Path)
		}
		seen[x.Path] = true
		all += x.Bytes
	}
	for _, r := range m.Records {
		if records += r.Bytes; records > maxRecords {
			return large(r.Path)
		}
	}
	if m.Readme.Bytes > maxReadme {
		return large(m.Readme.Path)
	}
	return nil
}
