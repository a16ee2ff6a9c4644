package journal

import (
	"errors"
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/formula"
	"twinloaf/journal/store"
)

// Settings are the one record of how this journal is shown and run. An empty
// choice follows the computer's locale.
type Settings struct {
	Head
	Language    string `json:"language,omitzero"`    // "en", "de"
	Temperature string `json:"temperature,omitzero"` // "C", "F"
	Weight      string `json:"weight,omitzero"`      // "g", "oz"
	Clock       string `json:"clock,omitzero"`       // "24", "12"
	Look        string `json:"look,omitzero"`        // "light", "dark"
	Paper       string `json:"paper,omitzero"`       // "a4", "letter"
	// SleepFrom and SleepTo are the hours, from midnight, in which nobody
	// turns dough.
	SleepFrom *time.Duration `json:"sleepFrom,omitzero"`
	SleepTo   *time.Duration `json:"sleepTo,omitzero"`
	Silent    bool           `json:"silent,omitzero"` // no sound when a step is due
	Still     bool           `json:"still,omitzero"`  // nothing moves to its place: it is there
	// TextSize is the size of everything in percent of the usual; 0 is 100.
	TextSize int              `json:"textSize,omitzero" limit:"count"`
	Currency string           `json:"currency,omitzero"`
	Kitchen  *formula.Celsius `json:"kitchenC,omitzero"`
}

func (*Settings) kind() Kind { return KindSettings }

// Sleep gives the hours, from midnight, between which the baker sleeps: 22:30
// to 6:30 unless they were set.
func (s *Settings) Sleep() (from, to time.Duration) {
	from, to = 22*time.Hour+30*time.Minute, 6*time.Hour+30*time.Minute
	if s.SleepFrom != nil {
		from = *s.SleepFrom
	}
	if s.SleepTo != nil {
		to = *s.SleepTo
	}
	return from, to
}

// settingsID is the ID of the one settings record.
const settingsID ID = "00000000000000000000000000"

// A View is a way of looking at the shelf that was kept under a name.
type View struct {
	Head
	Name   string         `json:"name"`
	Filter jsontext.Value `json:"filter"`
}

func (*View) kind() Kind { return KindView }

// Settings reads the settings; those never set are zero.
func (j *Journal) Settings() (*Settings, error) { return settings(j) }

func settings(r Reader) (*Settings, error) {
	s, err := Get[Settings](r, settingsID)
	if errors.Is(err, ErrNotFound) {
		return &Settings{Head: Head{ID: settingsID}}, nil
	}
	return s, err
}

// Set changes the settings.
func (j *Journal) Set(label string, fn func(*Settings)) error { return j.set(label, false, fn) }

// SetTyped changes the settings as they are typed: the keys in one field are one step of
// the history.
func (j *Journal) SetTyped(label string, fn func(*Settings)) error { return j.set(label, true, fn) }

func (j *Journal) set(label string, typed bool, fn func(*Settings)) error {
	return j.do(label, &store.Entry{Label: label, Typed: typed}, func(tx *Tx) error {
		s, err := settings(tx)
		if err != nil {
			return err
		}
		fn(s)
		return Put(tx, s)
	})
}
