// Package findings is the room that asks what the record shows: an outcome
// against a factor, how sure that is, what else moved with it, and which trial would
// settle it.
package findings

import (
	"twinloaf/app/pages"
	"twinloaf/journal/shelf"
)

// Routes gives the page of the room. More may name the factor to begin with, as
// a figure of the record.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Findings: func(env *pages.Env, p pages.Route) (pages.Page, error) {
			return newPage(env, shelf.Metric(p.More)), nil
		},
	}
}
