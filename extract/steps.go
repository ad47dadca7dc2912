package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// step is one written instruction in the making.
type step struct {
	acts     []int           // indices in actions
	from     int             // token it was said at
	foods    []*lexicon.Food // see foodsOf
	spans    []language.Span
	text     string
	verbs    []string
	uses     []*ingredient
	equip    []string
	temps    []schema.Quantity
	heat     []string
	times    []schema.Quantity
	sizes    []schema.Quantity
	until    string
	sign     language.Span // of until
	part     int
	way      int
	optional bool
	dish     int
	again    []language.Span // where it was said once more
	figures  []language.Span // where its temperatures, times and sizes were said
	para     int
	listed   []*ingredient // told in sentences without an action of their own
	begins   []*ingredient // listed before its first action, which works on them
	many     bool          // its "it" stands for several things
}

// perStep is how many actions of one sentence share a written step.
const perStep = 3

// sceneReach is how many words may stand between the naming of a vessel and what
// is done in it: a list of what goes in.
const sceneReach = 60

// writeSteps groups actions into steps and gives each what was said with it.
func (t *talk) writeSteps() {
	t.markSplits()
	var cur *step
	introduced := map[*ingredient]bool{}
	var pending []*ingredient // listed since the last step
	var lists []language.Span // the sentences that listed them
	var scene *sentence       // names the vessel of the step to come
	var degrees []*quantity   // told before the first step
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing || s.kind == figures || s.kind == aside {
			if s.kind == aside && len(t.actionsIn(s)) == 0 {
				continue
			}
			if s.kind != aside {
				continue
			}
		}
		acts := t.actionsIn(s)
		var live []int
		for _, a := range acts {
			if t.actions[a].mood != negative && !t.onlySubstitutes(s, a) {
				live = append(live, a)
			}
		}
		if len(live) == 0 {
			if s.recap || s.other || t.retelling != nil && t.retelling[s.First] == through {
				continue
			}
			// a fragment: its times and temperatures belong to the step before
			// of a vessel that comes in now, to the one after
			if t.setsScene(s) {
				scene = s
			} else if cur != nil && t.belongs(s, cur) {
				t.addDetails(cur, s.First, s.Last, s)
			} else if cur == nil && !s.past {
				degrees = append(degrees, t.temperaturesIn(s)...)
			}
			fresh := t.newlyListed(s, introduced)
			if len(fresh) == 0 && !t.measuredAgain(s) {
				continue
			}
			if cur != nil && scene == nil && t.goesOn(cur, s) {
				cur.again = append(cur.again, s.Span)
				cur.listed = append(cur.listed, fresh...)
				cur.uses = append(cur.uses, fresh...)
				if len(fresh) > 0 && !contains(cur.verbs, "add") {
					cur.verbs = append(cur.verbs, "add")
				}
				for _, g := range fresh {
					introduced[g] = true
				}
				continue
			}
			pending = append(pending, fresh...)
			if t.tellsOfWork(s) {
				lists = append(lists, s.Span)
			}
			continue
		}
		var group *step
		if cur != nil && scene == nil && (t.joins(cur, s, live[0]) || t.ledInto(cur, live[0])) {
			group = cur
		}
		lead := s.First
		if group == nil && cur != nil && scene == nil && t.belongs(s, cur) {
			// "eight hours on low, and then shred it": the hours are of the step before
			if lead = t.leadingFigures(s, &t.actions[live[0]]); lead > s.First {
				t.addDetails(cur, s.First, lead, s)
				cur.again = append(cur.again, language.Span{First: s.First, Last: lead})
			}
		}
		for n, a := range live {
			act := &t.actions[a]
			if group == nil || len(group.acts) >= perStep && !(n > 0 && t.leadsTo(live, n-1)) && !t.ledInto(group, a) || t.apart(group, act) {
				group = &step{from: act.tok, part: t.partOf(act.tok), way: t.wayOf(act.tok), dish: t.dishOf(act.tok), para: s.para}
				t.steps = append(t.steps, group)
				begun := cur != nil || scene != nil
				cur = group
				if scene != nil && group.from-scene.Last <= sceneReach {
					t.addDetails(group, scene.First, scene.Last, scene)
				}
				scene = nil
				for _, q := range degrees {
					t.addFigure(group, q, s)
				}
				degrees = nil
				for _, g := range pending {
					if !introduced[g] && g.dish == group.dish {
						group.uses = append(group.uses, g)
						introduced[g] = true
					}
				}
				near := false
				for _, sp := range lists {
					if group.from-sp.Last <= sceneReach {
						group.again = append(group.again, sp)
						near = true
					}
				}
				if begun && near && t.worksOnListed(s, act) {
					group.begins = append(group.begins, group.uses...)
					group.verbs = append(group.verbs, "add")
				}
				pending, lists = pending[:0], lists[:0]
			}
			act.step = group
			group.acts = append(group.acts, a)
			if !contains(group.verbs, act.base) && (!t.leadsTo(live, n) || act.base == "leave" && t.actions[live[n+1]].verb.Kind != "heat") {
				group.verbs = append(group.verbs, act.base)
			}
			from, to := act.clause.First, 0
			if n == 0 {
				from = lead
			}
			if n == len(live)-1 {
				to = s.Last
			} else {
				to = t.actions[live[n+1]].clause.First
				if n > 0 {
					from = act.clause.First
				}
			}
			if from > to {
				from = act.tok
			}
			group.spans = append(group.spans, language.Span{First: from, Last: to})
			t.addDetails(group, from, to, s)
			if act.mood == permitted || act.optional {
				group.optional = group.optional || t.hasAny(s.First, s.Last, leaveOutCue) >= 0
			}
			for _, m := range t.mentionsIn(from, to) {
				if g := t.mentions[m].ingr; g != nil && !introduced[g] {
					group.uses = append(group.uses, g)
					introduced[g] = true
				}
			}
		}
	}
	t.placeDegrees()
	t.mergeRepeats()
	kept := t.steps[:0]
	for _, st := range t.steps {
		t.writeText(st)
		if !t.tellsNothing(st) && !(len(kept) == 0 && t.cutsAhead(st)) {
			kept = append(kept, st)
			continue
		}
		for _, a := range st.acts {
			t.actions[a].step = nil
		}
	}
	t.steps = kept
}

// leadingFigures gives where the words end that a sentence begins with and that only
// tell how long what was done before goes on, until what is done then; where it begins
// if there are none.
func (t *talk) leadingFigures(s *sentence, act *action) int {
	end := t.has(max(s.First, act.tok-4), act.tok, "then")
	if end <= s.First || subordinators[t.norm(s.First)] || t.norm(s.First) == "after" || t.norm(s.First) == "in" {
		return s.First
	}
	if t.norm(end-1) == "and" {
		end--
	}
	timed := false
	for i := s.First; i < end; i++ {
		if t.mentionAt[i] >= 0 || t.actionAt[i] >= 0 {
			return s.First
		}
		if q := t.quantityAt[i]; q >= 0 {
			timed = timed || t.quantities[q].kind == duration && !t.quantities[q].void
		}
	}
	if !timed {
		return s.First
	}
	return end
}

// needsObject are verbs that say nothing by themselves.
var needsObject = words("add put empty finish take bring set place get use start begin pack")

// tellsNothing reports whether a step is a lone verb that needs an object to be work.
func (t *talk) tellsNothing(st *step) bool {
	w := strings.ToLower(strings.TrimRight(st.text, "."))
	if v, in, two := strings.Cut(w, " "); two && (in == "in" || in == "it in") {
		w = v // "add in"
	}
	return len(st.uses) == 0 && needsObject[w]
}

// cutsAhead reports whether a step, told before anything is done, cuts up what isn't
// made yet: an overview tells what the dish will be, "one big tray, and you cut it in
// sixteen squares".
func (t *talk) cutsAhead(st *step) bool {
	for _, a := range st.acts {
		switch act := &t.actions[a]; act.base {
		case "cut", "slice", "divide":
			if w := t.norm(act.tok + 1); w != "it" && w != "them" || act.tok > st.from+aheadWords {
				return false
			}
		default:
			return false
		}
	}
	for i := range t.mentions {
		if t.mentions[i].First >= st.from {
			break
		}
		if t.mentions[i].ingr != nil {
			return false
		}
	}
	if s := t.sentence(st.from); s.First > 0 {
		if before := t.sentence(s.First - 1); len(t.mentionsIn(before.First, before.Last)) > 0 {
			return false // "a whole cabbage. Cut it in four"
		}
	}
	return len(st.uses) == 0
}

// aheadWords is how many words may stand between the first cut of such a step and the last.
const aheadWords = 12

// measuredAgain reports whether a sentence names an ingredient with an amount.
func (t *talk) measuredAgain(s *sentence) bool {
	for _, m := range t.mentionsIn(s.First, s.Last) {
		if t.mentions[m].ingr != nil && len(t.mentions[m].amounts) > 0 && !t.mentions[m].negated {
			return true
		}
	}
	return false
}

// worksOnListed reports whether an action works on the foods listed before it:
// "two cloves of garlic, a thumb of ginger. Blend that."
func (t *talk) worksOnListed(s *sentence, act *action) bool {
	if act.verb.Verb == "go" && act.base == "add" && act.mood == passive && t.mentionEndsAt(act.tok) {
		return true // "olive oil, a knob of butter. And the veg goes in"
	}
	if act.verb.Kind != "mix" && act.verb.Kind != "heat" || act.bare || act.base == "heat" || act.base == "preheat" {
		return false
	}
	end := min(act.clause.Last, s.Last)
	if act.lead > 0 && act.lead < act.tok && opensObject[t.norm(act.lead+1)] && len(t.mentionsIn(act.lead, end)) == 0 {
		return true // "give that a stir"
	}
	i := act.tok + 1
	for i < end && (leadAdverbs[t.norm(i)] || contains(act.verb.Particles, t.norm(i))) {
		i++
	}
	switch t.norm(i) {
	case "it", "them", "this", "that", "these", "those", "everything", "all":
		return len(t.mentionsIn(i, end)) == 0
	}
	return len(t.mentionsIn(act.clause.First, end)) == 0 && !t.toolIn(act.clause.First, end)
}

// leadsTo reports whether the action live[n] only fetches or leaves what the next
// one works on: "take an egg and beat it", "leave it to simmer".
func (t *talk) leadsTo(live []int, n int) bool {
	if n+1 >= len(live) {
		return false
	}
	a, b := &t.actions[live[n]], &t.actions[live[n+1]]
	switch a.base {
	case "leave":
		return b.lead == a.tok
	case "take", "get", "grab":
		for i := a.tok + 1; i < b.tok; i++ {
			switch t.norm(i) {
			case "out", "off", "away", "down", "back", "from", "up":
				return false
			}
		}
		if !t.hasFood(a.tok, b.tok) {
			return false
		}
		switch t.norm(b.tok + 1) {
		case "it", "them", "that", "this", "those", "these", "him":
			return true
		}
		return t.norm(b.tok-1) == "and" && !t.hasFood(b.tok+1, min(b.clause.Last, b.tok+4))
	}
	return false
}

// newlyListed gives the ingredients of a sentence that no step uses yet.
func (t *talk) newlyListed(s *sentence, introduced map[*ingredient]bool) []*ingredient {
	var out []*ingredient
	for _, m := range t.mentionsIn(s.First, s.Last) {
		g := t.mentions[m].ingr
		if g == nil || introduced[g] {
			continue
		}
		seen := false
		for _, x := range out {
			seen = seen || x == g
		}
		if !seen {
			out = append(out, g)
		}
	}
	return out
}

// goesOn reports whether a sentence without an action goes on with the list of
// what the step before it puts in: "add the onion. Two cloves of garlic. And a
// bay leaf."
func (t *talk) goesOn(cur *step, s *sentence) bool {
	last := &t.actions[cur.acts[len(cur.acts)-1]]
	if len(cur.times) > 0 || cur.until != "" {
		return false // what went in is cooking by now
	}
	if t.punctuated && !t.lineByLine && s.para != cur.para || last.base != "add" && len(t.mentionsIn(last.clause.First, last.clause.Last)) == 0 {
		return false // another paragraph, or nothing went in
	}
	if !takesFood[last.base] || cur.dish != t.dishOf(s.First) || cur.part != t.partOf(s.First) || cur.way != t.wayOf(s.First) {
		return false
	}
	end := last.clause.Last
	if t.has(last.tok, end, "out", "away", "aside", "one side", "by") >= 0 {
		return false // what is put by takes nothing in
	}
	if n := len(cur.again); n > 0 {
		end = max(end, cur.again[n-1].Last)
	}
	return s.First >= end && s.First-end <= listReach && t.tellsOfWork(s)
}

// listReach is how many words may stand between the items of what goes in.
const listReach = 30

// takesFood are verbs after which more can be named that goes in.
var takesFood = words("add toss scatter crumble season put throw pop tip drop dump sprinkle pour stir mix combine")

// tellsOfWork reports whether a sentence without an action, that names foods, tells
// of what is being made: no story, question or remark on another dish.
func (t *talk) tellsOfWork(s *sentence) bool {
	return s.kind != aside && !s.past && !s.other && !s.naming && !t.ofOthers(s) && t.toks[s.Last-1].After&language.Question == 0 &&
		t.hasAny(s.First, s.Last, asideCue) < 0
}

// asideCues tell of what else could go in, or of what something does.
var asideCues = []string{"you can", "you could", "instead", "if you", "don't want", "not too much", "helps", "or you", "looks like", "recommend"}

// onlySubstitutes reports whether the action works on nothing but foods that
// stand in for others.
func (t *talk) onlySubstitutes(s *sentence, a int) bool {
	act := &t.actions[a]
	n := 0
	for _, m := range t.mentionsIn(act.tok, act.clause.Last) {
		if t.mentions[m].subst < 0 {
			return false
		}
		n++
	}
	return n > 0
}

// leadsIn reports whether "in goes the butter" only names what the next
// action works on.
func (t *talk) leadsIn(a int) bool {
	act := &t.actions[a]
	if act.verb.Verb != "go" || act.base != "add" || t.sentence(act.tok).forgotten || t.announced(act.tok) || act.tok > 1 && onward[t.norm(act.tok-2)] {
		return false
	}
	if a+1 >= len(t.actions) {
		return false
	}
	next := &t.actions[a+1]
	return next.mood != negative && !afterwards[next.verb.Kind] && t.sentOf[next.tok]-t.sentOf[act.tok] <= 3 && next.tok-act.tok < 45
}

// ledInto reports whether the last action of a step only names what action a works on, so
// that they are written together: "add the butter, then whisk it in".
func (t *talk) ledInto(cur *step, a int) bool {
	last := cur.acts[len(cur.acts)-1]
	return last+1 == a && len(cur.acts) <= perStep && t.leadsIn(last)
}

// repeats reports whether a step says again what the one before it said, with
// nothing new: "Whisk it. Properly, whisk it, once."
func (t *talk) repeats(prev, st *step) bool {
	if prev == nil || prev.part != st.part || prev.way != st.way || st.para != prev.para || len(st.uses) > 0 {
		return false
	}
	for _, v := range st.verbs {
		if !contains(prev.verbs, v) {
			return false
		}
	}
	for n, a := range st.acts {
		sp := st.spans[n]
		act := t.actions[a].tok
		if len(t.mentionsIn(act, sp.Last)) > 0 || t.toolIn(act, sp.Last) {
			return false
		}
		// only "it", or nothing, may be the object
		if w := t.norm(act + 1); sp.Last-act > 2 && w != "it" && w != "them" && w != "that" && w != "this" && w != "again" {
			return false
		}
	}
	return len(st.times) == 0 || len(prev.times) == 0
}

func (t *talk) toolIn(a, b int) bool {
	for i := a; i < b; i++ {
		if t.toolAt[i] >= 0 {
			return true
		}
	}
	return false
}

// mergeRepeats joins steps that repeat the one before.
func (t *talk) mergeRepeats() {
	var out []*step
	for _, st := range t.steps {
		var prev *step
		if len(out) > 0 {
			prev = out[len(out)-1]
		}
		if !t.repeats(prev, st) {
			out = append(out, st)
			continue
		}
		for _, x := range st.times {
			if !hasQuantity(prev.times, x) {
				prev.times = append(prev.times, x)
			}
		}
		for _, x := range st.temps {
			if !hasQuantity(prev.temps, x) {
				prev.temps = append(prev.temps, x)
			}
		}
		if prev.until == "" {
			prev.until, prev.sign = st.until, st.sign
		}
		prev.again = append(prev.again, st.spans...)
		prev.figures = append(prev.figures, st.figures...)
	}
	t.steps = out
}

func (t *talk) actionsIn(s *sentence) []int { return t.actionsBetween(s.First, s.Last) }

// actionsBetween gives the actions in tokens [a, b).
func (t *talk) actionsBetween(a, b int) []int {
	var out []int
	for i := a; i < b; i++ {
		if k := t.actionAt[i]; k >= 0 {
			out = append(out, int(k))
		}
	}
	return out
}

// apart reports whether an action must not share the step before it: another
// way or part begins, or the clause between carries a time of its own.
func (t *talk) apart(g *step, a *action) bool {
	if a.splits || t.wayOf(a.tok) != g.way || t.partOf(a.tok) != g.part {
		return true
	}
	return false
}

// joins reports whether the first action of a sentence shares the step of the one
// before: where one of them was said without a verb, in one breath with the other,
// and no time stands between them.
func (t *talk) joins(cur *step, s *sentence, first int) bool {
	last := &t.actions[cur.acts[len(cur.acts)-1]]
	if !last.bare && !t.actions[first].bare || cur.para != s.para || len(cur.times) > 0 || cur.until != "" || s.forgotten != t.sentence(cur.from).forgotten || t.announced(t.actions[first].tok) != t.announced(cur.from) {
		return false
	}
	return s.First-last.clause.Last <= fragmentWords
}

// belongs reports whether a fragment goes on with the step before it: in the
// same paragraph, or the one right after.
func (t *talk) belongs(s *sentence, cur *step) bool {
	if s.kind == aside || s.past && !t.hasFood(s.First, s.Last) {
		return false
	}
	return s.para == cur.para || s.para == cur.para+1 && s.First > cur.from
}

// addDetails gives the step the times, temperatures, heats, sizes, equipment
// and sign of doneness in tokens [a, b).
func (t *talk) addDetails(st *step, a, b int, s *sentence) {
	for i := a; i < b; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].First == i {
			t.addFigure(st, &t.quantities[q], s)
		}
		if x := t.toolAt[i]; x >= 0 && (i == a || t.toolAt[i-1] != x) {
			if n := t.tools[x].name; !contains(st.equip, n) {
				st.equip = append(st.equip, n)
			}
		}
		if h, n := t.heatAt(i); n > 0 {
			if !contains(st.heat, h) {
				st.heat = append(st.heat, h)
				t.because("heat "+h, i, i+n, "heat")
			}
			i += n - 1
		}
	}
	if st.until == "" {
		if st.sign = t.untilIn(a, b); st.sign.Len() > 0 {
			st.until = t.phrase(st.sign.First, st.sign.Last)
		}
	}
}

// temperaturesIn gives the temperatures said in a sentence.
func (t *talk) temperaturesIn(s *sentence) []*quantity {
	var out []*quantity
	for i := s.First; i < s.Last; i++ {
		if x := t.quantityAt[i]; x >= 0 && t.quantities[x].First == i && t.quantities[x].kind == heat {
			out = append(out, &t.quantities[x])
		}
	}
	return out
}

func (t *talk) addFigure(st *step, q *quantity, s *sentence) {
	if q.void {
		return
	}
	switch q.kind {
	case heat:
		v := *q.value()
		if !hasQuantity(st.temps, v) {
			st.temps = append(st.temps, v)
			st.figures = append(st.figures, q.Span)
			t.because("temperature "+v.String(), q.First, q.Last, "temperature")
		}
	case duration:
		if !t.cookingTime(q, s) && !t.longWait(st, q, s) {
			return
		}
		v := *q.value()
		if !hasQuantity(st.times, v) {
			st.times = append(st.times, v)
			st.figures = append(st.figures, q.Span)
			t.because("time "+v.String(), q.First, q.Last, "time")
		}
	case length:
		v := *q.value()
		if len(v.By) > 0 && v.Min != v.Max {
			return // a list of numbers, and no tin
		}
		if !hasQuantity(st.sizes, v) {
			st.sizes = append(st.sizes, v)
			st.figures = append(st.figures, q.Span)
		}
	}
}

func hasQuantity(list []schema.Quantity, v schema.Quantity) bool {
	for _, x := range list {
		if x.Min == v.Min && x.Max == v.Max && x.Unit == v.Unit && len(x.By) == len(v.By) {
			return true
		}
	}
	return false
}

// cookingTime reports whether a duration is something the cook waits for, not
// an age, a shift or a story's.
func (t *talk) cookingTime(q *quantity, s *sentence) bool {
	switch q.unit {
	case "month", "week":
		return false
	case "day":
		return t.has(s.First, s.Last, "marinate", "soak", "ferment", "rest", "brine", "cure", "prove", "rise", "chill", "fridge", "dry") >= 0
	}
	i := q.Last
	switch t.norm(i) {
	case "ago", "old", "behind", "ahead", "late", "early", "away", "drive", "shift", "later":
		return t.norm(i) == "ahead"
	}
	if t.norm(q.First-1) == "every" {
		if q.unit == "hour" && s.kind != instruction {
			return false
		}
		for _, a := range t.actionsIn(s) {
			if t.actions[a].mood == negative {
				return false // "don't lift the lid every two minutes"
			}
		}
	}
	return true
}

// longWaits are verbs of work that takes days or weeks.
var longWaits = words("stay ferment cure wait mature age steep infuse pickle soak marinate brine macerate freeze dry stand rest sit salt turn hang")

// longWait reports whether days, weeks or months are how long a step takes: it waits for
// something that needs them, and nothing is told of keeping.
func (t *talk) longWait(st *step, q *quantity, s *sentence) bool {
	if q.unit != "day" && q.unit != "week" && q.unit != "month" || s.kind == storing || s.past {
		return false
	}
	switch t.norm(q.Last) {
	case "ago", "old", "later", "before", "earlier", "off":
		return false
	}
	if len(st.acts) == 0 {
		return false
	}
	last := &t.actions[st.acts[len(st.acts)-1]]
	if q.First-last.tok > waitReach || t.sentOf[last.tok] != t.sentOf[q.First] && (s.Len() > waitWords || s.First != t.sentence(last.tok).Last) {
		return false
	}
	for _, v := range st.verbs {
		if longWaits[v] && (q.unit != "month" || v == "steep" || v == "infuse" || v == "mature" || v == "age" || v == "cure" || v == "ferment") {
			return true
		}
	}
	return false
}

// waitWords is the longest sentence that only tells how long what was done before it takes:
// "three weeks at least".
const waitWords = 5

// waitReach is how many words may stand between the work and how long it takes.
const waitReach = 12

// machines are what has a speed and no heat.
var machines = listed("mixer", "blender", "processor", "beat", "speed", "whisk attachment", "paddle")

// heatAt reads a level of heat at i: "medium-low heat", "on low", "turn it up
// to high", "a gentle heat".
func (t *talk) heatAt(i int) (string, int) {
	level, n := "", 0
	switch t.norm(i) {
	case "low", "lowest":
		level, n = "low", 1
	case "medium", "moderate", "med":
		level, n = "medium", 1
	case "high", "highest":
		level, n = "high", 1
	case "gentle":
		if t.norm(i+1) == "heat" || t.norm(i+1) == "flame" {
			return "low", 2
		}
		return "", 0
	case "full":
		if (t.norm(i+1) == "heat" || t.norm(i+1) == "flame" || t.norm(i+1) == "blast") && i > 0 {
			return "high", 2
		}
		return "", 0
	default:
		return "", 0
	}
	if i > 0 && t.joined(i-1) && (t.norm(i-1) == "medium" || t.norm(i-1) == "too" || t.norm(i-1) == "not") {
		return "", 0
	}
	if level == "medium" && t.toks[i].After == 0 {
		switch t.norm(i + 1) {
		case "low", "high":
			level += "-" + t.norm(i+1)
			n = 2
		case "to":
			if w := t.norm(i + 2); w == "low" || w == "high" {
				level += "-" + w
				n = 3
			}
		}
	}
	if level == "low" && t.norm(i+1) == "to" && t.norm(i+2) == "medium" {
		level, n = "medium-low", 3
	}
	end := i + n
	next := t.norm(end)
	if t.toks[end-1].After == 0 {
		switch next {
		case "heat", "flame", "heats", "setting", "gas", "fire", "hob", "burner":
			return level, n
		case "speed", "pressure", "peaks", "fat", "carb", "carbs", "protein", "quality", "sided", "shelf", "rack", "cut", "rare", "bowl", "size", "sized", "onion", "egg", "eggs", "sodium", "sugar", "gear", "end", "up", "of", "temperature", "well", "dice", "grind", "school", "street", "winds":
			if next == "of" || next == "up" {
				return "", 0
			}
			return "", 0
		}
		if _, fn := t.lex.FoodAt(t.ids, end, t.stops); fn > 0 && level == "medium" {
			return "", 0
		}
		if _, tn := t.lex.ToolAt(t.ids, end, nil); tn > 0 && level == "medium" {
			return "", 0
		}
	}
	s := t.sentence(i)
	switch p := t.norm(i - 1); p {
	case "on", "over", "at":
		// "on high" on a mixer is a speed
		if t.hasAny(s.First, s.Last, machines) >= 0 && t.has(s.First, s.Last, "pan", "pot", "heat", "stove", "skillet") < 0 {
			return "", 0
		}
		return level, n
	case "to":
		return level, n
	case "a", "the", "your":
		return level, b2n(t.norm(end) == "heat", n)
	case "still", "back", "down", "than":
		return level, b2n(p != "than", n)
	}
	// "Skillet, medium-low, and", "Then low.", "high heat"
	if i > s.First && t.toks[i-1].After == 0 && t.norm(i-1) != "then" && t.norm(i-1) != "it" && t.norm(i-1) != "about" && t.norm(i-1) != "now" && t.norm(i-1) != "like" && t.norm(i-1) != "and" && t.norm(i-1) != "saute" && t.norm(i-1) != "sauté" && t.norm(i-1) != "simmer" {
		return "", 0
	}
	if t.toks[end-1].After == 0 && end < s.Last && t.norm(end) != "you" && t.norm(end) != "and" && t.norm(end) != "then" && t.norm(end) != "so" && t.punctuated {
		return "", 0
	}
	if !t.punctuated && i > s.First && t.norm(i-1) == "and" {
		return "", 0
	}
	if t.mealSize(i, s) {
		return "", 0
	}
	return level, n
}

func b2n(ok bool, n int) int {
	if ok {
		return n
	}
	return 0
}

func (t *talk) mealSize(i int, s *sentence) bool {
	return t.has(max(s.First, i-4), i, "onion", "onions", "tomatoes", "eggs", "carrots", "potatoes", "size") >= 0
}

// untilWords is how many words a sign of doneness may have.
const untilWords = 24

// calendar are times of the year, week and day: what lasts until one is no sign of
// doneness.
var calendar = words("spring summer autumn fall winter monday tuesday wednesday thursday friday saturday sunday january february march april may june july august september october november december christmas easter tomorrow tonight midnight then now today later next week dinner lunch breakfast bedtime")

// untilIn gives the sign of doneness said in tokens [a, b): the words after
// "until" up to the end of their clause.
func (t *talk) untilIn(a, b int) language.Span {
	for i := a; i < b; i++ {
		w := t.norm(i)
		if w != "until" && w != "till" && w != "'til" && w != "til" || i+1 >= b || calendar[t.norm(i+1)] {
			continue
		}
		e := i + 1
		for e < b && e < i+untilWords {
			if t.toks[e-1].After != 0 && e > i+1 && !(t.quantityAt[e] >= 0 && t.quantityAt[e] == t.quantityAt[e-1]) {
				break // but not in "thirty-seven degrees, Celsius"
			}
			if e > i+2 && (t.norm(e) == "and" || t.norm(e) == "then") && t.actionAt[min(e+1, len(t.toks)-1)] >= 0 {
				break
			}
			e++
		}
		if e == i+untilWords && e < b && t.toks[e-1].After == 0 {
			// cut short: back to where a clause ends
			for k := e - 1; k > i+3; k-- {
				if w := t.norm(k); w == "and" || w == "when" || w == "so" || w == "because" || w == "but" {
					e = k
					break
				}
			}
		}
		return language.Span{First: i + 1, Last: e}
	}
	return language.Span{}
}

// chat words are left out of written instructions.
var fillers = words("um uh er so okay ok well like literally basically actually obviously right just really now yeah please kinda sorta then also love honey mate folks y'all guys ha hey oh mm mmm mmmm hmm yum yummy wow whoa boom bam bang sorry")

// thenNext joins the last thing that is done to those before it.
const thenNext = ", then "

// writeText writes the step as an instruction: each action's verb in its base
// form, then the words that follow it, without the chat.
func (t *talk) writeText(st *step) {
	var parts []string
	for n := 0; n < len(st.acts); n++ {
		act := &t.actions[st.acts[n]]
		sp := st.spans[n]
		if n+1 < len(st.acts) && leadsOn[act.base] && t.actions[st.acts[n+1]].lead == act.tok && st.spans[n+1].First == sp.Last {
			sp.Last = st.spans[n+1].Last // "leave them a full hour to cool"
			n++
		}
		p := t.clauseText(st, act, sp, len(parts) == 0)
		if k := len(parts) - 1; k >= 0 && strings.HasPrefix(p+",", strings.TrimRight(parts[k], ",")+",") {
			parts[k] = p // said twice: "roast it, roast it, stirring"
			continue
		}
		parts = append(parts, p)
	}
	text := ""
	for i, p := range parts {
		switch {
		case i == 0:
			text = p
		case i == len(parts)-1:
			text += thenNext + p
		default:
			text += ", " + p
		}
	}
	if len(st.begins) > 0 {
		text = "add the " + join(namesOf(st.begins)) + thenNext + text
	}
	if len(st.listed) > 0 {
		and := thenNext + "add the "
		if last := &t.actions[st.acts[len(st.acts)-1]]; last.base == "add" {
			and = ", and the "
		}
		text = strings.TrimRight(text, ".,;") + and + join(namesOf(st.listed))
	}
	// one "then", before the last of what is done
	for n := strings.Count(text, thenNext); n > 1; n-- {
		text = strings.Replace(text, thenNext, ", ", 1)
	}
	st.text = sentenceCase(text)
	switch {
	case st.sign.Len() == 0:
	case t.ofCook(st.sign.First, st.sign.Last):
		st.until = "" // "until my arm gives up" tells nothing of the food
	default:
		st.until = t.signText(st.sign)
	}
}

// leadsOn are verbs whose aim is written in one breath with them: "leave it to
// cool", "put it in the fridge to set".
var leadsOn = words("leave put set place stand pop stick return let hang turn bring")

// signText writes a sign of doneness as the step's text has it.
func (t *talk) signText(sp language.Span) string {
	e := t.edit(sp.First, sp.Last)
	e.takenBack()
	e.padding()
	e.fillers()
	for i := e.from; i < e.to; i++ {
		switch t.norm(i) {
		case "was":
			e.put[i] = e.withMark(i, "is")
		case "were":
			e.put[i] = e.withMark(i, "are")
		}
	}
	e.repeats()
	e.trim()
	e.figures()
	e.scales()
	return strings.ToLower(e.text())
}

// namesOf gives the names of ingredients.
func namesOf(list []*ingredient) []string {
	names := make([]string, 0, len(list))
	for _, g := range list {
		if !contains(names, g.name) {
			names = append(names, g.name)
		}
	}
	return names
}

func sentenceCase(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return s
	}
	r := []rune(s)
	up := []rune(strings.ToUpper(string(r[0])))
	return string(up) + string(r[1:]) + "."
}

// clauseText writes one action. first tells that nothing of its step is written
// before it.
func (t *talk) clauseText(st *step, a *action, sp language.Span, first bool) string {
	if a.bare {
		return t.bareText(a, sp)
	}
	if n := int(t.actionAt[a.tok]) + 1; n < len(t.actions) && t.sentOf[t.actions[n].tok] == t.sentOf[a.tok] {
		next := &t.actions[n]
		if c := t.conditionSpan(next, language.Span{First: next.clause.First, Last: next.clause.Last}); c.First > a.tok && c.First < sp.Last {
			sp.Last = c.First // it is said of the next
		}
	}
	opening := ""
	if c := t.condition(a, sp); c != "" && !(a.verb.Verb == "go" && t.placeLeads(t.sentence(a.tok), a.tok)) {
		opening = c + ", "
	}
	out := []string{a.base}
	after := a.tok + 1
	if two := t.lex.Phrases[t.norm(a.tok)+" "+t.norm(after)]; two != nil && t.toks[a.tok].After == 0 && strings.Contains(a.base, " ") {
		after++ // the verb has two words
	}
	e := t.edit(after, sp.Last).tidy()
	for i := after; i < sp.Last && t.norm(i) == t.norm(a.tok) && t.toks[i-1].After&language.Comma != 0; i++ {
		e.drop(i, i+1) // "pleat, pleat, pleat"
		if e.lastLeft() > i {
			out[0] = a.base + ","
		}
	}
	switch lead := t.norm(a.lead); {
	case a.lead == 0 || a.lead >= a.tok:
	case lead == "let" || lead == "allow" || lead == "give" && t.norm(a.tok-1) == "to":
		// "let the dough rest", "give it ten minutes to set"
		obj := t.edit(a.lead+1, a.tok)
		obj.fillers()
		obj.figures()
		if w := obj.text(); w != "" {
			if first && opening == "" && len(st.begins) == 0 {
				w = t.instead(st, a, w)
			}
			out = []string{lead, w, a.base}
		}
	case lead == "keep" && a.lead+1 == a.tok && strings.HasSuffix(t.norm(a.tok), "ing"):
		out = []string{lead, t.norm(a.tok)} // "keep stirring"
	default:
		if w := t.leadObject(a); w != "" {
			if first && opening == "" && len(st.begins) == 0 {
				w = t.instead(st, a, w)
			}
			out = append(out, w) // "give the sauce a stir"
		}
	}
	if a.base == "heat" && t.norm(a.tok) == "get" {
		e.lit()
	}
	if i := t.pastAdverbs(a.tok + 1); a.base == "cool" && t.norm(a.tok) == "get" && i < e.to {
		e.drop(i, i+1) // "let it get completely cold"
	}
	if a.base == "add" && t.norm(a.tok) == "go" && t.norm(after) == "in" && t.norm(after+1) == "with" {
		e.drop(after, after+2) // "go in with your flour"
	}
	if st.many && !first {
		e.several(st)
	}
	obj := ""
	if a.mood == passive || a.verb.Verb == "go" {
		obj = t.undergoes(st, a, sp, e, out, first)
	}
	if obj != "" && a.mood == passive && a.verb.State && a.lead == 0 && a.verb.Verb != "heat" && a.verb.Verb != "preheat" {
		out = []string{"let", obj, a.base} // "it has to rise"
	} else if obj != "" {
		out = append(out, obj)
	} else if w := t.ledBy(st, a, e); w != "" && len(out) == 1 {
		out = append(out, w)
	} else if first && len(out) == 1 && len(st.begins) == 0 && opening == "" {
		t.object(st, a, e)
	}
	if s := e.text(); s != "" {
		out = append(out, s)
	}
	return opening + strings.Trim(strings.Join(out, " "), " ,;:.–—-")
}

// undergoes gives what an action told in the passive is done to: what stands before its
// verb, "the butter goes in", "the tin must be oiled". It writes the verb of a vessel that
// goes somewhere, and the place where that was said first, into out and e.
func (t *talk) undergoes(st *step, a *action, sp language.Span, e *edit, out []string, first bool) string {
	from, place := sp.First, ""
	if s := t.sentence(a.tok); a.verb.Verb == "go" && t.placeLeads(s, a.tok) {
		for from = a.tok - 1; !(inward[t.norm(from)] || onward[t.norm(from)]); {
			from--
		}
		if last := e.lastLeft(); last >= 0 {
			e.put[last] = strings.TrimRight(e.word(last), ",.") + " " + t.edit(from, a.tok).tidy().text() // "into the blender go the tomatoes"
		}
		return ""
	}
	if i := a.tok - 1; a.verb.Verb == "go" && i > sp.First && onward[t.norm(i-1)] && opensObject[t.norm(i)] && t.hasFood(a.tok+1, min(a.tok+8, sp.Last)) {
		if last := e.lastLeft(); last >= 0 {
			e.put[last] = strings.TrimRight(e.word(last), ",") + " " + t.norm(i-1) + " " + t.norm(i) // "over that goes the water"
		}
		return ""
	}
	if i := a.tok - 1; a.verb.Verb == "go" && i > sp.First && t.goer(a) != "" && t.placeFirst(t.sentence(a.tok), i) {
		for from = i - 1; !(inward[t.norm(from)] || onward[t.norm(from)]); {
			from--
		}
		p := t.edit(from, i) // "into the oven it goes"
		p.fillers()
		p.praised()
		place, from = " "+p.text(), i
	}
	if ms := t.mentionsIn(from, a.tok); len(ms) > 0 {
		var names []string
		for _, m := range ms {
			if name := t.mentions[m].name; !contains(names, name) {
				names = append(names, name)
			}
		}
		if i := e.from; i < sp.Last && t.norm(i) == "in" && a.verb.Verb == "go" && !t.hasFood(i+1, min(i+4, sp.Last)) && e.left(i+1) {
			e.drop(i, i+1) // "the barley goes in now"
			if t.toks[i].After&language.Comma != 0 && e.lastLeft() > i {
				return "the " + join(names) + place + "," // "the palm oil goes in, the red one"
			}
		}
		return "the " + join(names) + place
	}
	if x := t.lastTool(from, a.tok); x >= 0 && place == "" && (a.verb.Verb == "go" || t.toolSubject(a)) {
		if a.verb.Verb == "go" {
			out[0] = "put" // "the lid goes on"
		}
		return "the " + strings.TrimSuffix(t.phrase(t.tools[x].First, t.tools[x].Last), "'s")
	}
	w := t.goer(a)
	if a.verb.Verb != "go" && (!a.verb.State || w == "") {
		return ""
	}
	if w != "" && first && len(st.begins) == 0 {
		w = t.instead(st, a, w)
	}
	if w == "" {
		return ""
	}
	return w + place
}

// goer gives the pronoun of what goes somewhere: "it goes in", "they're going in".
func (t *talk) goer(a *action) string {
	j := a.tok - 1
	for j > 0 && t.toks[j].After == 0 && (goAdverbs[t.norm(j)] || passiveLead[t.norm(j)]) {
		j--
	}
	switch t.norm(j) {
	case "it", "it's", "it'll":
		return "it"
	case "that", "that's", "this":
		return "that"
	case "they", "they're", "they'll", "those", "these", "both":
		return "them"
	case "everything", "all":
		return "everything"
	}
	if t.namesGoer(t.sentence(a.tok), j) || t.madeAt[j] > 0 && t.mentionAt[j] < 0 && t.norm(j) != "stuff" && j >= t.sentence(a.tok).First {
		return "the " + t.norm(j)
	}
	return ""
}

// toolSubject reports whether the thing right before "must be" or "gets" is a tool that
// the action is done to: "the tin must be oiled".
func (t *talk) toolSubject(a *action) bool {
	j := a.tok - 1
	for j > 0 && t.toks[j].After == 0 && passiveLead[t.norm(j)] {
		j--
	}
	return (j < a.tok-1 || strings.HasSuffix(t.norm(j), "'s")) && t.toolAt[j] >= 0 && t.toks[j].After == 0
}

// passiveLead are words between what undergoes an action and its verb.
var passiveLead = words("must should needs need has have wants want gets get is are be to also then well")

// lastTool gives the last tool named in tokens [a, b), -1 for none.
func (t *talk) lastTool(a, b int) int {
	for i := b - 1; i >= a; i-- {
		if x := t.toolAt[i]; x >= 0 {
			return int(x)
		}
	}
	return -1
}

// lit leaves out what "get the oven on to" says of the oven beside its heat.
func (e *edit) lit() {
	t := e.t
	for i := e.from; i < e.to; i++ {
		if w := t.norm(i); w == "going" || w == "hot" || w == "on" && (t.norm(i+1) == "to" || i+1 == e.to || t.quantityAt[i] < 0 && t.quantityAt[i+1] >= 0) {
			e.drop(i, i+1)
			if t.toks[i].After != 0 && i > e.from {
				e.pause(i - 1)
			}
		}
	}
}

// instead gives the thing a lone pronoun stands for, where only one was named
// before it, and the words as they were where not.
func (t *talk) instead(st *step, a *action, words string) string {
	if words != "it" && words != "them" {
		return words
	}
	x, ok := t.antecedent(a, words)
	if !ok {
		return words
	}
	st.figures = append(st.figures, x.Span)
	return "the " + t.called(x)
}

// object names what the first action of a step works on where its words have only a
// pronoun, or nothing, and one thing was named before: "the hazelnuts, fold them in".
// Where the thing was said is quoted with the step.
func (t *talk) object(st *step, a *action, e *edit) {
	at := -1
	for i := e.from; i < e.to && i < e.from+3; i++ {
		w := t.norm(i)
		if w == "it" || w == "them" || w == "'em" || (w == "that" || w == "those") && (i+1 == e.to || t.toks[i].After != 0 || afterVerb[t.norm(i+1)] || moments[t.norm(i+1)]) {
			at = i
			break
		}
		if !afterVerb[w] || t.toks[i].After != 0 || w == "with" || w == "on" || w == "to" || w == "by" || w == "for" || w == "as" {
			break
		}
	}
	if at < 0 || !e.left(at) {
		return
	}
	pronoun := t.norm(at)
	if pronoun == "'em" {
		pronoun = "them"
	}
	if sp := t.foodsBefore(a); sp.Len() > 0 {
		list := t.edit(sp.First, sp.Last).tidy().text()
		if k := strings.LastIndex(list, ", "); k >= 0 && !strings.Contains(list, " and ") {
			list = list[:k] + " and" + list[k+1:]
		}
		last := at
		if a.base == "add" && t.norm(at+1) == "in" && at+1 < e.to && t.toks[at].After == 0 {
			last++
			e.drop(last, last+1) // "add them in"
		}
		if t.toks[last].After != 0 && last+1 < e.to {
			list += ","
		}
		e.put[at] = list
		st.figures = append(st.figures, sp)
		return
	}
	// "peel it and it only" names nothing anew; a thing named again does
	x, ok := noun{}, false
	if pronoun != "that" && pronoun != "those" {
		x, ok = t.antecedent(a, pronoun)
	} else {
		x, ok = t.fronted(a)
	}
	if !ok {
		x, ok = t.worksOn(st, a, pronoun)
	}
	if !ok {
		return
	}
	for _, m := range t.mentionsIn(e.from, e.to) {
		if t.mentions[m].name == x.name {
			return
		}
	}
	name := "the " + t.called(x)
	if t.toks[at].After != 0 && at+1 < e.to {
		name += ","
	}
	e.put[at] = name
	st.many = pronoun == "it" && x.many
	st.figures = append(st.figures, x.Span)
}

// togetherWords is the longest list of things that stands before what is done with them.
const togetherWords = 12

// foodsBefore gives the several foods that a sentence names, and nothing else, before it tells
// what is done with them: "a spoon of flour and some water, mix it to a paste".
func (t *talk) foodsBefore(a *action) language.Span {
	s := t.sentence(a.tok)
	first, foods := s.First, 0
	for first < a.tok && headWords[t.norm(first)] {
		first++
	}
	if a.tok-first > togetherWords || a.tok == first || t.toks[a.tok-1].After&language.Comma == 0 || t.quantityAt[first] < 0 && t.mentionAt[first] < 0 {
		return language.Span{}
	}
	for i := first; i < a.tok; i++ {
		if t.actionAt[i] >= 0 || t.finite(i) || subjects[t.norm(i)] || t.toolAt[i] >= 0 {
			return language.Span{}
		}
		if m := t.mentionAt[i]; m >= 0 && t.mentions[m].First == i {
			foods++
		}
	}
	if foods < 2 {
		return language.Span{}
	}
	return language.Span{First: first, Last: a.tok}
}

// several writes "them" for an "it" whose noun, named in the clause before, is one of
// several things: "drain the beans, rinse them".
func (e *edit) several(st *step) {
	t := e.t
	for i := e.from; i < e.to && i < e.from+3; i++ {
		switch {
		case t.mentionAt[i] >= 0 || t.toolAt[i] >= 0:
			st.many = false
			return
		case t.norm(i) == "it":
			e.put[i] = "them"
			if t.toks[i].After != 0 && i+1 < e.to {
				e.put[i] = "them,"
			}
			return
		}
	}
}

// ledBy gives the object of an action where it stands before its verb: "the lids
// you boil in a little pan", "one egg, beat up".
func (t *talk) ledBy(st *step, a *action, e *edit) string {
	if a.mood == passive || a.verb.Verb == "go" || t.loose {
		return ""
	}
	// nothing that could be an object stands behind the verb
	if i := e.from; i < e.to && t.toks[i-1].After == 0 && !(t.norm(i) == "little" && t.norm(i+1) == "by") && !strings.HasSuffix(t.norm(i), "ly") && !thickness[t.norm(i)] && (!afterVerb[t.norm(i)] && !leadsNoun[t.norm(i)] || opensObject[t.norm(i)] || t.quantityAt[i] >= 0) {
		return ""
	}
	particle := e.from < e.to && t.toks[e.from-1].After == 0
	if particle && t.toks[e.from].After == 0 && e.from+1 < e.to && (opensObject[t.norm(e.from+1)] && (t.norm(e.from+1) == "it" || t.norm(e.from+1) == "them")) {
		return "" // "tip in them all"
	}
	s := t.sentence(a.tok)
	b := a.tok
	for b > s.First && (modals[t.norm(b-1)] || leadAdverbs[t.norm(b-1)]) && t.toks[b-1].After == 0 {
		b--
	}
	if b-1 > s.First && youWe[t.norm(b-1)] && t.toks[b-2].After == 0 {
		b--
		first := b
		for first > s.First && t.toks[first-1].After == 0 && b-first < 8 {
			first--
		}
		for first < b && (joining[t.norm(first)] || fillers[t.norm(first)] || t.norm(first) == "then") {
			first++
		}
		thing := false
		for i := first; i < b; i++ {
			w := t.norm(i)
			if t.actionAt[i] >= 0 || openedBy[w] || leadsNoun[w] && w != "of" && w != "the" && w != "a" && w != "an" && w != "and" || subjects[w] && !determiners[w] || t.finite(i) {
				return ""
			}
			thing = thing || t.mentionAt[i] >= 0 || t.toolAt[i] >= 0 || t.madeAt[i] > 0
		}
		for i := a.tok + 1; i < e.to && t.toks[i-1].After == 0; i++ {
			if t.finite(i) || predicating[t.norm(i)] {
				return "" // "the bag you put in the freezer is flat"
			}
		}
		if !thing {
			return ""
		}
		o := t.edit(first, b)
		o.fillers()
		o.figures()
		st.figures = append(st.figures, language.Span{First: first, Last: b})
		w := o.text()
		if !determiners[t.norm(first)] && t.quantityAt[first] < 0 {
			w = "the " + w
		}
		return w
	}
	if a.verb.Kind == "mix" && particle && (untils[t.norm(e.from)] || t.toks[e.from].After == 0 && t.hasFood(e.from+1, min(e.from+6, e.to))) {
		return "" // "the butter first, then beat in two spoons of honey"
	}
	if a.verb.Kind != "cut" && a.verb.Kind != "mix" || a.tok == s.First || len(t.actionsBetween(s.First, a.tok)) > 0 {
		return ""
	}
	x, ok := t.onlyFood(t.nouns(s.First, a.tok))
	if !ok || x.name == "" || !t.leadsTurn(s.First, x.head) {
		return ""
	}
	st.figures = append(st.figures, x.Span)
	return "the " + t.called(x)
}

// called is how a text names a thing: as it is listed, but without how it was bought:
// "thighs", not "skin on thighs".
func (t *talk) called(x noun) string {
	if m := t.mentionAt[x.head]; m >= 0 && (strings.Contains(x.name, " on ") || strings.Contains(x.name, " in ")) {
		return t.phrase(t.mentions[m].head.First, t.mentions[m].head.Last)
	}
	return x.name
}

// leadObject gives what stands between a light verb and the action it leads to,
// where it names a thing: "the sauce" of "give the sauce a good stir", "the oven" of
// "get the oven heating".
func (t *talk) leadObject(a *action) string {
	if a.lead == 0 || a.lead >= a.tok {
		return ""
	}
	b := a.tok
	switch t.norm(a.lead) {
	case "give":
		for k := a.tok - 1; k > a.lead; k-- {
			if w := t.norm(k); w == "a" || w == "another" || w == "one" {
				b = k
				break
			}
		}
		if b == a.tok {
			return ""
		}
	case "get", "got":
		for k := a.lead + 1; k < b; k++ {
			if t.verbs(k) != nil && t.mentionAt[k] < 0 && t.toolAt[k] < 0 {
				return ""
			}
		}
	default:
		return ""
	}
	if a.lead+2 == b && opensObject[t.norm(a.lead+1)] && t.mentionAt[a.lead+1] < 0 {
		return t.norm(a.lead + 1) // "give it a stir"
	}
	thing := false
	for k := a.lead + 1; k < b; k++ {
		if t.toks[k].After != 0 {
			return ""
		}
		thing = thing || t.mentionAt[k] >= 0 || t.toolAt[k] >= 0 || t.madeAt[k] > 0 || t.norm(k) == "everything" || k > a.lead+1 && determiners[t.norm(a.lead+1)]
	}
	if !thing {
		return ""
	}
	var ws []string
	for k := a.lead + 1; k < b; k++ {
		switch w := t.norm(k); {
		case fillers[w] || k > a.lead+1 && t.toks[k].Word == t.toks[k-1].Word:
		case w == "my" || w == "our" || w == "your":
			ws = append(ws, "the")
		default:
			ws = append(ws, cleanWord(t.n.Words[t.toks[k].Word].Text, false))
		}
	}
	return strings.Join(ws, " ")
}

func cleanWord(w string, last bool) string {
	w = strings.Trim(w, "\"“”()[]…")
	w = strings.TrimRight(w, "!?;:")
	if strings.HasSuffix(w, ".") {
		w = strings.TrimRight(w, ".")
	}
	if last {
		w = strings.TrimRight(w, ",.")
	}
	switch strings.ToLower(w) {
	case "'em", "’em":
		return "them"
	}
	return w
}

func join(names []string) string {
	switch len(names) {
	case 0:
		return ""
	case 1:
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

var _ = lexicon.Base
