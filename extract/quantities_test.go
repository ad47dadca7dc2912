package extract

import (
	"os"
	"path/filepath"
	"testing"

	"quern/internal/lexicon"
	"quern/internal/transcript"
)

// TestNoQuantityIsPassedOver reads a quantity at every word at which none is
// looked for.
func TestNoQuantityIsPassedOver(t *testing.T) {
	files, err := filepath.Glob(filepath.FromSlash("../testdata/*/*.md"))
	more, err2 := filepath.Glob(filepath.FromSlash("../testdata/*/*/narration.md"))
	if files = append(files, more...); err != nil || err2 != nil || len(files) == 0 {
		t.Fatalf("no narrations under testdata: %v, %v", err, err2)
	}
	passed := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n, err := transcript.Parse(file, data)
		if err != nil {
			continue // a page about the narrations
		}
		k := &talk{n: n, lex: lexicon.Load()}
		k.readWords()
		k.markSentences()
		for i := range k.toks {
			if k.mayMeasure(i) {
				continue
			}
			passed++
			if q, m := k.readQuantity(i); m > 0 {
				t.Errorf("%s: %q is a quantity (%+v), and amountHeads lacks %q", file, k.phrase(i, i+m), q, k.norm(i))
			}
		}
	}
	if passed < 1000 {
		t.Errorf("%d words were passed over, want the most of the talks", passed)
	}
}
