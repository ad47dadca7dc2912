package language

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"quern/internal/transcript"
)

// The tagger reads prose's model by itself, and tags as prose does: every row of a
// dozen words of the narrations, and words of all kinds.
func TestTagsAsProse(t *testing.T) {
	if testing.Short() {
		t.Skip("loads prose's tagger and asks it 20,000 times")
	}
	files, err := filepath.Glob(filepath.FromSlash("../../testdata/*/*/narration.md"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no narrations under testdata: %v", err)
	}
	rows := [][]string{
		{"add", "0", "or", "3.25", "cups", "of", "blorple"}, {"2.5", "l", "of", "zorp"}, {"1984", "was", "good"}, {"don't", "they'll", "it's", "i'm", "we're", "you'd"},
		{"café", "élan", "½", "cup"}, {"50%", "of", "$5"}, {"see", "www.example.com", "now"}, {"1/2", "cup", "of", "zorp"}, {"a"}, {"dogs'", "'tis", "o'clock"},
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n, err := transcript.Parse(file, data)
		if err != nil {
			t.Fatal(err)
		}
		toks := Tokens(n)
		for i := 0; i+12 <= len(toks); i += 3 {
			var words []string
			for k := range toks[i : i+12] {
				words = append(words, toks[i+k].Norm)
			}
			rows = append(rows, words)
		}
	}
	for _, words := range rows {
		got := Tags(words)
		want := proseTags(words)
		for try := 0; try < 60 && !slices.Equal(got, want); try++ {
			want = proseTags(words) // of two tags alike it takes one by chance
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q: %q, by prose %q", words, got, want)
		}
	}
	t.Logf("%d rows", len(rows))
}
