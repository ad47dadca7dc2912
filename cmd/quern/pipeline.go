package main

import (
	"fmt"

	"quern/extract"
	"quern/internal/derive"
	"quern/internal/nutrition"
	"quern/internal/transcript"
	"quern/schema"
)

// recipes gives the recipes told in a narration: what was said, and what
// follows from it with a person's own foods. With explain the reason for every
// fact goes to t.
func recipes(n *transcript.Narration, own *nutrition.Own, explain bool, t *terminal) []*schema.Document {
	docs, reasons := extract.Explain(n)
	for _, doc := range docs {
		derived(doc, own)
	}
	if explain {
		for _, r := range reasons {
			moment := shortMoment(r.At)
			if moment == "" {
				moment = "-"
			}
			t.line(fmt.Sprintf("%s  %s  %s  %s", t.paint(faint, fmt.Sprintf("%7s", moment)), printable(r.Fact),
				t.paint(faint, `"`+printable(r.Words)+`"`), t.paint(faint, printable(fmt.Sprintf("[%s] by %s", r.Marks, r.Pass)))))
		}
	}
	return docs
}

// derived works out again what follows from a document alone.
func derived(doc *schema.Document, own *nutrition.Own) { derive.Apply(doc, derive.Options{Own: own}) }
