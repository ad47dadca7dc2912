package extract

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// ratio is "two parts fruit to one part sugar": how much of a for so much of b.
type ratio struct {
	language.Span
	a, b   int // tokens of the two names
	an, bn float64
}

// ratioSlack is how far the amounts may be from a spoken ratio: it is said in
// round figures. Common practice.
const ratioSlack = 0.18

// ratioConflicts compares spoken ratios and percentages with the amounts given
// for the same foods.
func (t *talk) ratioConflicts(add func(int, schema.Flag)) {
	known := make(map[sharer][]*ingredient)
	for _, r := range t.ratios() {
		t.checkRatio(r, known, add)
	}
	t.checkHydration(add)
}

// ratios finds the ratios of the talk.
func (t *talk) ratios() []ratio {
	var out []ratio
	for i := 0; i < len(t.toks); i++ {
		switch w := t.norm(i); {
		case w == "part" || w == "parts" || w == "measure" && t.norm(i+1) == "of" || w == "measures" && t.norm(i+1) == "of":
			if r, ok := t.partsRatio(i); ok {
				out = append(out, r)
				i = r.Last
			}
		case w == "equal" && (t.norm(i+1) == "parts" || t.norm(i+1) == "amounts" || t.norm(i+1) == "weights" || t.norm(i+1) == "quantities"):
			if r, ok := t.equalParts(i); ok {
				out = append(out, r)
				i = r.Last
			}
		case w == "as" && (t.norm(i+1) == "much" || t.norm(i+1) == "many"):
			if r, ok := t.timesAsMuch(i); ok {
				out = append(out, r)
				i = r.Last
			}
		}
	}
	return out
}

// partsRatio reads a ratio from the "parts" at token i.
func (t *talk) partsRatio(i int) (ratio, bool) {
	n, start, ok := t.numberBefore(i)
	if !ok {
		return ratio{}, false
	}
	a := t.ratioName(i + 1)
	if a < 0 {
		return ratio{}, false
	}
	for j := a + 1; j < min(len(t.toks), a+9); j++ {
		if w := t.norm(j); w != "part" && w != "parts" && w != "measure" && w != "measures" {
			continue
		}
		m, at, ok := t.numberBefore(j)
		b := t.ratioName(j + 1)
		if !ok || b < 0 || at <= a {
			return ratio{}, false
		}
		return ratio{Span: language.Span{First: start, Last: b + 1}, a: a, b: b, an: n, bn: m}, true
	}
	return ratio{}, false
}

// numberBefore reads the number that ends before token i.
func (t *talk) numberBefore(i int) (float64, int, bool) {
	for k := i - 1; k >= 0 && k >= i-5; k-- {
		num, n := language.ReadSingle(t.toks, k)
		if n > 0 && k+n == i && !num.Article && num.Min > 0 {
			// "one and a half parts": the longest number that ends here
			if k >= 2 {
				if long, m := language.ReadSingle(t.toks, k-2); m > 0 && k-2+m == i && !long.Article {
					return long.Min, k - 2, true
				}
				if long, m := language.ReadSingle(t.toks, k-1); m > 0 && k-1+m == i && !long.Article {
					return long.Min, k - 1, true
				}
			}
			return num.Min, k, true
		}
	}
	return 0, 0, false
}

// ratioName gives the token of the food or class of food named at i.
func (t *talk) ratioName(i int) int {
	for k := i; k < min(len(t.toks), i+4); k++ {
		if m := t.mentionAt[k]; m >= 0 {
			return t.mentions[m].head.Last - 1
		}
		if classOf[t.norm(k)] != "" {
			return k
		}
		if w := t.norm(k); w != "of" && w != "the" && !t.describes(w) {
			return -1
		}
	}
	return -1
}

func (t *talk) describes(w string) bool { return t.lex.Modifiers[w] != 0 }

// classOf are words for whole kinds of food in a ratio.
var classOf = map[string]string{"fruit": "fruit", "sugar": "sugar", "flour": "flour", "oil": "oil", "water": "water", "vinegar": "vinegar", "rice": "rice", "nuts": "nut", "butter": "butter", "fat": "fat", "liquid": "water", "berries": "fruit"}

// equalParts reads "equal parts flour and butter".
func (t *talk) equalParts(i int) (ratio, bool) {
	a := t.ratioName(i + 2)
	if a < 0 {
		return ratio{}, false
	}
	if w := t.norm(a + 1); w != "and" && w != "to" {
		return ratio{}, false
	}
	b := t.ratioName(a + 2)
	if b < 0 || t.norm(b+1) == "and" && t.ratioName(b+2) >= 0 {
		return ratio{}, false
	}
	return ratio{Span: language.Span{First: i, Last: b + 1}, a: a, b: b, an: 1, bn: 1}, true
}

// timesAsMuch reads "twice as much sugar as butter", "half as much".
func (t *talk) timesAsMuch(i int) (ratio, bool) {
	n := 0.0
	switch t.norm(i - 1) {
	case "twice", "double":
		n = 2
	case "half":
		n = 0.5
	case "times":
		v, _, ok := t.numberBefore(i - 1)
		if !ok {
			return ratio{}, false
		}
		n = v
	default:
		return ratio{}, false
	}
	a := t.ratioName(i + 2)
	if a < 0 || t.norm(a+1) != "as" {
		return ratio{}, false
	}
	b := t.ratioName(a + 2)
	if b < 0 {
		return ratio{}, false
	}
	return ratio{Span: language.Span{First: i - 1, Last: b + 1}, a: a, b: b, an: n, bn: 1}, true
}

// sharer is a name that stands in a ratio: its food, nil for none of a table, its word,
// and the dish.
type sharer struct {
	food *lexicon.Food
	word string
	dish int
}

// named gives the ingredients meant by the name at token k: the food itself, or
// every food of the class. Those of names that came before are known.
func (t *talk) named(k, dish int, known map[sharer][]*ingredient) []*ingredient {
	key := sharer{word: t.norm(k), dish: dish}
	if i := t.mentionAt[k]; i >= 0 {
		key.food = t.mentions[i].food
	}
	out, ok := known[key]
	if !ok {
		out = t.ofName(key)
		known[key] = out
	}
	return out
}

func (t *talk) ofName(name sharer) []*ingredient {
	var out []*ingredient
	w := name.word
	for _, g := range t.ingredients {
		if g.dish != name.dish || g.amount == nil || len(g.ways) == 1 && !g.ways[-1] {
			continue
		}
		switch {
		case name.food != nil && related(name.food, g.food) > 0:
			out = append(out, g)
		case classOf[w] == "fruit" && g.food.Kind == "fruit" && !isForm(lastWord(g.name)) && !strings.Contains(g.name, "juice"), classOf[w] == "nut" && g.food.Kind == "nut":
			out = append(out, g)
		case (w == "flour" || w == "oil") && g.food.Kind == w:
			out = append(out, g)
		}
	}
	return out
}

// total adds the amounts of ingredients up in one measure, "" where they have
// none in common.
func total(list []*ingredient, measure string) (float64, bool) {
	sum := 0.0
	for _, g := range list {
		v, ok := inMeasure(g, measure)
		if !ok {
			return 0, false
		}
		sum += v
	}
	return sum, len(list) > 0
}

// inMeasure gives an ingredient's amount in grams or millilitres, from either
// of the measures it was said in.
func inMeasure(g *ingredient, measure string) (float64, bool) {
	for _, q := range []*schema.Quantity{g.amount, g.second} {
		if q == nil {
			continue
		}
		if f, ok := schema.Mass(q.Unit); ok && measure == "g" {
			return f * (q.Min + q.Max) / 2, true
		}
		if f, ok := schema.Volume(q.Unit); ok && measure == "ml" {
			return f * (q.Min + q.Max) / 2, true
		}
	}
	return 0, false
}

// inPart keeps the ingredients of one part where some are of it.
func inPart(list []*ingredient, part int) []*ingredient {
	var out []*ingredient
	for _, g := range list {
		if g.part == part {
			out = append(out, g)
		}
	}
	if len(out) == 0 {
		return list
	}
	return out
}

// besideRatio is the most words from a ratio to the amounts it was worked out in.
const besideRatio = 40

// toldBeside keeps the ingredients whose amount was told right after the ratio,
// where there are any: "one part sugar, one part lime juice. So for this that's a
// quarter cup of sugar".
func (t *talk) toldBeside(list []*ingredient, r ratio) []*ingredient {
	var out []*ingredient
	for _, g := range list {
		if at := g.amountAt.First; at >= r.Last && at-r.Last < besideRatio {
			out = append(out, g)
		}
	}
	if len(out) == 0 {
		return list
	}
	return out
}

func (t *talk) checkRatio(r ratio, known map[sharer][]*ingredient, add func(int, schema.Flag)) {
	s := t.sentence(r.First)
	if s.other || s.kind == storing || t.othersDo(s) || t.sentOf[r.a] != t.sentOf[r.b] && r.b-r.a > 10 {
		return
	}
	d := t.dishOf(r.First)
	as, bs := t.named(r.a, d, known), t.named(r.b, d, known)
	if len(as) == 0 || len(bs) == 0 || as[0] == bs[0] {
		return
	}
	as, bs = t.toldBeside(as, r), t.toldBeside(bs, r)
	if part := as[0].part; len(bs) > 1 || len(as) > 1 {
		as, bs = inPart(as, part), inPart(bs, part)
	}
	for _, measure := range []string{"g", "ml"} {
		x, ok1 := total(as, measure)
		y, ok2 := total(bs, measure)
		if !ok1 || !ok2 || x <= 0 || y <= 0 {
			continue
		}
		off := (x / y) / (r.an / r.bn)
		if off < 1+ratioSlack && off > 1/(1+ratioSlack) {
			return
		}
		want := x * r.bn / r.an
		b := bs[len(bs)-1]
		add(r.First, schema.Flag{Kind: schema.ConflictAmount, Subject: b.name,
			Ask:  fmt.Sprintf("Is it %s as given, or %s by the ratio (%s)?", amountOf(b.amount, b.name), inUnitOf(b, want, measure), strings.Trim(t.quote(r.First, r.Last), " .,;:")),
			Said: []schema.Said{t.said(r.First, r.Last), t.said(b.amountAt.First, b.amountAt.Last)}})
		return
	}
}

// inUnitOf writes an amount in the unit an ingredient was given in, where that
// is of the same measure.
func inUnitOf(g *ingredient, v float64, measure string) string {
	unit := measure
	for _, q := range []*schema.Quantity{g.amount, g.second} {
		if q == nil {
			continue
		}
		f, ok := schema.Mass(q.Unit)
		if measure == "ml" {
			f, ok = schema.Volume(q.Unit)
		}
		if ok && f > 0 {
			v, unit = v/f, q.Unit
			break
		}
	}
	x := schema.Quantity{Min: roundFigure(v), Max: roundFigure(v), Unit: unit}
	return x.String()
}

// hydration is a percentage of water to flour, and the token it was said at.
type hydration struct {
	language.Span
	percent float64
}

// checkHydration compares the percentages of water said of a dough with each
// other and with the water and flour given. They are baker's percentages: of
// the weight of the flour (common practice).
func (t *talk) checkHydration(add func(int, schema.Flag)) {
	var all []hydration
	for p := range t.toks {
		v, i, k := 0.0, p, p+1
		switch w := t.norm(p); {
		case w == "percent":
			n, at, ok := t.numberBefore(p)
			if !ok {
				continue
			}
			v, i = n, at
		case w != "" && w[0] >= '0' && w[0] <= '9' && strings.Contains(t.quoteWord(p), "%"):
			f, err := strconv.ParseFloat(strings.TrimSuffix(w, "%"), 64)
			if err != nil {
				continue
			}
			v = f
		default:
			continue
		}
		if v < 40 || v > 130 {
			continue
		}
		s := t.sentence(i)
		near := t.has(max(s.First, i-7), min(s.Last, k+3), "hydration", "hydrated") >= 0 || t.has(k, min(s.Last, k+2), "dough", "water") >= 0 && t.norm(k) != "of"
		if near && !s.past && !s.other && !t.takesBack(s) {
			all = append(all, hydration{language.Span{First: i, Last: k}, v})
		}
	}
	if len(all) == 0 {
		return
	}
	h := all[0]
	for _, o := range all[1:] {
		if math.Abs(o.percent-h.percent) >= 3 && t.dishOf(o.First) == t.dishOf(h.First) && !(o.First-h.Last < 16 && t.slipBetween(h.Last, o.First)) {
			add(o.First, schema.Flag{Kind: schema.ConflictAmount, Subject: "hydration",
				Ask:  fmt.Sprintf("Is the hydration %s or %s percent?", num(h.percent), num(o.percent)),
				Said: []schema.Said{t.saidSpan(o.Span), t.saidSpan(h.Span)}})
			return
		}
	}
	var water, flour []*ingredient
	for _, g := range t.ingredients {
		if g.dish != t.dishOf(h.First) || g.amount == nil {
			continue
		}
		switch g.food.Kind {
		case "water":
			water = append(water, g)
		case "flour":
			flour = append(flour, g)
		case "dairy", "egg", "drink":
			return // they are wet too
		}
	}
	x, ok1 := total(water, "g")
	if !ok1 {
		x, ok1 = total(water, "ml") // a millilitre of water is a gram
	}
	y, ok2 := total(flour, "g")
	// a starter brings water and flour of its own
	if !ok1 || !ok2 || math.Abs(100*x/y-h.percent) < 8 {
		return
	}
	add(h.First, schema.Flag{Kind: schema.ConflictAmount, Subject: "hydration",
		Ask:  fmt.Sprintf("Is the hydration %s percent as said, or %.0f (%s g of water to %s g of flour)?", num(h.percent), 100*x/y, num(x), num(y)),
		Said: []schema.Said{t.saidSpan(h.Span), t.said(water[0].amountAt.First, water[0].amountAt.Last), t.said(flour[0].amountAt.First, flour[0].amountAt.Last)}})
}

func (t *talk) saidSpan(sp language.Span) schema.Said {
	s := t.sentence(sp.First)
	return t.said(max(s.First, sp.First-6), min(s.Last, sp.Last+4))
}
