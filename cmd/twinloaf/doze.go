//go:build !ci

package main

import (
	"time"

	"github.com/go-gl/glfw/v3.3/glfw"
)

func doze(d time.Duration) { glfw.WaitEventsTimeout(d.Seconds()) }

func rouse() { glfw.PostEmptyEvent() }
