package bell

import (
	"encoding/binary"
	"math"
	"slices"
	"testing"
)

// TestWave reads the file as the WAVE format has it (Microsoft and IBM,
// Multimedia Programming Interface and Data Specifications 1.0, from memory), and
// listens: it begins and ends in silence, never clips, and holds both notes.
func TestWave(t *testing.T) {
	w := Wave()
	le := binary.LittleEndian
	if string(w[:4]) != "RIFF" || string(w[8:16]) != "WAVEfmt " || string(w[36:40]) != "data" {
		t.Fatalf("the head is %q", w[:44])
	}
	if int(le.Uint32(w[4:])) != len(w)-8 || int(le.Uint32(w[40:])) != len(w)-44 {
		t.Errorf("it says it has %d and %d bytes, of %d", le.Uint32(w[4:]), le.Uint32(w[40:]), len(w))
	}
	samples := make([]float64, (len(w)-44)/2)
	for i := range samples {
		samples[i] = float64(int16(le.Uint16(w[44+2*i:]))) / math.MaxInt16
	}
	if most := slices.Max(samples); most < 0.1 || most > 0.5 {
		t.Errorf("its loudest sample is %v, neither heard nor soft", most)
	}
	for _, edge := range []float64{samples[0], samples[len(samples)-1]} {
		if math.Abs(edge) > 0.001 {
			t.Errorf("it clicks: the edge is at %v", edge)
		}
	}
	first, both := samples[:int(apart*rate)], samples[int(apart*rate):int(2*apart*rate)]
	if power(first, low) < 20*power(first, high) {
		t.Error("the first note is not the lower one alone")
	}
	if power(both, high) < 20*power(both, 660) {
		t.Error("the second note is not the higher one")
	}
}

// power is how much of a frequency is in the samples: one bin of a Fourier
// transform.
func power(samples []float64, f float64) float64 {
	var re, im float64
	for i, v := range samples {
		a := 2 * math.Pi * f * float64(i) / rate
		re += v * math.Cos(a)
		im += v * math.Sin(a)
	}
	return re*re + im*im
}

func TestEverySystemHasAPlayer(t *testing.T) {
	for _, system := range []string{"linux", "darwin", "windows", "freebsd"} {
		for _, p := range players(system) {
			if p.name == "" || len(p.args("x.wav")) == 0 {
				t.Errorf("%s: %+v", system, p)
			}
		}
		if len(players(system)) == 0 {
			t.Errorf("%s has no player", system)
		}
	}
}
