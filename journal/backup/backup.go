package backup

import (
	"bufio"
	"bytes"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/photo"
)

// A Reason says why a backup was made.
type Reason string

// The reasons.
const (
	Daily     Reason = "daily"
	Asked     Reason = "asked"     // the baker asked for it
	Migration Reason = "migration" // before the journal was brought to a newer layout
	Aside     Reason = "aside"     // what the journal was before another backup was put back
	Arrival   Reason = "arrival"   // before more was brought in than one undo takes back
)

// A Backup is one copy of a journal.
type Backup struct {
	// Path is the folder that it lies in.
	Path string `json:"-"`
	// Damage says what is wrong with it as far as a look at its files tells; nil for
	// nothing. Whether its bytes are sound is looked at when it is put back.
	Damage error `json:"-"`

	Format  int       `json:"twinloafBackup"`
	Journal string    `json:"journal"` // which journal it is of: see settings
	Made    time.Time `json:"made"`
	Reason  Reason    `json:"reason"`
	Records int       `json:"records"`
	Bakes   int       `json:"bakes"`
	Photos  int       `json:"photos"`           // originals that it needs
	Missing int       `json:"missing,omitzero"` // of those, how many could not be had
	Bytes   int64     `json:"bytes"`            // of journal.db
	SHA256  string    `json:"sha256,omitzero"`  // of journal.db, in hexadecimal; empty if it could not be read
	Checked time.Time `json:"checked,omitzero"` // when it was read back and looked at
	// Unlisted says that nobody could tell which originals it needs.
	Unlisted bool           `json:"unlisted,omitzero"`
	Rest     jsontext.Value `json:",embed"`
}

// stays reports whether the backup is never thinned out.
func (b Backup) stays() bool {
	return b.Reason == Migration || b.Reason == Aside || b.Reason == Arrival
}

const (
	format       = 1
	recordsName  = "journal.db"
	manifestName = "backup.json"
	sumsName     = "SHA256SUMS"
	originalsDir = "originals"
	stampLayout  = "2006-01-02T150405Z"
	partPrefix   = ".part-"
)

var stampName = regexp.MustCompile(`^\d{4}-\d\d-\d\dT\d{6}Z(-\d+)?$`)

// File is the copy of the records.
func (b Backup) File() string { return filepath.Join(b.Path, recordsName) }

// read reads what lies in the folder path. It is an error only if that is no backup;
// what is wrong with one is its Damage.
func read(path string) (Backup, error) {
	data, err := os.ReadFile(filepath.Join(path, manifestName))
	if err != nil {
		return Backup{}, err
	}
	var b Backup
	if err := json.Unmarshal(data, &b); err != nil {
		// Its records may be sound nevertheless: it is shown, not passed over.
		b = Backup{Damage: ErrDamaged, Unlisted: true}
	}
	b.Path = path
	if b.Made.IsZero() {
		name, _, _ := strings.Cut(filepath.Base(path), "Z")
		b.Made, _ = time.Parse(stampLayout, name+"Z")
	}
	if b.Format > format {
		b.Damage, b.Unlisted = ErrNewer, true
	}
	if info, err := os.Stat(b.File()); err != nil || b.Damage == nil && info.Size() != b.Bytes {
		b.Damage = ErrDamaged
	}
	return b, nil
}

// An Original is an original picture that a backup needs.
type Original struct {
	Hash   photo.Hash
	Format photo.Format
}

// name is where it lies below a folder of originals.
func (o Original) name() string {
	return filepath.Join(o.Hash.String()[:2], o.Hash.String()+o.Format.Ext())
}

// writeSums writes the checksums as sha256sum reads them.
func writeSums(w io.Writer, records string, originals []Original) error {
	b := bufio.NewWriter(w)
	if records != "" {
		fmt.Fprintf(b, "%s  %s\n", records, recordsName)
	}
	for _, o := range originals {
		fmt.Fprintf(b, "%s  ../%s/%s\n", o.Hash, originalsDir, filepath.ToSlash(o.name()))
	}
	return b.Flush()
}

// Originals reads which originals the backup needs, in the order of their hashes.
func (b Backup) Originals() ([]Original, error) {
	if b.Unlisted {
		return nil, fmt.Errorf("reading what the backup %s needs: %w", filepath.Base(b.Path), ErrUnlisted)
	}
	data, err := os.ReadFile(filepath.Join(b.Path, sumsName))
	if err != nil {
		return nil, fmt.Errorf("reading what the backup needs: %w", err)
	}
	var out []Original
	for line := range bytes.Lines(data) {
		sum, name, ok := strings.Cut(strings.TrimSuffix(string(line), "\n"), "  ")
		if !ok {
			return nil, fmt.Errorf("reading what the backup %s needs: %w", filepath.Base(b.Path), ErrDamaged)
		}
		if name == recordsName {
			continue
		}
		h, err := photo.ParseHash(sum)
		f, known := photo.FormatOf(filepath.Ext(name))
		if err != nil || !known {
			return nil, fmt.Errorf("reading what the backup %s needs: %w", filepath.Base(b.Path), ErrDamaged)
		}
		out = append(out, Original{h, f})
	}
	if len(out) != b.Photos {
		return nil, fmt.Errorf("reading what the backup %s needs: %w", filepath.Base(b.Path), ErrDamaged)
	}
	return out, nil
}

// sorted puts originals in the order of their hashes, each once.
func sorted(all []Original) []Original {
	all = slices.Clone(all)
	slices.SortFunc(all, func(a, b Original) int {
		if c := bytes.Compare(a.Hash[:], b.Hash[:]); c != 0 {
			return c
		}
		return int(a.Format) - int(b.Format)
	})
	return slices.Compact(all)
}

// hexOf writes a checksum.
func hexOf(sum []byte) string { return hex.EncodeToString(sum) }
