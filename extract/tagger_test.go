package extract

import (
	"encoding/json"
	"hash/fnv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"quern/internal/lexicon"
	"quern/internal/transcript"
	"quern/schema"
)

// The tagger is asked about foods that the lexicon lacks. What it earns: a quarter of the
// foods is taken out of the lexicon, each quarter in turn, and the foods named with an
// amount among those are looked for in the documents, with the tagger and without.
func TestTaggerEarnsItsCost(t *testing.T) {
	if testing.Short() {
		t.Skip("reads every talk eight times")
	}
	golds, err := filepath.Glob("../testdata/talks/*/gold.json")
	if err != nil || len(golds) == 0 {
		t.Fatal("no talks", err)
	}
	const quarters = 4
	var right, wrong [2]int // without the tagger, with it
	named := 0
	for q := uint32(0); q < quarters; q++ {
		lacks := func(food string) bool {
			h := fnv.New32a()
			h.Write([]byte(food))
			return h.Sum32()%quarters == q
		}
		lex, err := lexicon.Lacking(lacks)
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range golds {
			gold := readGoldFoods(t, path)
			data, err := os.ReadFile(filepath.Join(filepath.Dir(path), "narration.md"))
			if err != nil {
				t.Fatal(err)
			}
			n, err := transcript.Parse(path, data)
			if err != nil {
				t.Fatal(err)
			}
			for _, g := range gold {
				known := func(name string) bool { _, ok := lex.FoodNamed(strings.ToLower(name)); return ok }
				if g.amount != nil && !slices.ContainsFunc(g.names, known) {
					named++
				}
			}
			for on := range right {
				opts := []Option{func(tk *talk) { tk.lex, tk.tagger = lex, on == 1 }}
				for _, d := range Extract(n, opts...) {
					for k := range d.Ingredients {
						switch known, listed := unknownNamed(&d.Ingredients[k], gold, lex); {
						case known:
						case listed:
							right[on]++
						default:
							wrong[on]++
						}
					}
				}
			}
		}
	}
	t.Logf("%d foods said with an amount that the lexicon lacks; right without the tagger %d, with it %d; wrong %d and %d", named, right[0], right[1], wrong[0], wrong[1])
	if right[1] <= right[0] || wrong[1] > wrong[0] {
		t.Errorf("the tagger earns nothing: right %d with it, %d without; wrong %d with it, %d without", right[1], right[0], wrong[1], wrong[0])
	}
}

// goldFood is an ingredient of a gold answer: the names it may have.
type goldFood struct {
	names  []string
	amount *struct{ Min float64 }
}

// readGoldFoods reads the ingredients of a gold answer.
func readGoldFoods(t *testing.T, path string) []goldFood {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var gold struct {
		Ingredients []struct {
			Name   string
			Also   []string
			Amount *struct{ Min float64 }
		}
	}
	if err := json.Unmarshal(data, &gold); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	var out []goldFood
	for _, g := range gold.Ingredients {
		out = append(out, goldFood{append([]string{g.Name}, g.Also...), g.Amount})
	}
	return out
}

// unknownNamed tells whether the lexicon knows an ingredient, and whether the gold answer
// has just its name with just its amount.
func unknownNamed(in *schema.Ingredient, gold []goldFood, lex *lexicon.Lexicon) (known, listed bool) {
	if _, known = lex.FoodNamed(in.Name); known {
		return true, false
	}
	for _, g := range gold {
		for _, name := range g.names {
			if lexicon.Singular(strings.ToLower(name)) == lexicon.Singular(in.Name) && g.amount != nil && in.Amount != nil && in.Amount.Min == g.amount.Min {
				return false, true
			}
		}
	}
	return false, false
}
