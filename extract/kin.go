package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// kinSign tells foods that can't be meant by one name apart before their names are
// compared: those that can share a bit. A talk asks for every naming of a food
// which of the ingredients so far it is.
type kinSign [2]uint64

func (s *kinSign) add(word string) {
	h, _ := hash(word)
	s[h>>20&1] |= 1 << (h >> 4 & 63)
}

func (s *kinSign) meets(o *kinSign) bool { return s[0]&o[0]|s[1]&o[1] != 0 }

// addFood adds what related compares: the first word of a name and the last.
func (s *kinSign) addFood(f *lexicon.Food) {
	ws := f.Words()
	if len(ws) == 0 {
		s.add("")
		return
	}
	s.add(ws[0])
	s.add(ws[len(ws)-1])
	if ws[0] == "beef" {
		s.add("steak")
	}
}

// called is a name of an ingredient or a mention as it is compared.
type called struct {
	words int
	first string
	last  string // one of them: "egg" for "brown eggs"
}

func nameOf(name string) called {
	first, last, n := language.Ends(name)
	return called{n, first, lexicon.Singular(last)}
}

// compoundEnds are foods whose names end others written in one word.
var compoundEnds = []string{"milk", "berry", "corn", "bread", "fish", "melon", "nut", "root", "cake"}

// classSign is the word in a sign that stands for all foods of a kind: "the cheese"
// may mean any of the dairy foods.
var classSign = func() map[string]string {
	m := map[string]string{}
	for _, kind := range classWord {
		m[kind] = "=" + kind
	}
	return m
}()

// rename gives an ingredient its name and food.
func (t *talk) rename(g *ingredient, name string, f *lexicon.Food) {
	g.name, g.food, g.called = name, f, nameOf(name)
	var s kinSign
	s.addFood(f)
	s.add(g.called.last)
	if w := classSign[f.Kind]; w != "" {
		s.add(w)
	}
	for _, end := range compoundEnds {
		if len(g.called.last) > len(end) && strings.HasSuffix(g.called.last, end) {
			s.add(end) // "the milk" of buttermilk
		}
	}
	t.kin[g.no] = s
}

// newIngredient adds an ingredient to those of the talk.
func (t *talk) newIngredient(g *ingredient) {
	g.no = len(t.ingredients)
	t.ingredients = append(t.ingredients, g)
	t.kin = append(t.kin, kinSign{})
	t.rename(g, g.name, g.food)
}
