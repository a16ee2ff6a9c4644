package kit

import "testing"

// An empty name is written in the face and size that the name will have, fainter.
func TestAnEmptyNameIsInTheFaceOfTheName(t *testing.T) {
	f := NewHeadingField("Name this bake")
	empty := f.words()[0]
	f.SetText("Ferry loaf")
	named := f.words()[0]
	if !empty.Serif || empty.Size != named.Size || empty.Serif != named.Serif || empty.Color == named.Color {
		t.Errorf("empty it is %+v, named %+v", empty, named)
	}
}
