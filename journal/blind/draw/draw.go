// Package draw makes unbiased draws from a stream of random bytes. The stream
// is handed in: crypto/rand where it counts, a fixed one in tests.
package draw

import (
	"encoding/binary"
	"fmt"
	"io"
)

// Source draws from a reader. The zero value cannot draw; use From.
type Source struct{ reader io.Reader }

// From makes a source that draws from reader.
func From(reader io.Reader) *Source { return &Source{reader: reader} }

// Bytes draws n bytes.
func (s *Source) Bytes(n int) ([]byte, error) {
	drawn := make([]byte, n)
	if _, err := io.ReadFull(s.reader, drawn); err != nil {
		return nil, fmt.Errorf("draw %d random bytes: %w", n, err)
	}
	return drawn, nil
}

// Coin draws true or false from the lowest bit of one byte.
func (s *Source) Coin() (bool, error) {
	b, err := s.Bytes(1)
	if err != nil {
		return false, err
	}
	return b[0]&1 == 1, nil
}

// Below draws a whole number from 0 to n-1, each as likely. Numbers in the
// last incomplete run of n are thrown back, so that there is no bias. n must
// be at least 1.
func (s *Source) Below(n int) (int, error) {
	if n < 1 || n > 1<<31 {
		return 0, fmt.Errorf("draw a number below %d: not possible", n)
	}
	fair := (uint64(1) << 32) / uint64(n) * uint64(n)
	for {
		b, err := s.Bytes(4)
		if err != nil {
			return 0, err
		}
		if v := uint64(binary.BigEndian.Uint32(b)); v < fair {
			return int(v % uint64(n)), nil
		}
	}
}

// Shuffle puts x in random order, each order as likely (Fisher & Yates 1938).
func Shuffle[T any](s *Source, x []T) error {
	for i := len(x) - 1; i > 0; i-- {
		j, err := s.Below(i + 1)
		if err != nil {
			return err
		}
		x[i], x[j] = x[j], x[i]
	}
	return nil
}

// Pick puts n things drawn from x, in random order, at its front: a shuffle that
// stops early. n must be at most len(x).
func Pick[T any](s *Source, x []T, n int) ([]T, error) {
	if n > len(x) {
		return nil, fmt.Errorf("draw %d of %d: not possible", n, len(x))
	}
	for i := range n {
		j, err := s.Below(len(x) - i)
		if err != nil {
			return nil, err
		}
		x[i], x[i+j] = x[i+j], x[i]
	}
	return x[:n], nil
}

// Order draws a random order of 0…n-1.
func (s *Source) Order(n int) ([]int, error) {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	if err := Shuffle(s, order); err != nil {
		return nil, err
	}
	return order, nil
}
