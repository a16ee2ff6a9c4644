package bell

import (
	"bytes"
	"encoding/binary"
	"math"
)

// The bell is two soft notes, a fourth apart, that die away: what a spoon on a
// bowl sounds like rather than an alarm.
const (
	rate  = 44100 // samples a second
	apart = 0.22  // seconds from the first note to the second
	long  = 1.6   // seconds in all
	loud  = 0.32  // of full scale
	low   = 587.33
	high  = 783.99 // Hz: D5 and G5, equal temperament at A4 = 440 Hz
)

// partials are the overtones of a note: how many times its frequency, how loud,
// and how fast each dies away. A bell's are not whole multiples.
var partials = []struct{ times, loud, fade float64 }{{1, 1, 3}, {2.01, 0.35, 5}, {3.02, 0.12, 8}}

// Wave is the sound as a WAV file: one channel of 16-bit samples.
func Wave() []byte {
	n := int(long * rate)
	data := make([]int16, n)
	for i := range data {
		t := float64(i) / rate
		v := note(low, t) + note(high, t-apart)
		data[i] = int16(math.MaxInt16 * loud * v / 2)
	}
	var b bytes.Buffer
	le := binary.LittleEndian
	size := uint32(2 * n)
	b.WriteString("RIFF")
	b.Write(le.AppendUint32(nil, 36+size))
	b.WriteString("WAVEfmt ")
	head := le.AppendUint32(nil, 16) // the length of this part
	head = le.AppendUint16(head, 1)  // plain samples
	head = le.AppendUint16(head, 1)  // channel
	head = le.AppendUint32(head, rate)
	head = le.AppendUint32(head, 2*rate) // bytes a second
	head = le.AppendUint16(head, 2)      // bytes a sample
	head = le.AppendUint16(head, 16)     // bits a sample
	b.Write(head)
	b.WriteString("data")
	b.Write(le.AppendUint32(nil, size))
	for _, v := range data {
		b.Write(le.AppendUint16(nil, uint16(v)))
	}
	return b.Bytes()
}

// note is a struck note at t seconds after it was struck; silence before. It
// swells in a few milliseconds, so that it does not click, and fades out at the end.
func note(f, t float64) float64 {
	if t < 0 {
		return 0
	}
	var v, all float64
	for _, p := range partials {
		v += p.loud * math.Exp(-p.fade*t) * math.Sin(2*math.Pi*f*p.times*t)
		all += p.loud
	}
	return v / all * min(1, t/0.006) * min(1, max(0, (long-apart-t)/0.1))
}
