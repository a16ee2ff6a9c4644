package bakes

import (
	"slices"

	"twinloaf/journal"
)

// pictures are the frames of a row of pictures and their originals.
func pictures(tx *journal.Tx, series journal.ID) ([]journal.Ref, error) {
	frames, err := owned[journal.Photo](tx, series)
	if err != nil {
		return nil, err
	}
	all := slices.Clone(frames)
	for _, f := range frames {
		originals, err := owned[journal.Photo](tx, f.ID)
		if err != nil {
			return nil, err
		}
		all = append(all, originals...)
	}
	return all, nil
}

// rowsOf are the rows of pictures of a culture, a feeding or a bake, with their pictures. A
// row in which something else stands beside it stays.
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
		more, err := pictures(tx, s.ID)
		if err != nil {
			return nil, err
		}
		all = append(append(all, journal.RefOf(s)), more...)
	}
	return all, nil
}
