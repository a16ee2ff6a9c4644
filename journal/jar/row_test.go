package jar_test

import (
	"errors"
	"image"
	"math"
	"slices"
	"strconv"
	"testing"
	"time"

	"twinloaf/journal/jar"
)

// The curve is there from the first pictures on, in whatever order they come, and when all
// have come it is that of following them in a row.
func TestTheCurveGrowsWithThePictures(t *testing.T) {
	s := plain(20)
	row, err := jar.NewRow("0", s.At(0), s.Picture(0), []jar.Marks{s.Marks()})
	if err != nil {
		t.Fatal(err)
	}
	order := []int{3, 1, 2, 9, 5}
	for _, i := range order {
		if err := row.Look(strconv.Itoa(i), s.At(i), s.Picture(i)); err != nil {
			t.Fatal(err)
		}
	}
	if err := row.Look("5 again", s.At(5), s.Picture(2)); err != nil {
		t.Fatal(err)
	}
	c, names, err := row.Curve(t.Context(), 0, map[string]float64{"9": 1.77, "15": 3})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(names, []string{"0", "1", "2", "3", "5", "9"}) {
		t.Fatalf("it is of pictures %v", names)
	}
	for k, name := range names {
		i, _ := strconv.Atoi(name)
		p := c.Points[k]
		if !p.At.Equal(s.At(i)) || p.Fixed != (i == 9) {
			t.Errorf("picture %d: %+v", i, p)
		}
		if i < 9 && math.Abs(p.Rise-s.Rise(i)) > 0.03 {
			t.Errorf("picture %d: %.3f, truly %.3f", i, p.Rise, s.Rise(i))
		}
	}
	if err := row.Look("4", s.At(4), image.NewRGBA(image.Rect(0, 0, 10, 10))); !errors.Is(err, jar.ErrSeries) {
		t.Errorf("a picture of another size: %v", err)
	}
	for i := range s.Frames {
		if i > 0 && !slices.Contains(order, i) {
			if err := row.Look(strconv.Itoa(i), s.At(i), s.Picture(i)); err != nil {
				t.Fatal(err)
			}
		}
	}
	got, _, err := row.Curve(t.Context(), 0, nil)
	if err != nil {
		t.Fatal(err)
	}
	want := followed(t, s, nil)
	if !slices.Equal(got.Points, want.Points) {
		t.Errorf("got %v, want %v", got.Points, want.Points)
	}
	if film := row.Film(0, 3); film.Rect.Dx() != 3*20 {
		t.Errorf("the film is %v", film.Rect)
	}
}

// Neighbours err alike: many pictures of a short while count as one look, what is lost
// counts as none, and what was drawn by hand is the last word.
func TestPointsTakenTogether(t *testing.T) {
	began := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	at := func(minutes int) time.Time { return began.Add(time.Duration(minutes) * time.Minute) }
	c := jar.Curve{Points: []jar.Point{
		{At: at(0), Rise: 1, SD: 0.02}, {At: at(5), Rise: 1.1, SD: 0.02}, {At: at(10), Lost: jar.Covered},
		{At: at(20), Rise: 1.2, SD: 0.01}, {At: at(25), Rise: 1.5, SD: 0.1}, {At: at(30), Rise: 1.3, SD: 0.005, Fixed: true},
		{At: at(50), Lost: jar.Dark}, {At: at(90), Rise: 2, SD: 0.03},
	}}
	want := []jar.Reading{
		{At: began.Add(150 * time.Second), Rise: 1.05, SD: 0.02}, {At: at(30), Rise: 1.3, SD: 0.005}, {At: at(90), Rise: 2, SD: 0.03},
	}
	got := c.Readings(20 * time.Minute)
	if len(got) != len(want) {
		t.Fatalf("got %v", got)
	}
	for i := range want {
		if !got[i].At.Equal(want[i].At) || math.Abs(got[i].Rise-want[i].Rise) > 1e-9 || got[i].SD != want[i].SD {
			t.Errorf("reading %d is %v, want %v", i, got[i], want[i])
		}
	}
	if (jar.Curve{}).Readings(time.Minute) != nil {
		t.Error("something is read from nothing")
	}
}
