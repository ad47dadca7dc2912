package extract

import "quern/internal/lexicon"

// A container's size is told behind it in many ways: "two tins, the small ones, two
// hundred grams each", "two jars, and each jar has 350 grams", "they come in seven-gram
// sachets", "a jar of capers, a hundred grams". All have in common that only words for
// containers and for what they hold stand between the two. What is said of several
// together ("three tins, twelve hundred grams in all") is another measure of the amount.

// containerReach is how many words may stand between a container's food and its size.
const containerReach = 14

var (
	// sizeTalk are words that lead from a container to what it holds.
	sizeTalk = words("the a an each every one ones of those these that that's this it it's they they're is are has have holds hold contains weighs weigh being small little big large medium standard regular normal usual ordinary tall short fat mini family size sized kind sort mine mine's my your our you and in with per about around roughly says come comes at so do does mean i it'll you'll want need here net extra")
	// forEach, right behind a weight, tell that each holds it.
	forEach = cues("each", "apiece", "one", "ones", "size", "sized", "kind", "sort", "in each", "per", "a piece", "drained weight", "net", "to each", "every one", "in every")
	// aSingle stand before one of several containers.
	aSingle = words("each every")
	// inSum, behind a weight, tell that all of them hold it together.
	inSum = cues("in total", "altogether", "in all", "all told", "all together", "total", "together", "between them", "between the two", "all in all", "all up", "for both", "for the lot")
)

// containerAt gives the length of a container's name at token i, 0 for none.
func (t *talk) containerAt(i int) int {
	if u, n := t.lex.UnitAt(t.ids, i); n > 0 && u.Kind == "container" {
		return n
	}
	return 0
}

// weighs reports whether a quantity is a weight or a volume, as containers hold it.
func weighs(q *quantity) bool {
	if q.kind != measure {
		return false
	}
	switch q.unit {
	case "g", "kg", "oz", "lb", "ml", "l", "fl oz":
		return true
	}
	return false
}

// sizeOfContainer gives the food whose containers are of the size q, -1 for none: they
// were counted before it, and only words for them and for what they hold stand between.
func (t *talk) sizeOfContainer(q *quantity) int {
	if !weighs(q) && (q.size == nil || q.ukind != "container") || q.of {
		return -1
	}
	for i := q.First - 1; i >= 0 && i >= q.First-containerReach; i-- {
		if t.sentOf[q.First]-t.sentOf[i] > 1 {
			return -1
		}
		m := int(t.mentionAt[i])
		if n := t.quantityAt[i]; n >= 0 {
			p := &t.quantities[n]
			if p.ukind == "container" && p.size == nil && p.food >= 0 && !p.article {
				m = p.food
			} else if p.ukind == "container" && p.food < 0 || t.standsFor(p) || p.kind == count && p.min == 1 && p.max == 1 {
				continue // "and a tin is four hundred grams", "one of the big ones"
			} else if m = p.food; m < 0 || p.ukind != "container" {
				return -1
			}
		}
		if m >= 0 {
			if p := t.contained(m); p != nil && t.heldBy(p, q) {
				return m
			}
			return -1
		}
		if !sizeTalk[t.norm(i)] && t.containerAt(i) == 0 {
			return -1
		}
	}
	return -1
}

// contained gives the containers that a mention's food was counted in, nil for none.
func (t *talk) contained(m int) *quantity {
	for _, k := range t.mentions[m].amounts {
		if q := &t.quantities[k]; q.ukind == "container" && !q.void {
			return q
		}
	}
	return nil
}

// heldBy reports whether the weight x, said after the containers p, is what each of them
// holds: it says so, or there is but one.
func (t *talk) heldBy(p, x *quantity) bool {
	if t.cueAt(inSum, x.Last, len(t.toks)) > 0 {
		return false
	}
	if t.eachHolds(x) {
		return true
	}
	for i := p.Last; i < x.First; i++ {
		if aSingle[t.norm(i)] || t.containerAt(i) > 0 && t.norm(i-1) != "a" {
			return true
		}
	}
	return p.min == 1 && p.max == 1
}

// eachHolds reports whether the words behind a weight tell that it is that of each piece
// or container: "each", "a tin", "per jar", "the four-hundred-gram tins".
func (t *talk) eachHolds(x *quantity) bool {
	if x.Last >= len(t.toks) || t.toks[x.Last-1].After.Ends() {
		return false
	}
	if t.cueAt(forEach, x.Last, len(t.toks)) > 0 || t.containerAt(x.Last) > 0 {
		return true
	}
	return (t.norm(x.Last) == "a" || t.norm(x.Last) == "the") && t.toks[x.Last-1].After == 0 && t.containerAt(x.Last+1) > 0 && t.norm(x.Last+1+t.containerAt(x.Last+1)) != "of"
}

// sizeOfThose makes q the size of the containers counted right before m's as well: "one
// tin of beans, one tin of tomatoes, four hundred grams apiece".
func (t *talk) sizeOfThose(k, m int) {
	if !t.eachHolds(&t.quantities[k]) {
		return
	}
	for n := m - 1; n >= 0; n-- {
		a, b := &t.mentions[n], &t.mentions[n+1]
		p := t.contained(n)
		if p == nil || p.size != nil || len(a.amounts) > 1 || t.sentOf[a.First] != t.sentOf[b.First] || b.First-a.Last > 5 || t.lex.Modifiers[t.norm(b.First-1)] == lexicon.NoClass && t.quantityAt[b.First-1] < 0 {
			return
		}
		a.amounts = append(a.amounts, k)
	}
}

// lengthOfPiece gives the food whose piece is as long as q tells, -1 for none: "a piece
// of ginger, two inches".
func (t *talk) lengthOfPiece(q *quantity) int {
	i := q.First - 1
	for i > 0 && (approx[t.norm(i)] > 0 || hedges[t.norm(i)] || t.norm(i) == "say") {
		i--
	}
	if i < 0 || t.sentOf[i] != t.sentOf[q.First] {
		return -1
	}
	m := int(t.mentionAt[i])
	if n := t.quantityAt[i]; m < 0 && n >= 0 {
		m = t.quantities[n].food // "ginger, a piece, two inches"
	}
	if m < 0 || len(t.mentions[m].amounts) != 1 {
		return -1
	}
	if p := &t.quantities[t.mentions[m].amounts[0]]; p.unit != "piece" || p.size != nil {
		return -1
	}
	return m
}
