package extract

import (
	"strings"

	"quern/internal/lexicon"
)

// mendOrder puts steps that were told late where a cook needs them.
func (t *talk) mendOrder() {
	for k := range t.sents {
		s := &t.sents[k]
		if !s.forgotten {
			continue
		}
		t.moveLate(k, s)
	}
	t.moveBefore()
}

// moveLate moves the steps told after a late-remark cue, within its
// paragraph, in front of the step they prepare.
func (t *talk) moveLate(k int, s *sentence) {
	cue := t.forgottenCue(s)
	var moved []*step
	from, last := s.First, s.Last
	for j := k; j < len(t.sents) && t.sents[j].para == s.para; j++ {
		last = t.sents[j].Last
	}
	first := -1
	for i, st := range t.steps {
		if st.from >= from && st.from < last {
			if first < 0 {
				first = i
			}
			moved = append(moved, st)
		}
	}
	if len(moved) == 0 {
		return
	}
	anchor := t.anchor(s, cue, moved, first)
	if anchor < 0 || anchor >= first {
		return
	}
	rest := append([]*step{}, t.steps[:first]...)
	tail := append([]*step{}, t.steps[first+len(moved):]...)
	out := append([]*step{}, rest[:anchor]...)
	out = append(out, moved...)
	out = append(out, rest[anchor:]...)
	t.steps = append(out, tail...)
}

// anchor finds the index of the step before which the late steps belong.
func (t *talk) anchor(s *sentence, cue int, moved []*step, first int) int {
	end := s.Last
	for _, st := range moved {
		for _, sp := range st.spans {
			end = max(end, sp.Last)
		}
	}
	// "before any of this", "at the very beginning"
	if t.has(s.First, end, "before any of", "before you did any", "before you do any", "very beginning", "at the start", "before you start", "before anything", "right at the beginning", "before we started", "first thing") >= 0 {
		d := moved[0].dish
		for i, st := range t.steps[:first] {
			if st.dish == d {
				return i
			}
		}
	}
	// "before you start mashing", "before you so much as turn the fruit on"
	if i := t.has(s.First, end, "before you", "before it", "before the", "before adding", "before we"); i >= 0 {
		for j := i + 1; j < min(end, i+9); j++ {
			for _, f := range t.lex.Verbs[t.norm(j)] {
				for x, st := range t.steps[:first] {
					if contains(st.verbs, f.Action.Verb) && !f.Action.Weak {
						return x
					}
				}
			}
		}
	}
	// "that's for while the balls are resting": after that step
	if i := t.has(s.First, end, "while the", "while it", "while they", "while that"); i >= 0 {
		for j := i + 1; j < min(end, i+8); j++ {
			for _, f := range t.lex.Verbs[t.norm(j)] {
				if f.Form != lexicon.Ing {
					continue
				}
				for x := first - 1; x >= 0; x-- {
					if contains(t.steps[x].verbs, f.Action.Verb) {
						return x + 1
					}
				}
			}
		}
	}
	// an oven is heated before what comes first in it; tins are lined before they are filled
	for _, st := range moved {
		if t.heatsOven(st) {
			for x, o := range t.steps[:first] {
				if o.dish == st.dish {
					return x
				}
			}
		}
	}
	// the first step that uses the same food
	for _, st := range moved {
		for _, a := range st.acts {
			act := &t.actions[a]
			sp := act.clause
			for _, m := range t.mentionsIn(min(sp.First, s.First), sp.Last) {
				name := t.mentions[m].food
				for x, o := range t.steps[:first] {
					for _, b := range o.acts {
						c := t.actions[b].clause
						for _, n := range t.mentionsIn(c.First, c.Last) {
							if related(name, t.mentions[n].food) > 0 {
								return x
							}
						}
					}
				}
			}
		}
	}
	// what was already there when the remark came
	return first
}

func (t *talk) heatsOven(st *step) bool {
	for _, e := range st.equip {
		if strings.Contains(e, "oven") && !strings.Contains(e, "dutch") {
			for _, v := range st.verbs {
				if v == "heat" || v == "preheat" || v == "turn" || v == "set" || v == "switch" {
					return true
				}
			}
		}
	}
	return contains(st.verbs, "preheat")
}

// moveBefore obeys "add that before the ginger beer", said at once but of a
// step told before.
func (t *talk) moveBefore() {
	for i := 1; i < len(t.steps); i++ {
		st := t.steps[i]
		for _, a := range st.acts {
			act := &t.actions[a]
			s := t.sentence(act.tok)
			j := t.has(act.tok, s.Last, "before the", "before you add the", "before adding the")
			if j < 0 || j-act.tok > 6 {
				continue
			}
			ms := t.mentionsIn(j, min(s.Last, j+6))
			if len(ms) == 0 {
				continue
			}
			f := t.mentions[ms[0]].food
			for x := 0; x < i; x++ {
				o := t.steps[x]
				hit := false
				for _, g := range o.uses {
					if related(g.food, f) > 0 {
						hit = true
					}
				}
				if hit && o.dish == st.dish {
					copy(t.steps[x+1:i+1], t.steps[x:i])
					t.steps[x] = st
					break
				}
			}
			break
		}
	}
}
