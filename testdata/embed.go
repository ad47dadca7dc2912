// Package testdata carries the narration that is shown to somebody who tries
// the program before having a transcript of her own. The other files here are
// read by tests.
package testdata

import _ "embed"

// ExampleName is the file name of Example.
const ExampleName = "ginger-oat-bars.md"

// Example is an invented four-minute narration, as timed text.
//
//go:embed narrations/ginger-oat-bars.md
var Example []byte
