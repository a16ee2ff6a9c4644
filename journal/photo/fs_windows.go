package photo

// syncDir has nothing to do: Windows offers no sync of a folder, and NTFS writes
// names to its own log.
func syncDir(string) error { return nil }
