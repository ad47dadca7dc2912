package extract

import (
	"strings"

	"quern/internal/lexicon"
)

// A cook tells what another puts in, as a habit or as a story, and then leaves it to
// those who listen: "some people pour hot oil on top. My stomach says no. You're young,
// do it." The food may go in, and may be left out. Where it is only told, or refused
// afterwards, it is talk.

// commendedFood is the reason for which such a food is taken.
const commendedFood = "others put it in, and you may"

// How far a food told of others reaches.
const (
	commendAhead  = 5  // sentences behind it that may leave it to the listener
	commendReach  = 70 // tokens behind it
	putInByOthers = 26 // tokens behind it in which the story puts it in
)

var (
	// othersPut are the verbs of putting a food in, as they are told of others.
	othersPut = words("put puts putting add adds added throw throws threw pour pours poured stir stirs stirred shake shakes shook temper tempers sprinkle sprinkles sprinkled scatter scatters scattered grate grates grated crumble crumbles crumbled squeeze squeezes squeezed drop drops dropped slip slips slipped toss tosses tossed fold folds folded tip tips tipped have has had want wants like likes do does did use uses used eat eats take takes")
	// leftToYou leave what was told to those who listen.
	leftToYou = cues("if you like", "if you want", "if you wish", "if you fancy", "you do it", "do it", "you can do it", "you may do it", "you do as you like", "you do as you want", "try it", "you try it", "try that", "do try", "suit yourself", "you suit yourself", "please yourself", "you please yourself", "that's as you like", "that's as you want", "that's as you please", "it's as you like", "it's as you want", "as you prefer", "up to you", "your choice", "you choose", "you decide", "it's not needed", "it isn't needed", "not needed", "you don't need it", "you don't need them", "you can leave it off", "you can leave it out", "you can leave that off", "you can leave that out", "you can leave them off", "you can leave them out", "you may leave it out", "you may leave that out",
		"i do it when", "i do it if", "i do that when", "i put it when", "i put when", "i put them when", "i add it when", "i do sometimes", "i sometimes do", "sometimes i do", "i do it too", "i do it myself", "i do it now", "i do that", "i do this", "i do too", "so do i", "i do the same", "me too", "i copied", "i copy it", "i stole it", "i've stolen it", "i've started", "i've come round", "now i do", "i do now", "i'm with her", "i'm with him", "well worth", "worth it", "worth trying", "you should try", "you must try", "give it a try", "be my guest", "you're welcome to", "makes no difference", "no difference", "we're going without", "we go without", "go without", "worth doing", "worth a try", "give it a go", "have a go", "i can recommend it", "i recommend it", "you won't regret it", "you should", "you could too", "you can too")
	// praised call the dish good with it.
	praised = cues("it's", "that's", "they're", "it is", "that is", "they are", "it's not", "is", "and it's", "it tastes")
	// praiseWords close such a remark.
	praiseWords = words("good nice lovely delicious great wonderful tasty beautiful excellent grand gorgeous marvellous fine brilliant better class fantastic heavenly magic")
	// praiseLeads may stand before them.
	praiseLeads = words("very really so quite actually honestly rather pretty also even not bad just truly too always")
	// refused tell that the cook will have none of it.
	refused = cues("i don't", "i never", "we don't", "we never", "not on the recipe", "not in the recipe", "isn't in the recipe", "isn't on the recipe", "not the recipe", "not part of", "it's cheating", "that's cheating", "it's wrong", "that's wrong", "it's a sin", "that's a sin", "never", "don't do", "don't you", "please don't", "not here", "not in this", "not in mine", "not in my", "another dish", "another thing", "a different dish", "a different thing", "but it's a", "i don't recommend", "ruins it", "it ruins")
)

// commended reports whether the food of m is told of others, or of another time, as put
// in, and then left to those who listen.
func (t *talk) commended(s *sentence, m *mention) bool {
	if s.naming || s.recap || m.definite || m.subst >= 0 || m.food.Dish || m.food.Made || m.food.Weak || !t.punctuated || !t.toldOfOthers(s, m) || t.takenUp(m) && !t.partOpened(m) {
		return false
	}
	k := int(t.sentOf[m.First])
	good, no := false, false
	for j := k; j < len(t.sents) && j <= k+commendAhead && t.sents[j].para == s.para; j++ {
		n := &t.sents[j]
		if j > k && !n.past && t.bringsUp(n, m) {
			break // it goes on with another food
		}
		for i := max(n.First, m.Last); i < n.Last && i < m.Last+commendReach; i++ {
			if c := t.cueAt(leftToYou, i, n.Last); c > 0 && !t.forbids(i, n) {
				return true
			}
			good = good || t.praisesIt(i, n)
			no = no || t.cueAt(refused, i, n.Last) > 0
		}
	}
	return good && !no
}

// disowning tell that what another puts in is no part of what is made here.
var disowning = cues("not on the recipe", "not in the recipe", "isn't on the recipe", "isn't in the recipe", "not part of the recipe", "isn't part of the recipe", "not the recipe", "isn't the recipe", "it's cheating", "that's cheating")

// disowned reports whether the food is told of others, and the cook says right after it
// that it is no part of the recipe.
func (t *talk) disowned(s *sentence, m *mention) bool {
	k := int(t.sentOf[m.First])
	for j := k; j < len(t.sents) && j <= k+1 && t.sents[j].para == s.para; j++ {
		if i, c := t.cueIn(disowning, max(m.Last, t.sents[j].First), t.sents[j].Last); c > 0 && i >= 0 {
			return t.punctuated && t.toldOfOthers(s, m)
		}
	}
	return false
}

// bringsUp reports whether the sentence names another food than that of m, and not as
// one that is there.
func (t *talk) bringsUp(n *sentence, m *mention) bool {
	for _, k := range t.mentionsIn(n.First, n.Last) {
		if o := &t.mentions[k]; o.food != m.food && !o.definite && !o.negated && !o.compared {
			return true
		}
	}
	return false
}

// partOpened reports whether the food went in before only in another part.
func (t *talk) partOpened(m *mention) bool { return len(m.amounts) > 0 }

// praisesIt reports whether a remark that the dish is good stands at token i and ends a
// clause.
func (t *talk) praisesIt(i int, n *sentence) bool {
	c := t.cueAt(praised, i, n.Last)
	if c == 0 {
		return false
	}
	e := i + c
	for e < n.Last && praiseLeads[t.norm(e)] && t.toks[e-1].After == 0 {
		e++
	}
	return e < n.Last && praiseWords[t.norm(e)] && t.clauseEnd(e+1, n)
}

// toldOfOthers reports whether the sentence tells what somebody else, or anybody, puts
// in, and m is what is put: the verb stands before it, or the story goes on to it.
func (t *talk) toldOfOthers(s *sentence, m *mention) bool {
	who := -1
	for i := s.First; i < m.First; i++ {
		w := strings.TrimSuffix(t.norm(i), "'s")
		if w == "our" && t.toks[i+1].Cap && t.mentionAt[i+1] < 0 || kin[w] || kin[lexicon.Singular(w)] || w == "some" && (t.norm(i+1) == "people" || t.norm(i+1) == "folk" || t.norm(i+1) == "folks") || (w == "people" || w == "others") && t.norm(i-1) != "some" || (w == "he" || w == "she" || w == "they") && (s.past || t.ofStory(s)) {
			who = i
		}
	}
	if who < 0 || t.norm(who-1) == "for" || t.norm(who-1) == "like" {
		return false
	}
	for i := who + 1; i < m.First; i++ {
		if t.mentionAt[i] >= 0 && t.mentionAt[i] != t.mentionAt[m.head.First] && t.toks[i].After.Ends() {
			return false
		}
		if w := t.norm(i); othersPut[w] && !(w[0] == 'd' && len(w) < 5 && pronouns[t.norm(i+1)]) { // not "my aunt does it in vinegar"
			return m.First-i <= leaveOutReach/2 && t.has(i, m.First, "without", "from", "off") < 0
		}
	}
	// "he came up with a tin of coconut milk under his arm. At the end he poured it in"
	if len(m.amounts) == 0 || !s.past {
		return false
	}
	for i := m.Last; i < len(t.toks) && i < m.Last+putInByOthers && t.sents[t.sentOf[i]].para == s.para; i++ {
		if othersPut[t.norm(i)] && pronouns[t.norm(i+1)] && t.has(i+2, min(len(t.toks), i+4), "in", "on", "over") >= 0 {
			return true
		}
	}
	return false
}

// ofStory reports whether who is told of was named in this sentence or the one before.
func (t *talk) ofStory(s *sentence) bool {
	k := int(t.sentOf[s.First])
	for j := max(0, k-1); j <= k; j++ {
		for i := t.sents[j].First; i < t.sents[j].Last; i++ {
			if kin[strings.TrimSuffix(t.norm(i), "'s")] {
				return true
			}
		}
	}
	return false
}
