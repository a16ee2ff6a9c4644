package main

import (
	"context"

	"twinloaf/journal"
)

// inJournal does something with a journal that no window has open.
func inJournal(folder string, do func(*journal.Journal)) {
	j := must(journal.Open(context.Background(), folder, journal.Options{}))
	defer func() { check(j.Close()) }()
	do(j)
}

// changeJournal makes a change to a journal.
func changeJournal(folder string, change func(*journal.Tx) error) {
	inJournal(folder, func(j *journal.Journal) { check(j.Do("what was there before", change)) })
}

// records are those of a kind that a journal holds.
func records[T any, R journal.Record[T]](folder string) (all []R) {
	inJournal(folder, func(j *journal.Journal) { all = must(journal.All[T, R](j)) })
	return all
}

// only gives the one record of a kind that a journal holds.
func only[T any, R journal.Record[T]](folder string) R {
	all := records[T, R](folder)
	failIf(len(all) != 1, "the journal holds %d of what it should hold one of: %+v", len(all), all)
	return all[0]
}

// isSound has a journal check itself.
func isSound(j *journal.Journal) {
	report := must(j.Check(context.Background(), false))
	failIf(!report.Sound(), "the journal is not sound: %+v", report.Left())
}
