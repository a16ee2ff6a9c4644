package templog

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
)

func utc(y int, m time.Month, d, h, min int) time.Time {
	return time.Date(y, m, d, h, min, 0, 0, time.UTC)
}

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func read(t testing.TB, text string, o Options) Log {
	t.Helper()
	log, err := Read(context.Background(), []byte(text), o, nil)
	if err != nil {
		t.Fatalf("%v\n%v", err, log.Rows)
	}
	return log
}

// The files are made up, in the manners that loggers of all makes have (common
// practice, no source). Each holds 21.5 °C at five past two in the afternoon of
// 25 November 2026, and 22.0 °C ten minutes later.
func TestOneReadingInManyManners(t *testing.T) {
	cases := []struct{ name, text string }{
		{"plain", "time,temperature °C\n2026-11-25 14:05:00,21.5\n2026-11-25 14:15:00,22.0\n"},
		{"no heading", "2026-11-25 14:05,21.5\n2026-11-25 14:15,22\n"},
		{"semicolons and decimal commas", "Datum;Temperatur (°C)\r\n25.11.2026 14:05;21,5\r\n25.11.2026 14:15;22,0\r\n"},
		{"tabs, old line ends", "Date\tTemp\r25/11/2026 14:05\t21.5\r25/11/2026 14:15\t22.0\r"},
		{"month first, pm", "\"Date\",\"Temp (F)\"\n\"11/25/2026 2:05:00 PM\",\"70.7\"\n\"11/25/2026 2:15:00 PM\",\"71.6\"\n"},
		{"unit behind each figure", "11/25/26 14:05|70.7 °F\n11/25/26 14:15|71.6 °F\n"},
		{"date and time apart, counted rows, humidity first", "No.,Date,Time,Humidity %,Temp °C,Dew point °C\n1,2026-11-25,14:05,61.2,21.5,13.7\n2,2026-11-25,14:15,60.9,22.0,13.9\n"},
		{"junk above", "Logger 4711\nSerial: 0815, firmware 1.2\n\nStart;25.11.2026\nTime;Temp\n25.11.2026 14:05:00;21,5 °C\n25.11.2026 14:15:00;22,0 °C\n"},
		{"with an offset", "2026-11-25T15:05:00+01:00,21.5\n2026-11-25T15:15:00+01:00,22.0\n"},
		{"with a Z", "2026-11-25T14:05:00.000Z;21.5\n2026-11-25T14:15:00.000Z;22.0\n"},
		{"seconds since 1970", "epoch,temp_c\n1795615500,21.5\n1795616100,22.0\n"},
		{"named month", "25-Nov-2026 14:05,21.5\n25-Nov-2026 14:15,22.0\n"},
		{"name of the day and of the month", "\"Wed, Nov 25, 2026 2:05 pm\";21.5\n\"Wed, Nov 25, 2026 2:15 pm\";22.0\n"},
		{"spaces", "2026-11-25 14:05 21.5\n2026-11-25 14:15 22.0\n"},
		{"compact date", "20261125;14:05;21,5\n20261125;14:15;22,0\n"},
		{"decimal commas that are the separator", "time,temp\n2026-11-25 14:05,21,5\n2026-11-25 14:15,22,0\n"},
		{"a quote never closed", "time,temp,remark\n2026-11-25 14:05,21.5,\"door\n2026-11-25 14:15,22.0,\n"},
	}
	want := []Point{{utc(2026, 11, 25, 14, 5), 21.5}, {utc(2026, 11, 25, 14, 15), 22}}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			log := read(t, c.text, Options{})
			same := func(a, b Point) bool { return a.At.Equal(b.At) && math.Abs(float64(a.Temp-b.Temp)) < 1e-9 }
			if !slices.EqualFunc(log.Points, want, same) || log.Refused != 0 {
				t.Errorf("got %v, problems %v, layout %+v", log.Points, log.Rows, log.Layout)
			}
		})
	}
}

func TestEncodings(t *testing.T) {
	text := "Zeit;Temperatur °C\r\n25.11.2026 14:05;21,5\r\n25.11.2026 14:15;−22,0\r\n"
	latin, err := charmap.Windows1252.NewEncoder().String(strings.ReplaceAll(text, "−", "-"))
	if err != nil {
		t.Fatal(err)
	}
	wide := func(end unicode.Endianness, mark unicode.BOMPolicy) string {
		s, err := unicode.UTF16(end, mark).NewEncoder().String(text)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	for name, data := range map[string]string{
		"UTF-8":                     text,
		"UTF-8 with a mark":         "\ufeff" + text,
		"Windows-1252":              latin,
		"UTF-16, little end first":  wide(unicode.LittleEndian, unicode.UseBOM),
		"UTF-16, big end first":     wide(unicode.BigEndian, unicode.UseBOM),
		"UTF-16 without a mark":     wide(unicode.LittleEndian, unicode.IgnoreBOM),
		"UTF-16 without a mark, be": wide(unicode.BigEndian, unicode.IgnoreBOM),
	} {
		t.Run(name, func(t *testing.T) {
			log := read(t, data, Options{})
			if len(log.Points) != 2 || log.Points[1].Temp != -22 || log.Layout.Unit != DegreesC {
				t.Errorf("%+v", log)
			}
			if !strings.HasPrefix(name, log.Layout.Encoding) {
				t.Errorf("taken for %s", log.Layout.Encoding)
			}
		})
	}
	if _, err := Inspect(context.Background(), []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x01"), Options{}); !errors.Is(err, ErrNotText) {
		t.Errorf("a picture: %v", err)
	}
}

func TestReadingsToComeAreNotTaken(t *testing.T) {
	text := "date,temp\n2026-11-24 10:00,21\n2026-11-25 10:00,22\n2026-11-25 10:01,23\n"
	log, err := Read(t.Context(), []byte(text), Options{NotAfter: utc(2026, 11, 25, 10, 0)}, nil)
	if err != nil || len(log.Points) != 2 || log.Refused != 1 || !strings.Contains(log.Rows[2].Problem.String(), "still to come") {
		t.Errorf("%d taken, %d refused, rows %+v (%v)", len(log.Points), log.Refused, log.Rows, err)
	}
}

func TestDayAndMonth(t *testing.T) {
	cases := []struct {
		name  string
		dates []string
		o     Options
		want  DateOrder
		fails string
	}{
		{"a number above twelve in front", []string{"03/04/2026", "13/04/2026"}, Options{}, DayFirst, ""},
		{"a number above twelve behind", []string{"03/04/2026", "03/14/2026"}, Options{}, MonthFirst, ""},
		{"chosen", []string{"03/04/2026"}, Options{Order: MonthFirst}, MonthFirst, ""},
		{"steps of a day, day in front", []string{"03/04/2026", "04/04/2026", "05/04/2026", "06/04/2026"}, Options{}, DayFirst, ""},
		{"steps of a day, day behind", []string{"04/03/2026", "04/04/2026", "04/05/2026", "04/06/2026"}, Options{}, MonthFirst, ""},
		{"cannot lie ahead", []string{"03/11/2026"}, Options{NotAfter: utc(2026, 11, 25, 0, 0)}, OrderAuto, "settles"},
		{"one of the two lies ahead", []string{"11/12/2026"}, Options{NotAfter: utc(2026, 11, 25, 0, 0)}, MonthFirst, ""},
		{"day equals month", []string{"04/04/2026"}, Options{}, OrderAuto, ""},
		{"with dots", []string{"03.04.2026"}, Options{}, OrderAuto, ""},
		{"nothing settles it", []string{"03/04/2026"}, Options{}, OrderAuto, "3 April 2026 or 4 March 2026"},
		{"both ways in one file", []string{"13/04/2026", "04/13/2026"}, Options{}, OrderAuto, "line 2 has the day first and line 3 the month first"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			text := "date,temp\n"
			for _, d := range c.dates {
				text += d + " 10:00,21\n"
			}
			p, err := Inspect(context.Background(), []byte(text), c.o)
			if c.fails != "" {
				if err == nil || !strings.Contains(err.Error(), c.fails) {
					t.Fatalf("got %v", err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if p.Layout.Order != c.want {
				t.Errorf("read with the %v", p.Layout.Order)
			}
		})
	}
	log := read(t, "3.4.2026 10:00;20\n", Options{})
	if !log.Points[0].At.Equal(utc(2026, 4, 3, 10, 0)) {
		t.Errorf("with dots: %v", log.Points[0].At)
	}
}

// Central European summer time ended on 25 October 2026 at 3:00 and began on 29
// March 2026 at 2:00 (Directive 2000/84/EC: last Sundays, 01:00 UTC).
func TestChangesOfTheClock(t *testing.T) {
	berlin := zone(t, "Europe/Berlin")
	autumn := "25.10.2026 01:30;20\n25.10.2026 02:00;21\n25.10.2026 02:30;22\n25.10.2026 02:00;23\n25.10.2026 02:30;24\n25.10.2026 03:00;25\n"
	older := "24.10.2026 23:30;16\n25.10.2026 00:00;17\n25.10.2026 00:30;18\n25.10.2026 01:00;19\n"
	backwards := func(text string) string {
		rows := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
		slices.Reverse(rows)
		return strings.Join(rows, "\n")
	}
	for name, c := range map[string]struct {
		text string
		more int
	}{"from the oldest on": {autumn, 0}, "from the newest on": {backwards(older + autumn), 4}, "from three o'clock back": {backwards(autumn), 0}} {
		log := read(t, c.text, Options{Zone: berlin})
		if len(log.Points) != 6+c.more || len(log.Gaps) != 0 || log.Step != 30*time.Minute {
			t.Fatalf("%s: %d points, step %v, gaps %v", name, len(log.Points), log.Step, log.Gaps)
		}
		for i, p := range log.Points[c.more:] {
			if want := utc(2026, 10, 24, 23, 30).Add(time.Duration(i) * 30 * time.Minute); !p.At.Equal(want) || p.Temp != Celsius(20+i) {
				t.Errorf("%s: row %d at %v, want %v", name, i+1, p.At.UTC(), want)
			}
		}
		if !slices.ContainsFunc(log.Notes, func(n Note) bool { return n.Code == NoteClockTwice && n.Count == 2 }) {
			t.Errorf("%s: notes %v", name, log.Notes)
		}
	}
	spring := "29.03.2026 01:30;20\n29.03.2026 02:00;21\n29.03.2026 02:30;22\n29.03.2026 03:00;23\n"
	log := read(t, spring, Options{Zone: berlin})
	if !slices.ContainsFunc(log.Notes, func(n Note) bool { return n.Code == NoteClockSkipped && n.Count == 2 }) {
		t.Errorf("notes %v", log.Notes)
	}
	log = read(t, spring, Options{Zone: berlin, FixedClock: true})
	if len(log.Points) != 4 || log.Step != 30*time.Minute || len(log.Gaps) != 0 || !log.Points[3].At.Equal(utc(2026, 3, 29, 2, 0)) {
		t.Errorf("a clock that does not follow: %v", log.Points)
	}
}

func TestGapsDuplicatesAndOrder(t *testing.T) {
	text := "time,temp c\n" +
		"2026-11-25 10:10,21\n2026-11-25 10:00,20\n2026-11-25 10:20,22\n2026-11-25 10:20,22\n2026-11-25 10:20,29\n" +
		"2026-11-25 12:00,23\n2026-11-25 12:10,23\n"
	log := read(t, text, Options{})
	if len(log.Points) != 5 || log.Points[0].Temp != 20 || log.Step != 10*time.Minute {
		t.Errorf("%v, step %v", log.Points, log.Step)
	}
	if len(log.Gaps) != 1 || log.Gaps[0] != (Gap{utc(2026, 11, 25, 10, 20), utc(2026, 11, 25, 12, 0)}) {
		t.Errorf("gaps %v", log.Gaps)
	}
	for code, n := range map[NoteCode]int{NoteUnsorted: 1, NoteDuplicates: 1, NoteConflicts: 1} {
		if !slices.ContainsFunc(log.Notes, func(note Note) bool { return note.Code == code && note.Count == n }) {
			t.Errorf("no note of %s in %v", code, log.Notes)
		}
	}
}

func TestLinesThatAreNotTakenSayWhy(t *testing.T) {
	text := "time,temp °C\n2026-11-25 10:00,20\nnonsense\n2026-11-25 10:10,---\n2026-02-30 10:20,20\n2026-11-25 10:30,999\n2026-11-25 10:40,\n2026-11-25 25:50,20\n2026-11-25 11:00,21\nEnd of log\n"
	log := read(t, text, Options{})
	want := []string{
		"Line 3: it has one field, and the temperature or the time is in field 2.",
		"Line 4: “---” is not a temperature.",
		"Line 5: “2026-02-30 10:20” is not a date.",
		"Line 6: “999” cannot be a temperature of a kitchen; the sensor may have been at fault.",
		"Line 7: an empty field is not a temperature.",
		"Line 8: “2026-11-25 25:50” is not a date.",
		"Line 10: it has one field, and the temperature or the time is in field 2.",
	}
	var got []string
	for _, r := range log.Rows {
		if !r.Problem.IsZero() {
			got = append(got, fmt.Sprintf("Line %d: %s", r.Line, r.Problem))
		}
	}
	if !slices.Equal(got, want) || len(log.Points) != 2 || log.Refused != len(want) {
		t.Errorf("got\n%s", strings.Join(got, "\n"))
	}
}

func TestPreviewShowsWhatWillBeTaken(t *testing.T) {
	var b strings.Builder
	b.WriteString("time;probe 1;probe 2\n")
	for i := range 30 {
		fmt.Fprintf(&b, "2026-11-25 10:%02d;%d,5;30,0\n", i, 60+i%7)
	}
	p, err := Inspect(context.Background(), []byte(b.String()), Options{})
	if err != nil {
		t.Fatal(err)
	}
	l := p.Layout
	if l.Separator != ';' || l.Date != 1 || l.Time != 0 || l.Temp != 2 || l.FirstLine != 2 || l.Columns != 3 || l.Unit != DegreesF || len(p.Rows) != 12 {
		t.Errorf("%+v, %d rows", l, len(p.Rows))
	}
	codes := []NoteCode{p.Notes[0].Code, p.Notes[1].Code}
	if !slices.Equal(codes, []NoteCode{NoteUnitGuessed, NoteManyColumns}) {
		t.Errorf("notes %v", p.Notes)
	}
	if r := p.Rows[0]; r.Line != 2 || math.Abs(float64(r.Point.Temp)-(60.5-32)/1.8) > 1e-9 {
		t.Errorf("first row %+v", r)
	}
	// What the caller chooses stands.
	p, err = Inspect(context.Background(), []byte(b.String()), Options{Temp: 3, Unit: DegreesC})
	if err != nil || p.Layout.Temp != 3 || p.Rows[0].Point.Temp != 30 || len(p.Notes) != 0 {
		t.Errorf("chosen: %+v, %v", p, err)
	}
}

func TestFilesWithoutALog(t *testing.T) {
	var none *NoColumnError
	for _, c := range []struct{ text, what string }{
		{"a shopping list\nrye flour\nsalt\n", "date and time"},
		{"2026-11-25 10:00;open\n2026-11-25 11:00;shut\n", "temperature"},
	} {
		if _, err := Inspect(context.Background(), []byte(c.text), Options{}); !errors.As(err, &none) || none.What != c.what {
			t.Errorf("%q: %v", c.text, err)
		}
	}
	for _, text := range []string{"", "\ufeff", "\r\n\r\n"} {
		if _, err := Read(context.Background(), []byte(text), Options{}, nil); !errors.Is(err, ErrNoData) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// long is a log of n rows at one-minute steps.
func long(n int) []byte {
	var b bytes.Buffer
	b.WriteString("time;temp °C;humidity %\r\n")
	at := utc(2026, 1, 1, 0, 0)
	for i := range n {
		fmt.Fprintf(&b, "%s;%d,%d;55,1\r\n", at.Add(time.Duration(i)*time.Minute).Format("02/01/2006 15:04:05"), 20+i%7, i%10)
	}
	return b.Bytes()
}

func TestTwoHundredThousandRowsWithProgressAndCancelling(t *testing.T) {
	data := long(200_000)
	last, calls := 0, 0
	log, err := Read(context.Background(), data, Options{}, func(done, total int) {
		if done < last || total != len(data) {
			t.Errorf("%d of %d after %d", done, total, last)
		}
		last = done
		calls++
	})
	if err != nil || len(log.Points) != 200_000 || len(log.Gaps) != 0 || log.Refused != 0 {
		t.Fatalf("%d points, %v", len(log.Points), err)
	}
	if last != len(data) || calls < 50 {
		t.Errorf("progress told %d times, to %d of %d", calls, last, len(data))
	}
	ctx, cancel := context.WithCancel(context.Background())
	calls = 0
	_, err = Read(ctx, data, Options{}, func(int, int) {
		calls++
		cancel()
	})
	if !errors.Is(err, context.Canceled) || calls > 1 {
		t.Errorf("cancelled: %v after %d calls", err, calls)
	}
}

// The made-up logs under testdata are read the same as long as their manners are
// understood.
func TestStoredLogs(t *testing.T) {
	files, err := filepath.Glob("../../testdata/templog/*.csv")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		log, err := Read(context.Background(), data, Options{Zone: zone(t, "Europe/Berlin")}, nil)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		first := log.Points[0]
		if len(log.Points) != 48 || !first.At.Equal(utc(2026, 11, 22, 23, 0)) || math.Abs(float64(first.Temp)-19.4) > 0.06 || len(log.Gaps) != 1 {
			t.Errorf("%s: %d points from %v, %.2f °C, gaps %v, problems %v", name, len(log.Points), first.At.UTC(), first.Temp, log.Gaps, log.Rows)
		}
	}
}

// Whatever is written in one of the usual manners is read back.
func TestWhatIsWrittenIsReadBack(t *testing.T) {
	formats := []string{"2006-01-02 15:04:05", "02.01.2006 15:04:05", "2006/01/02 15:04:05", "02-Jan-2006 15:04:05", "2006-01-02T15:04:05Z07:00"}
	rapid.Check(t, func(t *rapid.T) {
		format := rapid.SampledFrom(formats).Draw(t, "format")
		sep := rapid.SampledFrom([]string{";", "\t", "|"}).Draw(t, "separator")
		comma := rapid.Bool().Draw(t, "comma")
		end := rapid.SampledFrom([]string{"\n", "\r\n", "\r"}).Draw(t, "end")
		var want []Point
		var b strings.Builder
		b.WriteString("when" + sep + "temp °C" + end)
		at := utc(2026, 1, 1, 0, 0).Add(time.Duration(rapid.IntRange(0, 300*24*3600).Draw(t, "start")) * time.Second)
		for range rapid.IntRange(1, 40).Draw(t, "rows") {
			at = at.Add(time.Duration(rapid.IntRange(1, 100_000).Draw(t, "step")) * time.Second)
			tenths := rapid.IntRange(-200, 990).Draw(t, "tenths")
			want = append(want, Point{at, Celsius(float64(tenths) / 10)})
			figure := fmt.Sprintf("%.1f", float64(tenths)/10)
			if comma {
				figure = strings.Replace(figure, ".", ",", 1)
			}
			b.WriteString(at.Format(format) + sep + figure + end)
		}
		log, err := Read(context.Background(), []byte(b.String()), Options{}, nil)
		if err != nil {
			t.Fatal(err)
		}
		same := func(a, b Point) bool { return a.At.Equal(b.At) && math.Abs(float64(a.Temp-b.Temp)) < 1e-9 }
		if !slices.EqualFunc(log.Points, want, same) {
			t.Fatalf("got %v, want %v", log.Points, want)
		}
	})
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("time,temp\n2026-11-25 14:05,21.5\n"), ',', 0)
	f.Add([]byte("\ufeffDatum;Temp\r\n25.10.2026 02:00;21,5\r\n25.10.2026 02:00;21,6\r\n"), rune(0), 1)
	f.Add([]byte("\xff\xfe2\x000\x002\x006\x00"), ' ', 2)
	f.Add([]byte("\"11/12/2026 2:05 PM\",\"70 °F"), rune(0), 3)
	f.Add([]byte("Wed, Nov 25, 2026 2:05 p.m.|−3\n1795615500|4"), '|', 4)
	f.Add([]byte("13/04/2026 1:1,1\n04/13/2026 1:01,1\n"), rune(-5), 5)
	berlin := zone(f, "Europe/Berlin")
	f.Fuzz(func(t *testing.T, data []byte, sep rune, choice int) {
		o := Options{Separator: sep, Zone: berlin, FixedClock: choice%2 == 0, Order: DateOrder(((choice % 3) + 3) % 3), Temp: max(0, choice%5)}
		log, err := Read(context.Background(), data, o, nil)
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without a sentence")
			}
			return
		}
		for i, p := range log.Points {
			if !believable(p.Temp) || math.IsNaN(float64(p.Temp)) || p.At.Year() < 1969 || p.At.Year() > 2101 {
				t.Errorf("point %d: %v", i, p)
			}
			if i > 0 && !log.Points[i-1].At.Before(p.At) {
				t.Errorf("points %d and %d out of order", i-1, i)
			}
		}
		for _, r := range log.Rows {
			if r.Line < 1 || r.Problem.IsZero() == r.Point.At.IsZero() {
				t.Errorf("row %+v", r)
			}
		}
		if _, err := Inspect(context.Background(), data, o); err != nil {
			t.Errorf("read, but not shown: %v", err)
		}
	})
}

func BenchmarkTwoHundredThousandRows(b *testing.B) {
	data := long(200_000)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Read(context.Background(), data, Options{}, nil); err != nil {
			b.Fatal(err)
		}
	}
}
