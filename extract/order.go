package extract

import (
	"sort"
	"strings"

	"quern/internal/lexicon"
)

// mendOrder puts steps that were told late where a cook needs them.
func (t *talk) mendOrder() {
	reach := make([]int, len(t.steps)) // the last token told by then, in the order told
	for i, st := range t.steps {
		reach[i] = st.from
		if i > 0 {
			reach[i] = max(reach[i], reach[i-1])
		}
	}
	for k := range t.sents {
		s := &t.sents[k]
		if !s.forgotten {
			continue
		}
		t.moveLate(k, s, reach)
	}
	t.moveBefore()
}

// lateReach is how many words a late remark goes on for at most.
const lateReach = 400

// moveLate moves the steps told after a late-remark cue, within its
// paragraph, in front of the step they prepare.
func (t *talk) moveLate(k int, s *sentence, reach []int) {
	cue := t.forgottenCue(s)
	from, last := s.First, s.Last
	for j := k; j < len(t.sents) && t.sents[j].para == s.para && t.sents[j].First < from+lateReach; j++ {
		last = t.sents[j].Last
	}
	late := func(st *step) bool { return st.from >= from && st.from < last }
	// steps only ever move up, so those told by then are the first ones still
	told := sort.SearchInts(reach, last)
	var moved []*step
	first, end := -1, 0
	for i := max(0, told-inMind); i < told; i++ {
		if st := t.steps[i]; late(st) {
			if first < 0 {
				first = i
			}
			moved, end = append(moved, st), i+1
		}
	}
	if len(moved) == 0 {
		return
	}
	anchor := t.anchor(s, cue, moved, first)
	if anchor < 0 || anchor >= first {
		return
	}
	for _, st := range t.steps[anchor:end] {
		if !late(st) {
			moved = append(moved, st)
		}
	}
	copy(t.steps[anchor:end], moved)
}

// anchor finds the index of the step before which the late steps belong.
func (t *talk) anchor(s *sentence, cue int, moved []*step, first int) int {
	lo := max(0, first-inMind)
	before := t.steps[lo:first]
	end := s.Last
	for _, st := range moved {
		for _, sp := range st.spans {
			end = max(end, sp.Last)
		}
	}
	// "before any of this", "at the very beginning"
	if t.has(s.First, end, "before any of", "before you did any", "before you do any", "very beginning", "at the start", "before you start", "before anything", "right at the beginning", "before we started", "first thing") >= 0 {
		d := moved[0].dish
		for i, st := range before {
			if st.dish == d {
				return lo + i
			}
		}
	}
	// "before you start mashing", "before you so much as turn the fruit on"
	if i := t.has(s.First, end, "before you", "before it", "before the", "before adding", "before we"); i >= 0 {
		for j := i + 1; j < min(end, i+9); j++ {
			for _, f := range t.lex.Verbs[t.norm(j)] {
				for x, st := range before {
					if contains(st.verbs, f.Action.Verb) && !f.Action.Weak {
						return lo + x
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
				for x := len(before) - 1; x >= 0; x-- {
					if contains(before[x].verbs, f.Action.Verb) {
						return lo + x + 1
					}
				}
			}
		}
	}
	// an oven is heated before what comes first in it; tins are lined before they are filled
	for _, st := range moved {
		if t.heatsOven(st) {
			for x, o := range before {
				if o.dish == st.dish {
					return lo + x
				}
			}
		}
	}
	// the first step that uses the same food
	tried := make(map[*lexicon.Food]bool)
	read := 0
	for _, st := range moved {
		for _, a := range st.acts {
			sp := t.actions[a].clause
			for _, m := range t.mentionsIn(max(read, min(sp.First, s.First)), sp.Last) {
				f := t.mentions[m].food
				if tried[f] {
					continue
				}
				tried[f] = true
				for x, o := range before {
					for _, g := range t.foodsOf(o) {
						if related(f, g) > 0 {
							return lo + x
						}
					}
				}
			}
			read = max(read, sp.Last)
		}
	}
	// what was already there when the remark came
	return first
}

// foodsOf gives the foods named in the clauses of a step's actions, each once.
func (t *talk) foodsOf(st *step) []*lexicon.Food {
	if st.foods == nil {
		st.foods = []*lexicon.Food{}
		seen := make(map[*lexicon.Food]bool)
		for _, a := range st.acts {
			sp := t.actions[a].clause
			for _, m := range t.mentionsIn(sp.First, sp.Last) {
				if f := t.mentions[m].food; !seen[f] {
					seen[f] = true
					st.foods = append(st.foods, f)
				}
			}
		}
	}
	return st.foods
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
			for x := max(0, i-inMind); x < i; x++ {
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
