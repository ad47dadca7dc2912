package extract

import (
	"fmt"
	"math"

	"quern/internal/language"
	"quern/schema"
)

// toldFigure is a figure of the macros as it was told first.
type toldFigure struct {
	value float64
	language.Span
}

// figureNames writes the figures that are compared when they are told twice. Fat
// and sugar are left out: so much of them may be what goes in.
var figureNames = map[string]string{"kcal": "calories", "protein": "grams of protein", "carbs": "grams of carbs", "net": "net carbs", "fibre": "grams of fibre"}

// otherFigure are words by which a figure is of something else than the one told
// first: another kind, more or less of it, another time.
var otherFigure = listed("with", "without", "version", "instead", "if you use", "if you leave", "if you add", "if you have", "if you eat", "if you take", "leave out", "other", "extra", "another", "more", "less", "day", "double", "big", "bigger", "small", "smaller", "large", "little", "two", "half", "full-fat", "under", "over", "used to", "was", "were", "shop", "bought")

// wholeBatch are words by which a figure is of all that is made.
var wholeBatch = listed("whole batch", "whole thing", "whole lot", "whole tray", "whole pan", "whole pot", "whole tin", "batch of", "the lot", "all of them", "in total")

// figuresAgain compares a figure said a second time with the first, and one said
// of the whole batch with as many of those said of one.
func (t *talk) figuresAgain(told map[string]toldFigure) {
	for k := range t.sents {
		s := &t.sents[k]
		if s.other || s.past || t.takesBack(s) || t.othersDo(s) {
			continue
		}
		items := t.figureItems(s.First, s.Last)
		for n := 0; n+1 < len(items); n++ {
			number, name := &items[n], &items[n+1]
			first, had := told[name.key]
			if number.key != "" || !had || figureNames[name.key] == "" || number.First < first.Last || !t.linked(number.Last, name.First, 0) || t.otherWay(first.First, number.First, 0) {
				continue
			}
			lo, hi := max(s.First, number.First-9), min(s.Last, name.Last+5)
			want, of := first.value, ""
			if t.hasAny(lo, hi, wholeBatch) >= 0 {
				many := t.batchCount(lo, number.First)
				if many == 0 {
					continue
				}
				want, of = want*many, fmt.Sprintf(" for %s", num(many))
			} else if t.earliest(max(s.First, number.First-6), hi, otherFigure) >= 0 || t.slipBetween(first.Last, number.First) && number.First-first.Last < 24 {
				continue
			}
			if math.Abs(number.value-want) <= math.Max(1, 0.1*want) {
				continue
			}
			t.flags = append(t.flags, schema.Flag{Kind: schema.ConflictMacros, Subject: figureNames[name.key],
				Ask:  fmt.Sprintf("Is it %s %s%s, or %s?", num(want), figureNames[name.key], of, num(number.value)),
				Said: []schema.Said{t.said(lo, hi), t.said(first.First, first.Last)}})
			return
		}
	}
}

// batchCount gives how many make the whole batch: "the whole batch of six", or
// what the dish makes. 0 where neither is told.
func (t *talk) batchCount(a, b int) float64 {
	if i := t.has(a, b, "of"); i >= 0 {
		if n, used := language.ReadSingle(t.toks, i+1); used > 0 && !n.Article && n.Min > 1 {
			return n.Min
		}
	}
	if t.yield != nil && t.yield.Min > 1 && t.yield.Min == t.yield.Max {
		return t.yield.Min
	}
	return 0
}
