package store

import (
	"bytes"
	"encoding/binary"
	"math/bits"
)

// setRight finds the one bit of an envelope that was flipped, and gives the envelope
// as it was; nil when more is wrong with it than that. The checksum is linear: a
// flipped bit alters it by a pattern that depends on nothing but how far from the end
// it lies, and no two bits within the sizes that we store have the same pattern. Damage
// of many bits passes for that of one in about one case of 2^32 for each bit there is.
func setRight(bucket, key string, envelope []byte) []byte {
	if len(envelope) < envelopeSize {
		return nil
	}
	fixed := bytes.Clone(envelope)
	body := fixed[envelopeSize:]
	wrong := binary.BigEndian.Uint32(fixed[1:]) ^ checksum(bucket, key, body)
	switch {
	case wrong == 0: // then it is the version
		if bits.OnesCount8(fixed[0]^envelopeVersion) != 1 {
			return nil
		}
		fixed[0] = envelopeVersion
		return fixed
	case fixed[0] != envelopeVersion:
		return nil
	case bits.OnesCount32(wrong) == 1: // then it is the checksum
		binary.BigEndian.PutUint32(fixed[1:], binary.BigEndian.Uint32(fixed[1:])^wrong)
		return fixed
	}
	var pattern [8]uint32
	for b := range pattern {
		pattern[b] = castagnoli[1<<b]
	}
	for at := len(body) - 1; at >= 0; at-- {
		for b, p := range pattern {
			if p == wrong {
				body[at] ^= 1 << b
				return fixed
			}
			pattern[b] = castagnoli[p&0xFF] ^ p>>8
		}
	}
	return nil
}
