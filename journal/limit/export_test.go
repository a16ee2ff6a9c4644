package limit

// Of gives the limits of a kind.
func Of(k Kind) Range { return ranges[k] }
