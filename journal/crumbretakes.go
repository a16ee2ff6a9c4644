package journal

import "twinloaf/journal/crumb"

// CrumbRetakes gives the photos of one slice that were measured more than once,
// each group anew what retaking a photo gives. A photo that names another as the
// same slice belongs to its group, and so does the one named.
func CrumbRetakes(r Reader) ([][]crumb.Summary, error) {
	groups, err := slicesAgain(r)
	if err != nil {
		return nil, err
	}
	var out [][]crumb.Summary
	for _, photos := range groups {
		var group []crumb.Summary
		for _, p := range photos {
			s, ok, err := CrumbMeasures(r, p)
			if err != nil {
				return nil, err
			}
			if ok {
				group = append(group, s)
			}
		}
		if len(group) > 1 {
			out = append(out, group)
		}
	}
	return out, nil
}

// UnmeasuredRetakes gives the photos of slices that were photographed more than once
// of which no measures are kept: [CrumbRetakes] could say more with them.
func UnmeasuredRetakes(r Reader) ([]*Photo, error) {
	groups, err := slicesAgain(r)
	if err != nil {
		return nil, err
	}
	var out []*Photo
	for _, photos := range groups {
		for _, p := range photos {
			_, ok, err := CrumbMeasures(r, p)
			if err != nil {
				return nil, err
			}
			if !ok && len(photos) > 1 {
				out = append(out, p)
			}
		}
	}
	return out, nil
}

// slicesAgain gives the photos that show one slice, slice by slice, the first photo
// of each in front.
func slicesAgain(r Reader) ([][]*Photo, error) {
	photos, err := All[Photo](r)
	if err != nil {
		return nil, err
	}
	byID := make(map[ID]*Photo, len(photos))
	for _, p := range photos {
		byID[p.ID] = p
	}
	var out [][]*Photo
	group := map[ID]int{}
	for _, p := range photos {
		if p.Slice == nil || p.Slice.Same == "" {
			continue
		}
		first := firstOf(byID, p)
		i, known := group[first.ID]
		if !known {
			i = len(out)
			group[first.ID] = i
			out = append(out, []*Photo{first})
		}
		if p.ID != first.ID {
			out[i] = append(out[i], p)
		}
	}
	return out, nil
}

// firstOf follows a photo to the one that it is a retake of, and that to its
// own, as far as they are there. Of photos in a ring it is the oldest.
func firstOf(byID map[ID]*Photo, p *Photo) *Photo {
	seen := map[ID]bool{p.ID: true}
	for {
		next := sameAs(byID, p)
		switch {
		case next == nil:
			return p
		case seen[next.ID]:
			oldest := next
			for q := sameAs(byID, next); q.ID != next.ID; q = sameAs(byID, q) {
				if q.ID < oldest.ID {
					oldest = q
				}
			}
			return oldest
		}
		seen[next.ID] = true
		p = next
	}
}

// sameAs is the photo that p is a retake of, if it is there.
func sameAs(byID map[ID]*Photo, p *Photo) *Photo {
	if p.Slice == nil {
		return nil
	}
	return byID[p.Slice.Same]
}
