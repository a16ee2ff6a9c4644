package main

import (
	"maps"
	"testing"
	"testing/fstest"
)

func TestTestsAreCountedBeside(t *testing.T) {
	file := func(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }
	got, err := countIn(fstest.MapFS{
		"oven/oven.go":          file("package oven\n\nvar C = 230\n"),
		"oven/oven_test.go":     file("package oven\n"),
		"oven/README.md":        file("hot\n"),
		"oven/testdata/made.go": file("package made\n"),
		".git/hook.go":          file("package hook\n"),
		"main.go":               file("package main\n"),
	})
	if want := map[string]count{"oven": {3, 1}, ".": {1, 0}}; err != nil || !maps.Equal(got, want) {
		t.Errorf("counted %v, %v; want %v", got, err, want)
	}
}
