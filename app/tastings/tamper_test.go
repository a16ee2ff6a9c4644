package tastings

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/go-json-experiment/json/jsontext"
	bolt "go.etcd.io/bbolt"

	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// alterVault changes the last plate of a tasting's assignment in the journal's file,
// with its checksum set right (see journal/store/envelope.go), while the program is
// not running.
func (b *bench) alterVault(id journal.ID) {
	b.t.Helper()
	b.Reopen(func() { b.swapLast(id) })
}

func (b *bench) swapLast(id journal.ID) {
	b.t.Helper()
	db, err := bolt.Open(filepath.Join(b.Dir, journal.FileName), 0o600, nil)
	if err != nil {
		b.t.Fatal(err)
	}
	err = db.Update(func(tx *bolt.Tx) error {
		vault, key := tx.Bucket([]byte("vault")), []byte(id)
		value := append([]byte{}, vault.Get(key)...)
		value[len(value)-1] ^= 3 // loaf 1 is 2, and 2 is 1
		table := crc32.MakeTable(crc32.Castagnoli)
		sum := crc32.Update(0, table, []byte("vault\x00"+string(id)+"\x00"))
		binary.BigEndian.PutUint32(value[1:], crc32.Update(sum, table, value[5:]))
		return vault.Put(key, value)
	})
	if err != nil {
		b.t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		b.t.Fatal(err)
	}
}

// sealedTasting is a tasting of one taster that is plated and sealed.
func (b *bench) sealedTasting() journal.ID {
	b.t.Helper()
	b.goTo(pages.At(pages.Trial, b.trial().ID))
	b.key("T")
	b.setPlan(func(p *blind.Plan) { p.Tasters, p.Rounds = []string{"Ines"}, 1 })
	plating, err := b.Env.Journal.Plate(b.tasting().ID)
	if err != nil {
		b.t.Fatal(err)
	}
	if err := plating.Seal(); err != nil {
		b.t.Fatal(err)
	}
	return b.tasting().ID
}

// Of a loaf whose bake was deleted for good since the sealing, what was known then is
// told, and that nobody can say what else was in it.
func TestTheAllergensOfABakeThatIsGone(t *testing.T) {
	b := newBench(t)
	id := b.sealedTasting()
	gone := b.tasting().Bakes[0]
	b.Put(func(tx *journal.Tx) error { return tx.Remove(journal.Ref{Kind: journal.KindBake, ID: gone}) })
	b.goTo(pages.At(pages.Tasting, id))
	b.key("T")
	b.mustSay("Both loaves together contain wheat")
	b.mustSay("Nothing certain can be said of " + b.tastingPlan().Loaves[0].Name)
}

// Which loaf lay where is changed in the file while the tasting is sealed: its page
// says so, and nobody can begin to taste.
func TestAnAlteredAssignmentIsToldBeforeTasting(t *testing.T) {
	b := newBench(t)
	id := b.sealedTasting()
	b.alterVault(id)
	b.goTo(pages.At(pages.Tasting, id))
	b.mustSay("The seal does not hold")
	b.mustSay("sealed assignment does not match")
	if strings.Contains(b.Texts(), "Begin tasting") {
		t.Error("it can be begun")
	}
	b.goTo(pages.Route{Name: pages.Tasting, ID: id, More: scoring})
	b.mustSay("The seal does not hold")
	if strings.Contains(b.Texts(), "Before the first bite") {
		t.Error("somebody is asked to taste")
	}
	// The list of tastings goes on.
	b.goTo(pages.Route{Name: pages.Tastings})
	b.mustSay("waits to be tasted")
}

// The same after unsealing: there is no verdict, on its page or in the list.
func TestAnAlteredAssignmentHasNoVerdict(t *testing.T) {
	b := newBench(t)
	id := b.sealedTasting()
	setting, err := b.tasting().Setting()
	if err != nil {
		t.Fatal(err)
	}
	err = b.Env.Journal.Score(id, func(s *blind.Session) error {
		return s.TypeIn(0, blind.Answer{Picks: setting.Servings[0].Samples[:1]})
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Env.Journal.Unseal(id, ""); err != nil {
		t.Fatal(err)
	}
	b.goTo(pages.At(pages.Tasting, id))
	b.mustSay("No difference shown")
	b.goTo(pages.Route{Name: pages.Tastings})
	b.mustSay(setting.Plan.Loaves[0].Name + " and " + setting.Plan.Loaves[1].Name) // what it says stands beside the list
	b.alterVault(id)
	for _, place := range []pages.Route{pages.At(pages.Tasting, id), {Name: pages.Tastings}} {
		b.goTo(place)
		b.mustSay("sealed assignment does not match")
		if strings.Contains(b.Texts(), "No difference shown") {
			t.Errorf("%+v tells a verdict", place)
		}
	}
}

// Each stored part of a tasting that is open is changed in turn, checksums and all: its
// page says that something was changed, and tells no verdict.
func TestEachChangedPartIsToldByThePage(t *testing.T) {
	b := newBench(t)
	id := b.sealedTasting()
	setting, err := b.tasting().Setting()
	if err != nil {
		t.Fatal(err)
	}
	err = b.Env.Journal.Score(id, func(s *blind.Session) error {
		return s.TypeIn(0, blind.Answer{Picks: setting.Servings[0].Samples[:1]})
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Env.Journal.Unseal(id, ""); err != nil {
		t.Fatal(err)
	}
	whole := *b.tasting()
	swapped := func(v jsontext.Value, from, to string) jsontext.Value {
		if !bytes.Contains(v, []byte(from)) {
			t.Fatalf("%s is not in %s", from, v)
		}
		return bytes.Replace(v, []byte(from), []byte(to), 1)
	}
	for name, change := range map[string]func(*journal.Tasting){
		"who tasted":                     func(r *journal.Tasting) { r.Plan = swapped(r.Plan, "Ines", "Inez") },
		"the method":                     func(r *journal.Tasting) { r.Plan = swapped(r.Plan, "triangle", "tetrad") },
		"the answers":                    func(r *journal.Tasting) { r.Session = swapped(r.Session, setting.Servings[0].Samples[0], "999") },
		"which was which":                func(r *journal.Tasting) { r.Result = swapped(r.Result, "=2", "=1") },
		"the fingerprint of the sealing": func(r *journal.Tasting) { r.Commitment = strings.Repeat("0", 64) },
		"the fingerprint of the answers": func(r *journal.Tasting) { r.Answered = strings.Repeat("0", 64) },
		"the bakes":                      func(r *journal.Tasting) { r.Bakes[0], r.Bakes[1] = r.Bakes[1], r.Bakes[0] },
	} {
		keep := func(r journal.Tasting) {
			t.Helper()
			r.Bakes = slices.Clone(r.Bakes)
			b.Put(func(tx *journal.Tx) error { return journal.Put(tx, &r) })
		}
		altered := whole
		altered.Bakes = slices.Clone(whole.Bakes)
		change(&altered)
		keep(altered)
		b.goTo(pages.At(pages.Tasting, id))
		if strings.Contains(b.Texts(), "No difference shown") {
			t.Errorf("%s: the page tells a verdict", name)
		}
		keep(whole)
		b.goTo(pages.At(pages.Tasting, id))
		b.mustSay("No difference shown")
	}
}
