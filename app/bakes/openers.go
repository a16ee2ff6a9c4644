// Package bakes is the room of formulas, bake days and bakes: writing them
// down, running the day, saying how the bread came out.
package bakes

import "twinloaf/app/room"

// Openers gives the pages of the room.
func Openers() map[string]room.Opener {
	return map[string]room.Opener{}
}
