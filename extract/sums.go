package extract

import (
	"fmt"

	"quern/schema"
)

// sumConflicts asks where what was worked out aloud is another sum than the
// figures beside it give: both sides of a thing, or a share of what there is.
func (t *talk) sumConflicts(add func(int, schema.Flag)) {
	for k := range t.quantities {
		q := &t.quantities[k]
		if q.void || k+1 >= len(t.quantities) {
			continue
		}
		if q.kind == duration {
			t.bothSides(q, &t.quantities[k+1], add)
		}
	}
	for k := range t.mentions {
		t.shareOf(k, add)
	}
}

// bothSides compares a time for each side with the time for both: "four minutes a
// side, so that's twelve minutes in all".
func (t *talk) bothSides(q, all *quantity, add func(int, schema.Flag)) {
	if all.void || all.kind != duration || all.each || all.First-q.Last > 8 || t.norm(q.Last-1) != "side" && t.norm(q.Last) != "side" && t.norm(q.Last+1) != "side" {
		return
	}
	if t.has(q.Last, all.First, "so", "that's", "makes", "which is") < 0 || t.has(all.Last, all.Last+3, "in all", "in total", "all told", "altogether", "total") < 0 {
		return
	}
	lo, hi, ok := inSeconds(q)
	a, b, too := inSeconds(all)
	if !ok || !too || closeTo(2*lo, 2*hi, a, b, 0.02) {
		return
	}
	add(all.First, schema.Flag{Kind: schema.ConflictTime, Subject: "both sides",
		Ask:  fmt.Sprintf("Is it %s a side, or %s for both?", q.value().String(), all.value().String()),
		Said: []schema.Said{t.saidAround(all), t.saidAround(q)}})
}

// shares are the words for a part of what there is.
var shares = map[string]float64{"half": 0.5, "third": 1.0 / 3, "quarter": 0.25}

// shareSlack is how far a share said in figures may be from the share of the whole.
// Common practice: it is spoken in round figures.
const shareSlack = 0.12

// shareOf compares a share of a food with the whole that was told: "four hundred
// grams of sugar. Half of the sugar, two hundred and fifty grams".
func (t *talk) shareOf(k int, add func(int, schema.Flag)) {
	m := &t.mentions[k]
	part := 0.0
	for i := m.First - 1; i >= 0 && i >= m.First-3; i-- {
		if w := t.norm(i); w != "of" && !determiners[w] {
			break
		}
		if shares[t.norm(i-1)] > 0 {
			part = shares[t.norm(i-1)]
			break
		}
	}
	if shares[t.norm(m.First)] > 0 && m.share {
		part = shares[t.norm(m.First)]
	}
	if part == 0 || m.negated {
		return
	}
	x := int32(-1)
	for i := m.Last; i < min(len(t.toks), m.Last+3) && x < 0; i++ {
		x = t.quantityAt[i]
	}
	if x < 0 || t.quantities[x].void || t.quantities[x].kind != measure || t.sentOf[t.quantities[x].First] != t.sentOf[m.First] {
		return
	}
	q := &t.quantities[x]
	if q.food >= 0 && related(t.mentions[q.food].food, m.food) == 0 || t.mentionStart(q.Last) >= 0 {
		return // the next food's
	}
	lo, hi, unit := comparable(q)
	o := t.wholeTold(k, unit)
	if o == nil {
		return
	}
	a, b, _ := comparable(o)
	if closeTo(part*a, part*b, lo, hi, shareSlack) {
		return
	}
	add(q.First, schema.Flag{Kind: schema.ConflictAmount, Subject: m.name,
		Ask:  fmt.Sprintf("Is it %s, or is a share of %s %s?", amountOf(o.value(), m.food.Name), t.quote(max(0, m.First-3), m.Last), q.value().String()),
		Said: []schema.Said{t.saidAround(q), t.saidAround(o)}})
}

// wholeTold gives the one amount that was told before mention k of its food, in a
// measure that can be compared; nil where there is none or are several.
func (t *talk) wholeTold(k int, unit string) *quantity {
	var whole *quantity
	for n := k - 1; n >= 0 && n >= k-earlierFigures; n-- {
		o := &t.mentions[n]
		if related(o.food, t.mentions[k].food) == 0 || o.negated {
			continue
		}
		for _, i := range o.amounts {
			p := &t.quantities[i]
			if p.void || p.kind != measure {
				continue
			}
			if _, _, u := comparable(p); u != unit || whole != nil {
				return nil
			}
			whole = p
		}
	}
	return whole
}
