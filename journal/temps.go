package journal

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"time"

	"twinloaf/journal/formula"
)

// A TempPoint is one temperature of a log.
type TempPoint struct {
	At time.Time
	C  formula.Celsius
}

// A packed log has, for each point, the seconds since the point before (since
// 1970 for the first) as a signed varint, then hundredths of a degree as a
// signed varint. A logger's file of 200,000 rows comes to about half a megabyte.

// PackTemps packs points, to the second and the hundredth of a degree.
func PackTemps(points []TempPoint) ([]byte, error) {
	out := make([]byte, 0, 4*len(points)+8)
	var last int64
	for i, p := range points {
		c := float64(p.C) * 100
		if math.IsNaN(c) || math.Abs(c) > 1e6 {
			return nil, fmt.Errorf("packing temperature %d of %d: %v °C is no temperature", i+1, len(points), float64(p.C))
		}
		s := p.At.Unix()
		out = binary.AppendVarint(out, s-last)
		out = binary.AppendVarint(out, int64(math.Round(c)))
		last = s
	}
	return out, nil
}

// UnpackTemps gives back what [PackTemps] packed, in the zone loc.
func UnpackTemps(packed []byte, loc *time.Location) ([]TempPoint, error) {
	var out []TempPoint
	var s int64
	for len(packed) > 0 {
		d, n := binary.Varint(packed)
		if n <= 0 {
			return nil, errors.New("a packed temperature log is cut short")
		}
		packed = packed[n:]
		c, n := binary.Varint(packed)
		if n <= 0 {
			return nil, errors.New("a packed temperature log is cut short")
		}
		packed = packed[n:]
		s += d
		out = append(out, TempPoint{time.Unix(s, 0).In(loc), formula.Celsius(float64(c) / 100)})
	}
	return out, nil
}
