package language

import (
	"strings"
	"sync"

	"github.com/jdkato/prose/v2"
)

// prose is no longer developed; everything of it that the project uses is in
// this file.

// tagModel loads prose's tagger once, on first use: about 0.2 s. Its entity
// extraction is never loaded.
var tagModel = sync.OnceValue(func() *prose.Model {
	doc, err := prose.NewDocument("", prose.WithExtraction(false), prose.WithSegmentation(false))
	if err != nil {
		return nil
	}
	return doc.Model
})

// Tags gives the Penn Treebank tag of each word, as prose's averaged
// perceptron sees them in a row; nil where it can't be asked. It is safe for
// concurrent use.
func Tags(words []string) []string {
	m := tagModel()
	if m == nil || len(words) == 0 {
		return nil
	}
	doc, err := prose.NewDocument(strings.Join(words, " "), prose.UsingModel(m), prose.WithExtraction(false), prose.WithSegmentation(false))
	if err != nil {
		return nil
	}
	toks := doc.Tokens()
	out := make([]string, len(words))
	k := 0
	// prose cuts clitics off; a word takes the tag of its first piece
	for i, w := range words {
		if k >= len(toks) {
			return nil
		}
		out[i] = toks[k].Tag
		got := toks[k].Text
		k++
		for len(got) < len(w) && k < len(toks) {
			got += toks[k].Text
			k++
		}
	}
	return out
}
