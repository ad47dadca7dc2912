package marking

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// kind is what a word is taken for, whatever word it is.
type kind uint8

// The kinds; 0 stands where no word is. Behind the last come those of joining words, one
// each, and those of the endings.
const (
	outside kind = iota
	other
	pronoun
	determiner
	preposition
	auxiliary
	order     // base form of a verb that is mostly used for cooking
	everyday  // base form of an everyday verb
	verbNoun  // base form that is also a noun
	weakNoun  // base form of an everyday verb that is also a noun
	third     // "boils"
	ing       // "boiling"
	past      // "boiled"
	number    // of any words
	measure   // unit behind a number
	timeUnit  // unit of time behind a number
	degrees   // unit of temperature behind a number
	lengthOf  // unit of length behind a number
	food      // last word of a food's name
	foodBegin // word before it
	foodVerb  // a food's name that can be an order: "salt"
	tool
	toolVerb
	mixture   // "batter"
	component // "sauce"
	nameWord  // modifier that is part of a name
	prepWord  // "chopped"
	sizeWord
	dropWord
	firstJoining
)

// predicate reports whether a clause can have it as its verb.
func (k kind) predicate() bool { return k >= auxiliary && k <= third }

var (
	pronouns     = set("i you we he she they it")
	determiners  = set("the a an my your his her our their this that these those some any every each all both no another")
	prepositions = set("in into on onto at for with from by to of over off under about between around through up down out as like without after before")
	joining      = strings.Fields("and or but so because if when until till while once then than where which who what how")
	endings      = []string{"ing", "ed", "ly", "'s", "n't", "'ll", "'ve", "'re", "'d", "est", "er", "y", "s"}
)

func set(s string) map[string]bool {
	m := map[string]bool{}
	for w := range strings.FieldsSeq(s) {
		m[w] = true
	}
	return m
}

// single are the kinds of words that need no table of the lexicon.
var single = func() map[string]kind {
	m := map[string]kind{}
	for k, w := range joining {
		m[w] = firstJoining + kind(k)
	}
	for w := range language.Finites {
		m[w] = auxiliary
	}
	for w := range prepositions {
		m[w] = preposition
	}
	for w := range determiners {
		m[w] = determiner
	}
	for w := range pronouns {
		m[w] = pronoun
	}
	return m
}()

// kinds tells what each token is.
func kinds(lex *lexicon.Lexicon, toks []language.Token, ids []int32, out []kind) {
	words := map[string]kind{}
	for i := range toks {
		k, ok := words[toks[i].Norm]
		if !ok {
			k = kindOf(lex, toks[i].Norm)
			words[toks[i].Norm] = k
		}
		out[i] = k
	}
	for i := 0; i < len(toks); {
		i += named(lex, toks, ids, i, out)
	}
}

// named sets the kind of what is named at i in one or more words, and gives how many.
func named(lex *lexicon.Lexicon, toks []language.Token, ids []int32, i int, out []kind) int {
	fill := func(n int, k kind) int {
		n = min(n, len(toks)-i)
		for j := i; j < i+n; j++ {
			out[j] = k
		}
		return n
	}
	w := toks[i].Norm
	if w != "a" && w != "an" && !toks[i].Numberless() {
		if _, n := language.ReadNumber(toks, i); n > 0 {
			return fill(n, number)
		}
	}
	if i > 0 && (out[i-1] == number || toks[i-1].Norm == "a" || toks[i-1].Norm == "an" || toks[i-1].Norm == "half") {
		if u, n := lex.UnitAt(ids, i); n > 0 {
			return fill(n, unitKind(u.Kind))
		}
	}
	if _, n := lex.FoodAt(ids, i, nil); n > 0 {
		verb := n == 1 && isBase(lex, w)
		fill(n, foodBegin)
		last := min(i+n, len(toks)) - 1
		out[last] = food
		if verb {
			out[last] = foodVerb
		}
		return n
	}
	if _, n := lex.ToolAt(ids, i, nil); n > 0 {
		if n == 1 && isBase(lex, w) {
			return fill(n, toolVerb)
		}
		return fill(n, tool)
	}
	if m, n := lex.MadeAt(ids, i); n > 0 {
		if m.Part {
			return fill(n, component)
		}
		return fill(n, mixture)
	}
	return 1
}

func unitKind(of string) kind {
	switch of {
	case "time":
		return timeUnit
	case "temperature":
		return degrees
	case "length":
		return lengthOf
	}
	return measure
}

func isBase(lex *lexicon.Lexicon, w string) bool {
	for _, f := range lex.Verbs(w) {
		if f.Form == lexicon.Base {
			return true
		}
	}
	return false
}

// kindOf gives the kind of a word by itself.
func kindOf(lex *lexicon.Lexicon, w string) kind {
	if k, ok := single[w]; ok {
		return k
	}
	if forms := lex.Verbs(w); len(forms) > 0 {
		return verbKind(forms[0])
	}
	switch lex.Modifiers[w] {
	case lexicon.NameWord:
		return nameWord
	case lexicon.PrepWord:
		return prepWord
	case lexicon.SizeWord:
		return sizeWord
	case lexicon.DropWord:
		return dropWord
	}
	for k, s := range endings {
		if len(w) > len(s)+1 && strings.HasSuffix(w, s) {
			return firstJoining + kind(len(joining)+k)
		}
	}
	return other
}

func verbKind(f lexicon.VerbForm) kind {
	switch f.Form {
	case lexicon.Third:
		return third
	case lexicon.Ing:
		return ing
	case lexicon.Past:
		return past
	}
	switch {
	case f.Action.Weak && f.Action.Noun:
		return weakNoun
	case f.Action.Weak:
		return everyday
	case f.Action.Noun:
		return verbNoun
	}
	return order
}
