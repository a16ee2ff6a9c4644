package findings

import (
	"testing"

	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/journaltest"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

// A question asked of 10,000 bakes: the trend with its interval and chance, and
// everything that moved along.
func BenchmarkAsk10000(b *testing.B) {
	dir := b.TempDir()
	if err := journaltest.Generate(b.Context(), dir, journaltest.Spec{Bakes: 10_000, Seed: 1}); err != nil {
		b.Fatal(err)
	}
	j, err := journal.Open(b.Context(), dir, journal.Options{})
	if err != nil {
		b.Fatal(err)
	}
	defer j.Close()
	record, err := past.Of(j)
	if err != nil {
		b.Fatal(err)
	}
	all := factors(record, measure.Units{})
	outcome := record.Describe(shelf.Score, measure.Units{})
	survey, err := surveyOf(b.Context(), record, record.Outcomes(measure.Units{}), all, nil)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("everything", func(b *testing.B) {
		for b.Loop() {
			if _, err := surveyOf(b.Context(), record, record.Outcomes(measure.Units{}), all, nil); err != nil {
				b.Fatal(err)
			}
		}
	})
	for _, about := range []shelf.Metric{shelf.ColdHours, byCulture} {
		b.Run(string(about), func(b *testing.B) {
			for b.Loop() {
				if a := ask(record, outcome, chosenFactor(all, about), all, survey); a.few {
					b.Fatal("too few")
				}
			}
		})
	}
}
