package crumb

import (
	"reflect"

	"twinloaf/journal"
)

// renew has a photo made ready anew before it is measured, where the corners of its sheet
// or the strokes over its cells are others than before: what was made ready holds them. Then it
// goes on with measure.
func (s *session) renew(before, now *journal.Photo, measure func()) {
	if before != nil && before.Hash == now.Hash && reflect.DeepEqual(byHand(before), byHand(now)) {
		measure()
		return
	}
	s.stop()
	s.env.Think(func() {
		s.at.Lock()
		defer s.at.Unlock()
		s.face, s.prepared = nil, ""
	}, measure)
}

// byHand is what the hand said of a slice beyond its outline and scale.
func byHand(ph *journal.Photo) any {
	s := sliceOf(ph)
	return []any{s.Corners, s.WideMM, s.HighMM, s.Strokes}
}
