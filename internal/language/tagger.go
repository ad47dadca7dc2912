package language

import (
	"strings"
	"sync"

	"github.com/jdkato/prose/v2"
)

// prose is no longer developed; everything of it that the project uses is in
// this file.

// model reads the tagger's model from prose, once, on first use: about 0.05 s.
var model = sync.OnceValue(func() *perceptron {
	sure, err := prose.Asset("model/AveragedPerceptron/tags.gob")
	if err != nil {
		return nil
	}
	weights, err := prose.Asset("model/AveragedPerceptron/weights.gob")
	if err != nil {
		return nil
	}
	p, err := newPerceptron(sure, weights)
	if err != nil {
		return nil
	}
	return p
})

// cutForTags cuts words as prose does, which cuts clitics off. Neither its entity
// extraction nor its own tagger is ever loaded for it.
func cutForTags(words []string) []prose.Token {
	doc, err := prose.NewDocument(strings.Join(words, " "), prose.WithTagging(false), prose.WithExtraction(false), prose.WithSegmentation(false))
	if err != nil {
		return nil
	}
	return doc.Tokens()
}

// Tags gives the Penn Treebank tag of each word, as prose's averaged perceptron
// sees them in a row; nil where it can't be asked. It is safe for concurrent use.
func Tags(words []string) []string {
	p := model()
	if p == nil || len(words) == 0 {
		return nil
	}
	toks := cutForTags(words)
	texts := make([]string, len(toks))
	for i := range toks {
		texts[i] = toks[i].Text
		if !known(texts[i]) {
			return proseTags(words)
		}
	}
	for i, tag := range p.tagAll(texts) {
		toks[i].Tag = tag
	}
	out := tagsOf(words, toks)
	if out == nil {
		return nil
	}
	// prose tells a word that comes again only once, as it is where it comes last;
	// the last of the row is told by itself
	last := make(map[string]string, len(words))
	for i := len(words) - 2; i >= 0; i-- {
		if tag, again := last[words[i]]; again {
			out[i] = tag
		} else {
			last[words[i]] = out[i]
		}
	}
	return out
}

// proseModel loads prose's own tagger once, on first use: about 0.2 s and 38 MB.
var proseModel = sync.OnceValue(func() *prose.Model {
	doc, err := prose.NewDocument("", prose.WithExtraction(false), prose.WithSegmentation(false))
	if err != nil {
		return nil
	}
	return doc.Model
})

// proseTags does what Tags does by prose's own tagger: for words in a row among
// which stands an address, a face or a sign.
func proseTags(words []string) []string {
	m := proseModel()
	if m == nil {
		return nil
	}
	doc, err := prose.NewDocument(strings.Join(words, " "), prose.UsingModel(m), prose.WithExtraction(false), prose.WithSegmentation(false))
	if err != nil {
		return nil
	}
	return tagsOf(words, doc.Tokens())
}

// tagsOf gives each word the tag of its first piece.
func tagsOf(words []string, toks []prose.Token) []string {
	out := make([]string, len(words))
	k := 0
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
