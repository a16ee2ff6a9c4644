//go:build linux && cgo && !ci

package main

/*
#include <malloc.h>

static void twinloafMalloc(void) {
#ifdef __GLIBC__
	mallopt(M_MMAP_THRESHOLD, 128 << 10);
	mallopt(M_TRIM_THRESHOLD, 128 << 10);
#endif
}
*/
import "C"

// boundMalloc has the C library give large blocks back to the system as soon as they are
// freed. Left alone it begins to keep them once a few were freed, and the textures of a
// window that is drawn in software come and go by the megabyte: what lies between them
// never goes back. Setting its thresholds, even to what they begin with, fixes them.
func boundMalloc() { C.twinloafMalloc() }
