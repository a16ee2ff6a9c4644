package store

// A Kind names a sort of record, and the bucket in which it is kept.
type Kind string

// A Ref names a record of any kind.
type Ref struct {
	Kind Kind `json:"kind"`
	ID   ID   `json:"id"`
}
