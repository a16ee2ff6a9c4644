package blind

import "slices"

// Opened is a tasting after unsealing: plain data, everything known.
type Opened struct {
	Setting  Setting  `json:"setting"`
	Progress Progress `json:"progress"`
	Rounds   []Round  `json:"rounds"` // by taster, then by round; only those handed in
	// Text is the canonical text: its SHA-256 is Setting.Commitment. Saved as
	// a file exactly as it is, “sha256sum FILE” prints the commitment.
	Text string `json:"text"`
}

// Round is one handed-in round with what was what.
type Round struct {
	Taster int     `json:"taster"`
	Round  int     `json:"round"`
	Plates []Plate `json:"plates"` // in tasting order, the reference first
	Answer Answer  `json:"answer"`
}

// Plate is one plate and its loaf.
type Plate struct {
	Label string `json:"label"` // code; alone the place; R for the reference
	Slip  string `json:"slip,omitempty"`
	Loaf  int    `json:"loaf"` // 1 or 2; 0 where no slip was entered
}

// Unseal gives out which loaf was where. It asks for the proof of the same
// tasting and returns ErrNoProof otherwise.
func (s Sealed) Unseal(proof Proof) (Opened, error) {
	if s.open == nil {
		return Opened{}, ErrSealed
	}
	setting, secret := s.open()
	if proof.commitment == "" || proof.commitment != setting.Commitment || !proof.progress.Ended {
		return Opened{}, ErrNoProof
	}
	return opened(setting, proof.progress.clone(), secret, canonicalText(setting, secret)), nil
}

func alonePlates(serving Serving, loaves []byte, found []string) []Plate {
	var plates []Plate
	if serving.OpenReference != 0 {
		plates = append(plates, Plate{Label: ReferenceLabel, Loaf: serving.OpenReference})
	}
	placed := matchSlips(serving.Slips, loaves, found)
	for i, place := range serving.Samples {
		plate := Plate{Label: place}
		if len(found) > 0 {
			plate.Slip, plate.Loaf = found[i], placed[i]
		}
		plates = append(plates, plate)
	}
	return plates
}

// Loaf is the loaf under a label, 0 when there is none.
func (r Round) Loaf(label string) int {
	i := slices.IndexFunc(r.Plates, func(p Plate) bool { return p.Label == label })
	if i < 0 {
		return 0
	}
	return r.Plates[i].Loaf
}

// Right reports whether an answer that can be right is: the odd one of a
// triangle, the match of a duo-trio, a pair of a tetrad, the two of
// two-out-of-five, the expected loaf of a 3-AFC. It is false for answers that do
// not count.
func (o Opened) Right(r Round, a Answer) bool {
	if !a.Counts() || len(a.Picks) != o.Setting.Plan.Method.Picks() {
		return false
	}
	switch o.Setting.Plan.Method {
	case Triangle:
		return r.alike(a.Picks[0]) == 1
	case TwoOutOfFive:
		return r.alike(a.Picks[0]) == 2 && r.Loaf(a.Picks[0]) == r.Loaf(a.Picks[1])
	case ThreeAFC:
		return r.Loaf(a.Picks[0]) == o.Setting.Plan.Expected
	case DuoTrio:
		return r.Loaf(a.Picks[0]) == r.Loaf(ReferenceLabel)
	case Tetrad:
		return r.Loaf(a.Picks[0]) == r.Loaf(a.Picks[1])
	}
	return false
}

// alike counts the plates with the loaf of a label.
func (r Round) alike(label string) int {
	n := 0
	for _, p := range r.Plates {
		if p.Loaf == r.Loaf(label) {
			n++
		}
	}
	return n
}

// Verifies reports whether a text is what was committed to.
func Verifies(text, commitment string) bool { return Commitment(text) == commitment }
