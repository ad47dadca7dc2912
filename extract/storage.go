package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

var places = map[string]string{
	"fridge": schema.Refrigerator, "refrigerator": schema.Refrigerator, "icebox": schema.Refrigerator, "refrigerate": schema.Refrigerator, "refrigerated": schema.Refrigerator, "chilled": schema.Refrigerator, "chiller": schema.Refrigerator,
	"freezer": schema.Freezer, "freeze": schema.Freezer, "frozen": schema.Freezer, "freezes": schema.Freezer, "freezing": schema.Freezer, "deep-freeze": schema.Freezer,
	"counter": schema.RoomTemperature, "cupboard": schema.RoomTemperature, "pantry": schema.RoomTemperature, "countertop": schema.RoomTemperature, "bench": schema.RoomTemperature,
	"larder": schema.RoomTemperature, "cellar": schema.RoomTemperature, "benchtop": schema.RoomTemperature, "worktop": schema.RoomTemperature, "shelf": schema.RoomTemperature,
}

// Distances in tokens.
const (
	carried   = 45 // a place named before still holds
	briefKeep = 8  // words of a sentence that gives nothing but the time
)

// keepVerbs tell that the time said is how long something stays good.
var keepVerbs = []string{"keep", "keeps", "lasts", "good for", "stay", "stays", "hold", "holds", "store", "stores", "stored", "eat it within", "eat them within", "use it within", "use within", "inside", "leftovers", "leftover", "left over", "will do you", "'ll do you", "'ll go", "will go", "they go", "it goes"}

// waits are actions whose days are part of the making, not of keeping.
var waits = words("chill leave rest marinate soak ferment cure steep infuse pickle dry age prove proof brine hang sit mature stand")

// canFreeze tell that the dish can be frozen.
var canFreeze = listed("can freeze", "could freeze", "freezes well", "freeze well", "freezes beautifully", "freeze beautifully", "freezes fine", "freeze fine", "freeze it too", "freeze them too", "can be frozen")

// findStorage reads how long the dish keeps, and where. A place holds for the
// times after it until the next place; a time said before its place takes the
// place named in the same breath.
func (t *talk) findStorage() {
	place, placeAt, chilledAt := "", -1, -1
	for k := range t.sents {
		s := &t.sents[k]
		storing := t.aboutKeeping(k)
		if placeAt >= 0 && s.First-placeAt > carried {
			place, placeAt = "", -1
		}
		found := 0
		for i := s.First; i < s.Last; i++ {
			if p, n := t.placeAt(i); n > 0 {
				if t.deniedPlace(s, i) {
					if !storing {
						continue
					}
					place, placeAt = "", -1
					continue
				}
				place, placeAt = p, i
				if p == schema.Refrigerator {
					chilledAt = i
				}
				continue
			}
			if place == schema.Freezer && placeAt < s.First && storing && i == s.First && t.opensWithThing(s) {
				// another thing goes back to where the first was kept
				if place, placeAt = "", -1; chilledAt >= 0 && i-chilledAt <= carried {
					place, placeAt = schema.Refrigerator, chilledAt
				}
			}
			if storing && t.nextDay(s, i) {
				if at := t.placeFor(s, &quantity{Span: language.Span{First: i, Last: i + 2}}, place, placeAt); at != "" {
					t.addStorage(at, &schema.Quantity{Min: 1, Max: 1, Unit: "day"}, s, i, i+2)
					found++
				}
				continue
			}
			q := t.quantityAt[i]
			if q < 0 || t.quantities[q].First != i || !storing {
				continue
			}
			qq := &t.quantities[q]
			keeps, ok := t.keepingTime(s, qq)
			if !ok || t.waited(s, qq) || !t.punctuated && !t.keepsNear(qq) {
				continue
			}
			at := t.placeFor(s, qq, place, placeAt)
			if at == "" {
				continue
			}
			last := qq.Last
			if more, end := t.orLonger(s, qq); end > 0 {
				keeps, last = upTo(keeps, more), end
			}
			t.addStorage(at, keeps, s, qq.First, last)
			found++
			i = last - 1
		}
		if found == 0 && storing && place == schema.Freezer && placeAt >= s.First {
			if t.hasAny(s.First, s.Last, canFreeze) >= 0 && !t.denied(s, placeAt) && !t.soonStored(k, schema.Freezer) {
				t.addStorage(schema.Freezer, nil, s, placeAt, placeAt+1)
			}
		}
	}
}

// aboutKeeping reports whether sentence k speaks of keeping: by itself, or by
// giving another time after one that does ("once it's open, three weeks", "do
// it raw. Three months.").
func (t *talk) aboutKeeping(k int) bool {
	s := &t.sents[k]
	if t.saidAgain(k) {
		return false
	}
	if s.kind == storing {
		return t.keepsSaid(s) || !t.storyTold(s)
	}
	if s.past && t.has(s.First, s.Last, "once", "you've", "you open", "after") < 0 || s.recap || !t.longTime(s) {
		return false
	}
	for j := k - 1; j >= 0 && j >= k-3 && t.sents[j].para == s.para; j-- {
		o := &t.sents[j]
		if o.past {
			continue
		}
		if o.kind == storing && j == k-1 && len(t.actionsIn(o)) == 0 {
			return true
		}
		if s.Len() > briefKeep {
			continue
		}
		for i := o.First; i < o.Last; i++ {
			if p, n := t.placeAt(i); n > 0 && p != schema.RoomTemperature && !t.deniedPlace(o, i) {
				return true
			}
		}
	}
	return false
}

// eating are verbs whose end is how long a thing keeps: "eat it by tomorrow".
var eating = words("eat eaten eating use used using finish finished")

// nextDay reports whether "by tomorrow" or "within the day" stands at token i, said
// of when a thing must be eaten.
func (t *talk) nextDay(s *sentence, i int) bool {
	switch t.norm(i) {
	case "by":
		if t.norm(i+1) != "tomorrow" && !t.is(i+1, "the", "next", "day") {
			return false
		}
	case "within":
		if !t.is(i+1, "the", "day") && !t.is(i+1, "a", "day") {
			return false
		}
	case "same":
		if t.norm(i+1) != "day" {
			return false
		}
	default:
		return false
	}
	if q := t.quantityAt[i+1]; q >= 0 && t.quantities[q].kind == duration {
		return false // read as a time
	}
	for j := i - 1; j >= s.First && j >= i-5; j-- {
		if eating[t.norm(j)] {
			return true
		}
		if t.toks[j].After.Ends() {
			return false
		}
	}
	return false
}

// keepsSaid reports whether the sentence says that something keeps or lasts;
// "last summer" doesn't.
func (t *talk) keepsSaid(s *sentence) bool {
	if t.hasAny(s.First, s.Last, keepVerb) >= 0 {
		return true
	}
	for i := s.First; i < s.Last; i++ {
		switch t.norm(i) {
		case "last":
			switch t.norm(i - 1) {
			case "will", "it'll", "they'll", "that'll", "should", "can", "they", "to", "would", "don't", "'ll", "does":
				return true
			}
		case "good":
			if t.quantityBegins(i+1) || t.norm(i+1) == "in" {
				return true
			}
		}
	}
	return false
}

// keepsNear reports whether a place or a word for keeping stands close to the
// time; without marks a sentence may hold much else.
func (t *talk) keepsNear(q *quantity) bool {
	for i := max(0, q.First-2*neighbour-4); i < min(len(t.toks), q.Last+neighbour); i++ {
		if _, n := t.placeAt(i); n > 0 {
			return true
		}
		switch t.norm(i) {
		case "keep", "keeps", "last", "lasts", "good", "fine", "hold", "holds", "stays", "leftovers", "unopened", "opened":
			return true
		}
	}
	return false
}

// storyTold reports whether a verb of a story stands in the sentence: "my
// fridge broke for three weeks".
func (t *talk) storyTold(s *sentence) bool {
	for i := s.First; i < s.Last; i++ {
		if w := t.norm(i); storyPast[w] && w != "made" && w != "used" || w == "broke" || w == "died" || w == "lived" {
			return true
		}
	}
	return false
}

// longTime reports whether the sentence gives days, weeks or months.
func (t *talk) longTime(s *sentence) bool {
	for i := s.First; i < s.Last; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].First == i {
			if x := &t.quantities[q]; x.kind == duration && (x.unit == "day" || x.unit == "week" || x.unit == "month") && t.norm(x.Last) != "ago" {
				return true
			}
		}
	}
	return false
}

// saidAgain reports whether sentence k stands in a paragraph that goes over the
// recipe once more, and speaks of no keeping of its own.
func (t *talk) saidAgain(k int) bool {
	s := &t.sents[k]
	for j := k; j >= 0 && t.sents[j].para == s.para && (t.punctuated || s.First-t.sents[j].First < carried/2); j-- {
		if t.overAgain(j) {
			return !t.keepsSaid(s)
		}
	}
	return false
}

// againCues tell that it is said over again.
var againCues = listed("going over", "the long and the short", "one more time", "once more", "to recap", "in short", "run through it")

// overAgain reports whether sentence k goes over the recipe once more, which is
// looked up once for each sentence.
func (t *talk) overAgain(k int) bool {
	if t.again == nil {
		t.again = make([]bool, len(t.sents))
		for j := range t.sents {
			s := &t.sents[j]
			t.again[j] = s.recap || t.hasAny(s.First, s.Last, againCues) >= 0
		}
	}
	return t.again[k]
}

// orLonger gives the longer time that follows a time at once, as the far end of how long
// something keeps, and where it ends: "maybe a week, ten days", "four days, five"; 0 for
// none. A place behind it would make it a time of that place.
func (t *talk) orLonger(s *sentence, q *quantity) (*schema.Quantity, int) {
	i := q.Last
	for i < s.Last && i < q.Last+3 && orMore[t.norm(i)] {
		i++
	}
	if i >= s.Last || q.kind != duration || t.toks[q.Last-1].After == 0 && i == q.Last || !t.quantityBegins(i) {
		return nil, 0
	}
	x := &t.quantities[t.quantityAt[i]]
	if x.void || !t.clauseEnd(x.Last, s) || x.min <= q.max && x.unit == q.unit {
		return nil, 0
	}
	v := *x.value()
	switch {
	case x.kind == count && !x.article:
		v.Unit = q.unit
	case x.kind != duration || daysIn[x.unit] == 0 || x.min*daysIn[x.unit] <= q.max*daysIn[q.unit]:
		return nil, 0
	}
	if v.Min <= q.max && v.Unit == q.unit {
		return nil, 0
	}
	if p, _ := t.placeSoon(x.Last, s.Last); p != "" && p != t.lastPlace(s, q.First) {
		return nil, 0
	}
	return &v, x.Last
}

// orMore are words between a time and the longer one that may be as good.
var orMore = words("or maybe even perhaps possibly sometimes")

// daysIn gives the days of a unit of keeping. A month is thirty: common practice.
var daysIn = map[string]float64{"day": 1, "week": 7, "month": 30}

// upTo joins two times into one that reaches from the first to the second, in days
// where their units differ and both are of whole days.
func upTo(a, b *schema.Quantity) *schema.Quantity {
	if a.Unit == b.Unit {
		return &schema.Quantity{Min: a.Min, Max: b.Max, Unit: a.Unit, About: a.About}
	}
	return &schema.Quantity{Min: a.Min * daysIn[a.Unit], Max: b.Max * daysIn[b.Unit], Unit: "day", About: a.About}
}

// lastPlace gives the place named last in the sentence before token i, "" for none.
func (t *talk) lastPlace(s *sentence, i int) string {
	last := ""
	for j := s.First; j < i; j++ {
		if p, n := t.placeAt(j); n > 0 {
			last = p
		}
	}
	return last
}

// keepingTime gives the time a quantity says something keeps, false when it is
// no such time.
func (t *talk) keepingTime(s *sentence, q *quantity) (*schema.Quantity, bool) {
	if q.void || t.norm(q.Last) == "ago" || t.norm(q.Last) == "old" || t.denied(s, q.First) {
		return nil, false
	}
	switch {
	case q.kind == vague && q.vkind == "time":
		return &schema.Quantity{Vague: q.words}, true
	case q.kind != duration:
		return nil, false
	case q.unit == "day", q.unit == "week", q.unit == "month":
		v := q.value()
		if t.norm(q.First) == "one" && q.max > 2 && t.has(q.First, q.Last, "or", "to") < 0 {
			v.Min = v.Max // "once you've opened one, three weeks"
		}
		return v, true
	case q.unit == "hour" && !q.overnite:
		from, to := s.First, s.Last
		if !t.punctuated {
			from, to = max(from, q.First-neighbour), q.First // other work may follow or come before
		}
		return q.value(), t.has(from, to, "keep", "keeps", "last", "lasts", "stays good", "holds") >= 0
	}
	return nil, false
}

// waited reports whether the time is one the cook waits before going on:
// "chill them in the fridge for five days before you look at them".
func (t *talk) waited(s *sentence, q *quantity) bool {
	verb := -1
	for i := q.First - 1; i >= s.First && i >= q.First-10; i-- {
		if t.toks[i].After.Ends() {
			break
		}
		for _, f := range t.verbs(i) {
			if f.Form == lexicon.Base && waits[f.Action.Verb] && !t.keptSubject(s, i) {
				verb = i
			}
		}
		if t.quantityAt[i] >= 0 && t.quantities[t.quantityAt[i]].kind == duration {
			break
		}
	}
	if verb < 0 {
		// "at three days it's only wet beetroot"
		if w := t.norm(q.First - 1); w == "at" || w == "after" || w == "on" || w == "every" {
			return !t.keepsSaid(s)
		}
		return t.orWaits(s, q) || !t.keepsSaid(s) && (t.heatIn(s) || t.askedBefore(s, q.First) || t.goesOnAfter(s, q))
	}
	if t.has(q.Last, min(len(t.toks), q.Last+6), "before", "then", "until", "and then", "so", "to") >= 0 && t.has(s.First, q.First, "keep", "keeps", "last", "lasts") < 0 {
		return true
	}
	return !t.keepsSaid(s)
}

// orWaits reports whether the time is told as another choice than hours or a night, and
// is a wait as they are: "overnight, or two days if you forget it".
func (t *talk) orWaits(s *sentence, q *quantity) bool {
	if t.norm(q.First-1) != "or" || q.First-2 < s.First || t.quantityAt[q.First-2] < 0 {
		return false
	}
	o := &t.quantities[t.quantityAt[q.First-2]]
	return o.kind == duration && (o.unit == "hour" || o.overnite)
}

// puttingAway are verbs of a sentence that tells how long a thing keeps.
var puttingAway = words("put freeze wrap store keep cover box pack make cook bake eat cool let chill refrigerate seal save pop bag leave use finish label date bring stick")

// remains name what wasn't eaten, and eatenUp tell that it is to be.
var (
	remains = listed("leftover", "leftovers", "left over", "any left", "there's some left", "there is some left", "what's left", "what is left", "is left", "remains")
	eatenUp = listed("eat", "eaten", "finish", "use it up", "use it", "finished")
)

// askedBefore reports whether the sentence asks for work on the food before token i that
// puts nothing away, and then for the fridge: "rub it in, fridge, two days". What goes to
// the freezer is often cut or wrapped for it.
func (t *talk) askedBefore(s *sentence, i int) bool {
	if !t.punctuated || t.lastPlace(s, i) != schema.Refrigerator || t.hasAny(s.First, i, eatenUp) >= 0 {
		return false
	}
	first := int(t.sentOf[s.First])
	for first > 0 && t.sents[first-1].para == s.para {
		first--
	}
	if t.hasAny(t.sents[first].First, i, remains) >= 0 {
		return false
	}
	for j := s.First; j < i; j++ {
		if a := t.baseVerb(j); a != nil && t.mentionAt[j] < 0 && t.joined(j) && (pronouns[t.norm(j+1)] || articleLike[t.norm(j+1)]) && t.opensPhrase(j, s) && !puttingAway[a.Verb] {
			return true
		}
	}
	return false
}

// heatIn reports whether a temperature is told in the sentence, or right before it, with
// the time: "minus twenty, seven days" is what kills worms.
func (t *talk) heatIn(s *sentence) bool {
	return len(t.temperaturesIn(s)) > 0
}

// goesOnAfter reports whether what follows the sentence is work on what was put away
// for the time q, so that the time is a wait: "Two days. Every twelve hours you turn
// it", "freeze it, seven days. Then thaw it".
func (t *talk) goesOnAfter(s *sentence, q *quantity) bool {
	for k := int(t.sentOf[q.First]); k < len(t.sents) && k <= int(t.sentOf[q.First])+waitAhead; k++ {
		n := &t.sents[k]
		if n.kind == storing && t.keepsSaid(n) {
			return false
		}
		from := max(n.First, q.Last)
		if i := t.has(from, n.Last, "every"); i >= 0 && t.quantityBegins(i+1) && t.quantities[t.quantityAt[i+1]].kind == duration {
			return true
		}
		if i := t.has(from, n.Last, "after"); i >= 0 && t.quantityBegins(i+1) && t.quantities[t.quantityAt[i+1]].kind == duration {
			if o := &t.quantities[t.quantityAt[i+1]]; o.unit == q.unit && o.min == q.min {
				return true
			}
		}
		if t.hasAny(from, min(n.Last, from+6), takenUpThen) >= 0 {
			return true
		}
	}
	return false
}

// waitAhead is how many sentences after a time may tell that it was a wait.
const waitAhead = 8

// takenUpThen open a sentence that works on what has waited.
var takenUpThen = listed("then thaw", "then take it out", "then take them out", "then you take it out", "then you take them out", "then rinse", "then drain", "then wipe", "then slice", "then scrape", "then roll", "then shape", "then bake", "then unwrap", "when it's ready", "when the time is up")

// keptSubject reports whether the verb at token i is said of the dish and asks for
// nothing: "it'll sit a week", "they stand happily for days".
func (t *talk) keptSubject(s *sentence, i int) bool {
	for j := i - 1; j >= s.First && j >= i-3 && t.toks[j].After == 0; j-- {
		switch w := t.norm(j); w {
		case "it'll", "they'll", "that'll", "they", "it", "that", "these", "those":
			return true
		case "will", "can", "should", "would", "happily", "quite", "just":
		default:
			return t.madeAt[j] > 0 || t.mentionAt[j] >= 0 && i-j > 1
		}
	}
	return false
}

// placeFor gives the place that a time belongs to; place is the last one named
// before it, at token placeAt.
func (t *talk) placeFor(s *sentence, q *quantity, place string, placeAt int) string {
	end, from := s.Last, s.First
	if !t.punctuated {
		// the sentence may have been cut before "if you freeze it" or behind "in a tin"
		end, from = min(len(t.toks), max(end, q.Last+neighbour)), max(0, min(from, q.First-neighbour))
	}
	soon, at := t.placeSoon(q.Last, end)
	if soon != "" {
		// "on the counter two days in the freezer three months": each time has
		// its place before it
		if place != "" && placeAt >= s.First && t.fresh(placeAt, q.First) && t.timeNext(at, s.Last) {
			return place
		}
		return soon
	}
	if place != "" {
		return place
	}
	// named later in the sentence
	for j := q.Last; j < s.Last; j++ {
		if p, n := t.placeAt(j); n > 0 && !t.deniedPlace(s, j) {
			return p
		}
	}
	if t.has(from, s.Last, "keep", "keeps", "good", "last", "lasts", "fine for", "sit", "sits", "stay", "stays") >= 0 && t.has(from, s.Last, "counter", "tin", "out", "wrapped", "box", "jar", "airtight") >= 0 {
		return schema.RoomTemperature
	}
	return ""
}

// opensWithThing reports whether the sentence begins with what is kept: "Sauce, three
// days", for which a freezer spoken of before doesn't hold.
func (t *talk) opensWithThing(s *sentence) bool {
	i := s.First
	if articleLike[t.norm(i)] || t.norm(i) == "and" {
		i++
	}
	if i >= s.Last || pronouns[t.norm(i+1)] {
		return false // "slice it, bag it, three months"
	}
	return t.mentionStart(i) >= 0 || t.madeAt[i] > 0
}

// fresh reports whether no time stands between a place at token a and token b.
func (t *talk) fresh(a, b int) bool {
	for i := a; i < b; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind == duration {
			return false
		}
	}
	return true
}

// timeNext reports whether a time follows the place at token i before another
// place does, and has none behind it.
func (t *talk) timeNext(i, end int) bool {
	_, n := t.placeAt(i)
	for j := i + n; j < end; j++ {
		if _, m := t.placeAt(j); m > 0 {
			return false
		}
		if q := t.quantityAt[j]; q >= 0 && t.quantities[q].First == j && t.quantities[q].kind == duration {
			p, _ := t.placeSoon(t.quantities[q].Last, end)
			return p == ""
		}
	}
	return false
}

// soonStored reports whether the next sentence gives this place its time.
func (t *talk) soonStored(k int, place string) bool {
	return k+1 < len(t.sents) && t.aboutKeeping(k+1) && t.longTime(&t.sents[k+1])
}

func (t *talk) placeAt(i int) (string, int) {
	w := t.norm(i)
	if t.in(aStore, i) {
		p := places[w]
		if w == "frozen" && (t.norm(i-1) == "from" || t.mentionStart(i+1) >= 0 && t.toks[i].After == 0 || t.mentionAt[i] >= 0) {
			return "", 0 // "cook it from frozen", "frozen peas"
		}
		return p, 1
	}
	if w == "room" && t.norm(i+1) == "temperature" {
		return schema.RoomTemperature, 2
	}
	if (w == "airtight" || w == "cake" || w == "biscuit" || w == "cookie") && (t.norm(i+1) == "tin" || t.norm(i+1) == "jar") {
		return schema.RoomTemperature, 2
	}
	if w == "tin" && ((t.norm(i-1) == "a" || t.norm(i-1) == "the") && t.norm(i-2) == "in" || t.opensPhrase(i, t.sentence(i)) && (t.clauseEnd(i+1, t.sentence(i)) || t.norm(i+1) == "with")) {
		return schema.RoomTemperature, 1
	}
	switch w {
	case "somewhere":
		if n := t.norm(i + 1); n == "cool" || n == "dark" || n == "dry" {
			return schema.RoomTemperature, 2
		}
	case "outside":
		// "two weeks outside"
		if q := t.quantityAt[max(0, i-1)]; i > 0 && q >= 0 && t.quantities[q].kind == duration {
			return schema.RoomTemperature, 1
		}
	case "side":
		if t.norm(i-1) == "the" && t.norm(i-2) == "on" && t.norm(i+1) != "of" {
			return schema.RoomTemperature, 1
		}
	case "deep":
		if t.norm(i+1) == "freeze" || t.norm(i+1) == "freezer" {
			return schema.Freezer, 2
		}
	case "bread", "cool", "dark", "biscuit", "cookie", "cake":
		if n := t.norm(i + 1); n == "bin" || n == "place" || n == "tin" || n == "jar" || n == "spot" {
			return schema.RoomTemperature, 2
		}
	}
	return "", 0
}

// towards are words that stand between a time and its place.
var towards = words("you've you're in inside on out at the a an your my of kept stored sat covered wrapped well tightly tight airtight if you put it them when into there back up left sitting box tub container bag jar sealed lidded outside")

// placeSoon gives a place that follows a time in the same breath, and its token.
func (t *talk) placeSoon(i, end int) (string, int) {
	marks := 0
	for j := i; j < end && j < i+8; j++ {
		if t.toks[j-1].After.Ends() {
			break
		}
		if t.toks[j-1].After != 0 {
			if marks++; marks > 1 {
				break
			}
		}
		if p, n := t.placeAt(j); n > 0 {
			switch t.norm(j) {
			case "freeze":
				if t.norm(j-2) == "if" || t.norm(j-2) == "when" {
					return p, j // "two months if you freeze it"
				}
				return "", 0
			case "freezes", "freezing", "frozen":
				return "", 0
			}
			// "a week, in the freezer two months": the place opens what follows
			if marks > 0 && t.timeNext(j, end) {
				return "", 0
			}
			return p, j
		}
		if !towards[t.norm(j)] {
			break
		}
	}
	return "", 0
}

// deniedPlace reports whether the place at i is one not to use: "not the
// fridge", "don't freeze it".
func (t *talk) deniedPlace(s *sentence, i int) bool {
	verb := false // "when it doesn't, in the fridge" denies nothing
	switch t.norm(i) {
	case "freeze", "freezes", "freezing", "refrigerate":
		verb = true
	}
	for k := i - 1; k >= s.First && k >= i-6; k-- {
		if t.toks[k].After != 0 {
			return false
		}
		switch w := t.norm(k); w {
		case "not", "never", "no":
			return true
		case "don't", "wouldn't", "can't", "doesn't", "won't", "shouldn't":
			return verb
		case "be", "keep", "store", "go", "put", "stick", "leave":
			verb = true
		case "ever", "them", "this", "that", "really":
		default:
			if !towards[w] {
				return false
			}
		}
	}
	return false
}

// denied reports whether the time at i is one not to reckon with; "don't keep
// it more than two days" still says two days.
func (t *talk) denied(s *sentence, i int) bool {
	if w := t.norm(i - 1); w == "than" || w == "past" || w == "beyond" || w == "over" || w == "after" {
		return false
	}
	for k := i - 1; k >= s.First && k >= i-6; k-- {
		switch t.norm(k) {
		case "don't", "never", "wouldn't", "can't", "doesn't":
			return true
		}
		if t.toks[k].After != 0 {
			return false
		}
	}
	return false
}

// sentSaid reports whether storage o was said in this sentence or the ones
// right before.
func (t *talk) sentSaid(o schema.Storage, s *sentence) bool {
	k := int(t.sentOf[s.First])
	for j := max(0, k-3); j <= k; j++ {
		if at := t.at(t.sents[j].First); at != "" && len(o.Said) > 0 && o.Said[0].At >= at {
			return true
		}
	}
	return false
}

// storedBefore is how many of the last said are compared with a new one.
const storedBefore = 20

func (t *talk) addStorage(place string, keeps *schema.Quantity, s *sentence, a, b int) {
	for _, o := range t.storage[max(0, len(t.storage)-storedBefore):] {
		// said again in other words
		if o.Place == place && keeps != nil && o.Keeps != nil && o.Keeps.Equal(*keeps) && t.sentSaid(o, s) {
			return
		}
	}
	st := schema.Storage{Place: place, Keeps: keeps, Said: []schema.Said{t.said(s.First, max(s.Last, b))}}
	if len(st.Said[0].Quote) > 160 {
		st.Said[0] = t.said(max(s.First, a-10), max(b, min(s.Last, b+6)))
	}
	for _, m := range t.mentionsIn(s.First, s.Last) {
		st.What = t.mentions[m].name
		break
	}
	if st.What == "" {
		for i := s.First; i < s.Last; i++ {
			if n := t.madeAt[i]; n > 0 {
				st.What = t.phrase(i, i+int(n))
				break
			}
		}
	}
	var how []string
	for _, w := range []string{"wrapped", "covered", "airtight", "lidded", "sealed", "jar", "container", "tub", "bag", "box"} {
		if t.has(s.First, s.Last, w) >= 0 {
			how = append(how, w)
		}
	}
	st.How = strings.Join(how, ", ")
	t.storage = append(t.storage, st)
	what := place
	if keeps != nil {
		what += " " + keeps.String()
	}
	t.because("storage: "+what, s.First, s.Last, "storing sentence, place, time")
}
