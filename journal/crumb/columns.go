package crumb

import "encoding/binary"

// columns add up rows of bytes, each row with its weight, eight bytes at a time: a byte's
// sum has 16 bits, of which four lie in a word.
type columns struct {
	line      []uint8 // the row that was read last
	even, odd []uint64
	sum       []uint16
}

const (
	whole     = 256 // the weights of all rows together: of bytes, that fills 16 bits
	mostLines = 64  // rows, so that a row's weight stays more than a few
	everyByte = 0x00ff_00ff_00ff_00ff
)

// reset makes room for rows of n bytes, with nothing in it.
func (c *columns) reset(n int) {
	words := (n + 7) / 8
	if cap(c.even) < words {
		c.even, c.odd, c.sum = make([]uint64, words), make([]uint64, words), make([]uint16, 8*words)
	}
	c.even, c.odd, c.sum = c.even[:words], c.odd[:words], c.sum[:8*words]
	clear(c.even)
	clear(c.odd)
}

func (c *columns) add(line []uint8, weight uint64) {
	even, odd := c.even, c.odd[:len(c.even)]
	for j := range even {
		if len(line) < 8 {
			line = append(make([]uint8, 0, 8), line...)[:8]
		}
		v := binary.LittleEndian.Uint64(line)
		even[j] += v & everyByte * weight
		odd[j] += v >> 8 & everyByte * weight
		line = line[8:]
	}
}

func (c *columns) sums() []uint16 {
	for j, e := range c.even {
		o, s := c.odd[j], c.sum[8*j:8*j+8]
		s[0], s[1], s[2], s[3] = uint16(e), uint16(o), uint16(e>>16), uint16(o>>16)
		s[4], s[5], s[6], s[7] = uint16(e>>32), uint16(o>>32), uint16(e>>48), uint16(o>>48)
	}
	return c.sum
}
