// Package store keeps records in one file. It knows what a record is called, of
// which kind it is and to whom it belongs, and nothing else of what is in it: the
// program's nouns register themselves by a [Spec] each.
//
// # What lies in the file
//
// Each kind of record has a bucket of its own, of envelopes by ID: see [Wrap].
// Beside them lie the index of links (links.go), the history of changes that can
// be taken back (history.go), what the file says it is (schema.go), and the
// buckets that a [Layout] asks for besides, whose values are envelopes, too: see
// [Side].
//
// # One change
//
// [Store.Update] makes one change: all that its function writes goes to disk,
// with the index of links and, by [Tx.Remember], the step that takes it back, or
// none of it does.
package store
