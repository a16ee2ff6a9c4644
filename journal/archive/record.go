package archive

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"io"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
	"github.com/oklog/ulid/v2"
)

// A Record is one record of a journal as it travels.
type Record struct {
	Ref
	// Version is that of the record's own meaning: a reader that knows only an
	// earlier one must not take it in.
	Version int
	// Name is what the baker called it, for naming it where it cannot be read;
	// often empty.
	Name string
	// Body is the whole record, the ID and version in it, as one JSON object.
	Body jsontext.Value
}

var (
	errDeep   = errors.New("it is nested deeper than any record")
	errHead   = errors.New("it has no proper ID and version")
	errObject = errors.New("it is not a JSON object")
)

// parseRecord reads one line of records. The body shares its memory.
func parseRecord(kind string, line []byte) (Record, error) {
	if err := checkDepth(line); err != nil {
		return Record{}, err
	}
	var head struct {
		ID      string         `json:"id"`
		Version int            `json:"v"`
		Name    jsontext.Value `json:"name"`
	}
	if err := json.Unmarshal(line, &head); err != nil {
		return Record{}, err
	}
	if _, err := ulid.ParseStrict(head.ID); err != nil || head.Version < 1 {
		return Record{}, errHead
	}
	r := Record{Ref: Ref{Kind: kind, ID: head.ID}, Version: head.Version, Body: line}
	if head.Name.Kind() == '"' {
		_ = json.Unmarshal(head.Name, &r.Name) // a string by its kind
	}
	return r, nil
}

// checkDepth reads a JSON object to its end without going down with it.
func checkDepth(body []byte) error {
	d := jsontext.NewDecoder(bytes.NewReader(body))
	if d.PeekKind() != '{' {
		return errObject
	}
	for {
		if _, err := d.ReadToken(); err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
		if d.StackDepth() > maxDepth {
			return errDeep
		}
	}
}

// A Digest tells whether two records say the same, however they are written.
type Digest [sha256.Size]byte

// DigestOf digests a record's JSON in its canonical form (RFC 8785).
func DigestOf(body jsontext.Value) (Digest, error) {
	c := body.Clone()
	if err := c.Canonicalize(); err != nil {
		return Digest{}, err
	}
	return sha256.Sum256(c), nil
}

// Beside names the copy that is kept of a record beside another of the same ID.
// The same record always gets the same name, so that bringing it in twice keeps
// one copy; it sorts where the record does. mark is what tells the copy from others.
func Beside(id string, mark Digest) string {
	u, err := ulid.ParseStrict(id)
	if err != nil {
		return ""
	}
	sum := sha256.Sum256(append([]byte(id), mark[:]...))
	copy(u[6:], sum[:]) // behind the time
	return u.String()
}

// With gives a record's JSON with some of its own members set: those that it has in
// their places, the others are left out.
func With(body jsontext.Value, members map[string]jsontext.Value) (jsontext.Value, error) {
	return rewritten(body, func(member string) (jsontext.Value, bool) {
		v, ok := members[member]
		return v, ok
	}, nil)
}

// Renamed gives a record's JSON with every string that is one of the names in
// to replaced, at any depth but within those members of the record that skip
// tells. Order and unknown members stay.
func Renamed(body jsontext.Value, to map[string]string, skip func(member string) bool) (jsontext.Value, error) {
	return rewritten(body, func(member string) (jsontext.Value, bool) {
		return nil, skip != nil && skip(member)
	}, to)
}

// rewritten copies a JSON object. Of each of its own members set may give another
// value, or nil and true to leave it as it is; within all others strings are renamed.
func rewritten(body jsontext.Value, set func(member string) (jsontext.Value, bool), to map[string]string) (jsontext.Value, error) {
	var out bytes.Buffer
	d, e := jsontext.NewDecoder(bytes.NewReader(body)), jsontext.NewEncoder(&out)
	for {
		kind, n := d.StackIndex(d.StackDepth())
		isName := kind == '{' && n%2 == 0
		if d.StackDepth() == 1 && kind == '{' && !isName {
			if other, ok := set(d.StackPointer().LastToken()); ok {
				v, err := d.ReadValue()
				if err == nil && other != nil {
					v = other
				}
				if err == nil {
					err = e.WriteValue(v)
				}
				if err != nil {
					return nil, err
				}
				continue
			}
		}
		tok, err := d.ReadToken()
		if err == io.EOF {
			return bytes.TrimSpace(out.Bytes()), nil
		}
		if err != nil {
			return nil, err
		}
		if tok.Kind() == '"' && !isName {
			if other, ok := to[tok.String()]; ok {
				tok = jsontext.String(other)
			}
		}
		if err := e.WriteToken(tok); err != nil {
			return nil, err
		}
	}
}
