package extract

import (
	"testing"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// Foods that are related share a bit of their signs, or the ingredient that is
// meant would be passed over.
func TestKinSigns(t *testing.T) {
	foods := lexicon.Load().Foods
	signs := make([]kinSign, len(foods))
	for i := range foods {
		signs[i].addFood(&foods[i])
	}
	apart := 0
	for i := range foods {
		for j := range i {
			if signs[i].meets(&signs[j]) {
				continue
			}
			apart++
			if related(&foods[i], &foods[j]) > 0 {
				t.Errorf("%q and %q are related, and their signs share no bit", foods[i].Name, foods[j].Name)
			}
		}
	}
	if pairs := len(foods) * (len(foods) - 1) / 2; apart < pairs*3/4 {
		t.Errorf("signs tell %d of %d pairs apart, want three in four", apart, pairs)
	}
}

// A name taken apart has the words that Norms gives.
func TestNameOf(t *testing.T) {
	names := []string{"", " ", "-", "half-and-half", " brown  eggs ", "Crème fraîche", "7-Up", "chef's salt"}
	for _, f := range lexicon.Load().Foods {
		names = append(names, f.Name)
	}
	for _, name := range names {
		ws := language.Norms(name)
		want := called{words: len(ws)}
		if len(ws) > 0 {
			want.first, want.last = ws[0], lexicon.Singular(ws[len(ws)-1])
		}
		if got := nameOf(name); got != want {
			t.Errorf("nameOf(%q) = %+v, want %+v", name, got, want)
		}
	}
}
