package kit

import "slices"

// KeptRows gives a row for each of the things: one of the old rows where it shows the
// thing, so that no field is rebuilt under the caret, and a new one elsewhere.
func KeptRows[Row, Thing any](old []Row, things []Thing, shows func(Row, Thing) bool, row func(Thing) Row) []Row {
	rows := make([]Row, 0, len(things))
	for _, t := range things {
		if i := slices.IndexFunc(old, func(r Row) bool { return shows(r, t) }); i >= 0 {
			rows = append(rows, old[i])
		} else {
			rows = append(rows, row(t))
		}
	}
	return rows
}
