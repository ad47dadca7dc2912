package extract

import (
	"fmt"

	"quern/internal/lexicon"
	"quern/schema"
)

// wayConflicts asks where one way takes what only another makes, and where a
// run-through tells a way to do what it was told not to.
func (t *talk) wayConflicts(add func(int, schema.Flag)) {
	if len(t.wayNames) < 2 {
		return
	}
	t.borrowedMixtures(add)
	t.borrowedCooked(add)
	t.borrowedLeavings(add)
	t.deniedAgain(add)
}

// wayFlag writes the question about what way b takes from way a.
func (t *talk) wayFlag(what string, a, b, at, made int, add func(int, schema.Flag)) {
	add(at, schema.Flag{Kind: schema.ConflictWay, Subject: t.wayNames[b],
		Ask:  fmt.Sprintf("The %s way uses the %s, which only the %s way makes: where does it come from?", t.wayNames[b], what, t.wayNames[a]),
		Said: []schema.Said{t.clauseSaid(at), t.clauseSaid(made)}})
}

func (t *talk) clauseSaid(i int) schema.Said {
	s := t.sentence(i)
	return t.said(max(s.First, i-8), min(s.Last, i+6))
}

// everyday are mixtures that each way has without making them apart.
var everyday = words("dough batter mixture mix sauce dish food filling base one whole lot rest stuff middle bottom top thing")

// groundInto are what dry things become; they name no mixture by themselves.
var groundInto = words("powder crumbs crumb puree purée pulp flakes")

// creates reports whether the mixture named at token i is made there: "into a
// paste", "to a powder", "make the syrup".
func (t *talk) creates(i int) bool {
	s := t.sentence(i)
	for k := i - 1; k >= s.First && k >= i-4; k-- {
		switch t.norm(k) {
		case "into", "to", "make", "makes", "making", "becomes", "get", "gives", "form", "forms", "as":
			return true
		}
	}
	return false
}

// borrowedMixtures looks for a mixture that one way makes and another uses.
func (t *talk) borrowedMixtures(add func(int, schema.Flag)) {
	maker := map[string]int{} // token at which a mixture is first named
	shared := map[string]bool{}
	for i := 0; i < len(t.toks); i++ {
		n := int(t.madeAt[i])
		if n == 0 && t.in(ground, i) && t.mentionAt[i] < 0 {
			n = 1
		}
		if n == 0 {
			continue
		}
		w := t.norm(i + n - 1)
		if everyday[w] || t.sentence(i).kind == storing {
			i += n - 1
			continue
		}
		at, seen := maker[w]
		switch {
		case t.creates(i):
			if t.wayOf(i) < 0 || seen && t.wayOf(at) != t.wayOf(i) {
				shared[w] = true
			}
			if !seen {
				maker[w] = i
			}
		case t.wayOf(i) < 0 && !seen:
			shared[w] = true // told before the ways part
		case seen && !shared[w] && t.wayOf(at) >= 0 && t.wayOf(i) >= 0 && t.wayOf(i) != t.wayOf(at):
			if t.inWayOnly(i, t.wayOf(i)) {
				t.wayFlag(w, t.wayOf(at), t.wayOf(i), i, at, add)
				return
			}
		}
		i += n - 1
	}
}

// inWayOnly reports whether the clause of token i speaks of no other way: "the
// same syrup as for the hot one" tells where it comes from.
func (t *talk) inWayOnly(i, way int) bool {
	s := t.sentence(i)
	if t.has(s.First, s.Last, "same", "for both", "either way", "both ways", "from before", "like before", "again") >= 0 {
		return false
	}
	return s.kind != aside && !s.other
}

// borrowedCooked looks for a food said to be cooked already ("the fried
// onions") where only another way cooks it.
func (t *talk) borrowedCooked(add func(int, schema.Flag)) {
	type work struct{ verb, food string }
	done := map[work]int{}
	shared := map[work]bool{}
	for k := range t.mentions {
		m := &t.mentions[k]
		i := m.head.First
		food := lexicon.Singular(lastWord(m.food.Name))
		// what is done to it here
		s := t.sentence(i)
		for j := max(s.First, i-5); j < m.head.Last-1 || j < i; j++ {
			for _, f := range t.verbs(j) {
				g := verbGroup[f.Action.Verb]
				if g == "" || g == "cook" || g == "rest" {
					continue
				}
				w := work{g, food}
				switch {
				case f.Form == lexicon.Base && t.actionAt[j] >= 0 && t.actions[t.actionAt[j]].mood != negative:
					if at, ok := done[w]; !ok {
						done[w] = i
					} else if t.wayOf(at) != t.wayOf(i) {
						shared[w] = true
					}
					if t.wayOf(i) < 0 {
						shared[w] = true
					}
				case f.Form == lexicon.Past && i-j <= 2 && t.actionAt[j] < 0:
					at, ok := done[w]
					if ok && !shared[w] && t.wayOf(at) >= 0 && t.wayOf(i) >= 0 && t.wayOf(at) != t.wayOf(i) && t.inWayOnly(i, t.wayOf(i)) {
						t.wayFlag(t.phrase(j, m.head.Last), t.wayOf(at), t.wayOf(i), i, at, add)
						return
					}
				}
			}
		}
	}
}

// leavings lead to the vessel whose leavings are meant: "the crust stuck to the
// bottom of the skillet".
var leavings = []string{"out of the", "from the", "bottom of the", "left in the", "stuck to the", "stuck in the", "off the bottom of the"}

// borrowedLeavings looks for what was left in a vessel that only another way
// uses.
func (t *talk) borrowedLeavings(add func(int, schema.Flag)) {
	used := map[string]int{} // way that uses a vessel, -1 for several
	at := map[string]int{}
	for k := range t.tools {
		x := &t.tools[k]
		i := x.First
		if x.eq.Kind != "pan" && x.eq.Kind != "appliance" && x.eq.Kind != "pot" && x.eq.Kind != "tin" && x.eq.Kind != "oven-dish" {
			continue
		}
		name := lastWord(x.eq.Name)
		s := t.sentence(i)
		left := false
		for _, p := range t.placesIn(i-12, i, leavingFrom) {
			left = left || int(p.tok+p.words) == i
		}
		w, seen := used[name]
		if left && seen && w >= 0 && t.wayOf(i) >= 0 && t.wayOf(i) != w && t.inWayOnly(i, t.wayOf(i)) && t.has(s.First, i, "take", "lift", "pull", "remove", "get") < 0 {
			t.wayFlag(t.leftWord(s, i)+" of the "+name, w, t.wayOf(i), i, at[name], add)
			return
		}
		switch {
		case t.wayOf(i) < 0 && s.kind != instruction:
			// "in the skillet or in the air fryer": only what there is to choose from
		case !seen:
			used[name], at[name] = t.wayOf(i), i
		case w != t.wayOf(i):
			used[name] = -1
		}
	}
}

// leftWord names what was left, from the words before the vessel.
func (t *talk) leftWord(s *sentence, i int) string {
	for k := i - 1; k >= s.First; k-- {
		switch t.norm(k) {
		case "crust", "oil", "butter", "juices", "fat", "drippings", "bits", "sauce", "glaze", "liquid", "syrup":
			return t.norm(k)
		}
	}
	return "leavings"
}

// deniedAgain looks for a run-through that tells a way to do what its own
// telling said not to: "you don't boil these", later "boil them first".
func (t *talk) deniedAgain(add func(int, schema.Flag)) {
	marks := t.markAgain()
	type denial struct {
		verb string
		way  int
	}
	denied := map[denial]int{}
	for i := range t.toks {
		if marks[i] != through {
			if t.wayOf(i) >= 0 {
				if g := t.deniedVerb(i); g != "" {
					if _, ok := denied[denial{g, t.wayOf(i)}]; !ok {
						denied[denial{g, t.wayOf(i)}] = i
					}
				}
			}
			continue
		}
		w := t.wayNamed(i)
		if w < 0 || t.deniedVerb(i) != "" {
			continue
		}
		for _, f := range t.verbs(i) {
			g := workOf(f.Action.Verb)
			at, ok := denied[denial{g, w}]
			if !ok || f.Form != lexicon.Base || t.negatedNear(i) {
				continue
			}
			add(i, schema.Flag{Kind: schema.ConflictWay, Subject: t.wayNames[w],
				Ask:  fmt.Sprintf("For the %s way, is there %s or not? Both were said.", t.wayNames[w], gerund(t, f.Action)),
				Said: []schema.Said{t.clauseSaid(i), t.clauseSaid(at)}})
			return
		}
	}
}

// workOf gives the group of a verb, or the verb itself.
func workOf(verb string) string {
	if g := verbGroup[verb]; g != "" {
		return g
	}
	return verb
}

// gerund writes a verb as a thing done: "boiling".
func gerund(t *talk, a *lexicon.Action) string {
	best := ""
	t.lex.EachVerb(func(w string, forms []lexicon.VerbForm) {
		for _, f := range forms {
			if f.Action == a && f.Form == lexicon.Ing && (best == "" || w < best) {
				best = w
			}
		}
	})
	if best == "" {
		return a.Verb
	}
	return best
}

// deniedVerb gives the work that token i says is not to be done.
func (t *talk) deniedVerb(i int) string {
	for _, f := range t.verbs(i) {
		if f.Action.Weak || f.Action.Kind == "add" {
			continue
		}
		if t.negatedNear(i) {
			return workOf(f.Action.Verb)
		}
	}
	return ""
}

// negatedNear reports whether the verb at i is denied.
func (t *talk) negatedNear(i int) bool {
	s := t.sentence(i)
	for k := i - 1; k >= s.First && k >= i-3; k-- {
		switch t.norm(k) {
		case "don't", "not", "no", "never", "without", "isn't", "aren't", "doesn't", "won't":
			return true
		}
		if t.toks[k].After != 0 {
			break
		}
	}
	return false
}
