// Package cut makes photos of cut bread: a slice of crumb as geometry, traced by
// POV-Ray from the scene in slice.pov, lit by a window from one side.
//
// A [Slice] is baked first: its outline is drawn, its inside filled with a foam of
// bubbles, large ones first and ever smaller ones between them, few of them touching;
// then it is cut, and what can be seen from above of the bubbles that the cut opened,
// and of those that open into these, is a relief with a colour at each place. How much
// of the face is open is known from it, and so is where each place of the face lies in
// the picture: see [Truth].
//
// A picture follows from its description alone, to what POV-Ray rounds otherwise from
// one processor to the next.
package cut
