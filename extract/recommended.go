package extract

import "strings"

// What somebody else puts in is a story until the cook joins in or tells the listener
// to: "my cousin puts peanut butter in hers, and it's nice", "my father poured aquavit
// over, I do it when there's a bottle open". Then it is an ingredient that may be left out.

const (
	habitReach     = 9  // words between who puts a food in, and the food
	verdictReach   = 60 // words behind the food in which it is judged
	verdictWithin  = 5  // sentences behind its own in which it is judged
	praiseDistance = 3  // words between "it's" and its praise
)

var (
	// someCooks are others than the cook and family, who have habits.
	someCooks = words("people cooks families folk folks chefs others ladies women men restaurants places relatives cousins neighbours neighbors friends aunties aunts grandmothers grannies sisters brothers")
	// whereto are words that lead to where a food is put.
	whereto = words("in into on onto over to through around under inside")
	// habitWords may stand between who has a habit and its verb.
	habitWords = words("always also sometimes even then often usually now just still would will used to all does did likes like loved love and")
	// putBy are forms of verbs of putting a food in, besides those of the kinds that season and finish.
	putBy = words("put puts throw throws threw pour pours poured add adds added stir stirs stirred temper tempers tempered shake shakes shook use uses used sprinkle sprinkles sprinkled grate grates grated squeeze squeezes squeezed drop drops dropped mix mixes mixed crumble crumbles crumbled slip slips slipped sneak sneaks sneaked fold folds folded chuck chucks chucked toss tosses tossed want wants putting adding throwing")
	// doingSo are what a cook says who does the same.
	doingSo = cues("i do it", "i do that", "i do this", "i do too", "so do i", "i do the same", "i put when", "i put it when", "i put it if", "i put it in when", "i put it on", "i put some", "i add it when", "i add it if", "i like it", "i like that", "i like it too", "me too", "i copied", "i copy", "i stole", "i've stolen", "i've started", "i've come round", "now i do", "i do now", "i put it too", "i add it too", "i'm with her", "i'm with him", "i sometimes do", "sometimes i do")
	// urging tell the listener to do the same.
	urging = cues("do it", "do that", "try it", "do try it", "try that", "i recommend it", "i'd recommend it", "worth it", "worth trying", "worth a try", "well worth", "you should try", "you must try", "have a go", "give it a go", "give it a try", "go ahead", "be my guest", "you're welcome to")
	// urgingOpens may stand before words that urge.
	urgingOpens = words("and so but then please you do just it's is")
	// praised are what is good to eat.
	praised = words("good nice lovely delicious wonderful great beautiful tasty brilliant gorgeous excellent fantastic magic heavenly marvellous class")
	// itIs open the praise of what was just told.
	itIs = words("it's that's is was it'd")
	// praiseWords may stand before the praise.
	praiseWords = words("very really actually so quite also surprisingly honestly rather pretty bloody always truly just")
	// judges are verbs of those whose opinion is told.
	judges = words("says said thinks thought swears swore reckons reckoned claims claimed say think tells told")
	// refusing are what a cook says who does not put it in.
	refusing = cues("i don't", "i do not", "i never", "i stopped", "i won't", "i wouldn't", "i'd never", "i can't", "not me", "not for me", "not in mine", "not in this", "not here", "not today", "we don't", "we never", "don't do", "don't put", "don't add", "don't you", "please don't", "never do", "leave it alone", "a crime", "cheating", "a sin", "no thank", "no thanks", "instead", "it's a different dish")
	// refusedNot are verbs behind "I don't" that refuse nothing.
	refusedNot = words("know mind care say tell think judge argue see remember ask measure")
)

// othersPut reports whether the words before the food tell that somebody else puts it in.
func (t *talk) othersPut(s *sentence, m *mention) bool {
	if m.negated || m.compared || m.verb || m.subst >= 0 || s.kind == storing || s.kind == figures {
		return false
	}
	put := false
	for i := m.First - 1; i >= max(s.First, m.First-habitReach-4); i-- {
		w := t.norm(i)
		switch {
		case !put && whereto[w] && !putBy[t.norm(i-1)] && (i == m.First-1 || i == m.First-2 && determiners[t.norm(i+1)]):
			return false // "in the water"
		case youWe[w] || w == "i" || w == "i've" || w == "i'll" || w == "if" || w == "when":
			return false
		case !put:
			put = putBy[w]
		case habitWords[w]:
		default:
			return t.somebody(s, i)
		}
	}
	return false
}

// somebody reports whether token i ends the name of one who isn't the cook or the listener.
func (t *talk) somebody(s *sentence, i int) bool {
	w := strings.TrimSuffix(t.norm(i), "'s")
	switch {
	case w == "he", w == "she", w == "they", w == "who", w == "somebody", w == "someone", w == "everybody", w == "everyone":
		return true
	case w == "people", someCooks[w], kin[w]:
		return true
	}
	// "my cousin in Mombasa", "my wife's mother"
	for k := i - 1; k >= s.First && k >= i-4; k-- {
		if t.toks[k].After != 0 {
			return false
		}
		if kin[strings.TrimSuffix(t.norm(k), "'s")] {
			return true
		}
	}
	return false
}

// recommended reports whether somebody else's habit of putting the food in is taken up
// by the cook or recommended to the listener.
func (t *talk) recommended(s *sentence, m *mention) bool {
	if s.recap || s.other || m.mixed || m.food.Dish || generic[m.food.Name] || !t.othersPut(s, m) || !t.firstUse(m) || t.has(s.First, m.First, "if") >= 0 {
		return false
	}
	k := int(t.sentOf[m.First])
	good := false
	for j := k; j <= k+verdictWithin && j < len(t.sents); j++ {
		n := &t.sents[j]
		if n.para != s.para || j > k && t.namesAnother(n, m) {
			break
		}
		for i := max(n.First, m.Last); i < n.Last && i < m.Last+verdictReach; i++ {
			if c := t.cueAt(refusing, i, n.Last); c > 0 && !(t.norm(i+c-1) == "don't" && refusedNot[t.norm(i+c)]) {
				return false
			}
			if t.doesSo(i, n) || t.urges(i, n) {
				return true
			}
			good = good || t.praises(i, n)
		}
	}
	return good
}

// namesAnother reports whether the sentence turns to a food that is not that of m.
func (t *talk) namesAnother(n *sentence, m *mention) bool {
	for _, x := range t.mentionsIn(n.First, n.Last) {
		if o := &t.mentions[x]; !o.verb && !o.compared && !o.negated && !o.food.Weak && !o.food.Dish && !generic[o.food.Name] && related(o.food, m.food) == 0 {
			return true
		}
	}
	return false
}

// doesSo reports whether the cook says at token i to do the same.
func (t *talk) doesSo(i int, n *sentence) bool {
	c := t.cueAt(doingSo, i, n.Last)
	return c > 0 && t.norm(i+c) != "not" && t.norm(i+c) != "without"
}

// urges reports whether the listener is told at token i to do the same.
func (t *talk) urges(i int, n *sentence) bool {
	c := t.cueAt(urging, i, n.Last)
	if c == 0 || !t.clauseEnd(i+c, n) && !urgingTail[t.norm(i+c)] {
		return false
	}
	switch w := t.norm(i - 1); {
	case i == n.First || t.toks[i-1].After != 0:
		return true
	case w == "can", w == "should", w == "must", w == "could", w == "may", w == "might":
		return t.norm(i-2) == "you"
	default:
		return urgingOpens[w]
	}
}

// urgingTail may follow what urges.
var urgingTail = words("too once if when sometime because and with one yourself")

// praises reports whether the cook finds at token i that it's good, rather than telling
// that somebody does.
func (t *talk) praises(i int, n *sentence) bool {
	if !itIs[t.norm(i)] || (t.norm(i) == "is" || t.norm(i) == "was") && t.norm(i-1) != "it" && t.norm(i-1) != "that" {
		return false
	}
	j := i + 1
	for j < n.Last && j <= i+praiseDistance && praiseWords[t.norm(j)] {
		j++
	}
	if !praised[t.norm(j)] && !t.is(j, "not", "bad") {
		return false
	}
	for b := i - 1; b >= n.First && b >= i-4; b-- {
		if judges[t.norm(b)] || t.norm(b) == "if" {
			return false
		}
	}
	return true
}
