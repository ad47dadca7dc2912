package extract

import (
	"strings"

	"quern/internal/language"
	"quern/schema"
)

// claimWords are diet statements as spoken and as the document names them.
var claimWords = []struct{ said, claim string }{
	{"gluten free", "gluten-free"}, {"dairy free", "dairy-free"}, {"lactose free", "lactose-free"},
	{"nut free", "nut-free"}, {"egg free", "egg-free"}, {"eggless", "egg-free"}, {"sugar free", "sugar-free"}, {"vegan", "vegan"},
	{"vegetarian", "vegetarian"}, {"plant based", "vegan"}, {"low carb", "low-carb"}, {"keto", "keto"}, {"ketogenic", "keto"}, {"keto friendly", "keto"},
	{"low carbohydrate", "low-carb"}, {"low in carbs", "low-carb"}, {"meat free", "meat-free"}, {"meatless", "meat-free"}, {"fish free", "fish-free"}, {"milk free", "dairy-free"}, {"low in fat", "low-fat"}, {"low in sugar", "low-sugar"}, {"low sugar", "low-sugar"}, {"paleo", "paleo"}, {"halal", "halal"}, {"kosher", "kosher"}, {"alcohol free", "alcohol-free"}, {"non alcoholic", "alcohol-free"},
	{"low fat", "low-fat"}, {"fat free", "fat-free"}, {"high protein", "high-protein"}, {"soy free", "soy-free"}, {"wheat free", "wheat-free"}, {"grain free", "grain-free"},
	{"whole thirty", "whole30"}, {"low sodium", "low-sodium"}, {"oil free", "oil-free"}, {"high fibre", "high-fibre"}, {"high fiber", "high-fibre"}, {"diabetic friendly", "diabetic-friendly"},
}

// claimAbsence are classes of food whose absence is a diet statement: "there's
// no dairy in it". The absence of a single food is only what the recipe says.
var claimAbsence = []struct{ said, claim string }{
	{"gluten", "gluten-free"}, {"dairy", "dairy-free"}, {"lactose", "lactose-free"}, {"alcohol", "alcohol-free"}, {"animal products", "vegan"}, {"added sugar", "no added sugar"},
}

// claimEaters are people a dish is said to be for, and what that claims.
var claimEaters = []struct{ said, claim string }{
	{"vegans", "vegan"}, {"vegetarians", "vegetarian"}, {"coeliacs", "gluten-free"}, {"celiacs", "gluten-free"},
}

// findClaims reads diet statements about this dish: not denied, not of
// another, not of a person.
func (t *talk) findClaims() {
	seen := map[string]bool{}
	add := func(claim string, a, b int) {
		if seen[claim] {
			return
		}
		seen[claim] = true
		s := t.sentence(a)
		from, to := s.First, s.Last
		if to-from > 24 {
			from, to = max(s.First, a-10), min(s.Last, b+8)
		}
		t.claims = append(t.claims, schema.Claim{Claim: claim, Said: []schema.Said{t.said(from, to)}})
		t.because("claim "+claim, from, to, "claim words")
	}
	for _, c := range claimWords {
		words := strings.Count(c.said, " ") + 1
		for i := t.has(0, len(t.toks), c.said); i >= 0; i = t.has(i+1, len(t.toks), c.said) {
			s := t.sentence(i)
			b := i + words
			if s.Last >= b && !t.claimDenied(s, i, b) && !t.claimOfFood(s, i, b) {
				add(c.claim, i, b)
			}
		}
	}
	for _, c := range claimAbsence {
		words := strings.Count(c.said, " ") + 1
		for i := t.has(1, len(t.toks), c.said); i >= 0; i = t.has(i+1, len(t.toks), c.said) {
			if t.saysAbsent(i, i+words) {
				add(c.claim, i, i+words)
			}
		}
	}
	for _, c := range claimEaters {
		for i := t.has(0, len(t.toks), c.said); i >= 0; i = t.has(i+1, len(t.toks), c.said) {
			if t.saysFor(i) {
				add(c.claim, i, i+1)
			}
		}
	}
}

// saysAbsent reports whether the class named at [a, b) is said to be in none
// of the dish: "there's no dairy in it", "without any gluten".
func (t *talk) saysAbsent(a, b int) bool {
	s := t.sentence(a)
	if s.past || s.other || t.asked(s, a, b) || b < s.Last && t.toks[b-1].After == 0 && t.mentionStart(b) >= 0 {
		return false
	}
	switch t.norm(a - 1) {
	case "no", "zero":
		return t.has(max(s.First, a-4), a, "there's", "there is", "has", "it's got", "they've got", "contains", "with", "got") >= 0 && t.has(max(s.First, a-5), a, "i", "he", "she", "if") < 0
	case "any":
		return t.has(max(s.First, a-4), a-1, "without", "isn't", "doesn't have", "haven't", "hasn't") >= 0 && t.has(b, min(s.Last, b+4), "in", "anywhere", "at all") >= 0
	case "of":
		return t.norm(a-2) == "free"
	}
	return false
}

// saysFor reports whether the dish is said to be right for the people named at
// token i: "it's fine for vegans", "coeliacs can have this".
func (t *talk) saysFor(i int) bool {
	s := t.sentence(i)
	if s.past || s.other || t.asked(s, i, i+1) || t.has(s.First, s.Last, "if", "instead", "leave out", "swap", "not", "isn't", "can't", "won't", "version") >= 0 {
		return false
	}
	before := t.has(max(s.First, i-6), i, "suitable for", "fine for", "good for", "okay for", "works for", "right for", "all right for", "suits", "feed it to", "serve it to") >= 0
	after := t.has(i+1, min(s.Last, i+5), "can have", "can eat", "can enjoy", "are welcome") >= 0
	return before || after
}

// claimOfFood reports whether a claim word describes a product ("gluten-free
// flour") or a person, not the dish.
func (t *talk) claimOfFood(s *sentence, a, b int) bool {
	for k := a; k < b; k++ {
		if m := t.mentionAt[k]; m >= 0 && t.mentions[m].head.Last > b {
			return !t.headsTalk(s, a, int(m))
		}
	}
	if b >= s.Last || t.toks[b-1].After != 0 {
		return false
	}
	if t.has(max(s.First, a-4), a, "it's a", "this is a", "they're", "these are", "it is a", "that's a", "it's", "is a", "is") >= 0 && t.madeFood(b) {
		return false // "it's a vegan cake"
	}
	if m := t.mentionStart(b); m >= 0 {
		return !t.headsTalk(s, a, m) && !t.claimsAlone(a, m)
	}
	switch t.norm(b) {
	case "friends", "friend", "option", "people", "days", "phase", "sister", "daughter", "son", "crowd", "neighbour", "neighbor", "cousin", "section", "aisle", "shop", "shelf", "version", "kind", "ones", "one", "brand", "this", "week", "diet", "guests", "mate", "mates", "customers", "folks", "lot", "stuff", "substitute", "alternative", "alternatives", "kitchen", "channel", "restaurant", "cookbook", "cooking", "chef", "family", "household", "place", "cafe":
		return t.norm(b) != "this" || t.norm(b+1) == "year" || t.norm(b+1) == "week" || t.norm(b+1) == "month"
	case "for":
		return t.norm(b+1) == "years" || t.norm(b+1) == "ages"
	}
	return false
}

// plainFoods are kinds of food that no claim is made of by itself: nobody says "vegan
// garlic".
var plainFoods = words("vegetable spice herb fruit salt water")

// claimsAlone reports whether, in a talk without marks, the claim from token a on is
// said of the dish and mention m only begins what follows: "it's vegan garlic ginger".
func (t *talk) claimsAlone(a, m int) bool {
	return !t.punctuated && plainFoods[t.mentions[m].food.Kind] && t.has(max(0, a-3), a, "it's", "they're", "this is", "that's", "it is") >= 0
}

// headsTalk reports whether mention m, with a claim from token a on before it, is what
// the talk is headed by: "Sugar-free granola, everybody."
func (t *talk) headsTalk(s *sentence, a, m int) bool {
	if t.sentOf[a] > 1 || a-s.First > 2 || s.Len() > 8 || !t.verbless(s) {
		return false
	}
	x := &t.mentions[m]
	return len(x.amounts) == 0 && x.ingr == nil && !t.namedAgain(m)
}

// namedAgain reports whether the food of mention m goes in later.
func (t *talk) namedAgain(m int) bool {
	for k := m + 1; k < len(t.mentions); k++ {
		if o := &t.mentions[k]; o.food == t.mentions[m].food && o.ingr != nil {
			return true
		}
	}
	return false
}

// madeFood reports whether a dish or a mixture is named at token i.
func (t *talk) madeFood(i int) bool {
	for k := i; k < i+3 && k < len(t.toks); k++ {
		if t.madeAt[k] > 0 || t.mentionAt[k] >= 0 && t.mentions[t.mentionAt[k]].food.Dish || dishNoun[t.norm(k)] {
			return true
		}
		if t.toks[k].After != 0 {
			return false
		}
	}
	return false
}

// askers lead to a question told: "they asked me is it vegan".
var askers = []string{"asked", "asks", "asking", "ask", "wonder", "wondering", "whether", "wants to know", "want to know", "wanted to know"}

// asked reports whether the statement is only a question, and isn't answered
// with a yes at once.
func (t *talk) asked(s *sentence, a, b int) bool {
	order := false
	switch t.norm(a - 1) {
	case "it", "this", "that", "they", "these":
		w := t.norm(a - 2)
		order = w == "is" || w == "are" || w == "was"
	}
	question := order && (!t.punctuated || t.hasAny(max(s.First, a-10), a, asker) >= 0)
	if t.hasAny(max(s.First, a-8), a, asker) >= 0 && t.unbroken(t.hasAny(max(s.First, a-8), a, asker), a) {
		question = true
	}
	for k := b - 1; k < s.Last && !question; k++ {
		if t.toks[k].After&language.Question != 0 {
			question = true
		}
		if t.toks[k].After&language.Stop != 0 {
			break
		}
	}
	if !question {
		return false
	}
	for k := b; k < min(len(t.toks), b+6); k++ {
		switch t.norm(k) {
		case "yes", "yeah", "yep", "yup", "course", "sure", "absolutely":
			return false
		case "it", "they":
			if n := t.norm(k + 1); (n == "is" || n == "are") && t.norm(k+2) != "not" {
				return false
			}
		case "no", "not", "nope", "isn't":
			return true
		}
	}
	return true
}

// claimPerson are words that make the statement one about somebody.
var claimPerson = words("he's she's who's i'm you're we're sister daughter friend cousin brother son niece nephew mother wife husband flatmate roommate neighbour neighbor husband's wife's daughter's son's law's friend's sister's brother's cousin's niece's nephew's mother's he she everybody's went gone going turned been")

// claimDenied reports whether the statement is denied, asked, conditional on
// another choice, or about a person.
func (t *talk) claimDenied(s *sentence, a, b int) bool {
	for k := a - 1; k >= s.First && k >= a-6; k-- {
		w := t.norm(k)
		if w == "it's" || w == "they're" || w == "that's" || w == "it" || w == "they" || t.toks[k].After != 0 && t.has(k+1, a, "is", "are", "this") >= 0 {
			// a clause of its own
			if t.has(max(s.First, k-4), k, "don't think", "not sure", "not saying", "wouldn't call", "wouldn't say", "can't say", "never said", "didn't say", "make", "making", "keep", "if", "so that") >= 0 {
				return true
			}
			break
		}
		if claimPerson[w] {
			return true
		}
		switch w {
		case "not", "isn't", "ain't", "aren't", "wasn't", "never", "won't", "don't", "can't", "hardly", "isnt", "nor":
			return true
		case "make", "making", "makes":
			return true // "to make it vegan, use": another version
		}
	}
	switch t.norm(a - 1) {
	case "a":
		if t.norm(b) == "" {
			return true
		}
	case "the", "any", "our", "my", "have", "buy", "get", "prefer", "use", "using", "find", "bought":
		if !t.madeFood(b) {
			return true // a person or a packet
		}
	}
	if t.asked(s, a, b) || t.dinerOf(s, a, b) {
		return true
	}
	// "if you want it vegan", "for a vegan version"
	if i := t.has(s.First, a, "if you want", "if you need", "for a", "for the", "if you're", "if you", "if you've", "if you have", "if there's", "if anyone's", "if anybody's", "to make", "unless", "if they're", "if someone", "if somebody", "would be", "could be", "to be", "to keep"); i >= 0 && a-i <= 7 && t.unbroken(i, a) && t.has(i, a, "so it's", "so they're", "so this is", "and it's", "because it's", "which is") < 0 {
		return true
	}
	return t.has(b, min(s.Last, b+3), "version", "option") >= 0
}

// dinerOf reports whether the claim word names somebody who eats: "a real vegetarian at
// the table", but not "a real vegetarian stew".
func (t *talk) dinerOf(s *sentence, a, b int) bool {
	if w := t.norm(a); b != a+1 || w != "vegan" && w != "vegetarian" {
		return false
	}
	if t.norm(a-1) != "a" && (t.norm(a-2) != "a" || t.toks[a-2].After != 0) || b >= s.Last {
		return false
	}
	switch t.norm(b) {
	case "at", "in", "who", "coming", "round", "to":
		return true
	}
	return false
}

// unbroken reports whether no mark stands between tokens a and b.
func (t *talk) unbroken(a, b int) bool {
	for k := a; k < b; k++ {
		if t.toks[k].After != 0 {
			return false
		}
	}
	return true
}
