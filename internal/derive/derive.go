// Package derive works out everything that follows from a recipe document
// alone: weights and macros, allergens, cautions, and the flags that come and
// go with the document. It runs after extraction and again after every edit,
// and running it twice changes nothing. What was said is never changed.
package derive

import (
	"quern/internal/nutrition"
	"quern/schema"
)

// Options are what the document itself doesn't hold.
type Options struct {
	Own *nutrition.Own // a person's own foods, nil for none
}

// Apply works out what follows from the document and puts it in the document:
// each ingredient's food and grams, the computed macros, the allergens, the
// cautions, and the flags. Flags and cautions that came out of the talk are
// kept, settled flags are kept with their answers, and all else is replaced.
func Apply(doc *schema.Document, opt Options) {
	// The open questions come first, for macros tells what helps to answer
	// them; they come again after it, for it tells which foods have no figures.
	r := readingOf(doc)
	doc.Flags = r.flags()
	macros(doc, opt.Own)
	r.minimumEvidence()
	// The cautions leave to an open flag what it already asks about.
	r.safe()
	doc.Flags = r.flags()
}
