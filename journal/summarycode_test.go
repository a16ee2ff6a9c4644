package journal

import (
	"bytes"
	"reflect"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"
	"pgregory.net/rapid"

	"twinloaf/journal/formula"
	"twinloaf/journal/shelf"
	"twinloaf/journal/store"
)

func drawSummary(t *rapid.T) *BakeSummary {
	text := func(label string) string { return rapid.StringN(0, 12, 40).Draw(t, label) }
	number := func() float64 { return rapid.Float64().Draw(t, "number") }
	c := &BakeSummary{
		ID: ID(text("id")), Name: text("name"), State: BakeState(text("state")), Culture: ID(text("culture")),
		At:     time.Unix(rapid.Int64Range(-1e10, 1e10).Draw(t, "at"), 0).In(time.FixedZone("", 60*rapid.IntRange(-720, 720).Draw(t, "zone"))),
		Binned: rapid.Bool().Draw(t, "binned"), Crumb: rapid.Bool().Draw(t, "crumb"),
		Photos: rapid.IntRange(0, 300).Draw(t, "photos"), Cover: text("cover"), Text: text("text"),
	}
	for range rapid.IntRange(0, 3).Draw(t, "flours") {
		c.Flours = append(c.Flours, SummaryFlour{Key: text("key"), Name: text("flour"), Share: formula.Percent(number()), Weighed: formula.Grams(number())})
	}
	for range rapid.IntRange(0, 2).Draw(t, "add-ins") {
		c.AddIns = append(c.AddIns, text("add-in"))
	}
	for range rapid.IntRange(0, 4).Draw(t, "metrics") {
		c.Metrics = append(c.Metrics, shelf.Value{Figure: shelf.Metric(text("metric")), Value: number()})
	}
	return c
}

func TestASummaryComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawSummary(t)
		body := encodeSummary(c)
		if !bytes.Equal(body, encodeSummary(c)) {
			t.Fatal("one summary has two encodings")
		}
		got, err := newSummaryReader().read(body)
		if err != nil {
			t.Fatal(err)
		}
		if !got.At.Equal(c.At) || got.At.Format(time.RFC3339) != c.At.Format(time.RFC3339) {
			t.Fatalf("the time %v came back as %v", c.At, got.At)
		}
		got.At = c.At // alike but for the name of the zone
		if !reflect.DeepEqual(got, c) {
			t.Fatalf("%+v came back as %+v", c, got)
		}
	})
}

// Bytes that are no summary are refused, and neither hang nor take the memory.
func FuzzReadSummary(f *testing.F) {
	for _, c := range []*BakeSummary{{}, {Name: "Ferry loaf", Metrics: []shelf.Value{{Figure: shelf.Score, Value: 7}}, Flours: []SummaryFlour{{Key: "spelt", Share: 20}}}} {
		body := encodeSummary(c)
		f.Add(body)
		f.Add(body[:len(body)/2])
	}
	f.Add([]byte{summaryLayout, 0xff, 0xff, 0xff, 0xff, 0x0f})
	f.Fuzz(func(t *testing.T, body []byte) {
		c, err := newSummaryReader().read(body)
		if err == nil && c == nil {
			t.Error("neither a summary nor an error")
		}
		for n := range min(len(body), 64) { // no part of a summary is a summary
			if err != nil {
				break
			}
			if short, err := newSummaryReader().read(body[:n]); err == nil {
				t.Errorf("%d of %d bytes are the summary %+v", n, len(body), short)
			}
		}
	})
}

// Summaries that an earlier program wrote are made anew when they are first asked for.
func TestSummariesOfAnotherLayout(t *testing.T) {
	dir := t.TempDir()
	j := openTest(t, dir, newClock())
	id := newBake(t, j, "Ferry loaf")
	if err := j.store.Bolt().Update(func(tx *bolt.Tx) error {
		old := store.Wrap(sideSummaries, string(id), []byte(`{"id":"x","name":"of old"}`))
		return tx.Bucket([]byte(sideSummaries)).Put([]byte(id), old)
	}); err != nil {
		t.Fatal(err)
	}
	summaries, err := j.BakeSummaries()
	if err != nil || len(summaries) != 1 || summaries[0].Name != "Ferry loaf" {
		t.Fatalf("%v, %v", summaries, err)
	}
	mustBeSound(t, j)
}
