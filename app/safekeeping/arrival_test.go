package safekeeping

import (
	"archive/zip"
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/backup"
	"twinloaf/journal/carry"
	"twinloaf/journal/journaltest"
)

// filed writes the archive of a journal that fill has filled, and gives its path.
func filed(t *testing.T, j *journal.Journal) string {
	t.Helper()
	p, err := carry.Pack(t.Context(), j)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if _, err := p.Write(t.Context(), &out, nil); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "from elsewhere.zip")
	if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// bench is a bench whose pages count in English.
func bench(t *testing.T) *pagestest.Bench {
	t.Helper()
	b := pagestest.New(t)
	if err := words.Load(); err != nil {
		t.Fatal(err)
	}
	return b
}

func pressing(t *testing.T, b *pagestest.Bench, label string) {
	t.Helper()
	for _, btn := range append(pagestest.All[*kit.Button](b.Window.Content()), pagestest.All[*kit.Button](b.Window.Canvas().Overlays().Top())...) {
		if btn.Label() == label {
			btn.Tapped(nil)
			return
		}
	}
	t.Fatalf("there is no button %q", label)
}

func bringInPage(t *testing.T, b *pagestest.Bench, path string) {
	t.Helper()
	b.Show(Routes()[pages.BringIn], pages.Route{Name: pages.BringIn, More: path})
	b.Wait()
}

func TestAnArchiveIsShownAndBroughtIn(t *testing.T) {
	from, _ := journaltest.Open(t, journal.Options{})
	bake := &journal.Bake{Name: "Ferry loaf", At: from.Now()}
	if err := from.Do("set up", func(tx *journal.Tx) error { return journal.Put(tx, bake) }); err != nil {
		t.Fatal(err)
	}
	path := filed(t, from)
	b := bench(t)
	bringInPage(t, b, path)
	for _, want := range []string{"1 new record", "1 bake", "An archive of a whole journal"} {
		if !strings.Contains(b.Texts(), want) {
			t.Errorf("%q is not shown:\n%s", want, b.Texts())
		}
	}
	if _, err := journal.Get[journal.Bake](b.Journal, bake.ID); err == nil {
		t.Error("it is in before anybody said so")
	}
	pressing(t, b, "Bring it in")
	b.Wait()
	if got, err := journal.Get[journal.Bake](b.Journal, bake.ID); err != nil || got.Name != "Ferry loaf" {
		t.Errorf("brought in: %+v, %v", got, err)
	}
	if !strings.Contains(b.Texts(), "Nothing here is new to you") {
		t.Errorf("afterwards the page shows:\n%s", b.Texts())
	}
}

// Looking at an archive can be stopped, and begun again; nothing comes of what was stopped.
func TestLookingCanBeStopped(t *testing.T) {
	from, _ := journaltest.Open(t, journal.Options{})
	if err := from.Do("set up", func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Bake{Name: "Ferry loaf", At: from.Now()})
	}); err != nil {
		t.Fatal(err)
	}
	b := bench(t)
	b.Show(Routes()[pages.BringIn], pages.Route{Name: pages.BringIn, More: filed(t, from)})
	pressing(t, b, "Stop")
	b.Wait()
	if said := b.Texts(); !strings.Contains(said, "Your journal was not changed") || strings.Contains(said, "1 new record") {
		t.Errorf("stopped, the page shows:\n%s", said)
	}
	pressing(t, b, "Look at it")
	b.Wait()
	if said := b.Texts(); !strings.Contains(said, "1 new record") {
		t.Errorf("looked at again, the page shows:\n%s", said)
	}
}

func TestWhatDiffersIsKeptAsTheBakerChooses(t *testing.T) {
	for choice, want := range map[string][]string{"": {"mine", "theirs"}, "keep mine": {"mine"}, "take theirs": {"theirs"}} {
		from, _ := journaltest.Open(t, journal.Options{})
		bake := &journal.Bake{Name: "Ferry loaf", At: from.Now(), Notes: "theirs"}
		if err := from.Do("set up", func(tx *journal.Tx) error { return journal.Put(tx, bake) }); err != nil {
			t.Fatal(err)
		}
		path := filed(t, from)
		b := bench(t)
		mine := *bake
		mine.Notes = "mine"
		b.Put(func(tx *journal.Tx) error { return journal.Put(tx, &mine) })
		bringInPage(t, b, path)
		if s := b.Texts(); !strings.Contains(s, "Bake “Ferry loaf”") || !strings.Contains(s, "Different: notes") {
			t.Errorf("the page shows:\n%s", s)
		}
		for _, both := range []string{"Yours", "Theirs", "mine", "theirs"} { // side by side
			if !strings.Contains(b.Texts(), both) {
				t.Errorf("%q is not shown:\n%s", both, b.Texts())
			}
		}
		if choice != "" { // the last of the pills with that word is the bake's own
			var last *kit.Pill
			for _, p := range pagestest.All[*kit.Pill](b.Window.Content()) {
				if p.Words() == choice {
					last = p
				}
			}
			last.Tapped(nil)
		}
		b.Press("I")
		b.Wait()
		all, err := journal.All[journal.Bake](b.Journal)
		if err != nil {
			t.Fatal(err)
		}
		var notes []string
		for _, k := range all {
			notes = append(notes, k.Notes)
		}
		if strings.Join(notes, " ") != strings.Join(want, " ") {
			t.Errorf("%q keeps %q, want %q", choice, notes, want)
		}
	}
}

func TestWhatIsNoArchiveIsRefusedInASentence(t *testing.T) {
	b := bench(t)
	dir := t.TempDir()
	write := func(name string, body []byte) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, body, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	var hostile bytes.Buffer
	z := zip.NewWriter(&hostile)
	if _, err := z.Create("../../out.txt"); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		write("letter.zip", []byte("dear all")): "not a journal archive",
		write("hostile.zip", hostile.Bytes()):   "../../out.txt",
		dir:                                     "not a journal archive",
		filepath.Join(dir, "gone.zip"):          "",
	} {
		bringInPage(t, b, path)
		if s := b.Texts(); !strings.Contains(s, "This cannot be brought in") || !strings.Contains(s, want) || !strings.Contains(s, "Your journal was not changed.") {
			t.Errorf("%s: the page shows:\n%s", path, s)
		}
	}
}

func TestTheJournalIsTakenAwayAndComesBack(t *testing.T) {
	b := bench(t)
	bake := &journal.Bake{Name: "Ferry loaf", At: b.Now()}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	path := filepath.Join(t.TempDir(), "taken.zip")
	suggested := ""
	b.AskWhere = func(o kit.SaveOptions) {
		suggested = o.Name
		o.OnChosen(path)
	}
	b.Show(Routes()[pages.Safekeeping], pages.Route{Name: pages.Safekeeping})
	b.Press("T")
	b.Wait()
	if s := b.Texts(); !strings.Contains(s, "1\u00a0bake") || !strings.Contains(s, "photos keep the place") {
		t.Errorf("before it is written, the sheet shows:\n%s", s)
	}
	pressing(t, b, "Choose where…")
	b.Wait()
	if suggested != "Bread journal 2026-03-04.twinloaf.zip" {
		t.Errorf("it is called %q", suggested)
	}
	bringInPage(t, b, path)
	if s := b.Texts(); !strings.Contains(s, "Nothing here is new to you") {
		t.Errorf("at home the page shows:\n%s", s)
	}
}

// More than one undo takes back is told, and backed up before it comes in.
func TestALargeArchiveIsBroughtInAfterABackup(t *testing.T) {
	from, _ := journaltest.Open(t, journal.Options{})
	r := rand.New(rand.NewPCG(1, 2))
	letters := make([]byte, 800_000) // drawn, so that they do not look like a trap that unpacks to more and more
	for i := range letters {
		letters[i] = "abcdefghijklmnopqrstuvwxyz     "[r.IntN(31)]
	}
	long := string(letters)
	for range 12 {
		if err := from.Do("set up", func(tx *journal.Tx) error { return journal.Put(tx, &journal.Bake{Notes: long, At: from.Now()}) }); err != nil {
			t.Fatal(err)
		}
	}
	b := bench(t)
	bringInPage(t, b, filed(t, from))
	if !strings.Contains(b.Texts(), "more than one undo can take back") {
		t.Errorf("the page shows:\n%s", b.Texts())
	}
	b.Press("I")
	b.Wait()
	made, err := b.Journal.Backups().List(t.Context())
	if err != nil || len(made) != 1 || made[0].Reason != backup.Arrival || made[0].Bakes != 0 {
		t.Errorf("the backups are %+v, %v", made, err)
	}
	if all, err := journal.All[journal.Bake](b.Journal); err != nil || len(all) != 12 {
		t.Errorf("%d bakes, %v", len(all), err)
	}
}
