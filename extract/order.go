package extract

import (
	"slices"
	"sort"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// Steps stand in the order they were told, but for remarks that come late. A
// remark says itself where it belongs ("before you pour the brine", "it goes in
// with the thyme", "after roasting, peel them"); one that only says it was
// forgotten belongs where its food or vessel is first worked on.

// Distances in tokens.
const (
	remarkWords = 30  // how far a remark goes on, where there are no marks
	lateReach   = 400 // how far it goes on at most
	cueAhead    = 12  // from an action to the words that place it
)

var (
	// lateCues open a remark that comes late, besides those that mark a
	// sentence as forgotten. Alone they move nothing: the place must be said.
	lateCues = cues("i never say", "i never tell", "i always forget", "always forget", "i've left out", "i left out", "jumped over", "hang on", "hold on", "wait", "oh", "one more thing", "by the way", "should have done", "should've done", "before i forget", "i ought to have", "missed out", "i've missed", "jumped the gun", "out of order", "got ahead of myself")
	// fromStart put a step in front of everything.
	fromStart = cues("before any of this", "before any of that", "before any of it", "before you did any", "before you do any", "before all that", "before all this", "before all of this", "before all of that", "before everything", "before anything", "before that all", "very beginning", "very start", "at the start", "at the beginning", "right at the start", "before we started", "first thing", "the first thing", "first of all you should", "right back at", "before the whole thing")
	// beginning put a step in front of the cooking.
	beginning = cues("before you start", "before you begin", "before starting", "before we start", "before we begin", "before cooking", "before you cook")
	// returning tell that a remark is over.
	returning = cues("anyway", "anyhow", "back to", "where was i", "where were we", "moving on", "carry on", "as i was saying", "so now", "right then", "okay so", "right so", "now then", "back on", "on with")
	// alongside name the step that a late food goes in with.
	alongside = cues("same time as", "along with", "together with", "with", "when the", "alongside", "right after")
)

// mendOrder puts steps that were told late where a cook needs them.
func (t *talk) mendOrder() {
	m := &mender{talk: t, told: make([]int, len(t.steps))}
	for i, st := range t.steps {
		m.told[i] = st.from
		if i > 0 {
			m.told[i] = max(m.told[i], m.told[i-1])
		}
	}
	for k := range t.sents {
		if s := &t.sents[k]; s.forgotten {
			m.moveLate(k, s)
		}
	}
	t.moveSaid()
}

// mender moves steps. Steps only ever move up, so those told by a token are
// still the first ones.
type mender struct {
	*talk
	told []int // the last token told by each step, in the order of the talk
}

// recall gives the first step that words said at step i can speak of.
func recall(i int) int { return max(0, i-inMind) }

// moveLate moves the steps of a late remark in front of the step they prepare.
func (t *mender) moveLate(k int, s *sentence) {
	first, moved := t.remark(k, s)
	if len(moved) == 0 {
		return
	}
	moved = t.tillHot(moved)
	anchor := t.anchor(s, moved, first)
	t.moveSteps(first, len(moved), anchor)
}

// tillHot leaves of a late remark that has the oven heated what comes before
// something goes into it: "the oven should have been on by now. You bake it for
// twenty-five minutes" moves the oven alone.
func (t *talk) tillHot(moved []*step) []*step {
	for i := 1; i < len(moved); i++ {
		if t.heatsOven(moved[i-1]) && !t.heatsOven(moved[i]) && t.heats(moved[i]) {
			return moved[:i]
		}
	}
	return moved
}

// earlierSaid tell that something should have been said before.
var earlierSaid = listed("said that", "said this", "told you that", "told you this", "said so", "mentioned that", "done that", "done this", "did that", "put that")

// remark gives the steps of the late remark that sentence k opens: those told
// after it in its paragraph until the cook returns to the dish; where there are
// none, and the cue looks back ("I should have said that earlier"), those
// before it.
func (t *mender) remark(k int, s *sentence) (int, []*step) {
	last := s.Last
	begin := t.remarkStart(s)
	for j := k; j < len(t.sents); j++ {
		n := &t.sents[j]
		if n.First > s.First+lateReach || t.punctuated && n.para != s.para || !t.punctuated && n.First > s.First+remarkWords {
			break
		}
		if j > k && (t.cueAt(returning, n.First, n.Last) > 0 || t.comesAfter(n) || t.goesBack(n, begin)) {
			break
		}
		last = n.Last
	}
	first, moved := t.stepsIn(begin, last)
	if back := t.hasAny(s.First, s.Last, earlierSaid); back >= 0 && t.has(back, s.Last, "earlier", "before", "sooner", "first", "already") >= 0 {
		from := s.First
		for j := k - 1; j >= 0 && t.sents[j].First > s.First-lateReach && (t.punctuated && t.sents[j].para == s.para || !t.punctuated && t.sents[j].First > s.First-remarkWords/2); j-- {
			from = t.sents[j].First
		}
		if f, before := t.stepsIn(from, s.First); len(before) > 0 {
			return f, append(before, moved...)
		}
	}
	return first, moved
}

// afterwards are kinds of work with which a dish ends: nothing forgotten begins
// so, and no food waits for it to be put in.
var afterwards = words("serve cool")

// comesAfter reports whether all that a sentence tells to do ends the dish.
func (t *talk) comesAfter(s *sentence) bool {
	acts := t.actionsIn(s)
	for _, a := range acts {
		if !afterwards[t.actions[a].verb.Kind] {
			return false
		}
	}
	return len(acts) > 0
}

// goesBack reports whether a sentence behind a remark goes on with the dish: "then
// season", or work on all of it, "stir it all together and serve". The remark begins at token begin.
func (t *talk) goesBack(s *sentence, begin int) bool {
	if len(t.actionsBetween(begin, s.First)) == 0 {
		return false
	}
	i := s.First
	if t.norm(i) == "and" || t.norm(i) == "so" {
		i++
	}
	if t.norm(i) == "then" && t.has(begin, s.First, "before you", "before the", "before it", "before we") >= 0 {
		return true
	}
	acts := t.actionsIn(s)
	for _, a := range acts {
		if afterwards[t.actions[a].verb.Kind] {
			return true
		}
	}
	return len(acts) > 0 && t.has(s.First, s.Last, "it all", "everything") >= 0
}

// remarkStart gives the token a late remark begins at: its sentence's first, or,
// where there are no marks, one shortly before the cue.
func (t *talk) remarkStart(s *sentence) int {
	if t.punctuated {
		return s.First
	}
	return max(s.First, t.forgottenCue(s)-cueAhead/2)
}

// markSplits notes the actions before which a late remark belongs, "let them steam before
// you mash them", so that a step never holds both sides of the place.
func (t *talk) markSplits() {
	for k := range t.sents {
		s := &t.sents[k]
		if !s.forgotten {
			continue
		}
		end := s.Last
		if !t.punctuated {
			end = max(end, min(len(t.toks), s.First+remarkWords))
		}
		for i := s.First; i+2 < end; i++ {
			if t.norm(i) != "before" || !youWe[t.norm(i+1)] && t.verbs(i+1) == nil {
				continue
			}
			j := i + 1
			if youWe[t.norm(j)] {
				j++
			}
			for _, f := range t.verbs(j) {
				for b := i - 1; b >= 0 && b > i-lateReach; b-- {
					if a := t.actionAt[b]; a >= 0 && t.actions[a].verb == f.Action && t.actions[a].mood != negative && t.sentOf[b] != t.sentOf[i] {
						t.actions[a].splits = true
						break
					}
				}
			}
		}
	}
}

// stepsIn gives the steps told in tokens [a, b), which follow each other.
func (t *mender) stepsIn(a, b int) (int, []*step) {
	first := -1
	var out []*step
	told := sort.SearchInts(t.told, b)
	for i := recall(told); i < told; i++ {
		if st := t.steps[i]; st.from >= a && st.from < b {
			if first < 0 {
				first = i
			}
			if i != first+len(out) {
				break // one was moved away already
			}
			out = append(out, st)
		}
	}
	return first, out
}

// moveSteps moves n steps from index first to stand before index anchor, and
// gives them the dish and part of the place.
func (t *talk) moveSteps(first, n, anchor int) {
	if anchor < 0 || anchor >= first {
		return
	}
	at := t.steps[anchor]
	moved := slices.Clone(t.steps[first : first+n])
	copy(t.steps[anchor+n:first+n], t.steps[anchor:first])
	copy(t.steps[anchor:], moved)
	for _, st := range moved {
		if st.dish != at.dish {
			st.dish, st.way = at.dish, at.way
		}
		st.part = at.part
	}
}

// anchor finds the index of the step before which the late steps belong.
func (t *talk) anchor(s *sentence, moved []*step, first int) int {
	from, end := t.remarkStart(s), s.Last
	for _, st := range moved {
		from = min(from, st.from)
		for _, sp := range st.spans {
			end = max(end, sp.Last)
		}
	}
	if !t.punctuated {
		end = min(end, from+remarkWords)
	}
	if x := t.saidPlace(from, end, moved, first, true); x >= 0 {
		return x
	}
	// an oven is heated before what comes first in it
	for _, st := range moved {
		if t.heatsOven(st) {
			for x := recall(first); x < first; x++ {
				o := t.steps[x]
				if o.dish == st.dish {
					return x
				}
			}
		}
	}
	// the first step that uses the same food
	for _, st := range moved {
		for _, a := range st.acts {
			sp := t.actions[a].clause
			for _, m := range t.mentionsIn(min(sp.First, s.First), sp.Last) {
				if x := t.stepWith(t.mentions[m].food, first); x >= 0 {
					return x
				}
			}
		}
	}
	// the first that uses the same vessel: tins are lined before they are filled
	for _, st := range moved {
		if !readies(st) {
			continue
		}
		for _, e := range st.equip {
			for x := recall(first); x < first; x++ {
				o := t.steps[x]
				for _, have := range o.equip {
					if sameTool(e, have) {
						return x
					}
				}
			}
		}
	}
	// what was already there when the remark came
	return first
}

// readies reports whether a step makes a vessel ready.
func readies(st *step) bool {
	for _, v := range st.verbs {
		switch v {
		case "line", "grease", "butter", "oil", "flour", "dust", "warm", "heat", "preheat", "chill", "wet", "rinse", "wash", "sterilise", "sterilize", "soak", "brush", "spray":
			return true
		}
	}
	return false
}

// sameTool reports whether two tools are one: the last words agree.
func sameTool(a, b string) bool {
	x, y := strings.Fields(a), strings.Fields(b)
	return len(x) > 0 && len(y) > 0 && lexicon.Singular(x[len(x)-1]) == lexicon.Singular(y[len(y)-1])
}

// saidPlace reads in tokens [a, b) where steps belong that were told after the
// first steps: the index of the step they go before, -1 when it isn't said.
// Only late remarks are placed by what they go in with.
func (t *talk) saidPlace(a, b int, moved []*step, first int, late bool) int {
	dish := moved[0].dish
	start := -1
	for i := a; i < b; i++ {
		if t.cueAt(fromStart, i, b) > 0 {
			start = 0
			continue
		}
		switch t.norm(i) {
		case "before":
			if n := t.cueAt(beginning, i, b); n > 0 && !strings.HasSuffix(t.norm(i+n), "ing") {
				if start < 0 {
					start = t.firstHeat(dish, first)
				}
				continue
			}
			if x := t.clauseStep(i+1, b, first); x >= 0 {
				return x
			}
		case "after", "once":
			if !late {
				continue
			}
			if x := t.clauseStep(i+1, min(b, i+7), first); x >= 0 && t.verbSoon(i+1, i+5) {
				return x + 1
			}
		case "while", "when", "as":
			if !late && t.norm(i) != "while" || t.norm(i) == "as" && !youWe[t.norm(i+1)] {
				continue
			}
			if x := t.duringStep(i+1, min(b, i+8), first); x >= 0 {
				return x + 1
			}
			if late && t.norm(i) != "while" {
				// "when you pour the milk over", "when the sugar does"
				if x := t.clauseStep(i+1, min(b, i+8), first); x >= 0 {
					return x + 1
				}
			}
		}
	}
	if start == 0 {
		for x := recall(first); x < first; x++ {
			o := t.steps[x]
			if o.dish == dish {
				return x
			}
		}
	}
	if start > 0 {
		return start
	}
	if late {
		return t.goesWith(a, b, first)
	}
	return -1
}

// verbSoon reports whether a form of a verb stands in tokens [a, b).
func (t *talk) verbSoon(a, b int) bool {
	for i := a; i < b; i++ {
		for _, f := range t.verbs(i) {
			if f.Form == lexicon.Ing || f.Form == lexicon.Past {
				return true
			}
		}
	}
	return false
}

// firstHeat gives the first of the first steps that puts something on the
// heat, else the first step of the dish.
func (t *talk) firstHeat(dish, first int) int {
	front := -1
	for x := recall(first); x < first; x++ {
		o := t.steps[x]
		if o.dish != dish {
			continue
		}
		if front < 0 {
			front = x
		}
		if len(o.heat) > 0 || len(o.temps) > 0 || t.heats(o) {
			return x
		}
	}
	return front
}

func (t *talk) heats(st *step) bool {
	for _, a := range st.acts {
		if t.actions[a].verb.Kind == "heat" {
			return true
		}
	}
	return false
}

// anyAdding are verbs that tell nothing of how a food is put in.
var anyAdding = words("add put go")

// clauseStep finds the step that the clause at token i speaks of: "you pour
// the brine", "the crackers go in", "the water", "adding the flour".
func (t *talk) clauseStep(i, b, first int) int {
	end := min(b, i+9)
	for j := i; j < end; j++ {
		if t.toks[j].After != 0 {
			end = j + 1
			break
		}
	}
	verb := -1
	var act *lexicon.Action
	for j := i; j < end && verb < 0; j++ {
		if t.mentionAt[j] >= 0 && !youWe[t.norm(j-1)] {
			break
		}
		switch t.norm(j) {
		case "you", "it", "they", "the", "your", "we", "i", "so", "much", "as", "even", "start", "starting", "that", "them", "go", "goes", "ever", "do", "this", "these", "i've", "you've", "it's", "they're", "again":
			continue
		}
		for _, f := range t.verbs(j) {
			if f.Form == lexicon.Base || f.Form == lexicon.Ing || f.Form == lexicon.Third || f.Form == lexicon.Past {
				verb, act = j, f.Action
				break
			}
		}
		if verb < 0 && (t.madeAt[j] > 0 || t.toolAt[j] >= 0) {
			break
		}
	}
	if verb < 0 {
		// "before the crackers go in": what goes in the oven; else the food
		in := t.has(i, end, "go in", "goes in", "go into", "goes into", "in the oven")
		if in >= 0 {
			if x := t.intoOven(first); x >= 0 {
				if k := t.foodIn(i, end); k < 0 || t.mentions[k].ingr == nil {
					return x
				}
			}
		}
		if k := t.foodIn(i, end); k >= 0 {
			return t.stepAdding(t.mentions[k].food, first)
		}
		return -1
	}
	if act.Verb == "turn" || act.Verb == "switch" || act.Verb == "turn on" || act.Verb == "switch on" {
		return t.firstHeat(t.steps[first].dish, first)
	}
	var fits, alike []int // steps with the verb, and with another that puts something in
	for x := recall(first); x < first; x++ {
		o := t.steps[x]
		for _, a := range o.acts {
			v := t.actions[a].verb
			if v.Verb == act.Verb || t.actions[a].base == act.Verb {
				fits = append(fits, x)
				break
			}
			if act.Kind == "add" && v.Kind == "add" {
				alike = append(alike, x)
				break
			}
		}
	}
	if k := t.foodIn(verb+1, end); k >= 0 {
		if anyAdding[act.Verb] {
			return t.stepAdding(t.mentions[k].food, first)
		}
		for _, x := range fits {
			if t.stepNames(t.steps[x], int(t.mentions[k].head.Last-1)) {
				return x
			}
		}
		if act.Kind == "add" {
			if len(fits) == 1 {
				return fits[0] // "when you pour the butter over": in the mixture by then
			}
			return t.stepAdding(t.mentions[k].food, first)
		}
	}
	for j := verb + 1; j < end; j++ {
		if t.norm(j) == "dry" {
			// "the dry stuff": where the flour is
			for _, x := range fits {
				if t.hasKind(t.steps[x], "flour") {
					return x
				}
			}
		}
		if t.madeAt[j] == 0 {
			continue
		}
		if t.onHeat(j, end) {
			// "before you put the brine on the stove"
			if x := t.partHeat(t.phrase(j, j+int(t.madeAt[j])), first); x >= 0 {
				return x
			}
		}
		// it had to be made first
		if len(fits) > 0 {
			return fits[len(fits)-1]
		}
		if len(alike) > 0 {
			return alike[len(alike)-1]
		}
	}
	if act.Kind == "add" || len(fits) == 0 {
		return -1 // "before you put it": says too little
	}
	return fits[0]
}

// hasKind reports whether a step names a food of the kind.
func (t *talk) hasKind(st *step, kind string) bool {
	for _, g := range st.uses {
		if g.food.Kind == kind {
			return true
		}
	}
	for _, sp := range st.spans {
		for _, k := range t.mentionsIn(sp.First, sp.Last) {
			if t.mentions[k].food.Kind == kind {
				return true
			}
		}
	}
	return false
}

// onHeat reports whether a hob or oven is named in tokens [a, b).
func (t *talk) onHeat(a, b int) bool {
	for i := a; i < b; i++ {
		if k := t.toolAt[i]; k >= 0 && t.tools[k].eq.Kind == "heat" {
			return true
		}
	}
	return t.has(a, b, "on the heat", "to the boil", "to a boil") >= 0
}

// partHeat gives the first step of the named part, or the first that names it.
func (t *talk) partHeat(name string, first int) int {
	for x := recall(first); x < first; x++ {
		o := t.steps[x]
		if o.part >= 0 && o.part < len(t.partNames) && strings.HasSuffix(t.partNames[o.part], name) {
			return x
		}
	}
	for x := recall(first); x < first; x++ {
		o := t.steps[x]
		for _, sp := range o.spans {
			if t.has(sp.First, sp.Last, name) >= 0 {
				return x
			}
		}
	}
	return -1
}

// foodIn gives the first mention in tokens [a, b), -1 for none.
func (t *talk) foodIn(a, b int) int {
	for i := a; i < b && i < len(t.toks); i++ {
		if k := t.mentionAt[i]; k >= 0 {
			return int(k)
		}
	}
	return -1
}

// stepNames reports whether the step's words name what token j names.
func (t *talk) stepNames(st *step, j int) bool {
	w := lexicon.Singular(t.norm(j))
	k := t.mentionAt[j]
	for _, sp := range st.spans {
		for i := sp.First; i < sp.Last; i++ {
			if lexicon.Singular(t.norm(i)) == w {
				return true
			}
			if o := t.mentionAt[i]; k >= 0 && o >= 0 && related(t.mentions[k].food, t.mentions[o].food) > 0 {
				return true
			}
		}
	}
	return false
}

// stepWith gives the first of the first steps whose words name the food.
func (t *talk) stepWith(f *lexicon.Food, first int) int {
	for x := recall(first); x < first; x++ {
		for _, g := range t.foodsOf(t.steps[x]) {
			if related(f, g) > 0 {
				return x
			}
		}
	}
	return -1
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

// stepAdding gives the last of the first steps that puts the food in: one that
// introduces it, else the first that names it.
func (t *talk) stepAdding(f *lexicon.Food, first int) int {
	for x := first - 1; x >= recall(first); x-- {
		for _, g := range t.steps[x].uses {
			if related(f, g.food) > 0 {
				return x
			}
		}
	}
	return t.stepWith(f, first)
}

// intoOven gives the first of the first steps that puts the dish in the oven.
func (t *talk) intoOven(first int) int {
	for x := recall(first); x < first; x++ {
		o := t.steps[x]
		if t.heatsOven(o) {
			continue
		}
		if contains(o.verbs, "bake") || contains(o.verbs, "roast") {
			return x
		}
		for _, e := range o.equip {
			if strings.Contains(e, "oven") && !strings.Contains(e, "dutch") {
				return x
			}
		}
	}
	return -1
}

// duringStep finds the step that goes on while the late one is done: "while
// the balls are resting", "when the stock is simmering": one that names what
// rests or simmers, else the longest wait of the kind.
func (t *talk) duringStep(i, b, first int) int {
	for j := i; j < b; j++ {
		for _, f := range t.verbs(j) {
			if f.Form != lexicon.Ing {
				continue
			}
			best, longest := -1, -1.0
			for x := first - 1; x >= recall(first); x-- {
				if !contains(t.steps[x].verbs, f.Action.Verb) {
					continue
				}
				for w := i; w < j; w++ {
					if (t.mentionAt[w] >= 0 || t.madeAt[w] > 0) && t.stepNames(t.steps[x], w) {
						return x
					}
				}
				wait := 0.0
				for _, q := range t.steps[x].times {
					if k, ok := schema.Seconds(q.Unit); ok {
						wait = max(wait, k*q.Max)
					}
				}
				if wait > longest {
					best, longest = x, wait
				}
			}
			if best >= 0 {
				return best
			}
		}
		if t.toks[j].After != 0 {
			break
		}
	}
	return -1
}

// goesWith finds the step after the one a late food goes in with: "it goes in
// at the same time as the thyme", "add them with the leeks".
func (t *talk) goesWith(a, b, first int) int {
	for i := a; i < b; i++ {
		n := t.cueAt(alongside, i, b)
		if n == 0 || t.norm(i+n) != "the" && t.norm(i+n) != "your" && t.norm(i+n-1) != "the" {
			continue
		}
		if t.norm(i) == "with" && t.has(max(a, i-5), i, "in", "add", "added", "them", "it", "goes") < 0 {
			continue
		}
		k := t.foodIn(i+n, min(b, i+n+4))
		if k < 0 || t.mentions[k].ingr != nil && t.mentions[k].ingr.first >= a {
			continue
		}
		if x := t.stepAdding(t.mentions[k].food, first); x >= 0 {
			return x + 1
		}
	}
	return -1
}

func (t *talk) heatsOven(st *step) bool {
	for _, e := range st.equip {
		if strings.Contains(e, "oven") && !strings.Contains(e, "dutch") {
			for _, v := range st.verbs {
				switch w, _, _ := strings.Cut(v, " "); w {
				case "heat", "preheat", "turn", "set", "switch", "warm", "light":
					return true
				}
			}
		}
	}
	return contains(st.verbs, "preheat")
}

// moveSaid moves steps whose own words say that they belong before a step told
// already: "add that before the ginger beer", "Before you whisk the dry stuff,
// grate in the zest". Where nothing announced that they come late, only an
// order that names the food of an earlier step is taken for one.
func (t *talk) moveSaid() {
	for i := 1; i < len(t.steps); i++ {
		st := t.steps[i]
		s := t.sentence(st.from)
		if s.forgotten || t.underForgotten(s) {
			continue
		}
		if x := t.ovenEarly(st, i); x >= 0 {
			t.moveSteps(i, 1, x)
			continue
		}
		if !t.announced(st.from) {
			if x := t.beforeFood(st, i); x >= 0 {
				t.moveSteps(i, 1, x)
			}
			continue
		}
		from, to := st.from, st.from
		for n, sp := range st.spans {
			act := &t.actions[st.acts[n]]
			if n == 0 {
				from = max(sp.First, act.tok-cueAhead)
			}
			to = max(to, min(sp.Last, act.tok+cueAhead))
		}
		if x := t.saidPlace(from, to, []*step{st}, i, true); x >= 0 && x < i {
			n := 1
			for i+n < len(t.steps) && t.follows(st, t.steps[i+n]) {
				n++
			}
			t.moveSteps(i, n, x)
			i += n - 1
		}
	}
}

// follows reports whether a step goes on with a late remark: told right after
// it in its paragraph, before the cook returns to the dish.
func (t *talk) follows(st, next *step) bool {
	if next.para != st.para || next.from < st.from || next.from > st.from+remarkWords || t.comesAfter(t.sentence(next.from)) {
		return false
	}
	for k := int(t.sentOf[st.from]) + 1; k <= int(t.sentOf[next.from]); k++ {
		if t.cueAt(returning, t.sents[k].First, t.sents[k].Last) > 0 {
			return false
		}
	}
	// what brings in something new is a step of its own
	return len(next.uses) == 0 || t.sentOf[next.from] == t.sentOf[st.from]
}

// ovenEarly reads, after a step that heats the oven, when it was to be done:
// "so you switch it on while the dough's rising". It gives the index of the
// step it stands before, -1 when nothing was said.
func (t *talk) ovenEarly(st *step, i int) int {
	if !t.heatsOven(st) {
		return -1
	}
	k := int(t.sentOf[st.from])
	for j := k; j <= k+2 && j < len(t.sents); j++ {
		n := &t.sents[j]
		for w := n.First; w < n.Last; w++ {
			if t.norm(w) == "while" && t.has(n.First, w, "switch", "turn", "put", "light", "set", "heat", "preheat") >= 0 {
				if x := t.duringStep(w+1, min(n.Last, w+8), i); x >= 0 && t.steps[x].dish == st.dish {
					return x + 1
				}
			}
		}
	}
	return -1
}

// beforeFood reads "add that before the ginger beer" right after an action,
// where the food went in with an earlier step.
func (t *talk) beforeFood(st *step, i int) int {
	for _, a := range st.acts {
		act := &t.actions[a]
		s := t.sentence(act.tok)
		j := t.has(act.tok, s.Last, "before the", "before you add the", "before adding the")
		if j < 0 || j-act.tok > 6 || act.verb.Kind != "add" && act.verb.Kind != "mix" {
			continue
		}
		k := t.foodIn(j, min(s.Last, j+6))
		if k < 0 {
			continue
		}
		for x := recall(i); x < i; x++ {
			o := t.steps[x]
			for _, g := range o.uses {
				if related(g.food, t.mentions[k].food) > 0 && o.dish == st.dish {
					return x
				}
			}
		}
	}
	return -1
}

// underForgotten reports whether a forgotten remark opened shortly before the
// sentence, in its paragraph.
func (t *talk) underForgotten(s *sentence) bool {
	for k := int(t.sentOf[s.First]) - 1; k >= 0 && t.sents[k].para == s.para && t.sents[k].First > s.First-lateReach; k-- {
		if t.sents[k].forgotten {
			return true
		}
	}
	return false
}

// announced reports whether a late remark was announced before token i, in its
// paragraph.
func (t *talk) announced(i int) bool {
	k := int(t.sentOf[i])
	for j := k; j >= 0 && j >= k-3 && t.sents[j].para == t.sents[k].para; j-- {
		n := &t.sents[j]
		from := n.First
		if !t.punctuated {
			from = max(from, i-2*cueAhead)
		}
		if x, _ := t.cueIn(lateCues, from, min(n.Last, i)); x >= 0 && (t.punctuated || t.norm(x) != "oh" && t.norm(x) != "wait") {
			return true
		}
		// "Scallions!", "Eggs!": the food called out
		if n.Len() <= 4 && j < k && t.toks[n.Last-1].After&language.Exclaim != 0 && len(t.mentionsIn(n.First, n.Last)) > 0 {
			return true
		}
	}
	return false
}
