package journal

import (
	"fmt"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/blind"
)

// Setting gives what anybody may see of the tasting. Until it is sealed, only
// its plan is filled in.
func (t *Tasting) Setting() (blind.Setting, error) { return part[blind.Setting](t.ID, "plan", t.Plan) }

// SetSetting keeps the setting, and with it the commitment.
func (t *Tasting) SetSetting(s blind.Setting) (err error) {
	t.Commitment = s.Commitment
	t.Plan, err = parted(t.ID, "plan", s)
	return err
}

// Progress gives the state of the scoring; zero before it has begun.
func (t *Tasting) Progress() (blind.Progress, error) {
	return part[blind.Progress](t.ID, "scores", t.Session)
}

// setProgress keeps the state of the scoring.
func (t *Tasting) setProgress(p blind.Progress) (err error) {
	t.Session, err = parted(t.ID, "scores", p)
	return err
}

// result is what is kept of an unsealed tasting beside its setting and its scores.
type result struct {
	Text string `json:"text"` // that was sealed
}

// Opened gives what was which, worked out from the text that was sealed and the
// scores; known is false until it is unsealed. The error wraps [blind.ErrTampered]
// when a part of the tasting is not what its fingerprints are of.
func (t *Tasting) Opened() (o blind.Opened, known bool, err error) {
	r, err := part[result](t.ID, "result", t.Result)
	if err != nil || len(t.Result) == 0 {
		return o, false, err
	}
	setting, err := t.Setting()
	if err != nil {
		return o, false, err
	}
	if setting.Commitment != t.Commitment || t.Sealed.IsZero() || !t.ofItsBakes(setting) {
		return o, false, fmt.Errorf("opening tasting %s: %w", t.ID, blind.ErrTampered)
	}
	progress, err := t.Progress()
	if err != nil {
		return o, false, err
	}
	if o, err = blind.Reopen(setting, progress, r.Text, t.Answered); err != nil {
		return o, false, fmt.Errorf("opening tasting %s: %w", t.ID, err)
	}
	return o, true, nil
}

// ofItsBakes reports whether the tasting names the bakes that were sealed.
func (t *Tasting) ofItsBakes(s blind.Setting) bool {
	return len(t.Bakes) == 0 || len(t.Bakes) == 2 && string(t.Bakes[0]) == s.Plan.Loaves[0].ID && string(t.Bakes[1]) == s.Plan.Loaves[1].ID
}

// setOpened keeps what was which: the text that was sealed.
func (t *Tasting) setOpened(o blind.Opened) (err error) {
	t.Result, err = parted(t.ID, "result", result{Text: o.Text})
	return err
}

// part decodes one part of a tasting; a part that is not there is zero.
func part[T any](id ID, name string, v jsontext.Value) (out T, err error) {
	if len(v) == 0 {
		return out, nil
	}
	if err := json.Unmarshal(v, &out); err != nil {
		return out, fmt.Errorf("reading the %s of tasting %s: %w", name, id, err)
	}
	return out, nil
}

func parted[T any](id ID, name string, v T) (jsontext.Value, error) {
	out, err := json.Marshal(v, json.Deterministic(true))
	if err != nil {
		return nil, fmt.Errorf("keeping the %s of tasting %s: %w", name, id, err)
	}
	return out, nil
}
