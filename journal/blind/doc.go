// Package blind holds tastings in which nobody knows which loaf is which until
// the last score is in: the methods by their standard names, serving orders and
// codes, the sealed assignment, and the scoring session.
//
// A tasting goes one way:
//
//	Plan → Draw → Draft (plating card, once) → Seal → Sealed + Setting
//	Setting → Session (one sample at a time) → Proof
//	Sealed.Unseal(Proof) → Opened
//
// Setting is everything that anybody may see while the tasting is sealed. It is
// plain data. Which code is which loaf is in Sealed alone, whose content no
// printing, logging, encoding or reflection reaches. It comes out by Unseal,
// which asks for the Proof that a finished Session gives; and, for keeping on
// disk, through package vault, which only the journal may import.
//
// The package opens no file, knows no clock, and draws only from the reader it
// is given: crypto/rand outside of tests.
//
// Sub-packages: draw (unbiased drawing), vault (keeping the secret), sensory
// (statistics of the methods), verdict (what it showed, in words), fair (a fair
// pair of bakes).
package blind
