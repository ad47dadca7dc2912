package extract

import (
	"strings"

	"quern/internal/lexicon"
)

// A condition said right behind a food that goes in makes that food a matter of
// choice, whatever it is about: what is in the house, who comes, the season, a
// mood. Only what a condition isn't about can be listed: the method, a tool that is
// had, a food that lacks, and the food's own sort. Before the food, where a
// condition may be about any work that follows, it must be about somebody or
// about what there is.

// circumstanceWords is the longest condition that is read.
const circumstanceWords = 14

// conditionCues open a condition as "if" does.
var conditionCues = cues("if", "unless", "provided", "provided that", "providing", "assuming", "assuming that", "supposing", "as long as", "so long as", "only if")

// whenCues open one about what is had or felt, not about a moment of the work.
var whenCues = cues("when there's", "when there is", "when there are", "when i've", "when i", "when you've", "when you have", "when they're in season", "when it's in season", "when the mood", "whenever there's", "whenever i've", "whenever you've", "when we've", "when i'm", "when somebody", "when the garden", "when the shop", "when the market")

// conditionOpens gives the length of the words at token i that open a condition.
func (t *talk) conditionOpens(i int, s *sentence) int {
	if c := t.cueAt(conditionCues, i, s.Last); c > 0 && !t.tellsLength(i, s) {
		return c
	}
	if t.cueAt(whenCues, i, s.Last) > 0 {
		return 1
	}
	if (t.norm(i) == "when" || t.norm(i) == "whenever") && t.norm(i-1) != "for" {
		// "when the kids aren't eating"
		k := i + 1
		for k < s.Last && personally[t.norm(k)] {
			k++
		}
		if k > i+1 && k < s.Last && kin[strings.TrimSuffix(t.norm(k), "'s")] {
			return 1
		}
	}
	return 0
}

// tellsLength reports whether "as long as" at token i compares with a thing: "one root, as
// long as a hand".
func (t *talk) tellsLength(i int, s *sentence) bool {
	if !t.is(i, "as", "long", "as") || !determiners[t.norm(i+3)] && !articleLike[t.norm(i+3)] || i+4 >= s.Last {
		return false
	}
	return t.clauseEnd(i+5, s) || t.clauseEnd(i+6, s) && len(t.verbs(i+5)) == 0 || t.norm(i+5) == "and"
}

var (
	// occasions are what "if it's …" may name besides a state of the dish.
	occasions = words("season summer winter spring autumn christmas easter birthday sunday saturday friday cold hot warm wet night day party thing style taste liking street fancy holiday fine raining sunny special company around growing handy about there")
	// coming tell that somebody eats along.
	coming = words("coming visiting eating around over calling staying watching present home joining here dropping")
	// pronounObjects end a condition about having what is put in: "if you've boiled some".
	pronounObjects = words("any some it them one that those you")
	// stages are what a cook waits for, and never a choice.
	stages = words("ready done cooked cool cooled hot boiling melted finished softened smooth combined thick set")
)

// circumstance reads a condition whose words begin at token b, in talk with marks,
// and gives where it ends, 0 where it is about the method or the dish.
func (t *talk) circumstance(s *sentence, b int) int {
	e := b + 1
	for e < s.Last && e < b+circumstanceWords && t.toks[e-1].After == 0 && !t.mainBegins(e) {
		e++
	}
	if b >= s.Last || e < s.Last && t.toks[e-1].After == 0 && !t.mainBegins(e) || !t.concerns(b, e) {
		return 0
	}
	for i := b; i < e; i++ {
		w := t.norm(i)
		switch {
		case plannings[w] && !(w == "left" && (t.norm(b) == "there's" || pronounObjects[t.norm(e-1)])), t.cueAt(lacking, i, e) > 0, t.exactAt(i):
			return 0
		case t.toolAt[i] >= 0 && t.norm(e-1) != "left" && !t.holdsThem(i) && !t.placeWord(i):
			return 0
		case i > b && subjects[w] && t.actionAt[i-1] < 0 && !relatives[t.norm(i-1)] && t.finite(i+1):
			return 0 // "if you rush it tastes raw": what comes of it
		case w == "to" && t.baseVerb(i+1) != nil && t.mentionAt[i+1] < 0:
			return 0 // "if you want to freeze them"
		case t.actionAt[i] >= 0 && !(e-i <= 3 && pronounObjects[t.norm(e-1)]) && !coming[w]:
			return 0
		}
	}
	return e
}

// ofMeasuring are words for how a cook measures, or follows.
var ofMeasuring = words("grams ounces cups metric imperial scales weigh weight weights fahrenheit celsius measuring measure")

// mainBegins reports whether a clause in which the cook puts something in begins at
// token i: "if my father's here I put in a parsnip".
func (t *talk) mainBegins(i int) bool {
	if w := t.norm(i); w != "i" && w != "we" && w != "i'll" && w != "we'll" && w != "you" || t.norm(i-1) == "if" {
		return false
	}
	a := t.actionAt[min(i+1, len(t.toks)-1)]
	return a >= 0 && t.adding(int(a)) && t.actions[a].mood != negative
}

// exactAt reports whether token i belongs to a time, a temperature or a figure.
func (t *talk) exactAt(i int) bool {
	q := t.quantityAt[i]
	if q < 0 {
		return false
	}
	switch x := &t.quantities[q]; x.kind {
	case measure, count:
		return !x.article
	case vague, share:
		return false
	}
	return true
}

// placeWord reports whether the tool at token i is only where something lies: "if
// there's one in the fridge".
func (t *talk) placeWord(i int) bool {
	for j := i - 1; j >= i-3; j-- {
		switch t.norm(j) {
		case "in", "on", "at", "inside", "beside":
			return true
		}
	}
	return false
}

// relatives open a clause inside of a condition.
var relatives = words("that who which what where so")

// concerns reports whether a condition over tokens [b, e) is about somebody or about
// what there is, and not about how the dish turned out.
func (t *talk) concerns(b, e int) bool {
	switch w := t.norm(b); w {
	case "it", "it's", "it'll", "that", "that's", "this", "they", "they're", "things", "everything":
		for i := b + 1; i < e; i++ {
			if occasions[t.norm(i)] && !stages[t.norm(i)] {
				return w != "it'll" && t.norm(i-1) != "too" && t.norm(i-1) != "still"
			}
		}
		return false
	case "needed", "need", "necessary", "not", "so", "using", "only", "all":
		return false
	case "you", "i", "we", "you're", "i'm", "we're", "you'll":
		if stages[t.norm(e-1)] {
			return false
		}
	case "the", "your", "my", "a", "an":
		if b+1 < e && (t.mentionAt[b+1] >= 0 || t.madeAt[b+1] > 0 || t.toolAt[b+1] >= 0) {
			return false // "if the sauce is thick": see depends
		}
		for i := b + 1; i < e; i++ {
			if dishSigns[t.norm(i)] {
				return false
			}
		}
	}
	return true
}

// dishSigns are words for how the dish comes out.
var dishSigns = words("edges edge middle centre center top bottom sides side colour color smell taste surface skin heat oven flame pan mixture bits crust inside outside thing lot rest texture filling topping base mix dish first second recipe other")

// aboutSomebody reports whether a condition over tokens [b, e) that comes before the
// food is about those who eat, or about what is there.
func (t *talk) aboutSomebody(b, e int) bool {
	w := t.norm(b)
	if kin[w] || kin[t.norm(b+1)] || choosers[w] && !youWe[w] || w == "there's" || w == "there" || w == "it's" || w == "you" || w == "you've" || w == "you're" {
		return true
	}
	for i := b; i < e; i++ {
		if coming[t.norm(i)] {
			return true
		}
	}
	return false
}

// ofItsSort reports whether the condition at token i is only about the sort of the
// food or about how it is cut: "curry powder, a Trinidad one if you can find it",
// "butter, unsalted if you have it".
func (t *talk) ofItsSort(m *mention, i int) bool {
	if i <= m.Last || t.toks[i-1].After != 0 {
		return false
	}
	from := i
	for from > m.Last && t.toks[from-1].After == 0 {
		from--
	}
	if from < i && (t.norm(i-1) == "one" || t.norm(i-1) == "ones" || t.norm(i-1) == "kind" || t.norm(i-1) == "sort" || t.norm(i-1) == "stuff") {
		return true
	}
	if t.toks[from-1].After == 0 || from < m.Last {
		return false
	}
	if w := t.norm(from); w == "the" || w == "a" || w == "an" {
		return t.mentionAt[from+1] < 0 && t.quantityAt[from] < 0 && t.norm(from+1) != "bit" && t.norm(from+1) != "few"
	}
	for j := from; j < i; j++ {
		if t.modifier(j) == lexicon.NoClass && !articleLike[t.norm(j)] && t.norm(j) != "and" {
			return false
		}
	}
	return true
}

// participle reports whether work that was done is told at token e, behind "you've":
// "you've grated it", but not "you've boiled some".
func (t *talk) participle(e int) bool {
	if e >= len(t.toks) || t.toks[e-1].After != 0 || t.mentionAt[e] >= 0 {
		return false
	}
	for _, f := range t.verbs(e) {
		if f.Form == lexicon.Past {
			w := t.norm(e + 1)
			return w != "some" && w != "any" && w != "one"
		}
	}
	return false
}

// choosesBetween reports whether another food stands behind "or" between m and the
// condition at token i, which then chooses between the two.
func (t *talk) choosesBetween(m *mention, i int) bool {
	for _, k := range t.mentionsIn(m.Last, i) {
		if t.has(m.Last, t.mentions[k].First, "or") >= 0 {
			return true
		}
	}
	return false
}
