package extract

import (
	"strings"

	"quern/schema"
)

// claimWords are diet statements as spoken and as the document names them.
var claimWords = []struct{ said, claim string }{
	{"gluten free", "gluten-free"}, {"no gluten", "gluten-free"}, {"dairy free", "dairy-free"}, {"no dairy", "dairy-free"}, {"lactose free", "lactose-free"},
	{"nut free", "nut-free"}, {"no nuts", "nut-free"}, {"egg free", "egg-free"}, {"no eggs", "egg-free"}, {"eggless", "egg-free"}, {"sugar free", "sugar-free"}, {"no added sugar", "no added sugar"}, {"no sugar", "sugar-free"}, {"vegan", "vegan"},
	{"vegetarian", "vegetarian"}, {"plant based", "vegan"}, {"low carb", "low-carb"}, {"keto", "keto"}, {"ketogenic", "keto"}, {"keto friendly", "keto"},
	{"paleo", "paleo"}, {"halal", "halal"}, {"kosher", "kosher"}, {"alcohol free", "alcohol-free"}, {"non alcoholic", "alcohol-free"},
	{"low fat", "low-fat"}, {"fat free", "fat-free"}, {"high protein", "high-protein"}, {"soy free", "soy-free"}, {"wheat free", "wheat-free"}, {"grain free", "grain-free"},
	{"whole thirty", "whole30"}, {"low sodium", "low-sodium"}, {"oil free", "oil-free"}, {"high fibre", "high-fibre"}, {"high fiber", "high-fibre"}, {"diabetic friendly", "diabetic-friendly"},
}

// claimIsFood are words after which a claim word describes a product, not the dish.
func (t *talk) claimOfFood(a, b int) bool {
	if b < len(t.toks) && t.toks[b-1].After == 0 {
		if t.mentionStart(b) >= 0 {
			return true
		}
		switch t.norm(b) {
		case "salt", "flour", "milk", "cheese", "yogurt", "yoghurt", "butter", "cream", "chocolate", "friends", "friend", "option", "oats", "pasta", "bread", "people", "days", "phase", "sister", "daughter", "crowd", "stock", "soy", "tamari", "wrap", "sausages", "neighbour", "neighbor", "cousin", "section", "aisle":
			return true
		}
	}
	for k := a; k < b; k++ {
		if m := t.mentionAt[k]; m >= 0 && t.mentions[m].head.Last > b {
			return true
		}
	}
	return false
}

// findClaims reads diet statements about this dish: not denied, not of
// another, not of a person.
func (t *talk) findClaims() {
	seen := map[string]bool{}
	for _, c := range claimWords {
		ws := strings.Fields(c.said)
		for i := 0; i+len(ws) <= len(t.toks); i++ {
			if !t.is(i, ws...) || seen[c.claim] {
				continue
			}
			s := t.sentence(i)
			if s.Last < i+len(ws) || t.claimDenied(s, i, i+len(ws), ws[0] == "no") || t.claimOfFood(i, i+len(ws)) {
				continue
			}
			if ws[0] == "no" && t.has(s.First, s.Last, "there's", "it's", "has", "with", "contains", "in it", "in this", "is") < 0 {
				continue
			}
			if ws[0] == "no" {
				continue // "no dairy" alone tells a habit; the "-free" form is the claim
			}
			seen[c.claim] = true
			from, to := s.First, s.Last
			if to-from > 24 {
				from, to = max(s.First, i-10), min(s.Last, i+len(ws)+8)
			}
			t.claims = append(t.claims, schema.Claim{Claim: c.claim, Said: []schema.Said{t.said(from, to)}})
			t.because("claim "+c.claim, from, to, "claim words")
		}
	}
}

// claimDenied reports whether the statement is denied, asked, conditional on
// another choice, or about a person.
func (t *talk) claimDenied(s *sentence, a, b int, no bool) bool {
	for k := a - 1; k >= s.First && k >= a-5; k-- {
		w := t.norm(k)
		switch w {
		case "not", "isn't", "ain't", "aren't", "wasn't", "never", "won't", "don't", "can't":
			return true
		case "he's", "she's", "who's", "they're", "i'm", "sister", "daughter", "friend", "cousin", "brother", "son", "niece", "nephew", "mother", "wife", "husband", "flatmate", "neighbour", "neighbor", "husband's", "wife's", "daughter's", "son's", "law's", "friend's", "sister's":
			return w != "i'm" || true
		case "make", "making":
			// "to make it vegan, use": another version
			return true
		}
	}
	if t.norm(a-1) == "a" && !no && t.norm(b) == "" {
		return true
	}
	if s.Last > b && strings.Contains(t.quoteWord(s.Last-1), "?") {
		return true
	}
	// "if you want it vegan", "for a vegan version"
	if i := t.has(s.First, a, "if you want", "if you need", "for a", "for the", "if you're", "if you", "to make"); i >= 0 && a-i <= 7 && t.toksBetweenMarks(i, a) {
		return true
	}
	return t.has(b, min(s.Last, b+3), "version", "option") >= 0
}

func (t *talk) toksBetweenMarks(a, b int) bool {
	for k := a; k < b; k++ {
		if t.toks[k].After != 0 {
			return false
		}
	}
	return true
}

// tastedRaw notes that raw dough or batter was tasted: a hazard of the talk
// itself, which no step shows.
func (t *talk) tastedRaw(d int) []schema.Caution {
	flour, egg := false, false
	for _, g := range t.ingredients {
		if g.dish != d {
			continue
		}
		if g.food.Kind == "flour" {
			flour = true
		}
		if g.food.Kind == "egg" {
			egg = true
		}
	}
	if !flour && !egg {
		return nil
	}
	baked := t.has(0, len(t.toks), "bake", "baking", "oven", "fry", "skillet", "griddle") >= 0
	if !baked {
		return nil
	}
	for k := range t.sents {
		s := &t.sents[k]
		if t.dishOf(s.First) != d || s.other {
			continue
		}
		i := t.has(s.First, s.Last, "nibble", "lick", "licking", "taste", "tasting", "sneak", "try a bit of the dough", "eat the dough", "raw dough", "raw egg", "raw flour", "raw batter", "cookie dough")
		if i < 0 {
			continue
		}
		// of the dough or batter: named here or in the sentence before
		ctx := max(0, k-1)
		dough := t.has(t.sents[ctx].First, s.Last, "dough", "batter", "mixture", "raw", "mix") >= 0
		if !dough && (t.norm(i) == "licking" || t.norm(i) == "lick") && t.has(i, s.Last, "spoon", "bowl", "beaters", "spatula", "whisk") >= 0 {
			// the spoon of what is not baked yet
			for j := k + 1; j < len(t.sents); j++ {
				if t.has(t.sents[j].First, t.sents[j].Last, "bake", "batter") >= 0 {
					dough = true
					break
				}
			}
		}
		if !dough || t.afterBaking(k, d) {
			continue
		}
		if (t.norm(i) == "taste" || t.norm(i) == "tasting") && t.has(s.First, s.Last, "dough", "batter", "raw") < 0 {
			continue
		}
		said := []schema.Said{t.said(s.First, min(s.Last, s.First+20))}
		var out []schema.Caution
		if egg {
			out = append(out, schema.Caution{Kind: "raw egg", Said: said})
		}
		if flour {
			out = append(out, schema.Caution{Kind: "raw flour", Said: said})
		}
		return out
	}
	return nil
}

// afterBaking reports whether the dish has been baked before sentence k.
func (t *talk) afterBaking(k, d int) bool {
	for _, st := range t.steps {
		if st.dish == d && contains(st.verbs, "bake") && st.from < t.sents[k].First {
			return true
		}
	}
	return false
}
