// Package anylocale sees to it that the toolkit finds a locale that it can read. It reads
// one while the program's packages are set up, before main, and complains on the terminal
// about "C" and "POSIX", and where none is set.
//
// It must be set up before the toolkit. Packages are set up in the order of their paths
// as soon as what they import is; the toolkit imports net/http, and with it packages whose
// paths begin with "vendor/", which come after this one. A test looks that it is so.
package anylocale
