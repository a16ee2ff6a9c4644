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

// SetProgress keeps the state of the scoring.
func (t *Tasting) SetProgress(p blind.Progress) (err error) {
	t.Session, err = parted(t.ID, "scores", p)
	return err
}

// Opened gives what was which; known is false until it is unsealed.
func (t *Tasting) Opened() (o blind.Opened, known bool, err error) {
	o, err = part[blind.Opened](t.ID, "result", t.Result)
	return o, len(t.Result) > 0 && err == nil, err
}

// SetOpened keeps what was which.
func (t *Tasting) SetOpened(o blind.Opened) (err error) {
	t.Result, err = parted(t.ID, "result", o)
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
