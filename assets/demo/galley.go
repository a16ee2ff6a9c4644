package demo

import (
	"math"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/formula"
)

func celsius(c float64) formula.Celsius { return formula.Celsius(math.Round(c*10) / 10) }

// day is the hour of the day so many days ago, by the clock on the wall.
func (s *story) day(ago int, hour float64) time.Time {
	y, m, d := s.now.Date()
	return time.Date(y, m, d-ago, 0, int(math.Round(hour*60)), 0, 0, s.now.Location())
}

// ago is how many calendar days before today a time lies.
func (s *story) ago(t time.Time) int {
	return int(math.Round(s.day(0, 12).Sub(atHour(t, 12)).Hours() / 24))
}

func atHour(t time.Time, hour float64) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, int(math.Round(hour*60)), 0, 0, t.Location())
}

func hours(h float64) time.Duration {
	return time.Duration(h * float64(time.Hour)).Round(time.Minute)
}

func minutes(m float64) time.Duration { return hours(m / 60) }

// galley is the temperature where the ferry's cook works: warmer in summer and
// in the afternoon, cooler on days with the doors open in harbour.
func (s *story) galley(t time.Time) float64 { return s.climate(t) + 1.1*byDay(t) }

// climate is the galley's temperature but for the time of day.
func (s *story) climate(t time.Time) float64 {
	year := math.Cos(2 * math.Pi * float64(t.YearDay()-205) / 365)
	k := float64(t.Unix()) / 86400
	weather := math.Sin(k*0.9+float64(s.seed%7)) + 0.6*math.Sin(k*0.37+2)
	return 21.8 + 2.0*year + 0.9*weather
}

// byDay is 1 when it is warmest, in the afternoon, and -1 in the night.
func byDay(t time.Time) float64 {
	clock := float64(t.Hour()) + float64(t.Minute())/60
	return math.Sin(2 * math.Pi * (clock - 9.5) / 24)
}

// placeOf gives the temperature where a culture stands. Gorse's warm shelf, over the
// pipes, follows the time of day less than the bench on which Harbour stands.
func (s *story) placeOf(culture journal.ID) func(time.Time) float64 {
	if culture == s.gorseID {
		return func(t time.Time) float64 { return s.climate(t) + 1.2 + 0.4*byDay(t) }
	}
	return func(t time.Time) float64 { return s.galley(t) + 0.4 }
}

// away says whether the cook is off the ship.
func (s *story) away(t time.Time) bool {
	for i, from := range s.awayFrom {
		if t.After(from) && t.Before(s.awayTo[i]) {
			return true
		}
	}
	return false
}

// scatter is a normally spread number.
func (s *story) scatter(mean, by float64) float64 { return mean + by*s.rng.NormFloat64() }

func (s *story) between(a, b float64) float64 { return a + (b-a)*s.rng.Float64() }

func pick[T any](s *story, from ...T) T { return from[s.rng.IntN(len(from))] }

func round(x, to float64) float64 { return math.Round(x/to) * to }

func clamp(x, lo, hi float64) float64 { return max(lo, min(hi, x)) }

func (s *story) nameOf(culture journal.ID) string {
	if culture == s.gorseID {
		return "Gorse"
	}
	return "Harbour"
}
