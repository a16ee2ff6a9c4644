// Package carry takes a journal, or a part of it, to another place and brings it
// in there: what goes along with what ([Pack]), how what comes stands to what is
// there already ([Compare]), and keeping it ([Arrival.BringIn]). The file between the
// two is package archive's.
package carry
