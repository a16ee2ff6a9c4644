//go:build !linux || !cgo || ci

package main

// boundMalloc does nothing where the C library is another.
func boundMalloc() {}
