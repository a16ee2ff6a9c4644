package archive

import (
	"encoding/hex"
	"regexp"
	"strings"
)

// Hard limits, far above what a lifetime of baking comes to, so that no archive
// can take the memory or the disk away.
const (
	maxManifest  = 128 << 20 // half a million photos
	maxDirectory = 128 << 20 // of the ZIP
	maxReadme    = 1 << 20
	maxRecord    = 64 << 20
	maxRecords   = 512 << 20 // of all kinds: they are compared in memory
	MaxPhoto     = 256 << 20 // journal/photo takes none that is longer
	maxBytes     = 1 << 42   // 4 TiB
	maxDepth     = 64        // of the JSON of a record

	// A member, and an archive, may not unpack to more than so many times its packed
	// size: records come to about ten times, photos to once.
	maxPhotoRatio   = 8
	maxRecordsRatio = 200
	ratioFrom       = 1 << 20 // what is smaller than this may unpack from anything
)

// The names that members may have. There are no others, so that none can lead
// out of the archive, or be the same as another on a disk that does not tell
// letters of different size apart.
var (
	recordsPath = regexp.MustCompile(`^records/([a-z]{1,32})\.jsonl$`)
	photoPath   = regexp.MustCompile(`^photos/([0-9a-f]{64})\.(jpg|png|webp|heic)$`)
)

// recordsKind gives the kind of the records that a member holds.
func recordsKind(path string) (kind string, ok bool) {
	m := recordsPath.FindStringSubmatch(path)
	if m == nil {
		return "", false
	}
	return m[1], true
}

// photoHash gives the fingerprint and the ending in a photo's path.
func photoHash(path string) (hash, ext string, ok bool) {
	m := photoPath.FindStringSubmatch(path)
	if m == nil {
		return "", "", false
	}
	return m[1], "." + m[2], true
}

func isHash(s string) bool {
	_, err := hex.DecodeString(s)
	return err == nil && len(s) == 64 && s == strings.ToLower(s)
}
