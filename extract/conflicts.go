package extract

import (
	"fmt"
	"math"

	"quern/schema"
)

// conversion is one value said in two measures.
type conversion struct{ a, b *quantity }

// findConflicts compares what was said twice: a conversion that doesn't hold,
// and figures of a closing run-through that differ from the telling.
func (t *talk) findConflicts() {
	if len(t.docs) == 0 {
		return
	}
	add := func(at int, f schema.Flag) {
		d := min(t.dishOf(at), len(t.docs)-1)
		t.docs[d].Flags = append(t.docs[d].Flags, f)
	}
	t.badConversions(add)
	t.recapConflicts(add)
}

// badConversions finds a Fahrenheit and Celsius pair said of one thing that
// are more than spoken rounding apart: 10 F (common practice).
func (t *talk) badConversions(add func(int, schema.Flag)) {
	for k := 0; k+1 < len(t.quantities); k++ {
		a, b := &t.quantities[k], &t.quantities[k+1]
		if a.void || b.void || a.kind != b.kind || b.First < a.Last || b.First-a.Last > 7 || t.sentOf[a.First] != t.sentOf[b.First] {
			continue
		}
		switch a.kind {
		case heat:
			if a.unit == b.unit || a.unit == "gas" || b.unit == "gas" || !a.scale || !b.scale {
				continue
			}
			if t.has(a.Last, b.First, "then", "until", "down", "up") >= 0 {
				continue
			}
			f, c := a.min, b.min
			if a.unit == "C" {
				f, c = b.min, a.min
			}
			if math.Abs(f-(c*1.8+32)) > 10 {
				add(a.First, schema.Flag{Kind: schema.ConflictConversion, Subject: "temperature",
					Ask:  fmt.Sprintf("Is it %s or %s? They are not the same temperature: %s is %.0f F.", a.value().String(), b.value().String(), num(c)+" C", c*1.8+32),
					Said: []schema.Said{t.said(a.First, b.Last)}})
			}
		case length:
			x, okx := schema.Centimetres(a.unit)
			y, oky := schema.Centimetres(b.unit)
			if !okx || !oky || a.unit == b.unit {
				continue
			}
			p, q := x*a.min, y*b.min
			if len(a.by) == 0 && len(b.by) == 0 && (p/q > 1.35 || q/p > 1.35) {
				add(a.First, schema.Flag{Kind: schema.ConflictConversion, Subject: "size",
					Ask:  fmt.Sprintf("Is it %s or %s?", a.value().String(), b.value().String()),
					Said: []schema.Said{t.said(a.First, b.Last)}})
			}
		}
	}
}

func num(v float64) string { return fmt.Sprintf("%g", v) }

// recapConflicts compares times and temperatures of a closing run-through
// with the step they speak of: the same action, another figure.
func (t *talk) recapConflicts(add func(int, schema.Flag)) {
	in := -1
	for k := range t.sents {
		s := &t.sents[k]
		if s.recap {
			in = k
		}
		if in < 0 || k > in+3 || s.para > t.sents[in].para {
			continue
		}
		for i := s.First; i < s.Last; i++ {
			q := t.quantityAt[i]
			if q < 0 || t.quantities[q].First != i {
				continue
			}
			qq := &t.quantities[q]
			if qq.kind == duration && qq.unit == "minute" || qq.kind == heat {
				t.compareRecap(qq, t.sents[in].First, add)
			}
		}
	}
}

// compareRecap finds the step whose words the run-through repeats.
func (t *talk) compareRecap(q *quantity, start int, add func(int, schema.Flag)) {
	key := t.contentAround(q)
	if len(key) == 0 {
		return
	}
	best, score := -1, 0
	same := false
	for k := range t.quantities {
		o := &t.quantities[k]
		if o.First >= start || o.kind != q.kind || o.void || o.kind == duration && o.unit != q.unit || o.kind == heat && o.unit != q.unit {
			continue
		}
		if o.min == q.min && o.max == q.max || o.kind == duration && o.min <= q.min && o.max >= q.max {
			// said alike before: nothing to ask, if it speaks of the same thing
			if overlap(key, t.contentAround(o)) > 0 || o.kind == heat {
				same = true
			}
			continue
		}
		if n := overlap(key, t.contentAround(o)); n > score {
			score, best = n, k
		}
	}
	if best < 0 || same || score < 1 {
		return
	}
	o := &t.quantities[best]
	kind := schema.ConflictTime
	if q.kind == heat {
		kind = schema.ConflictTemperature
	}
	add(start, schema.Flag{Kind: kind, Subject: "step", Ask: fmt.Sprintf("Is it %s or %s?", o.value().String(), q.value().String()),
		Said: []schema.Said{t.said(max(t.sentence(q.First).First, q.First-8), q.Last), t.said(max(t.sentence(o.First).First, o.First-8), o.Last)}})
}

// contentAround gives the foods, verbs and mixtures named around a quantity.
func (t *talk) contentAround(q *quantity) map[string]bool {
	out := map[string]bool{}
	s := t.sentence(q.First)
	for i := max(s.First, q.First-10); i < min(s.Last, q.Last+10); i++ {
		if m := t.mentionAt[i]; m >= 0 {
			out[t.mentions[m].food.Name] = true
			continue
		}
		for _, f := range t.lex.Verbs[t.norm(i)] {
			if !f.Action.Weak || f.Action.Verb == "pull" {
				out[f.Action.Verb] = true
			}
		}
	}
	return out
}

func overlap(a, b map[string]bool) int {
	n := 0
	for w := range a {
		if b[w] {
			n++
		}
	}
	return n
}
