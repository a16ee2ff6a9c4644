package store

import (
	"encoding/binary"
	"hash/crc32"

	"twinloaf/journal/say"
)

// A stored value is an envelope: one byte of version, four bytes of CRC-32C
// over bucket, key and body, and the body. bbolt notices a torn page but not a
// flipped byte within a value; the checksum does, and it also ties a value to its key.
const (
	envelopeVersion = 1
	envelopeSize    = 5
)

// Errors of stored values. They are wrapped with the record they are about.
var (
	ErrDamaged = say.NewError("the stored bytes do not match their checksum")
	ErrNewer   = say.NewError("a newer version of Twinloaf wrote that; it was left untouched, please use the newer version")
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func checksum(bucket, key string, body []byte) uint32 {
	head := make([]byte, 0, len(bucket)+len(key)+2)
	head = append(append(append(append(head, bucket...), 0), key...), 0)
	return crc32.Update(crc32.Checksum(head, castagnoli), castagnoli, body)
}

// Wrap puts body into an envelope that belongs to bucket and key.
func Wrap(bucket, key string, body []byte) []byte {
	out := make([]byte, envelopeSize, envelopeSize+len(body))
	out[0] = envelopeVersion
	binary.BigEndian.PutUint32(out[1:], checksum(bucket, key, body))
	return append(out, body...)
}

// Unwrap gives the body of an envelope. The body shares the memory of value.
func Unwrap(bucket, key string, value []byte) ([]byte, error) {
	if len(value) < envelopeSize {
		return nil, ErrDamaged
	}
	if value[0] != envelopeVersion {
		// A flipped byte looks like another version; only a sound checksum
		// makes it one.
		if value[0] > envelopeVersion && binary.BigEndian.Uint32(value[1:]) == checksum(bucket, key, value[envelopeSize:]) {
			return nil, ErrNewer
		}
		return nil, ErrDamaged
	}
	body := value[envelopeSize:]
	if binary.BigEndian.Uint32(value[1:]) != checksum(bucket, key, body) {
		return nil, ErrDamaged
	}
	return body, nil
}
