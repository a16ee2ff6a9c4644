//go:build yardstick

package shelf

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"image"
	"image/jpeg"
	"path/filepath"
	"testing"
	"time"

	_ "modernc.org/sqlite" // the other side of the benchmarks

	"twinloaf/app/past"
	jshelf "twinloaf/journal/shelf"
)

// beside is the same record in an SQLite file with indexes, to measure against: a
// row for each bake, one for each of its flours and add-ins, and its words.
type beside struct{ *sql.DB }

const besideSchema = `
PRAGMA journal_mode = WAL;
CREATE TABLE bake (id INTEGER PRIMARY KEY, ulid TEXT, name TEXT, at INTEGER, season INTEGER, culture TEXT, trial TEXT,
	hydration REAL, salt REAL, score REAL, loss REAL, rise REAL, photos INTEGER, crumb INTEGER, cover TEXT, text TEXT);
CREATE TABLE flour (bake INTEGER, key TEXT, name TEXT, share REAL);
CREATE TABLE addin (bake INTEGER, key TEXT);
CREATE TABLE thumb (hash TEXT PRIMARY KEY, jpeg BLOB) WITHOUT ROWID;
`

const besideIndexes = `
CREATE INDEX flour_key ON flour (key, share, bake);
CREATE INDEX flour_bake ON flour (bake, key);
CREATE INDEX addin_key ON addin (key, bake);
CREATE INDEX addin_bake ON addin (bake, key);
CREATE INDEX bake_at ON bake (at);
CREATE INDEX bake_culture ON bake (culture);
CREATE INDEX bake_season ON bake (season);
CREATE INDEX bake_hydration ON bake (hydration);
CREATE INDEX bake_score ON bake (score);
ANALYZE;
`

func putBeside(b testing.TB, record *past.BakeIndex) (s beside, path string) {
	b.Helper()
	path = filepath.Join(b.TempDir(), "beside.sqlite")
	db, err := sql.Open("sqlite", path)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = db.Close() })
	exec := func(on interface {
		Exec(string, ...any) (sql.Result, error)
	}, query string, args ...any) {
		if _, err := on.Exec(query, args...); err != nil {
			b.Fatal(err)
		}
	}
	exec(db, besideSchema)
	tx, err := db.Begin()
	if err != nil {
		b.Fatal(err)
	}
	number := func(v float64) any {
		if v != v {
			return nil
		}
		return v
	}
	for i, c := range record.Bakes {
		f := func(key jshelf.Metric) any { return number(record.Metric(i, key)) }
		exec(tx, `INSERT INTO bake VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)`, i, string(c.ID), c.Name, c.At.Unix(), int(jshelf.SeasonOf(c.At)),
			string(c.Culture), string(c.Trial), f(jshelf.Hydration), f(jshelf.Salt), f(jshelf.Score), f(jshelf.Loss), f(jshelf.Rise),
			c.Photos, c.Crumb, c.Cover, c.Text)
		for _, flour := range c.Flours {
			exec(tx, `INSERT INTO flour VALUES (?,?,?,?)`, i, flour.Key, flour.Name, float64(flour.Share))
		}
		for _, a := range c.AddIns {
			exec(tx, `INSERT INTO addin VALUES (?,?)`, i, a)
		}
	}
	if err := tx.Commit(); err != nil {
		b.Fatal(err)
	}
	exec(db, besideIndexes)
	return beside{db}, path
}

// rows runs a query to its end and gives how many rows there were.
func (s beside) rows(b testing.TB, query string, args ...any) int {
	b.Helper()
	n, err := s.count(query, args...)
	if err != nil {
		b.Fatal(err)
	}
	return n
}

func (s beside) count(query string, args ...any) (n int, err error) {
	rows, err := s.Query(query, args...)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	columns, err := rows.Columns()
	if err != nil {
		return 0, err
	}
	cells := make([]any, len(columns))
	for i := range cells {
		cells[i] = new(any)
	}
	for rows.Next() {
		if err := rows.Scan(cells...); err != nil {
			return n, err
		}
		n++
	}
	return n, rows.Err()
}

const spelt15 = `SELECT bake.id FROM flour JOIN bake ON bake.id = flour.bake
	WHERE flour.key = 'spelt' AND flour.share >= 15 ORDER BY bake.at DESC, bake.ulid DESC`

// counts are the queries behind the counts beside every choice, while spelt of at
// least 15 % and two cultures are asked for.
func (s beside) counts(b testing.TB, one, two string) {
	b.Helper()
	const spelt = `(SELECT bake FROM flour WHERE key = 'spelt' AND share >= 15)`
	for _, q := range []string{
		`SELECT key, count(*) FROM flour JOIN bake ON bake.id = flour.bake WHERE bake IN ` + spelt + ` AND culture IN (?1, ?2) GROUP BY key`,
		`SELECT key, count(*) FROM addin JOIN bake ON bake.id = addin.bake WHERE bake IN ` + spelt + ` AND culture IN (?1, ?2) GROUP BY key`,
		`SELECT culture, count(*) FROM bake WHERE id IN ` + spelt + ` GROUP BY culture`,
		`SELECT season, count(*) FROM bake WHERE id IN ` + spelt + ` AND culture IN (?1, ?2) GROUP BY season`,
		`SELECT trial, count(*) FROM bake WHERE id IN ` + spelt + ` AND culture IN (?1, ?2) GROUP BY trial`,
		`SELECT photos > 0, crumb, count(*) FROM bake WHERE id IN ` + spelt + ` AND culture IN (?1, ?2) GROUP BY 1, 2`,
		`SELECT cast(hydration / 2 AS INTEGER), count(*) FROM bake WHERE id IN ` + spelt + ` AND culture IN (?1, ?2) GROUP BY 1`,
		`SELECT cast(score AS INTEGER), count(*) FROM bake WHERE id IN ` + spelt + ` AND culture IN (?1, ?2) GROUP BY 1`,
		`SELECT cast(salt * 10 AS INTEGER), count(*) FROM bake WHERE id IN ` + spelt + ` AND culture IN (?1, ?2) GROUP BY 1`,
	} {
		s.rows(b, q, one, two)
	}
}

// thumbs keeps pictures as the SQLite side would, for its first screen.
func (s beside) keepThumb(b testing.TB, hash string, img image.Image) {
	b.Helper()
	var file bytes.Buffer
	if err := jpeg.Encode(&file, img, &jpeg.Options{Quality: 85}); err != nil {
		b.Fatal(err)
	}
	if _, err := s.Exec(`INSERT OR REPLACE INTO thumb VALUES (?, ?)`, hash, file.Bytes()); err != nil {
		b.Fatal(err)
	}
}

// Thumb is the thumbnail source of the SQLite side.
func (s beside) Thumb(ctx context.Context, hash string, _ int) (image.Image, error) {
	var file []byte
	if err := s.QueryRowContext(ctx, `SELECT jpeg FROM thumb WHERE hash = ?`, hash).Scan(&file); err != nil {
		return nil, err
	}
	return jpeg.Decode(bytes.NewReader(file))
}

// besideIt measures ours, and then as many runs of theirs in the same benchmark, and
// reports how many times as long theirs takes.
func besideIt(b *testing.B, ours, theirs func()) {
	b.Helper()
	ours()
	theirs() // both warm
	b.ReportAllocs()
	var own time.Duration
	n := 0
	for b.Loop() {
		from := time.Now()
		ours()
		own += time.Since(from)
		n++
	}
	runs := min(n, 200)
	from := time.Now()
	for range runs {
		theirs()
	}
	their := time.Since(from)
	each := float64(their.Nanoseconds()) / float64(runs)
	b.ReportMetric(each, "sqlite-ns/op")
	b.ReportMetric(each/(float64(own.Nanoseconds())/float64(n)), "sqlite/ours")
}
