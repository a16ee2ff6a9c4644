package journal

import "time"

// BinnedAt is when a record was put in the bin; zero for one that is not there.
func BinnedAt[T any, R Record[T]](r R) time.Time { return r.head().Binned }
