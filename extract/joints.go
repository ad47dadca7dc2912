package extract

import (
	"strings"

	"quern/internal/lexicon"
)

// Talk without marks runs on: what is told of a food, the next remark and the opening
// of the next sentence stand behind an order with nothing between. Where one part of
// an order is closed (its object, a place, a time) and the next word leads from no part
// to another, there is a joint. What tells something about the work goes behind a
// comma, as a writer sets it; what tells nothing is another sentence's and is left out.

// joint is what stands between a closed part of an order and the word after it.
type joint uint8

const (
	joinedOn joint = iota // one goes on with the other
	pause                 // a comma
	broken                // another sentence begins, or a remark: left out where it tells no work
	severed               // something is told of the food: left out
)

// joints sets commas where talk without marks has a joint, and leaves out what is
// behind the order.
func (e *edit) joints() {
	t := e.t
	if !t.loose {
		return
	}
	clause := false // in a clause that a word like "until" or "if" opened
	for i := e.from + 1; i < e.to; i++ {
		if !e.left(i) {
			continue
		}
		if t.written(i-1) != 0 {
			clause = false
		}
		if openedBy[t.norm(i)] && t.norm(i) != "than" && t.norm(i) != "as" {
			clause = true
		}
		if !e.left(i-1) || t.written(i-1) != 0 {
			continue
		}
		switch e.jointAt(i, clause) {
		case pause:
			e.pause(i - 1)
		case broken:
			if t.tellsWork(i, e.to) {
				e.pause(i - 1)
				continue
			}
			e.drop(i, e.to)
			return
		case severed:
			e.drop(i, e.to)
			return
		}
	}
}

// pause sets a comma behind token i.
func (e *edit) pause(i int) {
	if e.commas == nil {
		e.commas = map[int]bool{}
	}
	e.commas[i] = true
}

// tellsWork reports whether tokens [a, b) tell of a food that goes in, of a figure, of
// the heat or of a sign that the work is done.
func (t *talk) tellsWork(a, b int) bool {
	if t.hasQuantity(a, b) {
		return true
	}
	for i := a; i < b; i++ {
		if _, n := t.heatAt(i); n > 0 || untils[t.norm(i)] {
			return true
		}
	}
	for _, m := range t.mentionsIn(a, b) {
		if x := &t.mentions[m]; x.ingr != nil && !x.negated && !x.compared && x.subst < 0 {
			return true
		}
	}
	return false
}

var (
	// mannerWords may follow a closed part: they say how, where or how often.
	mannerWords = words("again already first last too together apart separately twice once halfway straight back forth now later afterwards overnight well good properly right flat flush upside sideways lengthways lengthwise widthways crossways skin cut seam breast fat face only alone more less longer extra ahead left early total tops max maximum minimum either each per every a an the both all and or but plus nor this that just there still")
	// linking words lead from a part of an order to the next.
	linking = words("in into on onto over with without of for from to by at as like than under off about between around through across along after before until till til 'til when whenever once if while where so because since unless against inside outside toward towards above below beside beneath behind near past up down out away aside using per via that which who then")
	// howCut stand before a word that says how a food is prepared.
	howCut = words("finely thinly coarsely roughly freshly lightly well thickly very nicely really")
	// exclaimed open words that are said to nobody.
	exclaimed = words("lord god goodness gosh voila voilà bless oops whoops crikey blimey")
	// speechLeads may stand before a verb of the talk that goes on with them.
	speechLeads = words("to and or you i we they he she don't never can will would could should let's please just when if as until till so that the a my your then")
	// lets are verbs before what they let be done.
	lets = words("let leave make help watch")
	// sided are what lies this way or that, lying how: "lid on", "skin side down".
	lying = words("on off up down half side")
	sided = words("skin seam cut breast fat lid face cover belly flat rounded")
)

// noneOf follow "no" in what is said to calm the viewer.
var noneOf = words("need rush shame point sense worries problem problems fuss drama")

// jointAt tells how the word at i goes on with the one before. clause tells that a word
// like "until" opened what it stands in.
func (e *edit) jointAt(i int, clause bool) joint {
	t := e.t
	w, next := t.norm(i), t.norm(i+1)
	food, thing, timed, it := t.foodEnds(i-1), t.toolEnds(i-1), t.figureEnds(i-1), e.objectEnds(i-1)
	closed := food || thing || timed || it
	if !speechLeads[t.norm(i-1)] && (exclaimed[w] && t.mentionAt[i] < 0 || noWork[w] && t.actionAt[i] < 0 && t.mentionAt[i] < 0 && !clause && (opensObject[next] || openedBy[next])) {
		return severed // "crack some pepper on | eat it in bed", "till they're golden | lord have mercy"
	}
	if i-1 == e.from && lookless[w] && (t.norm(i-1) == "it" || t.norm(i-1) == "them") {
		return severed // "taste it | needs salt"
	}
	if !closed && !t.qualifies(i-1) {
		return joinedOn
	}
	if w == "no" && noneOf[next] || w == "mind" && (next == "your" || next == "the" || next == "you") && t.actionAt[i] < 0 {
		return severed // "fairly fine | no need to be fussy"
	}
	if (w == "not" || w == "no") && next != "longer" && !(clause && !closed) {
		return pause
	}
	if !closed {
		return joinedOn
	}
	if k := t.quantityAt[i]; k >= 0 {
		return e.beforeFigure(i, &t.quantities[k], food && !clause, timed)
	}
	if !it && t.besideName(i) || food && !clause && t.prepared(i) || timed && t.shelved(i) {
		return pause
	}
	if food && !clause && t.nextListed(i) {
		return pause
	}
	if (w == "a" || w == "an") && (food || thing) && next != "side" && next != "time" && next != "little" && next != "bit" && !clause {
		return pause
	}
	if linking[w] || mannerWords[w] || joining[w] || openedBy[w] || strings.HasSuffix(w, "ly") || strings.HasSuffix(w, "ing") || t.toolAt[i] >= 0 && (food || thing) {
		return joinedOn
	}
	if v := t.baseVerb(i); v != nil && !v.Noun && opensObject[next] && !clause && !lets[t.norm(i-2)] {
		return pause // "take the jars out of the oven use a glove"
	}
	rest := i+1 < e.to && e.left(i+1) && t.written(i) == 0 && !linking[next] && !joining[next] && !openedBy[next]
	switch {
	case timed:
		switch v := t.baseVerb(i); {
		case t.lex.Modifiers[w] == lexicon.PrepWord && !e.bareNoun(i+1):
			return joinedOn // "five minutes uncovered"
		case v != nil && !v.Noun && !v.Weak:
			return pause // "boil them four minutes drain"
		}
		return broken
	case it:
		if rest && !clause && w != "be" && !t.qualifies(i) && t.verbs(i) == nil && t.mentionAt[i] < 0 && !t.qualifies(i+1) && !t.tellsWork(i, e.to) {
			return broken
		}
	case food && (w == "large" || w == "small" || w == "big" || t.qualifies(i)) && (next == "ones" || next == "one"):
		return pause // "five eggs large ones"
	case t.qualifies(i) && !t.mentionStarts(i) && e.bareNoun(i+1):
		return broken // "... breadcrumbs cold hands"
	}
	return joinedOn
}

// beforeFigure tells how a figure goes on with the food or the figure before it.
func (e *edit) beforeFigure(i int, q *quantity, food, timed bool) joint {
	if q.First != i || q.void {
		return joinedOn
	}
	switch before := e.t.quantityAt[i-1]; {
	case timed && e.t.finite(q.Last) && e.t.norm(q.Last) != "have":
		return severed // "leave it an hour | overnight is better"
	case timed && (q.kind == duration || q.kind == heat) && e.t.quantities[before].kind != q.kind:
		return pause // "a hundred and ten Celsius fifteen minutes"
	case food && q.kind == vague && (q.food >= 0 && e.t.mentionStarts(q.Last) || e.t.norm(i) == "enough"):
		return pause // "aubergine a little salt"
	}
	return joinedOn
}

// besideName reports whether the words at i say how strong the heat is or how a thing
// lies: "in the pan medium heat", "on the tray skin side down".
func (t *talk) besideName(i int) bool {
	if _, n := t.heatAt(i); n > 0 {
		return true
	}
	return sided[t.norm(i)] && lying[t.norm(i+1)]
}

// prepared reports whether the words at i say how the food before them is prepared.
func (t *talk) prepared(i int) bool {
	if howCut[t.norm(i)] {
		i++
	}
	return t.lex.Modifiers[t.norm(i)] == lexicon.PrepWord && strings.HasSuffix(t.norm(i), "ed") && !t.mentionStarts(i+1)
}

// shelved reports whether the words at i tell where in the oven, or how hot, behind a time.
func (t *talk) shelved(i int) bool {
	for k := i; k < i+2; k++ {
		switch t.norm(k) {
		case "shelf", "rack", "oven", "heat", "flame":
			return true
		}
	}
	return false
}

// nextListed reports whether another food of a list is named at i.
func (t *talk) nextListed(i int) bool {
	k := i
	if w := t.norm(i); w == "the" || w == "some" {
		k++
	}
	m, before := t.mentionAt[k], t.mentionAt[i-1]
	if m < 0 || before < 0 || m == before || t.mentions[m].First != k {
		return false
	}
	a, b := t.mentions[m].ingr, t.mentions[before].ingr
	return a != nil && b != nil && a != b
}

// objectEnds reports whether the token at i is a pronoun that is worked on: no subject.
func (e *edit) objectEnds(i int) bool {
	t := e.t
	if w := t.norm(i); w != "it" && w != "them" {
		return false
	}
	return i == e.from || !openedBy[t.norm(i-1)] && !joining[t.norm(i-1)] && !t.finite(i-1) && !t.finite(i+1) && !modals[t.norm(i+1)]
}

// bareNoun reports whether the word at i, which no table has, can be a noun.
func (e *edit) bareNoun(i int) bool {
	t := e.t
	w := t.norm(i)
	return e.left(i) && t.written(i-1) == 0 && !linking[w] && !mannerWords[w] && !joining[w] && !openedBy[w] && !strings.HasSuffix(w, "ly") && !t.qualifies(i) && t.quantityAt[i] < 0
}

// foodEnds reports whether the name of a food or a mixture ends at i.
func (t *talk) foodEnds(i int) bool {
	if strings.HasSuffix(t.norm(i), "'s") || t.actionAt[i] >= 0 {
		return false
	}
	if m := t.mentionAt[i]; m >= 0 {
		return t.mentionAt[i+1] != m
	}
	for k := max(0, i-3); k <= i; k++ {
		if n := int(t.madeAt[k]); n > 0 && k+n == i+1 {
			return true
		}
	}
	return false
}

// toolEnds reports whether the name of a tool ends at i.
func (t *talk) toolEnds(i int) bool {
	return t.toolAt[i] >= 0 && t.toolAt[i+1] != t.toolAt[i] && t.actionAt[i] < 0 && !strings.HasSuffix(t.norm(i), "'s")
}

// figureEnds reports whether a time or a temperature ends at i, but not where it stands
// before a noun: "at the twenty-five minute mark".
func (t *talk) figureEnds(i int) bool {
	k := t.quantityAt[i]
	if k < 0 || t.quantities[k].Last != i+1 || t.quantities[k].void {
		return false
	}
	q := &t.quantities[k]
	return q.kind == heat || q.kind == duration && (q.max <= 1 || strings.HasSuffix(t.norm(i), "s") || q.overnite)
}
