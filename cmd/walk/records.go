package main

import (
	"context"
	"errors"
	"fmt"

	"twinloaf/journal"
)

// inJournal does something with a journal that no window has open.
func inJournal(folder string, do func(*journal.Journal) error) error {
	j, err := journal.Open(context.Background(), folder, journal.Options{})
	if err != nil {
		return err
	}
	return errors.Join(do(j), j.Close())
}

// changeJournal makes a change to a journal.
func changeJournal(folder string, change func(*journal.Tx) error) error {
	return inJournal(folder, func(j *journal.Journal) error { return j.Do("what was there before", change) })
}

// records are those of a kind that a journal holds.
func records[T any, R journal.Record[T]](folder string) (all []R, err error) {
	err = inJournal(folder, func(j *journal.Journal) (err error) {
		all, err = journal.All[T, R](j)
		return err
	})
	return all, err
}

// only gives the one record of a kind that a journal holds.
func only[T any, R journal.Record[T]](folder string) (R, error) {
	all, err := records[T, R](folder)
	if err != nil {
		return nil, err
	}
	if len(all) != 1 {
		return nil, fmt.Errorf("the journal holds %d of what it should hold one of: %+v", len(all), all)
	}
	return all[0], nil
}

// isSound has a journal check itself.
func isSound(j *journal.Journal) error {
	report, err := j.Check(context.Background(), false)
	if err == nil && !report.Sound() {
		err = fmt.Errorf("the journal is not sound: %+v", report.Left())
	}
	return err
}
