package extract

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"testing"

	"quern/internal/derive"
	"quern/internal/transcript"
	"quern/schema"
)

// FuzzExtract reads anything through to the written document: it never panics,
// gives at least one document for what the reader takes, states nothing whose
// words were not said, gives the same bytes a second time, and what it writes
// reads back.
func FuzzExtract(f *testing.F) {
	names, texts := talks(f)
	// A piece of a talk in each style: a whole one costs as much as ten, and
	// what is found in one must be made smaller for long.
	for i, style := range styles {
		text := restyle(texts[names[i%len(names)]], style)
		f.Add([]byte(cutAt(text, 1200)))
	}
	// Each kind of damage once.
	for i, m := range mutations {
		r := rand.New(rand.NewPCG(uint64(i), 1))
		f.Add([]byte(m.do(r, cutAt(restyle(texts[names[i%len(names)]], styles[i%len(styles)]), 900))))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<12 {
			t.Skip("long input is what the torture run is for")
		}
		n, err := transcript.Parse("talk", data)
		if err != nil {
			return // the readers have targets of their own
		}
		write := func(docs []*schema.Document) []byte {
			for _, doc := range docs {
				derive.Apply(doc, derive.Options{})
			}
			var out bytes.Buffer
			if err := schema.WriteYAML(&out, docs...); err != nil {
				t.Fatal(err)
			}
			return out.Bytes()
		}
		docs := Extract(n)
		if len(docs) == 0 {
			t.Fatal("no document")
		}
		for _, b := range slices.DeleteFunc(ungrounded(n, docs), impliedNumber) {
			t.Error(b)
		}
		first := write(docs)
		if !bytes.Equal(first, write(Extract(n))) {
			t.Error("the same talk gives other bytes a second time")
		}
		if _, err := schema.ReadAll("document", first); err != nil {
			t.Errorf("the document doesn't read back: %v\n%s", err, first)
		}
		if problems := schema.Validate("document", first); len(problems) > 0 {
			t.Errorf("the document doesn't fit the form: %v\n%s", problems, first)
		}
	})
}
