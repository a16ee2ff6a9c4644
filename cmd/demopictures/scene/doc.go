// Package scene draws the photos of the demonstration journal: loaves seen from
// above and from the side, dough in a bowl, and a jar of culture on its shelf.
//
// Each picture is a relief. A height is worked out for every pixel, the light
// falls on its slope, and a colour that follows from the same heights is laid
// over it. Cut faces are not drawn here: package phantom has those.
//
// A picture follows from its description alone: the same description gives the
// same pixels. A [Painter] may be shared by several goroutines.
package scene
