package store

import (
	"encoding/binary"
	"hash/crc32"
	"testing"
)

// The checksum is CRC-32C (Castagnoli) over bucket, key and body, a zero byte behind each of the
// first two, as every journal has it.
func TestChecksumOfAnEnvelope(t *testing.T) {
	all := []byte("bake\x00key\x00{}")
	out := Wrap("bake", "key", []byte("{}"))
	if got, want := binary.BigEndian.Uint32(out[1:]), crc32.Checksum(all, crc32.MakeTable(crc32.Castagnoli)); got != want {
		t.Errorf("it is %08x, want %08x", got, want)
	}
	if _, err := Unwrap("bak", "ekey", out); err == nil {
		t.Error("it fits another bucket")
	}
}
