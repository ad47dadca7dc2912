package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// yieldCue leads to a number of pieces or servings.
type yieldCue struct {
	words  []string
	score  int    // how surely a yield follows
	noun   bool   // the thing counted must be named after the number
	unit   string // what a bare number counts
	change bool   // takes the place of a yield just said
}

var yieldCues = readYieldCues(`
5 pieces: makes; makes about; will make; it'll make; this'll make; that'll make; they'll make; yields; yield; ends up making; yield is; yield on this is; yield of this is
5 servings: party of; crowd of; plenty for; enough there for; serves; feeds; will serve; will feed; it'll feed; it'll serve; this'll feed; this'll serve; that'll feed; that'll serve; enough for; enough to feed; enough to serve; servings for; portions for
5 -: from this comes; from this come; from that comes; out of this comes; from this i get; finish up with; end up with; ends up with; ended up with; finished up with; wind up with; comes out to; comes out at; comes out as
4 -: you'll get; we'll get; should get; should get you; will get you; gets you; gives you; gives me; gives us; will give you; that'll give you; it'll give you; this'll give you; should give you; would give you; to make about; gonna get; going to get; you should have; you'll have; to get; gets me; i get; we get; you get; get about; there's your; there are your; that's your; those are your; these are your; here are your; here's your; there you have it; there you have; there you've got; have your; works out at; works out to; i'm getting; i'd get; you'd get; i make it; comes to
4 servings noun: it gives for; gives for; it reaches for; reaches for; is enough for; it does; this does; that does; this is for; that is for; it is for; that's for; portion is for; portions are for
4 servings: serve; feed; would feed; could feed; can feed; to feed; to serve; does for; it's for; recipe for; recipe is for; recipe's for; quantities are for; amounts are for; dinner for; supper for; lunch for; breakfast for; brunch for; tea for; meal for; cooking for; good for; stretches to; stretch to; does you for; stretch it to
4 pieces: you make; we make; i make
4 servings noun: it'll do; this'll do; that'll do; that does; comes out; it will do; this will do; that will do; goes round; go round; go around; goes around; that'll see; it'll see; this'll see; sees; will see
4 pieces noun: i'm making; i am making; we're making; we are making; made me; made us; made; i got; we got; i've got; you've got; we've got; a batch; after
3 pieces noun: it comes; comes; come; you finish with; finish with; filled; i filled; pours; came to; it came to; adds up to; make; makes you; makes me; makes us; make about; fills; fill; batch of; batch is; batch makes; out of this i get; there's; there are; you're looking at; it gives; this gives; gives; get; does; will do; have about; turns out; so about
2 - noun: that's; between; among
1 - noun: into; cut it into; cut into; cuts into; cut them into; slice it into; slices into; sliced into; divides into; out of it
3 - change: call it; let's call it; make that; let's say; make it
`)

func readYieldCues(table string) []yieldCue {
	var out []yieldCue
	for _, line := range strings.Split(strings.TrimSpace(table), "\n") {
		head, list, _ := strings.Cut(line, ":")
		var c yieldCue
		for i, f := range strings.Fields(head) {
			switch {
			case i == 0:
				c.score = int(f[0] - '0')
			case f == "noun":
				c.noun = true
			case f == "change":
				c.change = true
			case f != "-":
				c.unit = f
			}
		}
		for _, p := range strings.Split(list, ";") {
			c.words = strings.Fields(p)
			out = append(out, c)
		}
	}
	return out
}

// yieldCuesBy finds the cues by their first word.
var yieldCuesBy = func() *heads[yieldCue] {
	out := &heads[yieldCue]{}
	for _, c := range yieldCues {
		out.add(c.words[0], c)
	}
	return out
}()

// yieldSaid is one statement of how much the dish makes.
type yieldSaid struct {
	language.Span
	schema.Quantity
	score   int
	bare    bool // nothing counted was named
	loose   bool // nothing tells whether people or pieces are counted
	cutting bool // told with the knife, not as what the dish makes
	number  int  // token of the number
}

// findYield reads how much the recipe makes: the surest statement, the first
// of two alike.
func (t *talk) findYield() {
	var best *yieldSaid
	all := t.yieldsSaid()
	for i := range all {
		y := &all[i]
		// a second statement of the same makes it surer
		if best == nil || y.score > best.score {
			best = y
		}
	}
	if best == nil || best.score < 4 {
		if y := t.yieldFragment(); y != nil && (best == nil || y.score > best.score || y.number < best.number) {
			best = y
		}
	}
	if best == nil || best.score < 3 {
		if y := t.countedUnmarked(); y != nil && (best == nil || y.score > best.score) {
			best = y
		}
	}
	if best == nil || best.score < 2 {
		if y := t.portions(); y != nil && (best == nil || y.score > best.score) {
			best = y
		}
	}
	if best == nil || best.score < 1 || best.CheckYield() != nil { // a noun that couldn't be read back would cost the document
		return
	}
	t.yield = &best.Quantity
	sp := best.Span
	if sp.Len() > 14 {
		sp.Last = max(sp.First+14, best.number+1)
	}
	if _, n := language.ReadNumber(t.toks, best.number); n > 0 {
		sp.Last = max(sp.Last, best.number+n) // a sentence may end in the middle of it, by a guess
	}
	t.yieldSaid = []schema.Said{t.said(sp.First, sp.Last)}
	t.because("yield "+best.Quantity.String(), sp.First, sp.Last, "yield cue")
}

// yieldsSaid gives every statement of a yield, in the order of the talk,
// without those that were taken back.
func (t *talk) yieldsSaid() []yieldSaid {
	var out []yieldSaid
	var last *yieldSaid // also one that tells of another batch
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing {
			if s = t.beforeKeeping(s); s == nil {
				continue
			}
		}
		if y := t.addedUp(s); y != nil && !s.past && !s.other {
			out = append(out, *y)
			continue
		}
		if y := t.answeredIn(s); y != nil {
			out = append(out, *y)
			continue
		}
		if y := t.countedAnew(s, last); y != nil {
			out = append(out, *y)
			continue
		}
		taken := -1 // number of the last statement of this sentence
		for i := s.First; i < s.Last; i++ {
			// the longest cue here
			if !t.in(aYieldCue, i) {
				if y := t.mendedUnmarked(s, i, last); y != nil && taken >= 0 {
					out = append(out, *y)
				}
				continue
			}
			var c *yieldCue
			cues := yieldCuesBy.at(t, i)
			for n := range cues {
				// without marks a guessed sentence may end within the cue: "there, you have it"
				if (i+len(cues[n].words) <= s.Last || !t.punctuated) && t.is(i, cues[n].words...) && (c == nil || len(cues[n].words) > len(c.words)) {
					c = &cues[n]
				}
			}
			if c == nil {
				continue
			}
			y := t.yieldAfter(s, i, c)
			if y == nil || y.number == taken {
				continue
			}
			taken = y.number
			last = y
			// "I got fourteen scones" tells of this batch all the same
			if s.other || anotherCook[t.norm(s.First)] {
				y.score -= 4 // another dish's, or another cook's
			}
			if s.past && !t.dishCounted(lastWord(y.Unit)) && !t.thisBatch(s, i) || s.kind == aside && !t.thisBatch(s, i) || s.other || t.ofOtherBatch(s, i) {
				y.score -= 4
			}
			if k < 8 || s.First > len(t.toks)*9/10 {
				y.score++
			}
			mends := false
			if n := len(out); n > 0 {
				p := &out[n-1]
				if y.number-p.Last < 40 && (c.change || t.slipBetween(p.number, y.number) && y.First-p.Last < 12) {
					// "serves six, no, sorry, serves four"
					if y.bare {
						y.Unit = p.Unit
					}
					y.score = max(y.score, p.score)
					out = out[:n-1]
					mends = true
				}
			}
			if c.change && !mends && (y.bare || !peopleWord[lastWord(y.Unit)]) {
				continue // "call it ten minutes", but "so call it five plates"
			}
			out = append(out, *y)
			i = max(i, y.number)
		}
	}
	return out
}

// answeredIn reads the number with which a sentence answers how many are made: "How many,
// Gran? Sixty, about."
func (t *talk) answeredIn(s *sentence) *yieldSaid {
	if t.sentOf[s.First] == 0 || s.past || s.other || s.kind == instruction {
		return nil
	}
	for i := s.First; i <= s.First+3 && i < s.Last; i++ {
		num, n := language.ReadNumber(t.toks, i)
		if n == 0 || num.Article || num.Fraction || num.Min < 1 || num.Max > 100 {
			continue
		}
		if !t.answersHowMany(s, i, n) {
			return nil
		}
		y := t.answered(s, i, num)
		y.score = 5
		return y
	}
	return nil
}

// countedAnew reads a number of the things just counted, with which a sentence begins: "you'll
// get eight skewers, no, ten. Ten skewers, yes."
func (t *talk) countedAnew(s *sentence, before *yieldSaid) *yieldSaid {
	if before == nil || before.bare || before.Unit == "" || s.First-before.number > 30 {
		return nil
	}
	num, n := language.ReadNumber(t.toks, s.First)
	if n == 0 || num.Article || !countable(num) || !strings.EqualFold(t.norm(s.First+n), lastWord(before.Unit)) || s.First+n+1 < s.Last && t.toks[s.First+n].After == 0 {
		return nil
	}
	return &yieldSaid{Span: language.Span{First: s.First, Last: s.First + n + 1}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: before.Unit}, score: 6, number: s.First}
}

// beforeKeeping gives the words of a guessed sentence before those that keep the
// dish: "you end up with eight jars keep it a month", without the mark. It gives
// nil where the talk has marks or nothing stands before.
func (t *talk) beforeKeeping(s *sentence) *sentence {
	i := t.has(s.First, s.Last, "keep", "keeps", "store", "freeze", "freezes", "lasts", "in the fridge")
	if t.punctuated || i-s.First < 4 {
		return nil
	}
	before := *s
	before.Last, before.kind = i, plain
	return &before
}

// anotherCook are words that begin a sentence about what somebody else makes.
var anotherCook = words("he she they his")

// ofOtherBatch reports whether the sentence speaks of another size of batch or
// another person's: "double it and you'll get twenty-four".
func (t *talk) ofOtherBatch(s *sentence, i int) bool {
	return t.has(max(s.First, i-12), min(s.Last, i+8), "double", "doubled", "doubling", "triple", "half the recipe", "half a batch", "halve it", "if you make", "last time", "used to", "one time", "once made", "last week", "i'd make", "we'd make", "i would make", "for the wedding", "at the shop") >= 0 || t.has(max(s.First, i-5), min(s.Last, i+8), "each", "per", "every") >= 0 && t.has(i, min(s.Last, i+8), "portions of", "pieces of", "balls of", "servings of") < 0
}

// yieldFillers may stand between a cue and its number.
var yieldFillers = words("call about around roughly maybe you me us somewhere just up to them it of let see good probably easily exactly our this that family out with anywhere only comfortably nearly almost say my well oh so um uh on like hungry the this")

// yieldAfter reads the number and the thing counted after the cue at i.
func (t *talk) yieldAfter(s *sentence, i int, c *yieldCue) *yieldSaid {
	k := i + len(c.words)
	last := s.Last
	if next := int(t.sentOf[i]) + 1; !t.punctuated && last-k <= 1 && next < len(t.sents) {
		last = t.sents[next].Last // "and there you have it" may be a guessed sentence
	}
	end := min(k+6, last)
	for ; k < end; k++ {
		w := t.norm(k)
		if num, n := language.ReadNumber(t.toks, k); n > 0 && !(num.Article && n == 1) {
			return t.yieldNumber(s, i, k, c, num, n)
		}
		if w == "a" {
			x := k // "you'll have a good litre"
			for x < s.Last && x < k+2 && t.quantityAt[x] < 0 {
				x++
			}
			if q := t.quantityAt[min(x, len(t.toks)-1)]; q >= 0 && t.quantities[q].kind == measure && t.quantities[q].ukind == "volume" && t.quantities[q].min >= 1 {
				return t.yieldMeasure(s, i, &t.quantities[q], c)
			}
		}
		if w == "a" || w == "one" {
			// "makes a loaf", "a big tray of flapjacks"
			if c.score == 5 || c.score == 3 && t.norm(i) == "make" {
				unit := t.yieldNoun(k + 1)
				if unit != "" && (oneThing[lastWord(unit)] || c.score == 5 && t.dishCounted(lastWord(unit))) {
					return &yieldSaid{Span: language.Span{First: i, Last: s.Last}, Quantity: schema.Quantity{Min: 1, Max: 1, Unit: unit}, score: 3, number: k}
				}
			}
			if y := t.thatIs(s, i, k, c); y != nil {
				return y
			}
			if w == "a" && t.norm(k+1) != "good" && t.norm(k+1) != "solid" && t.norm(k+1) != "batch" && t.norm(k+1) != "family" && t.norm(k+1) != "table" && t.norm(k+1) != "crowd" && t.norm(k+1) != "total" {
				return nil
			}
			continue
		}
		if !yieldFillers[w] && w != "family" && w != "table" && w != "crowd" && w != "total" && w != "batch" && w != "solid" || t.toks[k].After&^language.Comma != 0 {
			return nil
		}
	}
	return nil
}

// thatIs reads the number that tells how many a company is: "it does a watch, that's eight".
func (t *talk) thatIs(s *sentence, i, k int, c *yieldCue) *yieldSaid {
	if c.unit != "servings" {
		return nil
	}
	for x := k + 1; x < min(s.Last, k+4); x++ {
		if t.toks[x].After&language.Comma == 0 {
			continue
		}
		y := x + 1
		for y < s.Last && (t.norm(y) == "that's" || t.norm(y) == "so" || t.norm(y) == "call" || t.norm(y) == "it") {
			y++
		}
		num, n := language.ReadNumber(t.toks, y)
		if n == 0 || num.Article || !countable(num) || y+n < s.Last && t.toks[y+n-1].After == 0 {
			return nil
		}
		return &yieldSaid{Span: language.Span{First: i, Last: y + n}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: "servings"}, score: c.score, number: y}
	}
	return nil
}

// yieldMeasure makes the statement of a drink, a sauce or a stock told by the litre: what
// goes into it is told so too, so the words must be those of a yield and name no food.
func (t *talk) yieldMeasure(s *sentence, i int, q *quantity, c *yieldCue) *yieldSaid {
	switch q.unit {
	case "l", "pint", "quart", "gallon":
	case "cup", "ml":
		// what is made must be named: "six cups of sauce"
		if x := q.Last; x >= s.Last || t.toks[x-1].After != 0 || t.madeAt[x] == 0 && !dishNoun[t.norm(x)] && !t.dishCounted(t.norm(x)) {
			return nil
		}
	default:
		return nil
	}
	if c.score < 4 || c.unit == "servings" || q.min < 1 {
		return nil
	}
	for x := q.Last; x < min(s.Last, q.Last+4) && t.toks[x-1].After == 0; x++ {
		if m := t.mentionAt[x]; m >= 0 && !t.mentions[m].food.Dish && t.madeAt[x] == 0 && !t.dishCounted(t.norm(x)) {
			return nil
		}
	}
	unit := t.norm(q.Last - 1)
	for x := q.First; x < q.Last; x++ {
		if u, n := t.lex.UnitAt(t.ids, x); n > 0 && u.Unit == q.unit {
			unit = t.norm(x)
		}
	}
	return &yieldSaid{Span: language.Span{First: i, Last: s.Last}, Quantity: schema.Quantity{Min: q.min, Max: q.max, Unit: unit}, score: 3, number: q.First}
}

// folk are people who also only come into a talk: counted without a cue they tell nothing of
// who eats.
var folk = words("men women lads girls boys teenagers children shearers workers visitors")

// oneThing are whole things a recipe makes one of.
var oneThing = words("loaf cake pie tart pizza tray pan pot batch tin lasagne lasagna quiche cheesecake focaccia round ring roulade crumble gratin casserole")

// lastWord gives what sort of thing a name says it is: "stock" of "beef stock".
func lastWord(s string) string { return s[strings.LastIndexByte(s, ' ')+1:] }

// vesselNoun are vessels that what is made is counted in.
var vesselNoun = words("jars jar bottles bottle tubs tub glasses boxes pots")

// doesFor are last words of cues after which a number by itself counts who eats: "it'll do
// four", "it's for six".
var doesFor = words("for do does see")

// yieldNumber builds the statement whose number stands at k.
func (t *talk) yieldNumber(s *sentence, i, k int, c *yieldCue, num language.Number, n int) *yieldSaid {
	if q := t.quantityAt[k]; q >= 0 && t.quantities[q].ukind == "volume" && t.quantities[q].First <= k {
		if x := &t.quantities[q]; vesselNoun[t.norm(x.Last)] && t.joined(x.Last-1) && num.Min >= 1 && num.Max <= 400 && !num.Fraction {
			// "three pint jars"
			return &yieldSaid{Span: language.Span{First: i, Last: s.Last}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: t.norm(x.Last)}, score: c.score, number: k}
		}
		return t.yieldMeasure(s, i, &t.quantities[q], c)
	}
	if num.Min < 1 || num.Max > 400 || num.Fraction || num.Colloquial || num.Max == 1 && (t.norm(k+n) == "of" || t.norm(k+n) == "more") {
		return nil
	}
	unit := t.yieldNoun(k + n)
	if unit == "" && (t.is(k+n, "of", "us") || t.is(k+n, "of", "you")) {
		unit = "people"
	}
	if q := t.quantityAt[k]; q >= 0 && t.quantities[q].First <= k {
		switch x := &t.quantities[q]; x.kind {
		case duration, heat, length, money:
			return nil
		case measure:
			switch x.ukind {
			case "mass", "small":
				return nil
			}
			switch x.unit {
			case "stick":
				if num.Min < 6 { // of celery, butter or cinnamon
					return nil
				}
			case "clove", "pinch":
				return nil
			}
			unit = t.norm(x.Last - 1)
			if x.of {
				unit = t.norm(x.Last - 2)
			}
		}
	}
	last := lastWord(unit)
	known := peopleWord[last] || t.dishCounted(last)
	bare := unit == ""
	switch {
	case bare && (t.norm(i) == "fills" || t.norm(i) == "fill") && t.pausesAt(k+n) && t.has(0, i, "jars", "bottles", "glasses") >= 0:
		// "it fills six", where the jars were washed before
		return &yieldSaid{Span: language.Span{First: i, Last: s.Last}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: t.norm(t.has(0, i, "jars", "bottles", "glasses"))}, score: 4, number: k}
	case !bare && c.unit != "servings" && (last == "people" || folk[last]) && gotten[c.words[len(c.words)-1]]:
		return nil // "you get two, three people to help"
	case bare && (c.noun && !t.toldByTail(k, n) && !((t.norm(i) == "cuts" || t.cueOpens(s, i, "does")) && t.pausesAt(k+n)) && !(c.unit == "servings" && doesFor[c.words[len(c.words)-1]] && t.pausesAt(k+n)) && !(c.unit == "pieces" && t.has(k, k+n, "dozen") >= 0) || notYield[t.norm(k+n)] && t.toks[k+n-1].After == 0):
		return nil
	case bare && t.mentionStart(k+n) >= 0 && t.toks[k+n-1].After == 0:
		return nil // "makes two eggs"
	case !bare && c.noun && !known && !(t.cueOpens(s, i, "comes") && plural(last) && !t.countsFood(k+n, unit) && !notYield[last]):
		return nil
	case !bare && !known && c.unit == "" && t.countsFood(k+n, unit):
		return nil // "you get two carrots"
	case notYield[last] || last == "kids" && c.unit != "servings":
		return nil
	}
	if c.words[0] == "cut" || c.words[0] == "cuts" || c.words[0] == "slice" || c.words[0] == "slices" || c.words[0] == "sliced" || c.words[0] == "divides" {
		if last == "pieces" || last == "halves" || last == "chunks" || last == "strips" || last == "cubes" || last == "wedges" || last == "rounds" || last == "sticks" || last == "" && c.words[0] != "cuts" {
			return nil
		}
	}
	q := schema.Quantity{Min: num.Min, Max: num.Max, Unit: unit}
	loose := false
	if bare {
		q.Unit = c.unit
		if q.Unit == "" {
			if k+n < s.Last && t.toks[k+n-1].After == 0 && !afterYield[t.norm(k+n)] && !t.startsNumber(k+n) {
				return nil
			}
			q.Unit, loose = "servings", true
		}
		if q.Unit == "pieces" && (t.norm(k+n) == "people" || t.norm(k+n) == "of" && t.norm(k+n+1) == "us") {
			q.Unit = "servings"
		}
	}
	if c.words[0] == "into" && (last != "jars" && last != "bottles" || t.has(max(s.First, i-8), i, "ladle", "pour", "spoon", "pot", "fill", "divide", "pack", "bottle") < 0) {
		return nil
	}
	switch t.norm(k - 1) {
	case "about", "around", "roughly", "nearly", "almost":
		q.About = true
	}
	y := &yieldSaid{Span: language.Span{First: i, Last: s.Last}, Quantity: q, score: c.score, bare: bare, loose: loose, number: k, cutting: c.score == 1}
	if !bare && !known {
		y.score--
	}
	if c.words[0] == "that's" && !bare {
		if after := k + n + len(strings.Fields(unit)); t.norm(after) == "to" && t.joined(after-1) {
			return nil // "that's three bowls to wash"
		}
		if atTable[last] {
			y.score = 4
		}
	}
	from := i
	for from > s.First && from > i-3 && !t.pausesAt(from) {
		from-- // "don't argue, it does eight people"
	}
	if t.has(from, i, "don't", "doesn't", "won't", "not", "never") >= 0 {
		return nil
	}
	return y
}

// tails follow a number of what comes out of a batch, whatever led to it.
var tails = [][]string{{"from", "this"}, {"from", "that"}, {"out", "of", "this"}, {"out", "of", "that"}, {"out", "of", "it"}, {"in", "that"}, {"in", "there"}, {"in", "all"}, {"altogether"}, {"out", "of", "these"}}

// toldByTail reports whether the words after the number of n tokens at k tell that it is what the
// batch gives: "my hands make fourteen from this".
func (t *talk) toldByTail(k, n int) bool {
	for _, ws := range tails {
		if t.is(k+n, ws...) {
			return true
		}
	}
	return false
}

// cueOpens reports whether the cue at i is the word w and opens the sentence: "does five, and
// dad has seconds".
func (t *talk) cueOpens(s *sentence, i int, w string) bool {
	for k := s.First; k < i; k++ {
		if !headWords[t.norm(k)] {
			return false
		}
	}
	return t.norm(i) == w
}

// gotten are last words of cues after which people are helpers and no eaters.
var gotten = words("get have got need")

// afterYield are words that go on after a number that counts nothing by name.
var afterYield = words("or of out if and from easily comfortably so depending unless but usually with give now")

// startsNumber reports whether another number begins at token i.
func (t *talk) startsNumber(i int) bool {
	num, n := language.ReadNumber(t.toks, i)
	return n > 0 && !(num.Article && n == 1)
}

// atTable are what is counted where people eat, and nowhere in a kitchen.
var atTable = words("plates portions servings helpings")

// countsFood reports whether the thing counted at i is a food of the recipe.
func (t *talk) countsFood(i int, unit string) bool {
	if t.norm(i) == "of" {
		i++ // "that's your three hundred of oats"
	}
	for k := i; k < i+len(strings.Fields(unit)) && k < len(t.toks); k++ {
		if m := t.mentionAt[k]; m >= 0 && !t.mentions[m].food.Dish && !(t.mentions[m].food.Kind == "bread" && t.endsTitle(t.norm(k))) {
			return true
		}
	}
	return false
}

// endsTitle reports whether the word is the last of a dish's title.
func (t *talk) endsTitle(w string) bool {
	for d := range t.dishes {
		if lexicon.Singular(lastWord(strings.ToLower(t.dishes[d].title))) == lexicon.Singular(w) {
			return true
		}
	}
	return false
}

// notYield are things counted after such words that are no yield.
var notYield = words("versions kinds types sorts rules secrets minutes minute times time years year hours hour percent degrees days day weeks week dollars pounds grams kilos cups cup tablespoons teaspoons ounces layers sides ways batch batches eggs things reasons rows row steps inches centimetres more calories halves parts stars")

// peopleWord are what yields are counted in: people, vessels, and things made
// one by one.
var peopleWord = words("people servings serving portions portion persons adults adult folks helpings plates bowls slices pieces glasses mugs cups jars bars squares cookies biscuits muffins cupcakes buns rolls loaves loaf pancakes waffles tacos burritos wraps dumplings patties burgers meatballs " +
	"flatbreads crepes scones cakes tarts pies pizzas skewers kebabs sandwiches balls truffles doughnuts donuts bagels pretzels naans rotis chapatis tortillas empanadas fritters croquettes rounds sheets trays shots drinks lollies popsicles litres quarts pints grown-ups kids eaters blondies brownies " +
	"shortbreads macaroons macarons croissants rusks crackers samosas pakoras arancini falafels pierogi gyoza wontons momos bottles wedges fingers flapjacks lunches dinners suppers meals mouths tamales quesadillas enchiladas parathas parathas turnovers pasties cannoli eclairs profiteroles puffs " +
	"tartlets fishcakes cobs baps crumpets hotcakes rolls ramekins pots tins men women lads girls boys teenagers children shearers workers visitors guests mouthfuls friends diners appetites pittas pitas knots twists batons baguettes focaccias cheesecakes puddings sausages steaks fillets")

// yieldPraise are words before the thing counted.
var yieldPraise = words("good generous small big large decent grown hungry spring ice little nice fat proper normal very thick thin medium huge mini tiny full regular hearty greedy average family-sized sized adult crispy crunchy chewy soft of those these my your our great")

// yieldNoun gives the thing counted after a number: "generous slices",
// "small glasses".
func (t *talk) yieldNoun(i int) string {
	var out []string
	for k := i; k < i+5 && k < len(t.toks); k++ {
		if t.sentOf[k] != t.sentOf[max(0, i-1)] || k > 0 && t.toks[k-1].After&^language.Comma != 0 {
			break
		}
		if k > 0 && t.toks[k-1].After&language.Comma != 0 && (k == i || !yieldPraise[t.norm(k-1)]) {
			break
		}
		w := t.norm(k)
		if k == i && t.quantityBegins(k) && t.startsNumber(k) {
			break // "makes twelve. Two cups of flour", without the mark
		}
		if yieldStop[w] || strings.ContainsRune(w, '\'') || w == "say" || k > i && t.quantityAt[k] >= 0 && t.quantities[t.quantityAt[k]].First == k {
			break
		}
		out = append(out, w)
		if !yieldPraise[w] && (peopleWord[w] || plural(w) && !strings.HasSuffix(w, "ous")) || oneThing[w] || t.dishCounted(w) {
			for len(out) > 1 && (out[0] == "of" || out[0] == "those" || out[0] == "these" || out[0] == "my" || out[0] == "your" || out[0] == "our") {
				out = out[1:]
			}
			return strings.Join(out, " ")
		}
	}
	return ""
}

var yieldStop = words("out if and or but so when with for in at to depending easily i you it which because comfortably the then that this is are from as on unless until today each altogether total them us")

// yieldFragment finds "twelve tacos" or "one loaf" in the first part of the
// talk, in the words of the title's dish.
func (t *talk) yieldFragment() *yieldSaid {
	limit := max(len(t.toks)/4, min(len(t.toks), 60))
	for i := 0; i < limit; i++ {
		num, n := language.ReadNumber(t.toks, i)
		if n == 0 || num.Article || num.Fraction || num.Min < 1 || num.Max > 100 {
			continue
		}
		s := t.sentence(i)
		if s.past || s.other || s.kind == instruction || anotherCook[t.norm(s.First)] {
			i += n - 1
			continue
		}
		if t.answersHowMany(s, i, n) {
			return t.answered(s, i, num)
		}
		if y := t.ofThem(s, i, n, num); y != nil {
			return y
		}
		unit := t.yieldNoun(i + n)
		last := lastWord(unit)
		if u, m := t.lex.UnitAt(t.ids, i+n); m > 0 && u.Unit != "jar" || t.norm(i+n) == "of" && t.norm(i+n+1) != "us" {
			i += n - 1
			continue // so much of a food, "one of my favourites"
		}
		if w := t.norm(i + n + len(strings.Fields(unit))); w == "each" || w == "apiece" || w == "of" || w == "or" && oneThing[last] {
			i += n - 1
			continue // "two thighs each", "three ladles of broth"
		}
		if unit != "" && (t.dishCounted(last) || peopleWord[last] && (!vesselWord[last] || t.alone(s) || i > s.First && t.isDishNoun(i-1) && t.titleWord(i-1))) && !t.countsFood(i+n, unit) && last != "kids" && last != "friends" && last != "people" && last != "guests" && !folk[last] && !notYield[last] {
			return &yieldSaid{Span: language.Span{First: i, Last: i + n + len(strings.Fields(unit))}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: unit}, score: 3, number: i}
		}
		if t.mealFor(i, n, unit) || unit == "" && t.tableFor(s, i, n) {
			if last != "people" && last != "servings" && last != "guests" {
				unit = "servings"
			}
			return &yieldSaid{Span: language.Span{First: i - 1, Last: min(s.Last, i+n+1)}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: unit}, score: 3, number: i}
		}
		i += n - 1
	}
	if y := t.yieldAtEnd(limit); y != nil {
		return y
	}
	// only the answer to a question is taken from what comes later
	for k := range t.sents {
		s := &t.sents[k]
		if s.Last <= limit || s.past || s.other || s.kind == instruction {
			continue
		}
		for i := max(limit, s.First); i <= s.First+3 && i < s.Last; i++ {
			num, n := language.ReadNumber(t.toks, i)
			if n == 0 || num.Article || num.Fraction || num.Min < 1 || num.Max > 100 {
				continue
			}
			if t.answersHowMany(s, i, n) {
				return t.answered(s, i, num)
			}
			i += n - 1
		}
	}
	return nil
}

// yieldAtEnd reads how many are made right behind the name of the dish where the talk ends: "egg
// fried rice for three", "chicken noodle soup, six bowls".
func (t *talk) yieldAtEnd(limit int) *yieldSaid {
	for i := max(limit, len(t.toks)-30); i < len(t.toks); i++ {
		num, n := language.ReadNumber(t.toks, i)
		s := t.sentence(i)
		if n == 0 || num.Article || num.Fraction || num.Min < 2 || num.Max > 100 || s.past || s.other || s.kind == storing {
			continue
		}
		if y := t.ofThem(s, i, n, num); y != nil {
			return y
		}
		unit, k := "", i-1
		if t.norm(k) == "for" {
			k--
			unit = "servings"
		}
		noun := t.yieldNoun(i + n)
		if last := lastWord(noun); peopleWord[last] && !notYield[last] {
			unit = noun
		} else if noun != "" || i+n < len(t.toks) && t.quantityAt[i] >= 0 && t.quantities[t.quantityAt[i]].kind == duration {
			continue
		}
		if unit != "" && k > 0 && t.isDishNoun(k) && t.titleWord(k) {
			return &yieldSaid{Span: language.Span{First: k, Last: i + n}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: unit}, score: 3, number: i}
		}
		i += n - 1
	}
	return nil
}

// ofThem reads how many are made behind their name: "fish tacos, eight of them".
func (t *talk) ofThem(s *sentence, i, n int, num language.Number) *yieldSaid {
	if t.norm(i+n) != "of" || t.norm(i+n+1) != "them" && t.norm(i+n+1) != "'em" && t.norm(i+n+1) != "these" || i <= int(s.First) {
		return nil
	}
	w := t.norm(i - 1)
	if !t.isDishNoun(i-1) && t.madeAt[i-1] == 0 || !plural(w) {
		return nil
	}
	return &yieldSaid{Span: language.Span{First: i - 1, Last: i + n + 2}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: w}, score: 3, number: i}
}

// tableFor reports whether the number at i, by itself behind "for" at the beginning or the end of a
// sentence, tells for how many the dish is: "for two: …", "but okay, for two."
func (t *talk) tableFor(s *sentence, i, n int) bool {
	if t.norm(i-1) != "for" || !t.punctuated || t.quantityAt[i] >= 0 && t.quantities[t.quantityAt[i]].kind != count {
		return false
	}
	if i-1 == s.First {
		return i+n < s.Last && t.toks[i+n-1].After&language.Colon != 0
	}
	return i+n >= s.Last && t.toks[i-2].After != 0 && len(t.actionsIn(s)) == 0
}

// answered makes the statement of a number at i that answers how many.
func (t *talk) answered(s *sentence, i int, num language.Number) *yieldSaid {
	return &yieldSaid{Span: language.Span{First: t.sents[t.sentOf[i]-1].First, Last: s.Last}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: "servings"}, score: 3, number: i}
}

// alone reports whether a sentence says next to nothing but a number of things:
// "four bowls", "small batch, eight slices". Of things that also stand about in a
// kitchen only such a sentence tells how much is made.
func (t *talk) alone(s *sentence) bool {
	return s.Len() <= 8 && t.verbless(s) && !t.hasTool(s)
}

// hasTool reports whether a sentence names a tool that nothing is counted in.
func (t *talk) hasTool(s *sentence) bool {
	for i := s.First; i < s.Last; i++ {
		if k := t.toolAt[i]; k >= 0 && !peopleWord[t.norm(t.tools[k].Last-1)] {
			return true
		}
	}
	return false
}

// mealFor reports whether the number at i tells for how many the dish is: "a
// chicken pie for six", "I make this for the four of us".
func (t *talk) mealFor(i, n int, unit string) bool {
	s := t.sentence(i)
	k := i - 1
	if t.norm(k) == "the" || t.norm(k) == "us" {
		k--
	}
	if k < s.First || t.norm(k) != "for" {
		return false
	}
	switch last := lastWord(unit); {
	case last == "people" || last == "servings" || last == "guests" || t.is(i+n, "of", "us"):
		return true
	case unit != "" || i+n < s.Last && t.toks[i+n-1].After == 0 && (t.punctuated || !t.isImperative(i+n) && t.norm(i+n) != "and" && t.norm(i+n) != "so"):
		return false
	}
	for j := max(s.First, k-3); j < k; j++ {
		if dishNoun[t.norm(j)] || t.madeAt[j] > 0 || t.mentionAt[j] >= 0 && t.mentions[t.mentionAt[j]].food.Dish {
			return true
		}
	}
	return false
}

// answersHowMany reports whether the number at i answers the question how many
// the dish feeds or makes.
func (t *talk) answersHowMany(s *sentence, i, n int) bool {
	k := int(t.sentOf[i])
	if i-s.First > 3 || i+n < s.Last && t.toks[i+n-1].After == 0 {
		return false
	}
	summed := false
	for j := s.First; j < i; j++ {
		if !answerWords[t.norm(j)] {
			return false
		}
		summed = summed || t.norm(j) == "that's"
	}
	// an answer that adds up may take a few sentences: "Eight of us. Two each. That's
	// sixteen."
	for back := 1; back <= 4 && k-back >= 0; back++ {
		q := &t.sents[k-back]
		if q.para != s.para && back > 1 || back > 1 && !summed {
			return false
		}
		if at := t.has(q.First, q.Last, "how many", "how many's"); at >= 0 {
			return at+2 >= q.Last || t.toks[at+1].After&language.Comma != 0 && at+4 >= q.Last || t.has(q.First, q.Last, "feed", "serve", "people", "servings", "make", "get", "do", "does", "for") >= 0 ||
				summed && t.has(at, q.Last, "is that", "is it", "are there") >= 0
		}
	}
	return false
}

// answerWords lead to the number that answers how many.
var answerWords = words("i'd say that's well about oh probably maybe it's makes say um uh around roughly nearly you'll get easily a good")

// rowWords speak of rows.
var rowWords = listed("each", "rows", "by", "times", "one way")

// cuttingUp speak of what is cut up.
var cuttingUp = listed("cut", "knife", "slice", "rows", "pieces", "makes", "tray", "squares", "bars", "mark")

// addedUp finds a yield that a sentence reckons out: "three rows, and each row makes
// three, nine".
func (t *talk) addedUp(s *sentence) *yieldSaid {
	if t.hasAny(s.First, s.Last, rowWords) < 0 || t.hasAny(s.First, s.Last, cuttingUp) < 0 {
		return nil
	}
	var nums [3]float64
	for i := s.First; i < s.Last; {
		num, n := language.ReadNumber(t.toks, i)
		if n == 0 || num.Article || num.Min != num.Max {
			i++
			continue
		}
		nums[0], nums[1], nums[2] = nums[1], nums[2], num.Min
		if y := t.inRows(s, i, n, num); y != nil {
			return y
		}
		if end := i + n; nums[0] > 1 && nums[1] > 1 && nums[0]*nums[1] == nums[2] && (end == s.Last || t.toks[end-1].After != 0 || peopleWord[t.norm(end)]) {
			unit := "pieces"
			if end < s.Last && t.toks[end-1].After == 0 {
				unit = t.norm(end)
			}
			return &yieldSaid{Span: language.Span{First: i, Last: end}, Quantity: schema.Quantity{Min: num.Min, Max: num.Max, Unit: unit}, score: 4, number: i}
		}
		i += n
	}
	return nil
}

// inRows reads a number of rows of a number each: "squares, five by four", "three one way and
// five the other", "four rows of twelve".
func (t *talk) inRows(s *sentence, i, n int, num language.Number) *yieldSaid {
	k := i + n
	switch {
	case t.norm(k) == "by" || t.norm(k) == "times":
		k++
	case t.is(k, "rows", "of"), t.is(k, "trays", "of"), t.is(k, "sheets", "of"), t.is(k, "racks", "of"):
		k += 2
	case t.is(k, "one", "way"):
		for k += 2; k < s.Last && (t.norm(k) == "and" || t.norm(k) == "by"); k++ {
		}
	default:
		return nil
	}
	other, m := language.ReadNumber(t.toks, k)
	if m == 0 || other.Min != other.Max || other.Min < 2 || num.Min < 2 || num.Min*other.Min > 200 {
		return nil
	}
	if t.is(i+n, "one", "way") && t.has(k+m, min(s.Last, k+m+3), "the other") < 0 {
		return nil
	}
	if t.has(k+m, min(s.Last, k+m+4), "tin", "pan", "dish", "tray") >= 0 && t.norm(i+n) == "by" {
		return nil
	}
	if q := t.quantityAt[k]; t.sizedAt(k+m) || q >= 0 && t.quantities[q].kind == length || t.norm(i+n) == "by" && t.has(s.First, s.Last, "tin", "pan", "dish", "inches", "inch") >= 0 && t.has(s.First, i, "cut", "slice", "squares", "pieces") < 0 {
		return nil
	}
	return &yieldSaid{Span: language.Span{First: i, Last: k + m}, Quantity: schema.Quantity{Min: num.Min * other.Min, Max: num.Min * other.Min, Unit: "pieces"}, score: 4, number: i}
}

// vesselWord are things that also stand about in a kitchen: counted without a
// cue they say nothing of the yield.
var vesselWord = words("plates bowls glasses mugs cups bottles trays tins pots ramekins sheets rounds balls litres quarts pints squares fingers wedges pieces sausages steaks fillets skewers friends mouths slices cloves")

// dishCounted reports whether the word names the dish itself, in its title or
// as what the talk makes: "twelve tacos".
func (t *talk) dishCounted(w string) bool {
	if w == "" || notPart[w] {
		return false
	}
	one := lexicon.Singular(w)
	for d := range t.dishes {
		for _, x := range strings.Fields(strings.ToLower(t.dishes[d].title)) {
			if lexicon.Singular(strings.Trim(x, ",.'’")) == one {
				return dishNoun[one] || dishNoun[w] || plural(w)
			}
		}
	}
	return false
}
