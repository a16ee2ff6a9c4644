//go:build ci

package main

import "time"

// The test driver has no window to sleep in.
func doze(time.Duration) {}

func rouse() {}
