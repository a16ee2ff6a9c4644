package journal

import (
	"time"

	"github.com/go-json-experiment/json/jsontext"
)

// A Trial is two or more bakes that are alike but for one thing.
type Trial struct {
	Head
	Name     string    `json:"name,omitzero"`
	At       time.Time `json:"at"`
	Question string    `json:"question,omitzero"`
	// Varied is the one thing that is meant to differ.
	Varied string `json:"varied,omitzero"`
	Arms   []Arm  `json:"arms,omitempty"`
	// Answers are the baker's words on recorded differences that were not meant.
	Answers []FairnessAnswer `json:"answers,omitempty"`
	Notes   string           `json:"notes,omitzero"`
}

func (*Trial) kind() Kind { return KindTrial }

// An Arm is one bake of a trial, and what was drawn for it.
type Arm struct {
	Bake      ID             `json:"bake"`
	Value     string         `json:"value,omitzero"` // of what is varied
	Mark      string         `json:"mark,omitzero"`
	MixOrder  int            `json:"mixOrder,omitzero"` // 1 for the first
	BakeOrder int            `json:"bakeOrder,omitzero"`
	Rest      jsontext.Value `json:",embed"`
}

// A FairnessAnswer is what the baker said of one recorded difference.
type FairnessAnswer struct {
	Difference string         `json:"difference"` // its key
	Accepted   bool           `json:"accepted,omitzero"`
	Note       string         `json:"note,omitzero"`
	Rest       jsontext.Value `json:",embed"`
}
