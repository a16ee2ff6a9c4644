package journal

import (
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/blind"
)

// A Tasting is a blind tasting: what is asked, who tastes, and what they said
// by code. Which code is which loaf is not in it: that lies sealed in the
// vault until it is unsealed.
type Tasting struct {
	Head
	Name  string    `json:"name,omitzero"`
	At    time.Time `json:"at"`
	Trial ID        `json:"trial,omitzero"`
	Bakes []ID      `json:"bakes,omitempty"`
	// Plan, Session and Result are journal/blind's own, as JSON: a
	// [blind.Setting], of which only the plan is filled in until it is sealed;
	// the [blind.Progress] of the scoring; and, once unsealed, the text that was
	// sealed, from which together with the two others everything follows. See
	// [Tasting.Setting], [Tasting.Progress] and [Tasting.Opened].
	Plan    jsontext.Value `json:"plan,omitempty"`
	Session jsontext.Value `json:"session,omitempty"`
	Result  jsontext.Value `json:"result,omitempty"`
	// Commitment is the hash that the sealing showed.
	Commitment string `json:"commitment,omitzero"`
	// Answered is the fingerprint of the answers once the last was handed in.
	Answered string `json:"answered,omitzero"`
	// Locked is the hash of the locked assignment, where its key lies on the helper's
	// paper.
	Locked string `json:"locked,omitzero"`
	// Closed is when a tasting whose paper was lost was ended without being opened.
	Closed    time.Time    `json:"closed,omitzero"`
	Sealed    time.Time    `json:"sealed,omitzero"`
	Unsealed  time.Time    `json:"unsealed,omitzero"`
	Additions []Correction `json:"additions,omitempty"`
	// Answers are the baker's words on recorded differences between the two
	// bakes, where the tasting belongs to no trial, which has them else.
	Answers []FairnessAnswer `json:"answers,omitempty"`
	// Again is the tasting whose question this one asks once more.
	Again ID     `json:"again,omitzero"`
	Notes string `json:"notes,omitzero"`
}

func (*Tasting) kind() Kind { return KindTasting }

// IsSealed reports whether the tasting is sealed and not yet unsealed or closed.
func (t *Tasting) IsSealed() bool {
	return !t.Sealed.IsZero() && t.Unsealed.IsZero() && t.Closed.IsZero()
}

// IsClosed reports whether the tasting was ended without ever being opened.
func (t *Tasting) IsClosed() bool { return !t.Closed.IsZero() }

// IsOpen reports whether the tasting was unsealed.
func (t *Tasting) IsOpen() bool { return !t.Unsealed.IsZero() }

// A Correction is added after unsealing, when scores are fixed: the answer
// that should have been noted for a round, and why.
type Correction struct {
	At     time.Time      `json:"at"`
	What   string         `json:"what"`
	Reason string         `json:"reason"`
	Taster int            `json:"taster,omitzero"` // from 0
	Round  int            `json:"round,omitzero"`  // from 0
	Answer *blind.Answer  `json:"answer,omitzero"`
	Rest   jsontext.Value `json:",embed"`
}
