package kit

import (
	"errors"
	"time"
)

// ParseWhen reads a moment as a baker writes it, in the zone of now, to the minute: see
// [shorthand.Style.When]. The error is a sentence for the user.
func ParseWhen(text string, now time.Time, u Units) (time.Time, error) {
	t, err := u.Shorthand().When(text, now)
	if err != nil {
		return time.Time{}, errors.New(u.ErrorText(err))
	}
	return t, nil
}
