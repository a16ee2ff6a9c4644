// Package journal is what Twinloaf remembers: the nouns of the trade (cultures,
// feedings, readings, bakes, photos, tastings), a store that keeps them in one
// folder, and the changes that can be undone.
//
// # One folder is one journal
//
//	journal.db   every record, its indexes and the history (one bbolt file)
//	photos/      original pictures, named by their SHA-256, never altered
//	cache/       thumbnails; may be deleted at any time
//	backups/     copies of itself, unless another folder was chosen for them
//	damaged/     files of records that were damaged, as they were
//	safekeeping.json   how backups are kept: beside the records, not in them
//
// # Records
//
// A record is a struct that embeds [Head]. It is stored as JSON behind a
// checksum; a member that this program does not know survives being read and
// written again. What a baker measured is stored; what follows from it (a
// hydration, a rise ratio, a verdict) is computed when it is shown.
//
// # Changing
//
// [Journal.Do] runs one change: the records, their indexes and the step that
// undoes it go to disk in one transaction, or none of them does. [Edit] is for
// typing: it is seen by every reader at once, and is committed, gathered with
// the keys around it, within a second. [Journal.Undo] and [Journal.Redo] walk
// the history, which outlives the program.
//
// A view asks for what it shows and is told by [Journal.Listen] when that has
// changed. It keeps no second copy.
package journal
