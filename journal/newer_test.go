package journal

import (
	"bytes"
	"context"
	"errors"
	"image/color"
	"testing"
	"time"
	"unicode/utf8"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/store"
)

// A photo that only a newer program can read blocks no change of its bake or of another,
// and what was typed is there after reopening. It stays as it is.
func TestAPhotoOfANewerProgramBlocksNothing(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	bake, other := newBake(t, j, "Ferry loaf"), newBake(t, j, "Harbour loaf")
	p := &Photo{Owner: Ref{Kind: KindBake, ID: bake}, Hash: "1", Role: RoleCrumb, Added: clock.now}
	if err := j.Do("photo", func(tx *Tx) error { return Put(tx, p) }); err != nil {
		t.Fatal(err)
	}
	newer := store.Wrap(string(KindPhoto), string(p.ID), []byte(`{"id":"`+string(p.ID)+`","v":99}`))
	if err := j.store.Bolt().Update(func(tx *bolt.Tx) error { return tx.Bucket([]byte(KindPhoto)).Put([]byte(p.ID), newer) }); err != nil {
		t.Fatal(err)
	}
	if _, err := Get[Photo](j, p.ID); !errors.Is(err, ErrNewer) {
		t.Fatalf("the photo gives %v", err)
	}
	for _, id := range []ID{bake, other} {
		if err := Edit(j, id, "notes", func(b *Bake) { b.Notes = "typed" }); err != nil {
			t.Fatal(err)
		}
		if err := j.Do("loaves", func(tx *Tx) error { return Change(tx, id, func(b *Bake) { b.Loaves = 2 }) }); err != nil {
			t.Errorf("a change gives %v", err)
		}
	}
	newBake(t, j, "third")
	added, refused, err := j.AddPictures(t.Context(), "photos", Ref{Kind: KindBake, ID: bake}, RoleCrumb,
		[]Picture{picture("crumb.jpg", jpegBytes(t, 40, 30, color.White))}, nil)
	if err != nil || len(refused) > 0 || len(added) != 1 {
		t.Errorf("another photo of the bake: %v, %v", refused, err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	for _, id := range []ID{bake, other} {
		if b, err := Get[Bake](j, id); err != nil || b.Notes != "typed" || b.Loaves != 2 {
			t.Errorf("after reopening: %+v, %v", b, err)
		}
	}
	if photos, err := Photos(j, bake); err != nil || len(photos) != 1 || photos[0].ID != added[0] {
		t.Errorf("the photos of the bake: %v, %v", photos, err)
	}
	if !bytes.Equal(onDisk(j, Ref{Kind: KindPhoto, ID: p.ID}), newer) {
		t.Error("the newer photo was altered")
	}
}

// A record of a newer program keeps its place among what belongs to its owner when the
// index of links is made anew: at the opening of a file that an earlier program wrote, by a
// check that mends, and when the file was damaged.
func TestALinkOfANewerProgramStays(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	bake := newBake(t, j, "Ferry loaf")
	p := &Photo{Owner: Ref{Kind: KindBake, ID: bake}, Hash: "1", Role: RoleCrumb, Added: clock.now}
	if err := j.Do("photo", func(tx *Tx) error { return Put(tx, p) }); err != nil {
		t.Fatal(err)
	}
	newer := store.Wrap(string(KindPhoto), string(p.ID), []byte(`{"id":"`+string(p.ID)+`","v":99}`))
	put := func(bucket string, key, value []byte) {
		t.Helper()
		err := j.store.Bolt().Update(func(tx *bolt.Tx) error {
			if value == nil {
				return tx.Bucket([]byte(bucket)).Delete(key)
			}
			return tx.Bucket([]byte(bucket)).Put(key, value)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	linked := func(when string) {
		t.Helper()
		var ids []ID
		err := j.store.View(func(st *store.Tx) error { ids = st.Linked(bake, KindPhoto); return nil })
		if err != nil || len(ids) != 1 || ids[0] != p.ID {
			t.Errorf("%s: %v, %v", when, ids, err)
		}
	}
	reopen := func() {
		t.Helper()
		if err := j.Close(); err != nil {
			t.Fatal(err)
		}
		j = openTest(t, dir, clock)
	}
	put(string(KindPhoto), []byte(p.ID), newer)
	put("meta", []byte("sum"), nil)
	reopen()
	linked("at an opening")
	put(store.BucketLinks, []byte("nonsense"), []byte("nonsense"))
	if report, err := j.Check(t.Context(), true); err != nil || !report.Repaired {
		t.Fatalf("%+v, %v", report, err)
	}
	linked("after a check")
	put("meta", []byte("sum"), []byte("wrong"))
	reopen()
	if j.Mended() == nil {
		t.Error("nothing was mended")
	}
	linked("after mending")
}

// The first programs kept links, and what the file says of itself, without checksums. Such
// a file is not damaged; it gets them when it is opened.
func TestAFileWithoutChecksumsGetsThem(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	bake := newBake(t, j, "Ferry loaf")
	for i := range 3 {
		clock.Forward(time.Minute)
		p := &Photo{Owner: Ref{Kind: KindBake, ID: bake}, Hash: string(rune('a' + i)), Added: clock.now}
		if err := j.Do("photo", func(tx *Tx) error { return Put(tx, p) }); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := j.Undo(); err != nil {
		t.Fatal(err)
	}
	var with store.Contents
	contents := func(j *Journal) (c store.Contents) {
		t.Helper()
		err := j.store.View(func(st *store.Tx) (err error) { c, err = st.Contents(store.BucketLinks, "meta"); return err })
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	with = contents(j)
	err := j.store.Bolt().Update(func(tx *bolt.Tx) error {
		links := tx.Bucket([]byte(store.BucketLinks))
		var keys [][]byte
		_ = links.ForEach(func(k, _ []byte) error { keys = append(keys, bytes.Clone(k)); return nil }) // which gives none
		for _, k := range keys {
			if err := links.Put(k, nil); err != nil {
				return err
			}
		}
		return tx.Bucket([]byte("meta")).Delete([]byte("sum"))
	})
	if err != nil {
		t.Fatal(err)
	}
	if contents(j).Differences(with) < 3 {
		t.Fatal("the checksums were not taken away")
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	if j.Mended() != nil {
		t.Errorf("it was taken for damaged: %q", j.Mended().Lines())
	}
	if n := contents(j).Differences(with); n != 0 {
		t.Errorf("%d entries are not as a program of today writes them", n)
	}
	if photos, err := Photos(j, bake); err != nil || len(photos) != 2 {
		t.Errorf("%d photos, %v", len(photos), err)
	}
	if _, err := j.Redo(); err != nil {
		t.Errorf("redo: %v", err)
	}
	mustBeSound(t, j)
}

// A file name that is not UTF-8, as an old camera or archive leaves, costs none of the
// photos of its batch their records.
func TestAFileNameThatIsNotUTF8SinksNoPhoto(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	bake := newBake(t, j, "Ferry loaf")
	names := []string{"crust.jpg", "br\xf6tchen.jpg", "crumb.jpg", "\xff\xfe"}
	var pictures []Picture
	for i, name := range names {
		pictures = append(pictures, picture(name, jpegBytes(t, 40+i, 30, color.White)))
	}
	added, refused, err := j.AddPictures(context.Background(), "photos", Ref{Kind: KindBake, ID: bake}, RoleCrumb, pictures, nil)
	if err != nil || len(refused) > 0 || len(added) != len(names) {
		t.Fatalf("added %d, refused %v, %v", len(added), refused, err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	photos, err := Photos(j, bake)
	if err != nil || len(photos) != len(names) {
		t.Fatalf("%d photos, %v", len(photos), err)
	}
	for _, p := range photos {
		if p.Name == "" || !utf8.ValidString(p.Name) {
			t.Errorf("a photo is named %q", p.Name)
		}
	}
	mustBeSound(t, j)
}
