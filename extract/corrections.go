package extract

import (
	"math"
	"strings"

	"quern/internal/language"
)

// slips are the words with which a speaker takes back what was just said.
var slips = []string{"sorry", "no wait", "wait no", "i mean", "make that", "scratch that", "correction", "no sorry", "i tell a lie", "tell a lie", "my mistake",
	"excuse me", "hang on", "hold on", "i meant", "wait", "or rather", "not that", "oops", "whoops", "no no", "strike that", "beg your pardon", "pardon", "let me check", "no hang on", "actually", "i lie", "no i lie", "i'm lying", "what am i saying", "listen to me", "silly me", "what am i like",
	"what am i on about", "i'm wrong", "that's wrong", "that's not right", "rather", "did i say", "i said", "or is it", "have i said"}

// A slip is one of these phrases; its place in the list decides between two
// that begin at the same word.
type slip struct {
	phrase string
	words  []string
}

var slipsByWord = func() map[string][]slip {
	by := make(map[string][]slip)
	for _, c := range slips {
		ws := language.Norms(c)
		by[ws[0]] = append(by[ws[0]], slip{c, ws})
	}
	return by
}()

// markCorrections voids amounts, times and temperatures that the speaker took
// back at once: "two teaspoons, sorry, tablespoons".
func (t *talk) markCorrections() {
	t.bareMinutes()
	for k := range t.quantities {
		t.spoonNamed(&t.quantities[k])
	}
	for k := range t.quantities {
		q := &t.quantities[k]
		if q.void || q.kind == vague || q.kind == share {
			continue
		}
		at, n := t.slipAfter(q.Last)
		if n == 0 || t.quantityBetween(k, q.Last, at) {
			continue
		}
		if t.correct(k, at+n); t.quantities[k].righted > 0 {
			for i := q.Last; i < at; i++ {
				if m := t.quantityAt[i]; m >= 0 && t.quantities[m].kind == count {
					t.quantities[m].void = true // the number doubted
				}
			}
		}
	}
	t.brokenOff()
}

// spoonReach is how many words behind a spoon of no size its size can be told.
const spoonReach = 12

// spoonNamed measures spoons whose size is told afterwards, in a clause of its own: "two
// spoons of melted ghee. Tablespoons, okay."
func (t *talk) spoonNamed(q *quantity) {
	if q.kind != vague || !strings.Contains(q.words, "spoon") {
		return
	}
	num, n := language.ReadNumber(t.toks, q.First)
	if n == 0 || fractionWords[t.norm(q.First-1)] > 0 {
		return
	}
	for i := q.Last; i < min(len(t.toks), q.Last+spoonReach); i++ {
		if t.quantityAt[i] >= 0 && i > q.Last && t.quantities[t.quantityAt[i]].kind != count {
			if w := t.norm(i); !t.beginsClause(i) && !t.is(i-2, "i", "mean") || !strings.HasPrefix(w, "table") && !strings.HasPrefix(w, "tea") {
				return // another amount
			}
		}
		if u := spoonSorts[t.norm(i+1)]; u != "" && t.is(i, "the") && t.beginsClause(i) && (t.is(i+2, "one") || t.is(i+2, "ones") || t.is(i+2, "kind")) {
			q.kind, q.min, q.max, q.unit, q.ukind = measure, num.Min, num.Max, u, "volume"
			return // "one spoon, the tea one"
		}
		u, m := t.lex.UnitAt(t.ids, i)
		if m == 0 || u.Unit != "tbsp" && u.Unit != "tsp" || !t.beginsClause(i) && !t.is(i-2, "i", "mean") {
			continue
		}
		if s := t.sentence(i); !t.clauseEnd(i+m, s) && t.cueAt(spoonTail, i+m, s.Last) == 0 {
			continue
		}
		q.kind, q.min, q.max, q.unit, q.ukind = measure, num.Min, num.Max, u.Unit, u.Kind
		return
	}
}

// spoonSorts are what spoons of a known size are called beside their name.
var spoonSorts = map[string]string{"tea": "tsp", "table": "tbsp"}

// spoonTail may follow the size of a spoon.
var spoonTail = cues("i mean", "that is", "of course", "not", "yes", "obviously", "okay", "the", "if")

// bareMinutes reads the minutes of an order that goes on for a number of them without
// saying so: "bake another twenty to twenty-five, till it's dark".
func (t *talk) bareMinutes() {
	for k := range t.quantities {
		q := &t.quantities[k]
		if k > 0 && t.otherSetting(q, &t.quantities[k-1]) {
			q.kind, q.unit, q.ukind = duration, t.quantities[k-1].unit, "time"
			continue
		}
		if q.kind != count || q.article || q.First == 0 || q.min < 2 || q.max > 90 || q.food >= 0 {
			continue
		}
		if t.orderedFor(q) {
			q.kind, q.unit, q.ukind = duration, "minute", "time"
			continue
		}
		if !q.more || t.norm(q.First) != "another" && t.norm(q.First-1) != "another" {
			continue
		}
		i := q.First - 1
		for i >= 0 && (t.norm(i) == "another" || t.norm(i) == "for" || t.norm(i) == "about" || t.norm(i) == "it" || t.norm(i) == "them" || t.norm(i) == "that") && t.joined(i) {
			i--
		}
		v := t.baseVerb(max(i, 0))
		if i < 0 || t.sentOf[i] != t.sentOf[q.First] || v == nil || v.Kind != "heat" && v.Kind != "rest" && v.Verb != "give" {
			continue
		}
		switch w := t.norm(q.Last); {
		case q.Last >= len(t.toks), t.toks[q.Last-1].After != 0, w == "till", w == "until", w == "or", w == "at":
			q.kind, q.unit, q.ukind = duration, "minute", "time"
		}
	}
}

var (
	// beforeMinutes may stand between an order and how many minutes it takes.
	beforeMinutes = words("for about around maybe roughly it them that there sitting standing lying in on the oven fridge pan heat low medium high")
	// roundMinutes are what cooks count minutes in, besides fives.
	roundMinutes = map[float64]bool{7: true, 8: true, 12: true, 18: true}
)

// orderedFor reports whether a bare number ends an order to cook something or to let it be,
// with what is cooked: "rest it for twenty", "leave it sitting there fifteen".
func (t *talk) orderedFor(q *quantity) bool {
	round := func(x float64) bool { return x >= 5 && (math.Mod(x, 5) == 0 || roundMinutes[x]) }
	if !round(q.min) || !round(q.max) || q.Last < len(t.toks) && t.toks[q.Last-1].After == 0 && !untils[t.norm(q.Last)] {
		return false
	}
	object := false
	for i := q.First - 1; i >= 0 && i > q.First-8 && t.sentOf[i] == t.sentOf[q.First] && t.toks[i].After == 0; i-- {
		if a := t.actionAt[i]; a >= 0 && !beforeMinutes[t.norm(i)] {
			x := &t.actions[a]
			return object && x.mood == imperative && (x.verb.Kind == "heat" || x.verb.Kind == "rest" || x.base == "leave")
		}
		w := t.norm(i)
		object = object || objectLike[w]
		if !beforeMinutes[w] {
			return object && w == "leave" && !subjects[t.norm(i-1)] && !strings.HasSuffix(t.norm(i-1), "n't") && t.norm(i-1) != "never" && t.norm(i-1) != "not"
		}
	}
	return false
}

// settings are the heats of a cooker that has no others.
var settings = words("low high medium auto")

// otherSetting reports whether a bare number is the time at the other setting: "eight
// hours on low, or on high for four", "four on high or eight on low".
func (t *talk) otherSetting(q, before *quantity) bool {
	if q.kind != count || q.article || before.kind != duration || before.unit != "hour" && before.unit != "minute" || q.min < 1 || q.max > 90 ||
		q.First-before.Last > 8 || t.sentOf[q.First] != t.sentOf[before.First] || t.mentionPossible(q.Last) > 0 {
		return false
	}
	set := func(a, b int) bool {
		for i := a; i < b && i < len(t.toks); i++ {
			if settings[t.norm(i)] {
				return true
			}
		}
		return false
	}
	return t.has(before.Last, q.First, "or") >= 0 && (set(before.Last, q.First) && (q.Last >= t.sentence(q.First).Last || t.toks[q.Last-1].After != 0 || t.norm(q.Last) == "if") ||
		t.norm(q.Last) == "on" && set(q.Last+1, q.Last+2))
}

// quantityBetween reports whether another quantity stands in [a, b): a slip
// takes back the last one said.
func (t *talk) quantityBetween(k, a, b int) bool {
	for i := a; i < b; i++ {
		if m := t.quantityAt[i]; m >= 0 && int(m) != k && t.quantities[m].kind != vague && !t.doubts(&t.quantities[m], &t.quantities[k]) {
			return true
		}
	}
	return false
}

// doubts reports whether a number only says that of another quantity again, in doubt:
// "two cups of stock. Two? No. Three."
func (t *talk) doubts(q, of *quantity) bool {
	return q.kind == count && !q.article && q.min == of.min && q.max == of.max && t.countStands(q)
}

// slipWithin is how many tokens after an amount what takes it back can begin.
const slipWithin = 16

// slipAfter finds a slip cue within a few words of i, in this sentence or at
// the start of the next.
func (t *talk) slipAfter(i int) (int, int) {
	limit := min(len(t.toks), i+slipWithin)
	for j := i; j < limit; j++ {
		if j >= i+7 && (j != t.sentence(j).First || !t.punctuated) {
			continue // after a remark only a sentence of its own takes back
		}
		if !t.in(aSlip, j) {
			continue
		}
		for _, c := range slipsByWord[t.norm(j)] {
			if t.is(j, c.words...) {
				if c.phrase == "actually" && t.toks[max(0, j-1)].After == 0 && t.punctuated {
					continue
				}
				if c.phrase == "i said" && t.toks[t.sentence(j).Last-1].After&language.Question == 0 {
					continue
				}
				// a bare "wait" needs marks or "no" around it
				if c.phrase == "wait" && t.toks[j].After == 0 && t.punctuated {
					continue
				}
				return j, len(c.words)
			}
		}
		if t.norm(j) == "no" && (t.toks[j].After != 0 || !t.punctuated && t.takesBackAt(j+1)) && j > i-1 {
			return j, 1
		}
	}
	return 0, 0
}

// takesBackAt reports whether the word after an unmarked "no" lets it take something
// back, which "no pits" and "no cups" do not.
func (t *talk) takesBackAt(i int) bool {
	switch t.norm(i) {
	case "wait", "sorry", "hang", "hold", "it's", "its", "make", "i", "i'm", "that's", "what", "tell", "not", "let", "actually", "my", "scratch", "":
		return true
	}
	return t.quantityBegins(i) && t.quantities[t.quantityAt[i]].kind != vague
}

// correct looks for what replaces quantity k after token j.
func (t *talk) correct(k, j int) {
	q := &t.quantities[k]
	near := min(len(t.toks), j+9)
	limit := min(len(t.toks), j+wrongReach)
	for i := j; i < limit; i++ {
		if m := t.quantityAt[i]; m >= 0 && int(m) != k {
			r := &t.quantities[m]
			if r.First < i && i != j {
				continue
			}
			if r.min == q.min && r.max == q.max && !r.of && (r.kind == q.kind && r.unit == q.unit || r.kind == count && !r.article) {
				r.void = r.kind == count && q.kind == measure
				limit = min(len(t.toks), max(limit, r.Last+wrongReach), j+3*wrongReach)
				near = max(near, limit)
				continue // "one cup is when I cook for church", "a hundred is for the big bowl"
			}
			if r.kind == count && t.doubled(int(m)) {
				r.void = true
				continue // "two two tablespoons"
			}
			if r.kind == count && t.norm(r.First-1) == "for" {
				continue // "a pint's what you'd do for two"
			}
			if (i >= near || j > q.Last+7) && (!t.toldAlone(r) || q.kind == count || t.ofAnother(q, r)) {
				return
			}
			if q.kind == measure && (r.kind == count || r.kind == money && r.min < 4*q.min && q.min < 4*r.min) {
				// "one teaspoon, no, two", "two hundred grams, sorry, two fifty": the unit stays
				if r.min != q.min && t.countStands(r) {
					r.kind, r.unit, r.ukind = measure, q.unit, q.ukind
					t.takeBack(k, int(m))
				}
				return
			}
			if r.kind == q.kind && (r.min != q.min || r.max != q.max || r.unit != q.unit) && t.sameTopic(q, r) {
				t.takeBack(k, int(m))
			}
			return
		}
		// "sorry, tablespoons": a unit alone
		if i >= near {
			continue
		}
		if u, n := t.lex.UnitAt(t.ids, i); n > 0 && q.kind == measure && i <= j+2 && u.Unit != q.unit && (u.Kind == q.ukind || q.ukind == "volume" && u.Kind == "mass" || u.Kind == "volume" && q.ukind == "mass") {
			r := *q
			r.unit, r.ukind = u.Unit, u.Kind
			r.Span = language.Span{First: i, Last: i + n}
			r.before = q.First
			if t.norm(i+n) == "of" {
				r.of = true
				r.Last++
			}
			r.food = -1
			t.quantities = append(t.quantities, r)
			t.takeBack(k, len(t.quantities)-1)
			for x := r.First; x < r.Last; x++ {
				t.quantityAt[x] = int32(len(t.quantities) - 1)
			}
			return
		}
	}
}

// wrongReach is how many tokens after what takes back an amount, or after the wrong one
// said again, the right one can come.
const wrongReach = 16

// ofAnother reports whether amount r measures a food that wasn't named since amount q.
func (t *talk) ofAnother(q, r *quantity) bool {
	m := t.foodAfter(r)
	if m < 0 {
		return false
	}
	for k := m - 1; k >= 0 && t.mentions[k].Last > q.First-8; k-- {
		if related(t.mentions[k].food, t.mentions[m].food) > 0 {
			return false
		}
	}
	return true
}

// toldAlone reports whether an amount opens its sentence or is told with "it's": it can
// put right what was said a while before.
func (t *talk) toldAlone(q *quantity) bool {
	if q.First == t.sentence(q.First).First {
		return true
	}
	switch t.norm(q.First - 1) {
	case "it's", "is", "that's", "say", "make", "need", "want":
		return true
	}
	return false
}

// doubled reports whether a bare number is said at once again with its measure.
func (t *talk) doubled(k int) bool {
	q := &t.quantities[k]
	if q.Last >= len(t.toks) || t.toks[q.Last-1].After != 0 || t.quantityAt[q.Last] < 0 {
		return false
	}
	r := &t.quantities[t.quantityAt[q.Last]]
	return r.kind == measure && r.min == q.min && r.max == q.max
}

// takeBack voids quantity k, in whose place quantity n stands.
func (t *talk) takeBack(k, n int) {
	t.quantities[k].void, t.quantities[k].righted = true, n+1
	t.quantities[n].rights = k + 1
}

// countStands reports whether a bare number stands by itself, not before
// another thing.
func (t *talk) countStands(r *quantity) bool {
	return r.Last >= len(t.toks) || t.toks[r.Last-1].After != 0 || t.norm(r.Last) == "of"
}

// sameTopic reports whether a correction can speak of the same food: none
// other stands between.
func (t *talk) sameTopic(q, r *quantity) bool {
	seen := 0
	for i := q.Last; i < r.First; i++ {
		if m := t.mentionAt[i]; m >= 0 && t.mentions[m].head.First == i {
			seen++
		}
	}
	return seen <= 1
}

// brokenOff voids an amount that was cut off ("one tea—") or contradicted by
// the other speaker at once and then settled ("One teaspoon of salt. One and
// a half, Lonnie. ... Okay, one and a half teaspoons").
func (t *talk) brokenOff() {
	for k := range t.quantities {
		q := &t.quantities[k]
		if q.kind != measure || q.void {
			continue
		}
		for m := k + 1; m < len(t.quantities) && m <= k+4; m++ {
			r := &t.quantities[m]
			if r.First-q.Last > 32 {
				break
			}
			if r.kind == measure && r.unit == q.unit && (r.min != q.min || r.max != q.max) && !r.of && t.okayBefore(r.First) && t.onlyTopic(q, r) {
				q.void = true
				r.definite = false
				break
			}
		}
	}
}

func (t *talk) okayBefore(i int) bool {
	for k := i - 1; k >= 0 && k >= i-3; k-- {
		switch t.norm(k) {
		case "okay", "ok", "fine", "right", "alright", "yes":
			return true
		}
	}
	return false
}

// onlyTopic reports whether at most one food is named from q to r.
func (t *talk) onlyTopic(q, r *quantity) bool {
	name := ""
	for i := q.First; i < r.First; i++ {
		if m := t.mentionAt[i]; m >= 0 {
			if name != "" && t.mentions[m].food.Name != name {
				return false
			}
			name = t.mentions[m].food.Name
		}
	}
	return true
}
