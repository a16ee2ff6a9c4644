// Package tastings is the room of trials and blind tastings: a fair pair of
// bakes, planning, plating, scoring, unsealing, the verdict.
//
// Nothing in it can tell which code is which loaf before a tasting is unsealed:
// the journal gives out neither the assignment nor what opens it. The one
// exception is the plating card, which the journal gives out once, before
// sealing; platepage.go alone asks for it.
package tastings

import (
	"strings"

	"twinloaf/app/pages"
	"twinloaf/journal"
)

// Pages of a tasting beside the one that shows its state.
const (
	plating   = "plate"
	scoring   = "score"
	unsealing = "unseal" // the tasting's own, and asks at once whether to unseal
)

// Routes gives the pages of the room. The place of a tasting without an ID
// begins one: More may hold the IDs of two bakes, by a space. That of a trial
// without an ID begins one too: More may hold the kind and ID of a formula or
// bake that its bakes follow.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Tastings: func(env *pages.Env, _ pages.Route) (pages.Page, error) { return newListPage(env), nil },
		pages.Trial:    openTrial,
		pages.Tasting:  openTasting,
	}
}

func openTrial(env *pages.Env, p pages.Route) (pages.Page, error) {
	if p.ID == "" {
		var from journal.Ref
		if kind, id, ok := strings.Cut(p.More, " "); ok {
			from = journal.Ref{Kind: journal.Kind(kind), ID: journal.ID(id)}
		}
		return newBeginTrialPage(env, from)
	}
	if _, err := journal.Get[journal.Trial](env.Journal, p.ID); err != nil {
		return nil, err
	}
	return newTrialPage(env, p.ID), nil
}

func openTasting(env *pages.Env, p pages.Route) (pages.Page, error) {
	if p.ID == "" {
		var bakes []journal.ID
		for _, id := range strings.Fields(p.More) {
			bakes = append(bakes, journal.ID(id))
		}
		return newBeginTastingPage(env, bakes)
	}
	t, err := journal.Get[journal.Tasting](env.Journal, p.ID)
	if err != nil {
		return nil, err
	}
	switch {
	case p.More == plating && t.Sealed.IsZero():
		return newPlatePage(env, p.ID), nil
	case p.More == scoring && t.IsSealed():
		return newScorePage(env, p.ID), nil
	}
	page := newTastingPage(env, p.ID)
	page.asks = p.More == unsealing
	return page, nil
}

// to is the place of a page of a tasting.
func to(id journal.ID, more string) pages.Route {
	return pages.Route{Name: pages.Tasting, ID: id, More: more}
}
