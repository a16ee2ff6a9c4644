package phototest

import (
	"bytes"
	"encoding/binary"
)

// TurnedHEIC gives a HEIC sample of testdata/photo with a rotation property as
// phones write it (ISO/IEC 23008-12 section 6.5.10, irot), which asks for so many
// quarter turns counter-clockwise. It knows only the layout of those samples: one
// picture, one list of associations, four-byte offsets.
// It panics when a box is missing.
func TurnedHEIC(heic []byte, quarterTurns int) []byte {
	find := func(box string) int {
		at := bytes.Index(heic, []byte(box))
		if at < 4 {
			panic("phototest: the sample has no " + box + " box")
		}
		return at - 4
	}
	size := func(at int) int { return int(binary.BigEndian.Uint32(heic[at:])) }
	meta, iloc, iprp, ipco, ipma := find("meta"), find("iloc"), find("iprp"), find("ipco"), find("ipma")

	properties := 0
	for at := ipco + 8; at < ipco+size(ipco); at += size(at) {
		properties++
	}
	const grown = 9 + 1 // an irot box, and one association
	out := append([]byte(nil), heic...)
	grow := func(at, by int) {
		binary.BigEndian.PutUint32(out[at:], binary.BigEndian.Uint32(out[at:])+uint32(by))
	}
	grow(meta, grown)
	grow(iprp, grown)
	grow(ipco, 9)
	grow(ipma, 1)

	// iloc, version 0: 4 bytes of version, 2 of field sizes, 2 of count, and per
	// item its number, a reference, the base offset, a count, an offset, a length.
	const itemLen = 2 + 2 + 4 + 2 + 4 + 4
	for i := range int(binary.BigEndian.Uint16(heic[iloc+14:])) {
		grow(iloc+16+i*itemLen+4, grown)
	}

	// ipma: 4 bytes of version, 4 of count, 2 of item number, 1 of associations.
	counted := ipma + 8 + 4 + 4 + 2
	out[counted]++
	end := ipma + size(ipma)
	const essential = 0x80
	tail := append([]byte{essential | byte(properties+1)}, out[end:]...)
	out = append(out[:end:end], tail...)

	rotation := []byte{0, 0, 0, 9, 'i', 'r', 'o', 't', byte(quarterTurns & 3)}
	at := ipco + size(ipco)
	return append(out[:at:at], append(rotation, out[at:]...)...)
}
