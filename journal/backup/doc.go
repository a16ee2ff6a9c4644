// Package backup keeps copies of a journal: it writes them while the journal is
// edited, looks at each after writing, thins them out, and puts one back. It knows
// the files of a journal and nothing of the records in them.
//
// # What lies in a backups folder
//
//	2026-11-28T221503Z/        one backup, named by when it was made
//	    journal.db             the records, as they were at one moment
//	    backup.json            what is in it: see [Backup]
//	    SHA256SUMS             a checksum of journal.db and of every original it needs
//	originals/ab/<sha256>.jpg  original pictures, each once for all backups
//
// A backup appears under its name by one rename, whole and looked at, or not at
// all. `sha256sum -c SHA256SUMS` within it checks it with no help from here. On the
// disk of the journal an original is a second name of the journal's own file and
// takes no room; where that disk knows no second names, it lies in the journal's folder
// alone. On another disk it is a copy, held against its checksum.
package backup
