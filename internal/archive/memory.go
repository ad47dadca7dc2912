package archive

import "runtime/debug"

// What reading a long talk may take: so many bytes for the tables and so many
// for each byte of the transcript. Its words, their marks and its document take
// about thirty; without a bound half as much again would be used before what is
// no longer needed is cleared away.
const (
	memoryBase    = 40 << 20
	memoryPerByte = 33
)

// Thrifty has memory cleared earlier while a transcript of size bytes is worked
// on, where that is a long one (several hours of talk), and gives what puts that
// back. Only the moment of clearing changes, never what is read.
func Thrifty(size int64) (undo func()) {
	if size < largeBytes {
		return func() {}
	}
	before := debug.SetMemoryLimit(memoryBase + memoryPerByte*size)
	return func() { debug.SetMemoryLimit(before) }
}
