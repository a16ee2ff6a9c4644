package trials

import "math/rand/v2"

func newRand(k uint64) *rand.Rand { return rand.New(rand.NewPCG(9, k)) }
