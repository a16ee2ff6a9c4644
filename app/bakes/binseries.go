package bakes

import (
	"slices"

	"twinloaf/journal"
)

// rowsOf are the rows of pictures of a culture, a feeding or a bake. A row in which
// something else stands beside it stays.
func rowsOf(tx *journal.Tx, owner journal.ID) ([]journal.Ref, error) {
	rows, err := journal.SeriesOf(tx, owner)
	if err != nil {
		return nil, err
	}
	var all []journal.Ref
	for _, s := range rows {
		if slices.ContainsFunc(s.Jars, func(j journal.SeriesJar) bool { return j.Culture != owner && j.Feeding != owner && j.Bake != owner }) {
			continue
		}
		all = append(all, journal.RefOf(s))
	}
	return all, nil
}
