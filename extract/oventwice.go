package extract

import (
	"fmt"

	"quern/schema"
)

// ovenSet is a heat that an oven was set to before anything went in.
type ovenSet struct {
	heats []int // quantities told for it: with and without a fan, in both scales
	sent  int32 // sentence of the last
}

// settingOven are words of a sentence that sets the oven, and goingIn words of
// one by which the dish goes into it.
var (
	settingOven = listed("oven on", "oven's on", "the oven at", "oven to", "oven at", "preheat", "pre-heat", "heat the oven", "heat your oven", "turn the oven", "set the oven", "set your oven", "turn on the oven", "light the oven", "get the oven", "get your oven", "oven goes on")
	goingIn     = listed("in they go", "in it goes", "in we go", "in she goes", "goes in", "go in", "into the oven", "in the oven", "bake", "bakes", "roast", "roasts", "pop it in", "stick it in", "slide it in", "shove it in")
	// ovenChanges are words by which the heat is another on purpose.
	ovenChanges = listed("turn", "turned", "turning", "drop", "lower", "raise", "reduce", "increase", "crank", "knock", "bring", "down", "up", "then", "after", "first", "hotter", "cooler", "instead", "another", "other", "second", "again", "meanwhile", "air fryer", "grill", "broiler", "or", "between")
)

// ovenTwice asks where the dish goes into the oven at another heat than it was
// set to, and nothing was baked, and no dial was turned, in between.
func (t *talk) ovenTwice(add func(int, schema.Flag)) {
	var set *ovenSet
	for k := range t.quantities {
		q := &t.quantities[k]
		if q.void || q.kind != heat {
			continue
		}
		s := t.sentence(q.First)
		if t.roleOf(q) != ovenHeat && (set == nil || !t.inScaleOf(&t.quantities[set.heats[0]], q) || t.hasAny(s.First, s.Last, goingIn) < 0) {
			continue
		}
		if !t.telling(s) || t.conditionalAt(q.First) {
			continue
		}
		switch {
		case set != nil && t.sentOf[q.First]-set.sent <= 1 && (t.sentOf[q.First] == set.sent || t.hasAny(s.First, s.Last, goingIn) < 0):
			set.heats, set.sent = append(set.heats, k), t.sentOf[q.First]
			continue
		case t.hasAny(s.First, s.Last, goingIn) < 0 && t.hasAny(s.First, s.Last, settingOven) >= 0:
			if set != nil {
				set = nil // set anew
				continue
			}
			set = &ovenSet{[]int{k}, t.sentOf[q.First]}
			continue
		case set == nil || t.hasAny(s.First, s.Last, goingIn) < 0:
			continue
		}
		if t.otherThanSet(set, q) {
			o := &t.quantities[set.heats[0]]
			told := *q.value()
			if t.inScaleOf(o, q) {
				told.Unit, told.Text = o.unit, ""
			}
			add(q.First, schema.Flag{Kind: schema.ConflictTemperature, Subject: "oven",
				Ask:  fmt.Sprintf("Is the temperature %s or %s (oven)?", o.value().String(), told.String()),
				Said: []schema.Said{t.saidAround(q), t.saidAround(o)}})
		}
		set = nil
	}
}

// inScaleOf reports whether a heat without a scale of its own is told in the scale
// of the one the oven was set to: in any other it would be no oven's.
func (t *talk) inScaleOf(o, q *quantity) bool {
	f, ok := schema.Fahrenheit(q.max, o.unit)
	return !q.scale && o.unit != "gas" && ok && f >= 250 && f <= 575
}

// otherThanSet reports whether the heat at which the dish goes in is none of those
// the oven was set to, and nothing told in between makes it another on purpose.
func (t *talk) otherThanSet(set *ovenSet, q *quantity) bool {
	o := &t.quantities[set.heats[0]]
	s := t.sentence(q.First)
	if t.dishOf(o.First) != t.dishOf(q.First) || t.otherWay(o.First, q.First, first) || t.wayOf(o.First) != t.wayOf(q.First) || t.fanIn(s.First, s.Last) || t.earliest(s.First, s.Last, ovenChanges) >= 0 || t.slipBetween(o.Last, q.First) {
		return false
	}
	for k := set.sent + 1; k < t.sentOf[q.First]; k++ {
		b := &t.sents[k]
		if t.has(b.First, b.Last, "bake", "bakes", "roast", "into the oven", "in the oven", "oven") >= 0 {
			return false
		}
	}
	unit := q.unit
	if t.inScaleOf(o, q) {
		unit = o.unit
	}
	f, _ := schema.Fahrenheit(q.min, unit)
	g, _ := schema.Fahrenheit(q.max, unit)
	for _, i := range set.heats {
		h := &t.quantities[i]
		a, ok := schema.Fahrenheit(h.min, h.unit)
		b, _ := schema.Fahrenheit(h.max, h.unit)
		if !ok || a <= g+scaleSlack && f <= b+scaleSlack {
			return false
		}
	}
	return true
}
