package extract

import (
	"strings"

	"quern/internal/language"
	"quern/schema"
)

// yieldCues lead to the number of pieces or servings.
var yieldCues = []string{"makes", "make", "serves", "serve", "feeds", "feed", "you'll get", "you get", "gives you", "get about", "finish up with", "end up with", "yields", "yield", "enough for", "does", "should get", "we'll get", "i get", "gonna get", "going to get", "comes out to", "turns out", "will make", "it's for", "does for", "you should have", "call it", "get", "gives", "good for", "servings", "portions", "cut it into", "cut into", "makes about", "have about", "you'll have"}

// findYield reads how much the recipe makes.
func (t *talk) findYield() {
	type cand struct {
		q     *schema.Quantity
		at    language.Span
		score int
	}
	var best *cand
	for k := range t.sents {
		s := &t.sents[k]
		for _, cue := range yieldCues {
			ws := strings.Fields(cue)
			for i := s.First; i+len(ws) <= s.Last; i++ {
				if !t.is(i, ws...) {
					continue
				}
				c := t.yieldAfter(s, i, i+len(ws), cue)
				if c == nil {
					continue
				}
				sc := 3
				switch cue {
				case "makes", "serves", "feeds", "yields", "yield", "makes about", "will make", "enough for", "finish up with", "end up with":
					sc = 5
				case "cut into", "cut it into", "get", "does", "call it", "good for":
					sc = 1
				case "serve", "feed", "make", "you'll get", "you get":
					sc = 4
				}
				if s.past || s.kind == aside || s.other {
					sc -= 3
				}
				if k < 8 {
					sc++
				}
				if best == nil || sc > best.score {
					best = &cand{c, language.Span{First: i, Last: s.Last}, sc}
				}
			}
		}
	}
	if best == nil || best.score < 2 {
		// a fragment near the start: "Twelve tacos.", "eight flatbreads"
		if c, sp := t.yieldFragment(); c != nil {
			best = &cand{c, sp, 3}
		}
	}
	if best == nil || best.score < 1 {
		return
	}
	t.yield = best.q
	sp := best.at
	if sp.Len() > 14 {
		sp.Last = sp.First + 14
	}
	t.yieldSaid = []schema.Said{t.said(sp.First, sp.Last)}
	t.because("yield "+best.q.String(), sp.First, sp.Last, "yield cue")
}

// peopleWord are things a number of servings is counted in.
var peopleWord = words("people servings portions persons adults folks helpings plates bowls slices pieces glasses mugs cups jars bars squares cookies biscuits muffins cupcakes buns rolls loaves loaf pancakes waffles tacos burritos wraps dumplings patties burgers meatballs " +
	"flatbreads crepes scones cakes tarts pies pizzas skewers kebabs sandwiches grown hungry generous good decent big small large bottles balls truffles doughnuts donuts bagels pretzels naans rotis chapatis tortillas empanadas fritters croquettes rounds sheets trays batches shots drinks ice lollies popsicles litres quarts pints of us grown-ups kids eaters blondies brownies shortbreads macaroons macarons croissants rusks crackers samosas pakoras arancini falafels spring eggs servings")

func (t *talk) yieldAfter(s *sentence, cue, i int, word string) *schema.Quantity {
	for k := i; k < i+6 && k < s.Last; k++ {
		w := t.norm(k)
		if w == "about" || w == "around" || w == "roughly" || w == "maybe" || w == "you" || w == "somewhere" || w == "just" || w == "up" || w == "to" || w == "them" || w == "it" || w == "of" || w == "let" || w == "me" || w == "see" || w == "a" && t.norm(k+1) != "dozen" && t.norm(k+1) != "couple" && t.norm(k+1) != "hundred" || w == "good" || w == "probably" || w == "easily" || w == "exactly" || w == "our" || w == "this" || w == "family" || w == "out" || w == "with" || w == "anywhere" || w == "between" && false {
			if w == "a" && (t.norm(k+1) == "loaf" || t.norm(k+1) == "single" || t.norm(k+1) == "big") && (word == "makes" || word == "make") {
				return &schema.Quantity{Min: 1, Max: 1, Unit: t.yieldNoun(k + 1)}
			}
			continue
		}
		num, n := language.ReadNumber(t.toks, k)
		if n == 0 || num.Article || num.Min <= 0 || num.Max > 400 || num.Fraction {
			return nil
		}
		unit := t.yieldNoun(k + n)
		if q := t.quantityAt[k]; q >= 0 && t.quantities[q].First == k {
			switch t.quantities[q].kind {
			case duration, heat, length, money:
				return nil
			case measure:
				switch t.quantities[q].unit {
				case "g", "kg", "oz", "lb", "ml", "l", "tsp", "tbsp", "fl oz", "cup", "pinch", "stick", "clove":
					if t.quantities[q].unit != "ml" && t.quantities[q].unit != "l" {
						return nil
					}
					return nil
				}
				unit = t.norm(t.quantities[q].Last - 1)
				if unit == "of" {
					unit = t.norm(t.quantities[q].Last - 2)
				}
			}
		}
		switch word {
		case "make", "does", "get", "you get", "i get", "gives", "have about", "you should have", "good for", "call it", "turns out", "gives you", "get about", "cut into", "cut it into", "serve":
			if !peopleWord[unit] && !peopleWord[strings.Fields(unit + " x")[0]] && !(word == "call it" && t.yield != nil) {
				return nil
			}
		}
		if (word == "cut into" || word == "cut it into") && unit == "pieces" {
			return nil
		}
		if unit == "" {
			switch word {
			case "serves", "feeds":
				unit = "servings"
			case "makes", "yields", "makes about", "will make":
				unit = "pieces"
			default:
				if k+n < s.Last && t.toks[k+n-1].After == 0 && t.norm(k+n) != "or" && t.norm(k+n) != "of" {
					return nil
				}
				unit = "servings"
			}
		}
		if unit == "minutes" || unit == "times" || unit == "years" || unit == "hours" || unit == "kids" && word != "feeds" || unit == "percent" || unit == "degrees" {
			return nil
		}
		q := &schema.Quantity{Min: num.Min, Max: num.Max, Unit: unit}
		if k > i && t.norm(k-1) == "about" {
			q.About = true
		}
		return q
	}
	return nil
}

// yieldNoun gives the thing counted after a number: "generous slices",
// "small glasses".
func (t *talk) yieldNoun(i int) string {
	var out []string
	for k := i; k < i+4 && k < len(t.toks); k++ {
		w := t.norm(k)
		if k > i && t.toks[k-1].After != 0 || w == "out" || w == "if" || w == "and" || w == "or" || w == "but" || w == "so" || w == "when" || w == "with" || w == "for" || w == "of" || w == "in" || w == "at" || w == "to" || w == "depending" || w == "easily" || w == "i" || w == "you" || w == "it" || w == "which" || w == "because" || w == "comfortably" || w == "the" || w == "good" && false {
			break
		}
		if q := t.quantityAt[k]; q >= 0 && t.quantities[q].kind == duration {
			break
		}
		out = append(out, w)
		if plural(w) || peopleWord[w] && w != "good" && w != "generous" && w != "small" && w != "big" && w != "large" && w != "decent" && w != "grown" && w != "hungry" && w != "spring" && w != "ice" {
			return strings.Join(out, " ")
		}
	}
	return ""
}

// yieldFragment finds "twelve tacos" or "one loaf" in the first part of the
// talk, in the same words as the title's dish.
func (t *talk) yieldFragment() (*schema.Quantity, language.Span) {
	limit := len(t.toks) / 4
	for i := 0; i < limit; i++ {
		num, n := language.ReadNumber(t.toks, i)
		if n == 0 || num.Article || num.Fraction || num.Min < 1 || num.Max > 100 {
			continue
		}
		s := t.sentence(i)
		if s.past || s.other {
			i += n - 1
			continue
		}
		unit := t.yieldNoun(i + n)
		last := unit
		if f := strings.Fields(unit); len(f) > 0 {
			last = f[len(f)-1]
		}
		if unit != "" && (peopleWord[last] || t.dishWord(i+n)) && last != "kids" && last != "us" && last != "of" && last != "people" {
			return &schema.Quantity{Min: num.Min, Max: num.Max, Unit: unit}, language.Span{First: i, Last: i + n + len(strings.Fields(unit))}
		}
		i += n - 1
	}
	return nil, language.Span{}
}

func (t *talk) dishWord(i int) bool {
	if m := t.mentionAt[i]; m >= 0 && t.mentions[m].food.Dish {
		return true
	}
	return t.madeAt[i] > 0 && !notPart[t.norm(i)]
}
