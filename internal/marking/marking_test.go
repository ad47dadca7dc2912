package marking

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/internal/transcript"
)

// marked writes words with the marks guessed: "," and ".".
func marked(t *testing.T, words string) string {
	t.Helper()
	lex := lexicon.Load()
	toks := language.Words(words)
	var b strings.Builder
	for i, m := range Guess(lex, toks, lex.IDs(toks)) {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(toks[i].Norm)
		b.WriteString([...]string{"", ",", ".", "."}[m])
	}
	return b.String()
}

// alike takes away what writers of marks differ in: which mark, and whether any, stands
// before "and" and "then".
var alike = strings.NewReplacer(", and", " and", ". and", " and", ", then", " then", ". then", " then", ".", ",")

func TestGuess(t *testing.T) {
	for _, want := range []string{
		"you need two hundred grams of flour, three eggs, and a pinch of salt",
		"so we peel the onions, slice them thinly, and fry them in butter",
		"add the stock and bring it to the boil. then turn it down and leave it for an hour",
		"my sister came over on sunday and she brought the plums",
		"i use cream, but you can use milk",
	} {
		words := strings.NewReplacer(",", "", ".", "").Replace(want)
		if got := marked(t, words); alike.Replace(got) != alike.Replace(want) {
			t.Errorf("%q: got %q, want %q", words, got, want)
		}
	}
}

func TestGuessOfLittle(t *testing.T) {
	if got := marked(t, ""); got != "" {
		t.Errorf("of nothing: %q", got)
	}
	if got := marked(t, "salt"); got != "salt" {
		t.Errorf("of a word: %q", got)
	}
}

func TestWrittenMarksStay(t *testing.T) {
	lex := lexicon.Load()
	toks := language.Words("Add the. butter, and the sugar and: stir")
	got := Guess(lex, toks, lex.IDs(toks))
	for i, want := range map[int]Mark{1: Stop, 2: Comma, 6: Stop} {
		if got[i] != want {
			t.Errorf("behind %q: %d, want %d", toks[i].Norm, got[i], want)
		}
	}
}

func TestChoose(t *testing.T) {
	for _, c := range []struct {
		comma, stop int
		want        Mark
	}{
		{-100, -100, None}, {0, -60, Comma}, {-60, 10, Stop}, {60, 61, Stop}, {-60, 60, Certain}, {100, -100, Comma},
		{-22, -22, Stop}, // each of one in five
		{-40, -40, None},
	} {
		if got := choose(c.comma, c.stop); got != c.want {
			t.Errorf("choose(%d, %d) = %d, want %d", c.comma, c.stop, got, c.want)
		}
	}
}

// readTalks reads punctuated talks.
func readTalks(t testing.TB, pattern string) []*Talk {
	t.Helper()
	files, err := filepath.Glob(filepath.FromSlash(pattern))
	if err != nil || len(files) == 0 {
		t.Fatalf("no talks at %s: %v", pattern, err)
	}
	var out []*Talk
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n, err := transcript.Parse(file, data)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, NewTalk(lexicon.Load(), file, language.Tokens(n)))
	}
	return out
}

// What the weights reached on narrations that they were not learned from; see
// bench/marks.
const (
	anyReached  = 0.79
	stopReached = 0.55
)

func TestLearnedWeights(t *testing.T) {
	any, stops := Measure(lexicon.Load(), readTalks(t, "../../testdata/narrations/d*.md"), learned)
	t.Logf("any mark F1 %.3f, full stops F1 %.3f", any.F1(), stops.F1())
	if any.F1() < anyReached-0.01 || stops.F1() < stopReached-0.01 {
		t.Errorf("any mark F1 %.3f, full stops F1 %.3f; %.2f and %.2f were reached", any.F1(), stops.F1(), anyReached, stopReached)
	}
}

func TestLearn(t *testing.T) {
	lex := lexicon.Load()
	talks := readTalks(t, "../../testdata/narrations/d*.md")
	weights := Learn(lex, talks, 1<<14)
	if len(weights) != 4<<14 {
		t.Fatalf("%d bytes", len(weights))
	}
	any, _ := Measure(lex, talks, weights)
	if any.F1() < 0.8 {
		t.Errorf("on what was learned from F1 is %.3f", any.F1())
	}
	if again := Learn(lex, talks, 1<<14); !bytes.Equal(again, weights) {
		t.Error("the same talks gave other weights")
	}
}
