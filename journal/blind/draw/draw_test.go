package draw_test

import (
	"bytes"
	"errors"
	"io"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"twinloaf/journal/blind/draw"
)

func TestNumbersAreEven(t *testing.T) {
	s := draw.From(rand.NewChaCha8([32]byte{1}))
	for _, n := range []int{1, 2, 3, 6, 7, 100} {
		const each = 400
		counts := make([]int, n)
		for range each * n {
			v, err := s.Below(n)
			if err != nil {
				t.Fatal(err)
			}
			counts[v]++
		}
		for v, c := range counts {
			if math.Abs(float64(c)-each) > 5*math.Sqrt(each) {
				t.Errorf("below %d: %d drawn %d times, expected about %d", n, v, c, each)
			}
		}
	}
}

// A number in the last incomplete run is thrown back and drawn again: for 3,
// that is 0xffffffff alone.
func TestBiasIsThrownBack(t *testing.T) {
	s := draw.From(bytes.NewReader([]byte{0xff, 0xff, 0xff, 0xff, 0, 0, 0, 5}))
	if v, err := s.Below(3); err != nil || v != 2 {
		t.Errorf("drew %d, %v", v, err)
	}
}

func TestEveryOrderIsAsLikely(t *testing.T) {
	s := draw.From(rand.NewChaCha8([32]byte{2}))
	const draws = 6000
	counts := map[[3]int]int{}
	for range draws {
		order, err := s.Order(3)
		if err != nil {
			t.Fatal(err)
		}
		counts[[3]int(order)]++
	}
	for order, c := range counts {
		if math.Abs(float64(c)-draws/6) > 5*math.Sqrt(draws*5.0/36) {
			t.Errorf("%v drawn %d times of %d", order, c, draws)
		}
	}
	if len(counts) != 6 {
		t.Errorf("%d orders of three", len(counts))
	}
}

func TestPickDrawsEachAsOften(t *testing.T) {
	s := draw.From(rand.NewChaCha8([32]byte{3}))
	const draws = 5000
	counts := map[string]int{}
	for range draws {
		picked, err := draw.Pick(s, []string{"a", "b", "c", "d", "e"}, 2)
		if err != nil {
			t.Fatal(err)
		}
		if picked[0] == picked[1] {
			t.Fatal("one thing twice")
		}
		for _, p := range picked {
			counts[p]++
		}
	}
	for p, c := range counts {
		if math.Abs(float64(c)-draws*0.4) > 5*math.Sqrt(draws*0.24) {
			t.Errorf("%s picked %d times of %d", p, c, draws)
		}
	}
	if _, err := draw.Pick(s, []int{1}, 2); err == nil {
		t.Error("picked two of one")
	}
}

func TestImpossibleDrawsAndDrySources(t *testing.T) {
	dry := func() *draw.Source { return draw.From(bytes.NewReader(nil)) }
	if _, err := dry().Below(0); err == nil {
		t.Error("a number below nothing")
	}
	_, coin := dry().Coin()
	_, below := dry().Below(2)
	_, order := dry().Order(2)
	_, pick := draw.Pick(dry(), []int{1, 2}, 1)
	_, some := dry().Bytes(1)
	for i, err := range []error{coin, below, order, pick, some} {
		if !errors.Is(err, io.EOF) {
			t.Errorf("%d: %v", i, err)
		}
	}
	heads := draw.From(bytes.NewReader([]byte{0xfe, 0x01}))
	a, _ := heads.Coin()
	b, _ := heads.Coin()
	if !slices.Equal([]bool{a, b}, []bool{false, true}) {
		t.Errorf("coins %v %v", a, b)
	}
}
