package extract

import (
	"math"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// qkind is what a quantity measures.
type qkind uint8

const (
	count    qkind = iota // a bare number
	measure               // volume, mass, containers, pieces
	duration              // a time
	heat                  // a temperature
	length                // a size
	vague                 // an amount without a number
	share                 // "half the", "the rest of the": part of something already there
	money                 // prices, years, other numbers that are nobody's
)

// quantity is a number with what it measures, over tokens [first, last).
type quantity struct {
	language.Span
	kind     qkind
	about    bool
	article  bool // "a", "an": one
	overnite bool
	of       bool    // "of" (and articles) follow, a food must come next
	more     bool    // "another", "more"
	definite bool    // "the two cups", "that half"
	each     bool    // "a side", "each"
	void     bool    // taken back by a correction
	scale    bool    // a temperature whose scale was said
	times    float64 // how many of the unit the word said for it is, see lexicon.Unit
	min, max float64
	by       []float64
	unit     string
	ukind    string           // the unit's kind in the lexicon
	words    string           // of a vague amount
	vkind    string           // vague, taste, ratio, reference
	size     *schema.Quantity // of each container
	food     int              // mention it was joined to, -1
	numAt    int              // token of the number's first word
	righted  int              // number of the quantity that puts it right, counted from 1; 0 for none
	rights   int              // number of the one it puts right, likewise
	halfEnds int              // where a half of it ends that was said behind the food; 0 otherwise
	before   int              // where its number was said, when only the unit was put right; 0 otherwise
}

// told gives the words that tell the amount: its own and, where only the unit
// was put right, those from its number on; with a half behind the food, to that.
func (q *quantity) told() language.Span {
	s := language.Span{First: q.First, Last: max(q.Last, q.halfEnds)}
	if q.before > 0 {
		s.First = q.before
	}
	return s
}

func (q *quantity) value() *schema.Quantity {
	if q.kind == vague {
		return nil
	}
	if q.overnite { // "about overnight" is no less sure
		night := schema.OvernightTime()
		return &night
	}
	return &schema.Quantity{Min: q.min, Max: q.max, Unit: q.unit, About: q.about, By: q.by}
}

var sizeAdjectives = words("heaped heaping level generous scant good big small large little fat thick extra full whole nice proper rounded packed decent great " +
	"huge tiny loose overflowing medium solid cheeky wee good-sized real ordinary single tight loosely tightly firmly more hefty healthy")

var approx = map[string]int{"about": 1, "around": 1, "roughly": 1, "approximately": 1, "maybe": 1, "nearly": 1, "almost": 1, "some": 1}

// markQuantities finds every number with its measure, and vague amounts.
func (t *talk) markQuantities() {
	t.quantityAt = none(len(t.toks))
	t.quantities = make([]quantity, 0, len(t.toks)/20+8)
	for i := 0; i < len(t.toks); {
		if !t.mayMeasure(i) {
			i++
			continue
		}
		q, n := t.readQuantity(i)
		if n == 0 {
			i++
			continue
		}
		q.Span = language.Span{First: i, Last: i + n}
		q.food = -1
		if i > 0 && approx[t.norm(i-1)] > 0 && t.joined(i-1) && q.kind != vague {
			q.about = t.norm(i-1) != "some"
		}
		if i > 0 {
			switch t.norm(i - 1) {
			case "the", "that", "those", "these", "this", "your", "my":
				q.definite = true
			}
		}
		t.quantities = append(room(t.quantities, i, len(t.toks)), q)
		for k := i; k < i+n; k++ {
			t.quantityAt[k] = int32(len(t.quantities) - 1)
		}
		i += n
	}
	t.settleScales()
	t.elideUnits()
}

// amountHeads are words that quantities begin with, beside numbers, units and
// vague amounts.
var amountHeads = words("overnight gas mark as however how the your a an another few several last rest remainder remaining other reserved second first some most all both part more little bit wee " + bareAmounts + " " + dipperSizeWords)

// mayMeasure reports whether a quantity can begin with the word at i, which few
// words can: readQuantity has to take nothing apart where it is false.
func (t *talk) mayMeasure(i int) bool {
	return !t.toks[i].Numberless() || t.lex.Measures(t.ids[i]) || t.in(anAmountHead, i)
}

// readQuantity reads one quantity at i and how many tokens it takes.
func (t *talk) readQuantity(i int) (quantity, int) {
	w := t.norm(i)
	if w == "overnight" {
		return quantity{kind: duration, min: 8, max: 12, unit: "hour", overnite: true, numAt: i}, 1
	}
	// gas mark six
	if w == "gas" || w == "mark" {
		k := i + 1
		if w == "gas" && t.norm(k) == "mark" {
			k++
		}
		if w == "gas" || t.norm(i-1) == "gas" {
			if num, n := language.ReadNumber(t.toks, k); n > 0 && !num.Article && num.Min <= 10 {
				return quantity{kind: heat, min: num.Min, max: num.Max, unit: "gas", scale: true, numAt: k}, k + n - i
			}
		}
	}
	if n := t.asMuchAs(i); n > 0 {
		return quantity{kind: vague, vkind: "taste", words: t.quoteLower(i, i+n), numAt: i}, n
	}
	if v, n := t.lex.VagueAt(t.ids, i, t.stops); n > 0 && !t.numberFollowsVague(i, n) && !(n == 1 && t.norm(i) == "some" && someBody[t.norm(i+1)]) {
		if q, m := t.vagueQuantity(i, v, n); m > 0 {
			return q, m
		}
	}
	if q, n := t.vesselFull(i); n > 0 {
		return q, n
	}
	if q, n := t.bareVague(i); n > 0 {
		return q, n
	}
	if q, n := t.shareQuantity(i); n > 0 {
		return q, n
	}
	more := false
	start := i
	if w == "another" {
		more = true
		i++
	}
	if f, fn := t.lex.FoodAt(t.ids, start, t.stops); fn >= 3 && f.Dish {
		return quantity{}, 0 // "a cup of tea" is a drink, not a measure
	}
	if f, fn := t.lex.FoodAt(t.ids, start+1, t.stops); fn >= 3 && f.Dish && (w == "a" || w == "one") {
		return quantity{}, 0
	}
	if w == "one" && t.sizedOne(i) {
		return quantity{}, 0 // "a small one two carrots"
	}
	num, n := language.ReadNumber(t.toks, i)
	if n == 1 && !num.Article && !more {
		if _, fn := t.lex.FoodAt(t.ids, i, t.stops); fn > 1 {
			return quantity{}, 0 // "five spice" is a name
		}
	}
	if n > 1 && num.Max > num.Min {
		// "two five-ounce cans" is no range
		if one, m := language.ReadSingle(t.toks, i); m > 0 && m < n {
			if _, k := t.containerSize(i + m); k > 0 {
				if u, x := t.lex.UnitAt(t.ids, i+m+k); x > 0 && (u.Kind == "container" || u.Unit == "piece") {
					num, n = one, m
				}
			}
		}
	}
	if n > 1 && num.Max == num.Min && t.norm(i+1) != "hundred" && t.norm(i+1) != "thousand" && t.norm(i+1) != "and" {
		// "two fifteen-ounce cans" are not two hundred and fifteen of anything
		if one, m := language.ReadNumber(t.toks[:i+1], i); m == 1 && one.Max <= 12 && !one.Fraction {
			if size, k := t.containerSize(i + 1); k > 0 && size.Min >= 5 {
				if u, x := t.lex.UnitAt(t.ids, i+1+k); x > 0 && u.Kind == "container" {
					num, n = one, 1
				}
			}
		}
	}
	if n == 0 && more {
		// "another minute", "another cup"
		if q, m := t.withUnit(start, i, language.Number{Min: 1, Max: 1, Article: true}); m > 0 {
			q.more = true
			return q, m
		}
		return quantity{}, 0
	}
	if n == 0 {
		// a bare unit: "teaspoon and a half of", "pinch of salt", "Knob of butter"
		return t.bareUnit(start)
	}
	if num.Article && n == 1 {
		// an article is a number only before a measure
		if q, m := t.withUnit(start, i+1, num); m > 0 && q.kind != count {
			q.article = true
			return q, m
		}
		return quantity{}, 0
	}
	j := i + n
	if n == 1 && w == "one" && t.pronounOne(i) {
		return quantity{}, 0
	}
	if q, m := t.temperature(start, i, j, num); m > 0 {
		return q, m
	}
	if q, m := t.withUnit(start, t.overThose(j), num); m > 0 {
		q.more = more
		return q, m
	}
	if num.Colloquial {
		return quantity{kind: money, min: num.Min, max: num.Max, numAt: i}, j - start
	}
	q := quantity{kind: count, min: num.Min, max: num.Max, numAt: i, more: more}
	switch t.norm(j) {
	case "dollars", "dollar", "bucks", "pounds", "quid", "euros", "cents", "pence", "percent", "views", "years", "year", "percentage":
		if t.norm(j) != "pounds" {
			q.kind = money
			return q, j + 1 - start
		}
	}
	if strings.ContainsAny(t.norm(i), "$£€%") || num.Digits && num.Min >= 1900 && num.Min <= 2100 && num.Min == num.Max {
		q.kind = money
	}
	if cutPieces[t.norm(j)] && t.norm(j+1) == "of" && t.joined(j-1) && t.joined(j) && t.mentionPossible(j+2) > 0 {
		q.of = true
		return q, j + 2 - start // "four fillets of anchovy"
	}
	if t.norm(j) == "of" && num.Fraction {
		// "half of the flour": shareQuantity took it when an article follows
		q.of = true
	}
	return q, j - start
}

// overThose gives where the container or its size begins in "one of those little jars",
// "one of the big four-hundred-mil tins", j for anything else: what follows a number at j
// is one of a sort, and not of some there are.
func (t *talk) overThose(j int) int {
	those := t.norm(j+1) == "those" || t.norm(j+1) == "these"
	if t.norm(j) != "of" || !those && t.norm(j+1) != "the" && t.norm(j+1) != "your" || !t.joined(j-1) {
		return j
	}
	k := j + 2
	for ; k < min(j+5, len(t.toks)); k++ {
		if those && t.containerAt(k) > 0 {
			return k
		}
		if _, n := t.containerSize(k); n > 0 && t.containerAt(k+n) > 0 {
			return k
		}
		if !t.joined(k) {
			break
		}
	}
	return j
}

// cutPieces are pieces that a food comes in and is counted by.
var cutPieces = words("fillet fillets ear ears cob cobs rack racks crown crowns ball balls bar bars thigh thighs leg legs breast breasts chop chops steak steaks wing wings")

// pronounOne reports whether "one" at i stands for a thing already named:
// "the Mexican one", "that one", "this one I do measure".
func (t *talk) pronounOne(i int) bool {
	if i == 0 || t.sentOf[i-1] != t.sentOf[i] {
		return false
	}
	if t.toks[i].After != 0 || i+1 >= len(t.toks) || t.mentionPossible(i+1) == 0 {
		switch t.norm(i - 1) {
		case "that", "this", "the", "which", "each", "every", "another", "first", "last", "other", "big", "little", "right":
			return t.toks[i-1].After == 0
		}
		return t.toks[i-1].After == 0 && t.modifier(i-1) == lexicon.NameWord
	}
	return false
}

// sizedOne reports whether "one" at i stands for a thing of a size: "a small one", "the
// little one, four ounces".
func (t *talk) sizedOne(i int) bool {
	k := i - 1
	for k > 0 && k > i-3 && (t.modifier(k) == lexicon.SizeWord && !articleLike[t.norm(k)] || t.norm(k) == "little") && t.joined(k) {
		k--
	}
	if k < 0 || k == i-1 || t.norm(i+1) == "hundred" || t.norm(i+1) == "thousand" {
		return false
	}
	return t.norm(k) == "a" || t.norm(k) == "an" || t.norm(k) == "the"
}

// mentionPossible gives the length of a food name or unit that begins at i,
// over modifiers; foods are not marked yet when quantities are.
func (t *talk) mentionPossible(i int) int {
	for k := i; k < i+4 && k < len(t.toks); k++ {
		if _, n := t.lex.FoodAt(t.ids, k, t.stops); n > 0 {
			return n
		}
		if _, n := t.lex.UnitAt(t.ids, k); n > 0 {
			return n
		}
		if t.modifier(k) == lexicon.NoClass || t.toks[k].After != 0 {
			return 0
		}
	}
	return 0
}

// asMuchAs reads "as much as y'all like", "as many as you fancy", "however
// much suits you": an amount left to taste.
func (t *talk) asMuchAs(i int) int {
	k := i
	switch {
	case t.norm(i) == "as" && (t.norm(i+1) == "much" || t.norm(i+1) == "many" || t.norm(i+1) == "little") && (t.norm(i+2) == "as" || t.norm(i+2) == "or"):
		k = i + 3
	case t.norm(i) == "however" && (t.norm(i+1) == "much" || t.norm(i+1) == "many"):
		k = i + 2
	case (t.norm(i) == "how" || t.norm(i) == "the" && t.norm(i+1) == "way") && t.norm(i-1) == "to":
		k = i + 2
	default:
		return 0
	}
	for j := k; j < k+4 && j < len(t.toks); j++ {
		switch t.norm(j) {
		case "like", "want", "fancy", "please", "likes", "wants", "dare", "prefer", "pleases", "enjoy", "love", "suits":
			return j + 1 - i
		}
		if t.toks[j].After != 0 {
			break
		}
	}
	return 0
}

// stops reports whether a phrase must end at token k.
func (t *talk) stops(k int) bool { return t.toks[k].After != 0 }

// someBody are words after "some" that make it no amount: "some folks put walnuts".
var someBody = words("people folks folk cooks chefs bakers families recipes places shops houses say will would like put use add prefer swear")

// numberFollowsVague keeps "a couple of" and "about two" from the vague table.
func (t *talk) numberFollowsVague(i, n int) bool {
	_, m := language.ReadNumber(t.toks, i)
	return m > n
}

// vagueQuantity builds the mark for a vague phrase of n tokens, taking in a
// unit after it ("a few sprigs of").
func (t *talk) vagueQuantity(i int, v *lexicon.Vague, n int) (quantity, int) {
	q := quantity{kind: vague, vkind: v.Kind, numAt: i}
	end := i + n
	if t.toComparative(i, end) {
		return quantity{}, 0
	}
	if end < len(t.toks) && t.toks[end-1].After == 0 {
		// "some more", "a little more"
		if t.norm(end) == "more" {
			q.more = true
			end++
		}
		if dippers[t.norm(end)] && t.norm(end+1) == "of" && t.joined(end) {
			end++ // "a few spoons of the rice"
		}
		// adjectives before a unit: "a few big sprigs"
		k := end
		for k < len(t.toks) && sizeAdjectives[t.norm(k)] && t.toks[k].After == 0 && k < end+2 {
			k++
		}
		if u, m := t.lex.UnitAt(t.ids, k); m > 0 && t.norm(end-1) != "of" {
			if u.Kind == "time" {
				// "a few minutes", "a little while": a time without a number
				return quantity{kind: vague, vkind: "time", words: t.phrase(i, k+m), numAt: i}, k + m - i
			}
			if _, fn := t.lex.FoodAt(t.ids, k, t.stops); fn <= m || t.norm(k+m) == "of" {
				end = k + m
			}
		}
		for t.norm(end) == "of" {
			q.of = true
			end++
		}
		if q.of {
			switch t.norm(end) {
			case "that", "the", "this", "your", "those", "these":
				if t.norm(end) != "your" {
					q.definite = true
				}
			}
		}
	}
	last := end
	for last > i && t.norm(last-1) == "of" {
		last--
		q.of = true
	}
	q.words = t.quoteLower(i, last)
	return q, end - i
}

// toComparative reports whether the vague words in tokens [i, end) only tell how much more
// of a quality there is: "a bit sharper", "a little milder".
func (t *talk) toComparative(i, end int) bool {
	w := t.norm(end)
	if t.norm(i) != "a" || end-i != 2 || len(w) < 6 || !strings.HasSuffix(w, "er") || !t.joined(end-1) || t.mentionPossible(end) > 0 || t.mentionPossible(end+1) > 0 && t.joined(end) {
		return false
	}
	switch t.norm(i + 1) {
	case "bit", "little", "touch", "tad", "shade":
		return true
	}
	return false
}

// quoteLower gives words as spoken, lower case, without outer punctuation.
func (t *talk) quoteLower(a, b int) string {
	return strings.ToLower(strings.Trim(t.quote(a, b), " .,;:!?\"“”"))
}

// shareQuantity reads "half the", "half of it", "the rest of the", "the other
// half", "a third of the": parts of something that is there already.
func (t *talk) shareQuantity(i int) (quantity, int) {
	k := i
	if t.norm(k) == "the" || t.norm(k) == "your" || t.norm(k) == "last" && t.norm(k+1) == "of" {
		if t.norm(k) == "last" {
			return quantity{kind: share, numAt: i, definite: true}, 2
		}
		k++
	}
	switch t.norm(k) {
	case "rest", "remainder", "remaining", "other", "last", "reserved":
		switch {
		case t.norm(k) == "rest" || t.norm(k) == "remainder" || t.norm(k) == "last":
			if t.norm(k+1) != "of" {
				return quantity{}, 0
			}
			n := k + 2 - i
			return quantity{kind: share, numAt: i, definite: true}, n
		case t.norm(k) == "remaining" || t.norm(k) == "reserved":
			return quantity{kind: share, numAt: i, definite: true}, k + 1 - i
		case t.norm(k+1) == "half" || t.norm(k+1) == "third" || t.norm(k+1) == "quarter" || t.norm(k+1) == "two":
			n := k + 2 - i
			if t.norm(k+2) == "of" {
				n++
			}
			return quantity{kind: share, numAt: i, definite: true}, n
		}
		return quantity{}, 0
	case "second", "first":
		if t.norm(k+1) == "half" || t.norm(k+1) == "third" {
			n := k + 2 - i
			if t.norm(k+2) == "of" {
				n++
			}
			return quantity{kind: share, numAt: i, definite: true}, n
		}
		return quantity{}, 0
	}
	if k != i {
		return quantity{}, 0
	}
	// "some of the", "most of the", "one half of the", "a third of the dry mix"
	num, n := language.ReadNumber(t.toks, i)
	if n > 0 && num.Fraction && num.Min < 1 {
		j := i + n
		if t.norm(j) == "of" {
			j++
		} else if t.norm(j) == "a" || t.norm(j) == "an" {
			return quantity{}, 0
		}
		switch t.norm(j) {
		case "the", "that", "this", "it", "them", "your", "those", "these", "my":
			if u, m := t.lex.UnitAt(t.ids, j+1); m > 0 && u.Kind != "count" && u.Kind != "container" && u.Kind != "small" && t.norm(j) != "the" {
				return quantity{}, 0
			}
			return quantity{kind: share, min: num.Min, max: num.Max, numAt: i, definite: true}, j - i
		}
		if t.norm(j) == "one" && t.measuresAt(j+1) {
			return quantity{}, 0 // "half of one teaspoon"
		}
		if t.norm(j-1) == "of" && j-1 > i && t.norm(j) != "a" && t.norm(j) != "an" && t.toks[j-1].After == 0 {
			if _, m := t.lex.UnitAt(t.ids, j); m == 0 {
				return quantity{kind: share, min: num.Min, max: num.Max, numAt: i, definite: false, of: true}, j - i
			}
		}
	}
	for _, w := range []string{"some", "most", "all", "both", "part", "more", "little", "bit"} {
		if t.norm(i) == w && t.norm(i+1) == "of" {
			switch t.norm(i + 2) {
			case "the", "that", "this", "those", "these", "it", "them", "your":
				return quantity{kind: share, numAt: i, definite: true}, 2
			}
		}
	}
	return quantity{}, 0
}

// measuresAt reports whether a unit of volume or mass stands at token i.
func (t *talk) measuresAt(i int) bool {
	u, n := t.lex.UnitAt(t.ids, i)
	return n > 0 && (u.Kind == "volume" || u.Kind == "mass")
}

// beginsClause reports whether token i begins a sentence or stands behind a mark.
func (t *talk) beginsClause(i int) bool {
	return i == 0 || t.sentOf[i-1] != t.sentOf[i] || t.toks[i-1].After != 0
}

// dippers are what a cook takes an unmeasured amount with: their size is not said.
var dippers = words("spoon spoons spoonful spoonfuls spoonsful ladle ladles ladleful ladlefuls scoop scoops mug mugs mugful mugfuls glass glasses glassful jug jugs jugful block blocks bottle bottles tub tubs loaf loaves bowl bowls bowlful punnet punnets capful capfuls forkful forkfuls shovelful trowel saucer saucerful eggcup eggcupful")

// dipperSizes are words for the size of one.
var dipperSizes = words(dipperSizeWords)

const dipperSizeWords = "big small good heaped heaping generous little large decent wooden level full huge tiny whole serving dessert soup coffee nice fat scant rounded proper"

// vesselFull reads "a spoon of capers", "three ladles of stock": an amount, but of
// no size that was said.
func (t *talk) vesselFull(i int) (quantity, int) {
	j := i
	if w := t.norm(i); w == "a" || w == "an" || w == "another" || w == "few" || w == "several" {
		j++
	} else if num, n := language.ReadNumber(t.toks, i); n > 0 && !num.Colloquial && num.Max <= 12 {
		j += n
	} else {
		return quantity{}, 0
	}
	for k := 0; k < 2 && t.in(aDipperSize, j) || t.norm(j) == "few" || t.norm(j) == "couple" || t.norm(j) == "of" && t.norm(j-1) == "couple"; k++ {
		j++
	}
	if strings.HasPrefix(t.norm(j), "spoon") && dippers[t.norm(j)] && !t.joined(j) && t.beginsClause(i) {
		return quantity{kind: vague, vkind: "vague", words: t.quoteLower(i, j+1), numAt: i}, j + 1 - i // "honey, two big spoons", "Honey. Two spoons, she says."
	}
	if !dippers[t.norm(j)] || t.norm(j+1) != "of" || !t.joined(j) || !t.joined(j+1) || t.norm(j+2) == "us" {
		return quantity{}, 0
	}
	return quantity{kind: vague, vkind: "vague", words: t.quoteLower(i, j+1), of: true, numAt: i}, j + 2 - i
}

// bareVagues are words for an unmeasured amount that cooks say without "a".
var bareVagues = words(bareAmounts)

const bareAmounts = "bit bits splash glug squirt drizzle lump scattering grating squeeze dusting slosh smear swirl trickle sprinkling sprinkle shake grind dollop dab touch hint blob loads lots tons heaps masses plenty"

// bareVague reads a vague amount that opens its clause without an article: "bit of
// vanilla", "good glug of olive oil".
func (t *talk) bareVague(i int) (quantity, int) {
	j := i
	for j < i+2 && (t.in(aDipperSize, j) || t.norm(j) == "wee") && t.joined(j) {
		j++
	}
	if _, n := t.lex.UnitAt(t.ids, j); n > 0 {
		return quantity{}, 0
	}
	if !t.in(aBareVague, j) || t.norm(j+1) != "of" || !t.joined(j) || !t.joined(j+1) || !t.opensName(i) {
		return quantity{}, 0
	}
	q := quantity{kind: vague, vkind: "vague", words: t.quoteLower(i, j+1), of: true, numAt: i}
	switch t.norm(j + 2) {
	case "that", "the", "this", "those", "these":
		q.definite = true
	}
	return q, j + 2 - i
}

// opensName reports whether a name with its amount may begin at i: after a mark or a
// word that joins.
func (t *talk) opensName(i int) bool {
	if i == 0 || t.sentOf[i] != t.sentOf[i-1] || t.toks[i-1].After != 0 {
		return true
	}
	switch t.norm(i - 1) {
	case "and", "then", "plus", "with":
		return true
	}
	return false
}

// bareUnit reads a unit that stands without a number where one is meant:
// "teaspoon and a half of", "pinch of salt", "tablespoon of rice vinegar".
func (t *talk) bareUnit(i int) (quantity, int) {
	u, m := t.lex.UnitAt(t.ids, i)
	if m == 0 {
		return quantity{}, 0
	}
	if i > 0 {
		switch t.norm(i - 1) {
		case "a", "an", "the", "one", "your", "that", "this", "each", "every", "per", "same", "last", "single":
			return quantity{}, 0
		}
	}
	j := i + m
	q := quantity{kind: measure, min: u.Times, max: u.Times, unit: u.Unit, ukind: u.Kind, numAt: i}
	switch u.Kind {
	case "time", "length":
		return quantity{}, 0
	}
	if plural(t.norm(i + m - 1)) {
		// "sprigs of thyme": an amount without a number
		if t.norm(j) == "of" && t.clauseStart(i) {
			return quantity{kind: vague, vkind: "vague", words: t.quoteLower(i, j), of: true, numAt: i}, j + 1 - i
		}
		return quantity{}, 0
	}
	if f, n := language.AndFraction(t.toks, j); n > 0 {
		q.min, q.max = (1+f)*u.Times, (1+f)*u.Times
		j += n
	}
	if t.norm(j) != "of" || !t.joined(j-1) {
		return quantity{}, 0
	}
	if !t.clauseStart(i) && u.Kind == "container" && !t.listGoesOn(i, j+1) {
		return quantity{}, 0
	}
	q.of = true
	return q, j + 1 - i
}

// listGoesOn reports whether, in talk without marks, a container without a number at i follows
// the name of another food, and food, which begins at token j, is what it holds: "tin of tuna tin
// of sweetcorn".
func (t *talk) listGoesOn(i, j int) bool {
	if t.punctuated || i == 0 || !t.foodBegins(j) {
		return false
	}
	_, n := t.lex.FoodAt(t.ids, i-1, t.stops)
	return n == 1
}

func plural(w string) bool { return strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") }

// clauseStart reports whether i begins a sentence or follows a mark or a
// joining word.
func (t *talk) clauseStart(i int) bool {
	if i == 0 || t.sentOf[i] != t.sentOf[i-1] || t.toks[i-1].After != 0 {
		return true
	}
	switch t.norm(i - 1) {
	case "and", "then", "or", "plus", "with", "so", "now", "okay", "also", "but", "a", "add", "in", "good", "big", "small", "nice", "next", "right", "well", "um", "uh":
		return true
	}
	return false
}

// withUnit reads adjectives, sizes and a unit after the number num that ends
// before j.
func (t *talk) withUnit(start, j int, num language.Number) (quantity, int) {
	q, n := t.withUnitSaid(start, j, num)
	if n > 0 && q.times > 0 && q.times != 1 { // "two decilitres"
		q.min, q.max = q.min*q.times, q.max*q.times
	}
	return q, n
}

// withUnitSaid does it in the unit that was said.
func (t *talk) withUnitSaid(start, j int, num language.Number) (quantity, int) {
	q := quantity{kind: measure, min: num.Min, max: num.Max, numAt: start}
	k := j
	if k >= len(t.toks) || k > start && t.toks[k-1].After&^(language.Dash|language.Quote) != 0 {
		return quantity{}, 0
	}
	// "three quarters of a cup", "half a cup", "a quarter of an inch"
	if num.Fraction {
		if t.norm(k) == "of" && (t.norm(k+1) == "a" || t.norm(k+1) == "an" || t.norm(k+1) == "one") {
			k += 2
		} else if t.norm(k) == "a" || t.norm(k) == "an" {
			k++
		}
	}
	// "two 14-ounce cans", "a fifteen ounce can", "a one inch piece", "a 9 by 13 inch tin"
	if size, m := t.containerSize(k); m > 0 {
		u, n := t.lex.UnitAt(t.ids, k+m)
		if n > 0 && (u.Kind == "container" || u.Unit == "piece" || u.Unit == "knob" || u.Unit == "slice" || u.Unit == "head") {
			q.unit, q.ukind, q.size = u.Unit, u.Kind, size
			return t.finish(q, start, k+m+n)
		}
		if k+m < len(t.toks) {
			// "a twelve-ounce steak", "six 5-ounce salmon fillets": pieces of a size; the food follows
			if _, fn := t.lex.FoodAt(t.ids, k+m, t.stops); fn > 0 && (size.Unit == "oz" || size.Unit == "g" || size.Unit == "lb" || size.Unit == "kg") && t.toks[k+m-1].Joined {
				q.kind, q.size = count, size
				return q, k + m - start
			}
		}
	}
	adj := k
	for adj < len(t.toks) && adj < k+3 && sizeAdjectives[t.norm(adj)] && t.toks[adj].After&^language.Comma == 0 && t.sentOf[adj] == t.sentOf[k] {
		adj++
	}
	u, m := t.lex.UnitAt(t.ids, adj)
	if m == 0 {
		return t.longTerm(q, start, adj)
	}
	if adj > k && (u.Kind == "mass" || u.Kind == "length") && num.Article {
		// "a good inch", "a large gram": fine for lengths only
		if u.Kind == "mass" {
			return quantity{}, 0
		}
	}
	end := adj + m
	if w := t.norm(end); m == 1 && num.Min > 1 && (w == "them" || w == "it") && t.baseVerb(adj) != nil {
		return quantity{}, 0 // "I've got two slice them": the order begins there
	}
	// the spice, not a piece of garlic: "six whole cloves"
	if u.Unit == "clove" && !t.garlicNear(start, end) {
		return quantity{}, 0
	}
	// "two cinnamon sticks" are found as a food; here "two sticks" need butter or celery
	if u.Kind == "count" || u.Kind == "container" || u.Kind == "small" {
		if _, fn := t.lex.FoodAt(t.ids, adj, t.stops); fn > m {
			return quantity{}, 0
		}
		if _, tn := t.lex.ToolAt(t.ids, adj, t.stops); tn > m {
			return quantity{}, 0
		}
	}
	q.unit, q.ukind, q.times = u.Unit, u.Kind, u.Times
	switch u.Kind {
	case "time":
		q.kind = duration
		if t.norm(adj) == "second" && num.Article {
			// "a second" is a moment or an ordinal
			return quantity{}, 0
		}
	case "length":
		q.kind = length
	}
	if (u.Unit == "g" || u.Unit == "l" || u.Unit == "cup") && len(t.norm(adj)) == 1 && !num.Digits {
		return quantity{}, 0
	}
	return t.finish(q, start, end)
}

// yearsKept is the most years that anything keeps: more are the cook's own.
const yearsKept = 5

// longTerm reads the times that the form has no unit for, at token i: a fortnight,
// and the years that something keeps ("it's good for a year and a half"); all other
// years are of stories.
func (t *talk) longTerm(q quantity, start, i int) (quantity, int) {
	factor := 0.0
	switch t.norm(i) {
	case "fortnight", "fortnights":
		q.unit, factor = "week", 2
	case "year", "years":
		s := t.sentence(start)
		if q.max > yearsKept || t.norm(i+1) == "old" || t.norm(i+1) == "ago" || t.has(max(s.First, start-keptWithin), start, keepVerbs...) < 0 {
			return quantity{}, 0
		}
		q.unit, factor = "month", 12
	default:
		return quantity{}, 0
	}
	q.kind, q.ukind = duration, "time"
	q, n := t.finish(q, start, i+1)
	q.min, q.max = factor*q.min, factor*q.max
	return q, n
}

// keptWithin is how many words before its years what keeps can be said to.
const keptWithin = 8

// finish adds "and a half" after the unit, "more", "by", "or so", "of", and
// ranges whose unit was said twice ("an hour to an hour and a half").
func (t *talk) finish(q quantity, start, end int) (quantity, int) {
	open := func(k int) bool {
		return k < len(t.toks) && t.toks[k-1].After&^language.Dash == 0 && t.sentOf[k] == t.sentOf[start]
	}
	if open(end) {
		if f, n := language.AndFraction(t.toks, end); n > 0 && q.min == math.Trunc(q.min) {
			// "a cup and a half"; but "a cup and a half teaspoon" is two things
			if u, m := t.lex.UnitAt(t.ids, end+n); m == 0 || u.Kind == "time" || t.norm(end+n) == "of" {
				q.min += f
				q.max += f
				end += n
			}
		}
	}
	if q.kind == duration || q.kind == length {
		if open(end) && (t.norm(end) == "more" || t.norm(end) == "extra") {
			q.more = true
			end++
		}
	}
	// "an hour to an hour and a half", "a minute or two", "one minute to two", "a teaspoon or two"
	maybe := q.kind == duration && end < len(t.toks) && t.toks[end-1].After == language.Comma && t.sentOf[end] == t.sentOf[start] && (t.norm(end) == "maybe" || t.norm(end) == "perhaps" || t.norm(end) == "possibly")
	if open(end) || maybe {
		w := t.norm(end)
		if w == "or" || w == "to" || w == "maybe" || maybe {
			if num, n := language.ReadNumber(t.toks, end+1); n > 0 && num.Min > q.max && num.Max <= 12*q.max {
				k := end + 1 + n
				u, m := t.lex.UnitAt(t.ids, k)
				// "a minute or two", but not "a cup or two tablespoons" nor "a tablespoon to two cups"
				if m == 0 || u.Unit == q.unit {
					if m > 0 {
						k += m
					}
					fits := m > 0 || q.article || w == "or" || q.min <= 3 || maybe
					if _, fn := t.lex.FoodAt(t.ids, k, nil); m == 0 && fn > 0 && q.kind == measure {
						fits = false // "a cup or two eggs" is two things
					}
					if fits && !num.Article {
						q.max = num.Max
						end = k
						if open(end) {
							if f, n := language.AndFraction(t.toks, end); n > 0 && m > 0 {
								q.max += f
								end += n
							}
						}
					}
				}
			} else if n > 0 && num.Article && (t.norm(end+1) == "a" || t.norm(end+1) == "an") {
				if u, m := t.lex.UnitAt(t.ids, end+2); m > 0 && u.Unit == q.unit {
					if f, n := language.AndFraction(t.toks, end+2+m); n > 0 && 1+f > q.max {
						q.max = 1 + f
						end += 2 + m + n
					}
				}
			}
		}
	}
	if q.kind == length && open(end) && (t.norm(end) == "by" || t.norm(end) == "x") {
		if num, n := language.ReadNumber(t.toks, end+1); n > 0 {
			q.by = append(q.by, num.Min)
			end += 1 + n
			if u, m := t.lex.UnitAt(t.ids, end); m > 0 && u.Kind == "length" {
				end += m
			}
		}
	}
	if open(end) && t.norm(end) == "or" && (t.norm(end+1) == "so" || t.norm(end+1) == "thereabouts") {
		q.about = true
		end += 2
	}
	if (q.kind == measure) && open(end) && t.norm(end) == "of" {
		q.of = true
		end++
	} else if q.kind == measure && open(end) && t.norm(end) == "each" && t.norm(end+1) == "of" {
		q.of, q.each = true, true
		end += 2
	}
	return q, end - start
}

// containerSize reads "14-ounce", "four hundred gram", "one inch" before a
// container word.
func (t *talk) containerSize(k int) (*schema.Quantity, int) {
	num, n := language.ReadNumber(t.toks, k)
	if n == 0 || num.Article || num.Min <= 0 {
		return nil, 0
	}
	u, m := t.lex.UnitAt(t.ids, k+n)
	if m == 0 || (u.Kind != "mass" && u.Kind != "volume" && u.Kind != "length") {
		return nil, 0
	}
	return &schema.Quantity{Min: num.Min * u.Times, Max: num.Max * u.Times, Unit: u.Unit}, n + m
}

// garlicNear reports whether garlic is spoken of around tokens [a, b): then
// cloves are pieces of garlic.
func (t *talk) garlicNear(a, b int) bool {
	lo, hi := a-14, b+6
	for i := lo; i < hi; i++ {
		w := t.norm(i)
		if w == "garlic" || w == "lahsun" || w == "ajo" {
			return true
		}
	}
	return false
}
