package ferment

import "math"

// alikeness is how alike the cultures of one kitchen are thought to be: the share of the
// variance between all cultures that lies between kitchens (our own guess).
const alikeness = 0.5

// enoughFeedings are how many a culture has to have had read to speak for its kitchen.
const enoughFeedings = 4

// Pooled are the assumptions for a culture that is kept beside others: its own speed,
// ratio, rise and curve are expected nearer to theirs than to those of any culture, the
// nearer the more of them there are. It is the best linear prediction of one more
// member of an exchangeable group (partial pooling; Gelman et al., Bayesian Data
// Analysis, chapter 5), with the others' figures taken as known.
func (a Assumptions) Pooled(others []*Forecaster) Assumptions {
	var sum commonMean
	n := 0.0
	var usual [families]*filter
	for fam := range families {
		usual[fam] = a.newFilter(fam, 10, nil, 0)
	}
	for _, o := range others {
		if o.feedings < enoughFeedings {
			continue
		}
		n++
		for i, weight := range o.weights(nil) {
			for k := range commons {
				sum[k] += weight * (o.filters[i].mean[k] - usual[o.filters[i].family].mean[k])
			}
		}
	}
	if n == 0 {
		return a
	}
	lean := alikeness * n / (1 + alikeness*(n-1))
	for k := range commons {
		a.kitchen[k] = lean * sum[k] / n
	}
	a.kitchen[sMood] = 0
	a.known = alikeness * lean
	return a
}

// settle moves a filter that has learned nothing to what is known of the kitchen.
func (a Assumptions) settle(f *filter) {
	for k := range commons {
		f.mean[k] += a.kitchen[k]
		for m := range commons {
			f.cov[k][m] *= math.Max(0.05, 1-a.known)
		}
	}
}
