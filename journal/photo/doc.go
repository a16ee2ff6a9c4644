// Package photo keeps the pictures of a bread journal: it reads what phones and
// cameras write, turns it upright, stores the original byte for byte under its
// SHA-256, and makes smaller copies for the screen.
//
// It knows files and images. It knows nothing of bakes, records or windows.
//
//   - [Inspect] reads a picture's header; [Decode] reads the whole picture.
//   - [Strip] copies a picture without what tells place, camera and owner.
//   - [Files] is the store of originals, one file per content, never altered.
//   - [Thumbs] is the cache of smaller copies; it may be deleted at any time.
//
// Every refusal is an [*Error]: a sentence that names the file, and a kind to
// tell with errors.Is.
//
// HEIC is read by libheif compiled to WebAssembly. Build the program with the
// tag nodynamic: without it the decoder's package looks for a system libheif
// when the program starts.
package photo
