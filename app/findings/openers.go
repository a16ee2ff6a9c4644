// Package findings is the room that asks what the record shows: an outcome
// against a factor, how sure that is, what else moved with it, and which trial would
// settle it.
package findings

import (
	"twinloaf/app/room"
	"twinloaf/journal/shelf"
)

// Openers gives the page of the room. More may name the factor to begin with, as
// a figure of the record.
func Openers() map[string]room.Opener {
	return map[string]room.Opener{
		room.Findings: func(env *room.Env, p room.Place) (room.Page, error) {
			return newPage(env, shelf.Figure(p.More)), nil
		},
	}
}
