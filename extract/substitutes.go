package extract

import "strings"

// A sentence that offers a substitute names two foods: what is used, and what
// can stand in for it. substitutePair finds which is which.

// markSubstitutes sets subst on mentions that only stand in for another food,
// and optional on foods the cook may leave out. topic gives the last food
// named before a token, as the ingredients pass knows it.
func (t *talk) markSubstitutes(s *sentence, topic int) {
	ms := t.mentionsIn(s.First, s.Last)
	if len(ms) == 0 {
		return
	}
	set := func(sub, orig int) {
		if sub < 0 || sub == orig {
			return
		}
		m := &t.mentions[sub]
		if m.subst < 0 && !m.mixed {
			m.subst = orig
			if orig < 0 {
				m.subst = topic
			}
			if m.subst < 0 {
				m.subst = -1
			}
		}
	}
	before := func(i int) int { // last mention before token i in the sentence
		b := -1
		for _, k := range ms {
			if t.mentions[k].head.First < i {
				b = k
			}
		}
		return b
	}
	after := func(i int) int {
		for _, k := range ms {
			if t.mentions[k].head.First >= i {
				return k
			}
		}
		return -1
	}
	group := func(k int, do func(int)) { // k and the foods joined to it by "or"
		do(k)
		for x := k; x+1 < len(t.mentions); x++ {
			a, b := &t.mentions[x], &t.mentions[x+1]
			if t.sentOf[a.First] != t.sentOf[b.First] || t.has(a.Last, b.First, "or") < 0 || b.First-a.Last > 3 {
				break
			}
			do(x + 1)
		}
	}
	if i := t.has(s.First, s.Last, "instead of", "in place of", "rather than", "substitute for", "replacement for", "swap for", "stand in for", "stands in for"); i >= 0 {
		sub, orig := before(i), after(i)
		if orig < 0 {
			// "paprika you can use in place of that"
			set(sub, topic)
			return
		}
		if sub >= 0 {
			set(sub, orig)
		} else if b := t.prevMention(s, i); b >= 0 && false {
			set(b, orig)
		}
		return
	}
	// "if you can't find X, Y will do", "out of X", "if you've not got X, squeeze a lemon"
	if i := t.has(s.First, s.Last, "can't find", "can't get", "cannot find", "cannot get", "don't have", "haven't got", "not got", "haven't any", "ain't got", "if there's no", "if there isn't", "out of", "no access to", "don't like", "can't have", "don't eat", "do not have", "couldn't find", "couldn't get", "if you've no", "if you have no", "you've no"); i >= 0 {
		orig := after(i)
		if orig >= 0 && (t.mentions[orig].head.First-i) <= 6 {
			t.mentions[orig].negated = false
			var sub int
			if i > s.First+3 && before(i) >= 0 && t.offered(s.First, i) {
				sub = before(i) // "semolina does the same job if you're out of cornmeal"
			} else {
				sub = after(t.mentions[orig].Last)
			}
			if sub >= 0 {
				group(sub, func(k int) { set(k, orig) })
			}
			// naming what is missing is no new use of it
			t.mentions[orig].alias = t.known(orig)
			return
		}
		if orig < 0 || t.mentions[orig].head.First-i > 6 {
			if sub := after(i); sub >= 0 && t.offered(i, s.Last) || sub >= 0 && t.has(s.First, s.Last, "got none", "don't have any", "haven't got any", "haven't any", "don't have it", "not got it") >= 0 {
				group(sub, func(k int) { set(k, topic) })
				return
			}
		}
	}
	if i := t.has(s.First, s.Last, "if there's no", "if you've no", "if you have no", "if there isn't any", "if you're out of"); i >= 0 {
		if sub, orig := before(i), after(i); sub >= 0 && orig >= 0 {
			t.mentions[orig].negated = false
			t.mentions[orig].alias = t.known(orig)
			set(sub, orig)
			return
		}
	}
	if i := t.has(s.First, s.Last, "got none", "have none"); i >= 0 {
		if sub := after(i); sub >= 0 {
			set(sub, topic)
			// what is stirred into it belongs to it
			for _, k := range ms {
				if k > sub {
					t.mentions[k].alias = sub
				}
			}
			return
		}
	}
	if i := t.has(s.First, s.Last, "instead"); i >= 0 {
		sub := before(i)
		if sub < 0 {
			sub = after(i)
		}
		if sub >= 0 {
			orig := topic
			// "leeks ... onions instead": both in one sentence
			if b := before(t.mentions[sub].First); b >= 0 && !t.orJoined(b, sub) && t.known(b) >= 0 {
				orig = b
			}
			first := sub
			for first > 0 && t.orJoined(first-1, first) {
				first--
			}
			for k := first; k <= sub; k++ {
				set(k, orig)
			}
			// "chickpeas instead, or cannellini beans"
			group(sub, func(k int) { set(k, orig) })
			return
		}
	}
	// "skirt steak'll do", "oil works too", "a grater will also do"
	if i := t.has(s.First, s.Last, "will do", "'ll do", "will also do", "does the same job", "do the same job", "works just as well", "works as well", "work as well", "works fine", "works too", "work too", "would be grand", "would also work", "would work", "is fine too", "are fine too", "will work", "also works", "also work", "do just as well", "does just as well", "also fine", "just as good", "works great too", "you could also use", "you can also use", "could also do"); i >= 0 {
		sub := before(i)
		if strings.HasPrefix(t.norm(i), "you") || sub < 0 {
			sub = after(i)
		}
		if sub >= 0 && len(t.mentions[sub].amounts) == 0 && topic >= 0 {
			set(sub, topic)
			return
		}
	}
	for _, k := range ms {
		m := &t.mentions[k]
		// "...'ll do" glued to the food
		if strings.HasSuffix(t.norm(m.head.Last-1), "'ll") && t.norm(m.head.Last) == "do" && topic >= 0 {
			set(k, topic)
		}
	}
	// "you can use oil", "you could have chickpeas"
	if i := t.has(s.First, s.Last, "you can use", "you could use", "can also use", "could also use", "you can do", "you can put", "you could have", "you could put", "you can swap", "feel free to use", "or use", "or you can use", "you might use", "you may use"); i >= 0 {
		if sub := after(i); sub >= 0 && topic >= 0 && len(t.mentions[sub].amounts) == 0 && t.mentions[sub].head.First-i <= 7 && t.mentions[sub].food != t.mentions[topic].food {
			if t.norm(i+2) == "use" || t.norm(i+1) == "use" || t.norm(i+1) == "also" || t.norm(i+2) == "swap" || t.has(s.First, s.Last, "instead", "if", "or") >= 0 {
				group(sub, func(k int) { set(k, topic) })
				return
			}
		}
	}
	// "two tablespoons of sunflower oil, or vegetable oil", "stock, or water"
	for x := 1; x < len(ms); x++ {
		a, b := &t.mentions[ms[x-1]], &t.mentions[ms[x]]
		if t.orJoined(ms[x-1], ms[x]) && (len(b.amounts) == 0 || t.articleOnly(b)) && !a.negated && a.food != b.food && a.subst < 0 {
			set(ms[x], ms[x-1])
		} else if t.orJoined(ms[x-1], ms[x]) && a.subst >= 0 && len(b.amounts) == 0 {
			set(ms[x], a.subst)
		}
	}
}

func (t *talk) articleOnly(m *mention) bool {
	for _, q := range m.amounts {
		if x := &t.quantities[q]; !x.article || x.kind != count {
			return false
		}
	}
	return true
}

// orJoined reports whether only "or" and small words stand between two foods.
func (t *talk) orJoined(a, b int) bool {
	x, y := &t.mentions[a], &t.mentions[b]
	if t.sentOf[x.First] != t.sentOf[y.First] || y.First < x.Last || y.First-x.Last > 4 {
		return false
	}
	found := false
	for i := x.Last; i < y.First; i++ {
		switch t.norm(i) {
		case "or":
			found = true
		case "even", "the", "a", "some", "if", "just", "else", "an", "maybe", "your", "of", "use":
		default:
			return false
		}
	}
	return found
}

func (t *talk) offered(a, b int) bool {
	return t.has(a, b, "can use", "could use", "use", "will do", "does", "do", "put in", "works", "work", "go for", "try", "have", "squeeze", "stands in", "take", "swap") >= 0
}

// mentionsIn gives the mentions whose head begins in tokens [a, b).
func (t *talk) mentionsIn(a, b int) []int {
	var out []int
	for i := a; i < b && i < len(t.toks); i++ {
		if m := t.mentionAt[i]; m >= 0 && t.mentions[m].head.First == i {
			out = append(out, int(m))
		}
	}
	return out
}

func (t *talk) prevMention(s *sentence, i int) int {
	for k := i - 1; k >= 0 && k > i-40; k-- {
		if m := t.mentionAt[k]; m >= 0 {
			return int(m)
		}
	}
	return -1
}

// known gives the mention's food's earlier mention, -1 when it is the first.
func (t *talk) known(k int) int {
	for x := k - 1; x >= 0; x-- {
		if related(t.mentions[k].food, t.mentions[x].food) > 0 && !t.mentions[x].negated && t.mentions[x].ingr != nil {
			return x
		}
	}
	return -1
}

// leaveOutCues tell that a food may be left out.
var leaveOutCues = []string{"optional", "if you like", "if you want", "if you'd like", "if you prefer", "if you fancy", "you don't have to", "you don't need to", "don't have to", "up to you", "leave it out", "leave them out", "leave that out", "skip it", "skip them", "skip that",
	"if you've got any", "if you have any", "if you have it", "if you've got it", "if you've got them", "if you have them", "if you're having them", "if you got it", "if you got 'em", "not essential", "not necessary", "no law says", "if it's lying about", "nice to have", "if you wish", "if you feel like it", "could leave", "can leave",
	"not compulsory", "i don't bother", "only if you want", "if you're feeling", "that's extra", "if you're getting them", "for those who like", "if you're me", "entirely up to you", "totally up to you", "if i got them", "if i've got", "don't need it", "nobody will miss", "extra if", "if you happen", "bonus", "leave it if"}

// mayLeaveOut reports whether the sentence, or a short one after it about the
// same food, says so.
func (t *talk) mayLeaveOut(m *mention) bool {
	s := t.sentence(m.First)
	if i := t.has(s.First, s.Last, leaveOutCues...); i >= 0 && t.cueFor(m, s, i) {
		return true
	}
	k := int(t.sentOf[m.First]) + 1
	for j := k; j < len(t.sents) && j <= k+2; j++ {
		n := &t.sents[j]
		if len(t.mentionsIn(n.First, n.Last)) > 0 && j > k || n.para != s.para && j > k {
			break
		}
		if i := t.has(n.First, n.Last, "optional", "leave it out", "skip it", "you don't have to", "up to you", "leave them out", "don't have to", "not essential", "that's extra", "if you've got any", "if you want", "no law says", "pick them off", "you don't need"); i >= 0 && t.lastFoods(m, s) && !t.onlyAside(n) {
			return true
		}
		if n.Len() > 14 {
			break
		}
	}
	return false
}

func (t *talk) onlyAside(n *sentence) bool {
	return t.has(n.First, n.Last, "need to stir", "have to be", "have to stir") >= 0
}

// lastFoods reports whether m is among the last foods of its sentence.
func (t *talk) lastFoods(m *mention, s *sentence) bool {
	for _, k := range t.mentionsIn(m.Last, s.Last) {
		o := &t.mentions[k]
		if o.subst < 0 && o.alias < 0 && t.has(m.Last, o.First, "and") < 0 {
			return false
		}
	}
	return true
}

// cueFor reports whether a leave-out cue at i speaks of m: no other food
// stands between.
func (t *talk) cueFor(m *mention, s *sentence, i int) bool {
	if i >= m.Last {
		for _, k := range t.mentionsIn(m.Last, i) {
			o := &t.mentions[k]
			if t.has(m.Last, o.First, "and", "or") < 0 {
				return false
			}
		}
		return i-m.Last <= 16
	}
	// the cue comes first: "if you like, a pinch of chilli"
	for _, k := range t.mentionsIn(i, m.First) {
		if k >= 0 && t.has(t.mentions[k].Last, m.First, "and") < 0 {
			return false
		}
	}
	return m.First-i <= 12
}
