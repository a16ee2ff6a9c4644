package main

import "twinloaf/cmd/demopictures/cut"

// traced are the slices whose cut faces are traced, by the names of their files. A retake is
// the same slice, seen once more in another light.
var traced = map[string]cut.Slice{
	"crumb-ferry-loaf-2-6.jpg": {
		Seed: 14245227104961439134, Form: cut.Batard, WidthMM: 126, Largest: 11.1675, Gas: 1.125, Fine: 0.1, Baked: 0.615625,
		View: cut.View{Seed: 14245227104961439134, Ground: cut.Walnut, Fill: 0.84625, Turn: 2.90625, Lean: 5.3125, Window: 117.265625, Warm: 0.24375, Dim: 0.0296875},
	},
	"crumb-deck-rye-1-3.jpg": {
		Seed: 9347623021739193624, Form: cut.Brick, Flour: cut.Rye, WidthMM: 96, Largest: 3.28, Gas: 0.68, Baked: 0.665625,
		View: cut.View{Seed: 9347623021739193624, Ground: cut.Steel, Fill: 0.833125, Turn: -1.5, Lean: 5.125, Window: 127.8125, Warm: 0.50625, Dim: 0.034375},
	},
	"crumb-slipper-loaves-0-7.jpg": {
		Seed: 41, Form: cut.Slipper, WidthMM: 128, Largest: 16, Gas: 1.2, Fine: 0.1, Baked: 0.32,
		View: cut.View{Seed: 41, Ground: cut.Linen, Fill: 0.84, Turn: 1.5, Lean: 4, Window: 140, Warm: 0.2},
	},
	"crumb-crossing-tin-0-5.jpg": {
		Seed: 42, Form: cut.Pan, WidthMM: 106, Largest: 7, Gas: 1.05, Fine: 0.05, Baked: 0.4,
		View: cut.View{Seed: 42, Ground: cut.Oak, Fill: 0.82, Turn: -2, Lean: 3, Window: 110, Warm: 0.3},
	},
	"crumb-seeded-loaf-1-6.5.jpg": {
		Seed: 43, Form: cut.Boule, WidthMM: 118, Largest: 13, Gas: 1.15, Fine: 0.1, Baked: 0.5, Sesame: true, Seeds: 22,
		View: cut.View{Seed: 43, Ground: cut.Slate, Fill: 0.83, Turn: 2, Lean: 4, Window: 145, Warm: 0.1},
	},
	"crumb-ferry-loaf-2-8.jpg": {
		Seed: 44, Form: cut.Batard, WidthMM: 122, Largest: 19, Gas: 1.2, Fine: 0.1, Baked: 0.7,
		View: cut.View{Seed: 44, Ground: cut.Linen, Fill: 0.84, Turn: -2.5, Lean: 3, Window: 125, Warm: 0.4},
	},
	"crumb-emmer-and-walnut-1-6.jpg": {
		Seed: 45, Form: cut.Boule, Flour: cut.Brown, WidthMM: 116, Largest: 11, Gas: 1.05, Fine: 0.1, Baked: 0.7, Walnuts: 9,
		View: cut.View{Seed: 45, Ground: cut.Linen, Fill: 0.83, Turn: 1, Lean: 5, Window: 105, Warm: 0.5},
	},
	"crumb-spelt-and-oats-1-6.jpg": {
		Seed: 46, Form: cut.Batard, Flour: cut.Brown, WidthMM: 112, Largest: 11, Gas: 1.05, Fine: 0.1, Baked: 0.55,
		View: cut.View{Seed: 46, Ground: cut.Slate, Fill: 0.83, Turn: 3, Lean: 4, Window: 135, Warm: 0.3},
	},
	"crumb-ferry-loaf-1-5.5.jpg": {
		Seed: 47, Form: cut.Boule, WidthMM: 124, Largest: 10, Gas: 1.1, Fine: 0.1, Baked: 0.5,
		View: cut.View{Seed: 47, Ground: cut.Oak, Fill: 0.83, Turn: -1, Lean: 4, Window: 150, Warm: 0.6},
	},
	"crumb-ferry-loaf-1-4.jpg": {
		Seed: 48, Form: cut.Boule, WidthMM: 122, Largest: 6.5, Gas: 0.95, Fine: 0.08, Baked: 0.45,
		View: cut.View{Seed: 48, Ground: cut.Walnut, Fill: 0.83, Turn: 2, Lean: 4, Window: 115, Warm: 0.2},
	},
	"crumb-ferry-loaf-2-4.jpg": {
		Seed: 49, Form: cut.Batard, WidthMM: 124, Largest: 6, Gas: 0.9, Fine: 0.08, Baked: 0.5,
		View: cut.View{Seed: 49, Ground: cut.Oak, Fill: 0.84, Turn: -2, Lean: 4, Window: 120, Warm: 0.5},
	},
	"crumb-ferry-loaf-2-5.jpg": {
		Seed: 50, Form: cut.Batard, WidthMM: 125, Largest: 8, Gas: 1, Fine: 0.1, Baked: 0.6,
		View: cut.View{Seed: 50, Ground: cut.Slate, Fill: 0.84, Turn: 1.5, Lean: 3, Window: 140, Warm: 0.2},
	},
	"crumb-ferry-loaf-2-7.jpg": {
		Seed: 51, Form: cut.Batard, WidthMM: 123, Largest: 15, Gas: 1.15, Fine: 0.1, Baked: 0.65,
		View: cut.View{Seed: 51, Ground: cut.Linen, Fill: 0.85, Turn: 2.5, Lean: 4, Window: 130, Warm: 0.25},
	},
	"crumb-ferry-loaf-2-harbour-6.5.jpg": {
		Seed: 52, Form: cut.Batard, WidthMM: 125, Largest: 13, Gas: 1.15, Fine: 0.1, Baked: 0.6,
		View: cut.View{Seed: 52, Ground: cut.Slate, Fill: 0.84, Turn: -1.5, Lean: 3, Window: 130, Warm: 0.3},
	},
	"crumb-ferry-loaf-2-harbour-6.5-again.jpg": {
		Seed: 52, Form: cut.Batard, WidthMM: 125, Largest: 13, Gas: 1.15, Fine: 0.1, Baked: 0.6,
		View: cut.View{Seed: 152, Ground: cut.Slate, Fill: 0.825, Turn: 1.5, Lean: 4, Window: 55, Warm: 0.55, Dim: 0.04},
	},
	"crumb-ferry-loaf-2-gorse-5.5.jpg": {
		Seed: 53, Form: cut.Batard, WidthMM: 126, Largest: 8.5, Gas: 1, Fine: 0.1, Baked: 0.55,
		View: cut.View{Seed: 53, Ground: cut.Slate, Fill: 0.84, Turn: 1, Lean: 3, Window: 130, Warm: 0.3},
	},
	"crumb-ferry-loaf-2-gorse-5.5-again.jpg": {
		Seed: 53, Form: cut.Batard, WidthMM: 126, Largest: 8.5, Gas: 1, Fine: 0.1, Baked: 0.55,
		View: cut.View{Seed: 153, Ground: cut.Slate, Fill: 0.825, Turn: -1.5, Lean: 4, Window: 60, Warm: 0.55, Dim: 0.04},
	},
	"crumb-deck-rye-1-4.5.jpg": {
		Seed: 54, Form: cut.Brick, Flour: cut.Rye, WidthMM: 98, Largest: 4.6, Gas: 0.82, Fine: 0.05, Baked: 0.6,
		View: cut.View{Seed: 54, Ground: cut.Linen, Fill: 0.78, Turn: 1.5, Lean: 4, Window: 120, Warm: 0.4},
	},
	"crumb-spelt-and-oats-1-4.jpg": {
		Seed: 55, Form: cut.Batard, Flour: cut.Brown, WidthMM: 116, Largest: 7, Gas: 0.92, Fine: 0.1, Baked: 0.6,
		View: cut.View{Seed: 55, Ground: cut.Oak, Fill: 0.83, Turn: -1.5, Lean: 4, Window: 115, Warm: 0.3},
	},
	"crumb-seeded-loaf-1-4.5.jpg": {
		Seed: 56, Form: cut.Boule, WidthMM: 118, Largest: 7.5, Gas: 1, Fine: 0.1, Baked: 0.45, Sesame: true, Seeds: 20,
		View: cut.View{Seed: 56, Ground: cut.Walnut, Fill: 0.83, Turn: -2, Lean: 4, Window: 125, Warm: 0.4},
	},
	"crumb-emmer-and-walnut-1-4.jpg": {
		Seed: 57, Form: cut.Boule, Flour: cut.Brown, WidthMM: 114, Largest: 7, Gas: 0.92, Fine: 0.1, Baked: 0.65, Walnuts: 8,
		View: cut.View{Seed: 57, Ground: cut.Steel, Fill: 0.82, Turn: 2, Lean: 4, Window: 110, Warm: 0.35},
	},
}
