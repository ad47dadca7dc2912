package extract

import (
	"strings"

	"quern/internal/lexicon"
)

var keepWords = words("keep keeps last lasts stays stay good store stored storing storage leftover leftovers fine lasting kept hold holds lasted freezes freeze frozen freezing refrigerate save")
var placeWords = words("fridge refrigerator freezer counter cupboard pantry freeze icebox frozen shelf chiller larder cellar bench countertop benchtop tin worktop")

// markKinds decides what each sentence is there for. Actions in sentences
// that tell a story or speak of keeping the dish are dropped.
func (t *talk) markKinds() {
	for k := range t.sents {
		s := &t.sents[k]
		s.forgotten = t.forgottenCue(s) >= 0
		s.past = t.sentPast(s) && !s.forgotten
		s.other = t.otherDish(s)
		s.recap = t.recapCue(s)
		s.kind = t.kindOf(s)
	}
	t.markNaming()
	// what follows in a paragraph of keeping is about keeping: thawing, reheating
	for k := 1; k < len(t.sents); k++ {
		a, s := &t.sents[k-1], &t.sents[k]
		if a.kind != storing || s.kind != instruction && s.kind != plain && (s.kind != listing || t.measuredIn(s) || !t.eatenLater(s)) {
			continue
		}
		if a.para == s.para && s.First > len(t.toks)/2 && t.afterKeeping(s) || t.toldKeeping(a) && t.eatenLater(s) {
			s.kind = storing
		}
	}
	// sentences between two that speak of it belong to it
	for k := 1; k+1 < len(t.sents); k++ {
		a, s, b := &t.sents[k-1], &t.sents[k], &t.sents[k+1]
		if s.kind == plain && a.kind == storing && b.kind == storing && a.para == s.para {
			s.kind = storing
		}
	}
	told := -1 // the last sentence of figures
	for k := range t.sents {
		s := &t.sents[k]
		if told >= 0 && k-told <= figuresReach && s.para <= t.sents[told].para+1 && (s.kind == listing || s.kind == plain) && t.moreFigures(s) {
			s.kind = figures
		}
		if s.kind == figures {
			told = k
		}
	}
	t.dropActions()
}

// figuresReach is how many sentences after one of figures another can go on with them.
const figuresReach = 3

// moreFigures reports whether a short sentence after figures tells no more than one of
// them: "and five grams of sugar", "eight" where that was put right.
func (t *talk) moreFigures(s *sentence) bool {
	if s.Len() > 10 || len(t.actionsIn(s)) > 0 {
		return false
	}
	numbers, named := 0, t.has(s.First, s.Last, "sugar", "salt", "fat", "sugars", "saturated", "sodium") >= 0
	for i := s.First; i < s.Last; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].First == i {
			if x := &t.quantities[q]; x.kind != count && (x.kind != measure || x.unit != "g") {
				return false
			}
			numbers++
		}
		if m := t.mentionAt[i]; m >= 0 && !named {
			return false
		}
	}
	return numbers > 0 && (named || s.Len() <= 2)
}

// afterKeeping reports whether a sentence after one on keeping goes on about
// it: warming up again, or a short order with nothing new in it.
func (t *talk) afterKeeping(s *sentence) bool {
	if t.has(s.First, s.Last, "reheat", "thaw", "defrost", "warm it", "warm them", "toast from", "refresh", "from frozen", "loosen it", "date on", "label") >= 0 {
		return true
	}
	for _, m := range t.mentionsIn(s.First, s.Last) {
		if len(t.mentions[m].amounts) > 0 || !t.mentions[m].food.Dish {
			return false
		}
	}
	if _, _, ok := t.partHead(s); ok {
		return false
	}
	return !t.hasQuantity(s.First, s.Last) && s.Len() <= 16
}

// toldKeeping reports whether the sentence on keeping says that something keeps or is
// frozen, and isn't an order to leave it for days.
func (t *talk) toldKeeping(s *sentence) bool {
	return len(t.actionsIn(s)) == 0 || t.keepsSaid(s) || t.has(s.First, s.Last, "freeze", "freezer", "freezes", "frozen") >= 0
}

// eatenLater reports whether a sentence after one on keeping opens with the day on
// which what was kept is eaten: "when you want one, you put it frozen in the oven",
// "from the freezer, ten minutes in the oven", "to warm it up, five minutes".
func (t *talk) eatenLater(s *sentence) bool {
	i := s.First
	for i < s.Last && i < s.First+4 && (headWords[t.norm(i)] || t.norm(i) == "and" || t.norm(i) == "but") {
		i++
	}
	return t.cueAt(laterOn, i, s.Last) > 0 || t.has(s.First, s.Last, "reheat", "reheats", "reheated", "reheating") >= 0 && !t.measuredIn(s)
}

// laterOn open a sentence on what is done with what was kept.
var laterOn = cues("when you want one", "when you want it", "when you want them", "when you want some", "when you need one", "when you need it", "when you need them", "when you need some", "when you fancy one", "when you fancy some", "when you're ready for one", "when you come to eat", "when you come to use", "when it's time to eat", "when you eat them", "when you eat it", "when you take one out", "when you take them out", "when you take it out", "when you get it out", "when you get them out", "whenever you want one", "whenever you want some", "whenever you fancy one",
	"from frozen", "straight from frozen", "straight from the freezer", "from the freezer", "from the fridge", "straight from the fridge", "out of the freezer", "out of the fridge",
	"to reheat", "to warm it up", "to warm them up", "to warm it through", "to warm them through", "to warm one", "to heat it up", "to heat them up", "to heat it through", "to heat one", "to thaw", "to defrost", "to refresh", "to bring it back", "to bring them back", "to revive", "when you heat it", "when you heat them", "when you warm it", "when you warm them", "when you reheat", "next day", "the next day", "the day after", "then you microwave", "and then you microwave", "cook them from frozen", "cook it from frozen", "bake them from frozen", "bake it from frozen", "fry them from frozen", "let it thaw", "let them thaw", "thaw it", "thaw them", "defrost it", "defrost them")

// measuredIn reports whether the sentence gives a measure of something.
func (t *talk) measuredIn(s *sentence) bool {
	for i := s.First; i < s.Last; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].kind == measure {
			return true
		}
	}
	return false
}

// closing reports whether the sentence stands in the last words of the talk.
func (t *talk) closing(s *sentence) bool {
	return len(t.toks) >= 350 && s.First > len(t.toks)-len(t.toks)/14
}

// namingCues say what will be made; the foods in the dish's name are not yet
// ingredients.
var namingCues = []string{"we're making", "i'm making", "what we're making", "we're doing", "i'm doing", "we're having", "today it's", "this is my", "what we got today", "what we doing", "so this is", "it's a creamy", "recipe for", "making my", "making you", "today we", "today i", "going to make", "gonna make", "so it's a", "it's a", "how to make", "we're cooking", "i'm cooking", "let's make", "today's"}

// markNaming marks the sentences before the first instruction that only name
// the dish.
func (t *talk) markNaming() {
	for k := range t.sents {
		s := &t.sents[k]
		if s.First > len(t.toks)/4 || k > 40 {
			return
		}
		i := t.hasAny(s.First, s.Last, namingCue)
		if i < 0 || t.unpunctuatedFar(s, i) {
			continue
		}
		measured := false
		for j := i; j < s.Last; j++ {
			if q := t.quantityAt[j]; q >= 0 && t.quantities[q].kind == measure {
				measured = true
			}
		}
		if measured {
			continue
		}
		if len(t.mentionsIn(s.First, s.Last)) > 0 || t.dishNamed(i, s.Last) {
			if a := t.firstAction(s); a >= 0 && a < i {
				continue
			}
			s.naming = true
			if s.kind == instruction && (t.norm(i+1) == "making" || t.norm(i+1) == "doing" || t.norm(i+1) == "having" || t.has(i, i+4, "make", "making", "doing", "cooking", "having") >= 0) || s.kind == listing {
				s.kind = plain
			}
		}
	}
}

// unpunctuatedFar keeps a cue deep inside an unmarked stretch from claiming it.
func (t *talk) unpunctuatedFar(s *sentence, i int) bool { return !t.punctuated && i-s.First > 8 }

func (t *talk) dishNamed(a, b int) bool {
	for i := a; i < b; i++ {
		if t.isDishNoun(i) {
			return true
		}
	}
	return false
}

func (t *talk) firstAction(s *sentence) int {
	for i := s.First; i < s.Last; i++ {
		if t.actionAt[i] >= 0 {
			return i
		}
	}
	return -1
}

// kindOf reads one sentence.
func (t *talk) kindOf(s *sentence) kind {
	if t.speaksOfKeeping(s) && !t.waitsDays(s) {
		return storing
	}
	if t.speaksOfFigures(s) {
		return figures
	}
	acts := 0
	for i := s.First; i < s.Last; i++ {
		if a := t.actionAt[i]; a >= 0 && t.actions[a].mood != negative {
			acts++
		}
	}
	amounts := 0
	for i := s.First; i < s.Last; i++ {
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].First == i {
			switch qq := &t.quantities[q]; qq.kind {
			case measure, vague:
				amounts++
			case count:
				// "two red peppers, in strips"
				if t.mentionStart(qq.Last) >= 0 || qq.of && t.fractionOf(qq) || i > s.First && i-s.First <= 3 && t.mentionAt[i-1] >= 0 && qq.max > 1 && t.countTail(qq) {
					amounts++ // or "potatoes, two, cut in cubes"
				}
			}
		}
	}
	if acts > 0 {
		if s.past && !t.pastTold && t.storyOf(s) {
			return aside
		}
		if t.announces(s) {
			return plain
		}
		return instruction
	}
	if amounts > 0 && len(t.mentionsIn(s.First, s.Last)) > 0 && !s.past && !s.other && !t.ofOthers(s) {
		return listing
	}
	if s.past || s.other {
		return aside
	}
	return plain
}

// fractionOf reports whether a fraction is of one whole thing: "a quarter of a red cabbage".
func (t *talk) fractionOf(q *quantity) bool {
	i := q.Last
	if t.norm(i) == "of" {
		i++
	}
	return (t.norm(i) == "a" || t.norm(i) == "an") && t.mentionStart(i+1) >= 0
}

// announces reports whether the sentence only says what will be made, or that
// there is a choice of methods, before any of it is told.
func (t *talk) announces(s *sentence) bool {
	if s.First > len(t.toks)/5 {
		return false
	}
	if t.has(s.First, s.Last, "two ways", "both ways", "couple of ways", "different ways", "two methods", "you can do them", "you could do it") >= 0 {
		return true
	}
	for k := int(t.sentOf[s.First]) - 2; k < int(t.sentOf[s.First]); k++ {
		if k >= 0 && t.has(t.sents[k].First, t.sents[k].Last, "two ways", "both ways", "two methods", "couple of ways", "different ways") >= 0 {
			for i := s.First; i < s.Last; i++ {
				if a := t.actionAt[i]; a >= 0 && t.actions[a].mood != permitted {
					return false
				}
			}
			return true
		}
	}
	return false
}

// ofOthers reports whether the sentence tells what somebody else does, has or
// likes.
func (t *talk) ofOthers(s *sentence) bool {
	for i := s.First; i < s.Last && i < s.First+8; i++ {
		w := t.norm(i)
		if t.in(anOther, i) && w != "people" && w != "they" && w != "who" && w != "they're" || w == "people" && t.norm(i-1) == "some" {
			return true
		}
		if w == "next" && t.norm(i+1) == "door" {
			return true
		}
		if w == "my" && kin[strings.TrimSuffix(t.norm(i+1), "'s")] {
			return true
		}
	}
	return false
}

// family are words for the people a cook lives among.
const family = "sister brother mother father mum mom dad nan gran granny grandma grandmother grandfather aunt auntie uncle cousin niece nephew wife husband daughter son neighbour neighbor friend girl boy boss teacher"

var kin = words(family + " granddaughter grandson grandchild grandkids grandpa father-in-law son-in-law youngest eldest oldest missus hubby colleague mate lad lads nurse doctor dog cat guest guests students customers mama mam nana grandad flatmate roommate kids comadre partner family")

// storyOf reports whether a past sentence tells of another time or person, so
// that even its imperatives are reported speech.
func (t *talk) storyOf(s *sentence) bool {
	if s.forgotten || !t.mostlyPast(s) {
		return false
	}
	if i := t.has(s.First, s.Last, "i'm going to", "we're going to", "i'm gonna", "we're gonna", "i'll", "we'll", "you have to", "i want you to", "you're going to"); i >= 0 {
		for j := i + 2; j < min(s.Last, i+8); j++ {
			if a := t.actionAt[j]; a >= 0 && t.actions[a].mood == planned && t.hasFood(j, min(j+8, s.Last)) {
				return false // it goes on with what is done now
			}
		}
	}
	pastAt, actAt := -1, -1
	for i := s.First; i < s.Last; i++ {
		w := t.norm(i)
		if pastAt < 0 && (storyPast[w] && !(w == "were" && t.goingTo(i)) || pastVerb[w] && i > s.First && !beVerb[t.norm(i-1)] || participle[w] && i > s.First && (youWe[t.norm(i-1)] || others[t.norm(i-1)])) {
			pastAt = i
		}
		if a := t.actionAt[i]; a >= 0 && actAt < 0 && t.actions[a].mood != negative {
			actAt = i
			if t.actions[a].mood == imperative && (i == s.First || t.toks[i-1].After != 0) && t.hasFood(i, min(i+6, s.Last)) {
				return false
			}
		}
	}
	return pastAt >= 0 && pastAt < actAt
}

var storyPast = words("was were had used did went came told said made took bought tried gave thought knew ate saw")

// otherTimes are of no keeping.
var otherTimes = listed("ago", "years", "last week", "next week", "every week", "week before")

// keepsWell tell by themselves that the dish keeps.
var keepsWell = listed("freezes well", "freeze well", "freeze beautifully", "freezes beautifully", "leftovers", "any left", "left over", "don't freeze", "freeze it too", "can freeze", "could freeze", "wouldn't freeze", "not in the fridge", "not the fridge", "never the fridge")

// speaksOfKeeping reports whether the sentence tells how long the dish keeps.
func (t *talk) speaksOfKeeping(s *sentence) bool {
	place, keep, long, first := false, false, false, -1
	for i := s.First; i < s.Last; i++ {
		w := t.norm(i)
		if t.in(aPlace, i) {
			place = true
		}
		if t.in(aKeepWord, i) && !t.keepsHold(i) || w == "do" && t.norm(i+1) == "you" {
			// "good for a week", not "a good week"
			if w != "good" && w != "fine" && w != "hold" && w != "stay" || t.norm(i+1) == "for" || t.norm(i+1) == "in" || t.quantityBegins(i+1) {
				keep = true
			}
		}
		if (w == "by" || w == "within" || w == "same") && t.nextDay(s, i) {
			long = true
		}
		if q := t.quantityAt[i]; q >= 0 && t.quantities[q].First == i {
			qq := &t.quantities[q]
			if qq.kind == duration && (qq.unit == "day" || qq.unit == "week" || qq.unit == "month") || qq.kind == vague && qq.vkind == "time" && t.has(qq.First, qq.Last, "days", "weeks", "months") >= 0 {
				long = true
				if first < 0 {
					first = i
				}
			}
		}
	}
	if t.hasAny(s.First, s.Last, otherTimes) >= 0 && !place {
		return false
	}
	if long && (place || keep) && !(t.sentPast(s) && !place) {
		return true
	}
	if place && t.hasAny(s.First, s.Last, keepsWell) >= 0 {
		return true
	}
	return false
}

// keepsHold reports whether "keep" at i is of a hand or of work, and not of storing: "till you can
// keep a finger in".
func (t *talk) keepsHold(i int) bool {
	if t.norm(i) != "keep" {
		return false
	}
	for k := i + 1; k <= i+2; k++ {
		switch t.norm(k) {
		case "finger", "fingers", "hand", "hands", "eye":
			return true
		}
	}
	return false
}

// waitsDays reports whether the sentence asks to wait for days as part of the making:
// "leave it in the cure two days in the fridge". "Up to" three days is keeping.
func (t *talk) waitsDays(s *sentence) bool {
	for i := s.First; i < s.Last; i++ {
		a := t.actionAt[i]
		if a >= 0 && t.actions[a].mood == passive && t.actions[a].base == "wait" {
			return true // "then it waits in the cellar, three weeks"
		}
		if a > 0 && t.actions[a].mood == passive && t.actions[a].base == "stay" && t.sentOf[t.actions[a-1].tok] == t.sentOf[i] && t.actions[a-1].mood == imperative {
			return true // "wrap it, and it stays in the cold three days"
		}
		if a < 0 || t.actions[a].mood != imperative || !waits[t.actions[a].verb.Verb] {
			continue
		}
		return !t.keepsSaid(s) && t.has(s.First, s.Last, "up to", "freeze", "freezer", "keep", "good", "fine", "any left", "what's left", "the rest") < 0
	}
	return false
}

func (t *talk) quantityBegins(i int) bool {
	return i < len(t.toks) && t.quantityAt[i] >= 0 && t.quantities[t.quantityAt[i]].First == i
}

var macroWords = words("calories calorie kcal protein carbs carbohydrate carbohydrates carb fibre fiber net macros kilocalories cals cal")

// speaksOfFigures reports whether the sentence gives macros.
func (t *talk) speaksOfFigures(s *sentence) bool {
	n, num := 0, false
	for i := s.First; i < s.Last; i++ {
		w := t.norm(i)
		if t.in(aMacro, i) {
			n++
		}
		if w == "fat" && t.norm(i+1) != "free" && (t.norm(i-1) == "of" || t.norm(i-1) == "grams") {
			n++
		}
		if t.quantityAt[i] >= 0 && t.quantities[t.quantityAt[i]].kind != vague {
			num = true
		}
	}
	return n > 0 && num
}

// forgottenCues open a remark that comes late.
var forgottenCues = []string{
	"forgot", "forgotten", "should have said", "should've said", "i should have", "should have told", "should've told", "meant to say", "meant to tell", "meant to mention", "i skipped", "we skipped", "didn't say", "didn't mention",
	"before you did any", "before any of this", "before you do any", "i never said", "never told you", "back up", "i left out", "i've left out", "we left out", "we've left out", "left something out", "you should've", "you should have", "should've been", "i didn't tell", "one thing i", "while i remember", "rewind", "oh shoot", "go back a", "before i go on", "step i missed", "i missed", "did i say", "did i tell", "did i mention", "remembered", "almost forgot", "nearly forgot", "slipped my mind", "i telling you that late", "supposed to",
}

// onOneOccasion make a story of what was forgotten.
var onOneOccasion = listed("once", "one time", "last time", "half the time", "out of three", "half the times")

// forgottenCue gives the token where a late remark is announced, or -1.
func (t *talk) forgottenCue(s *sentence) int {
	i := t.hasAny(s.First, s.Last, forgottenWords)
	if i < 0 {
		return -1
	}
	if t.norm(i) == "forgot" {
		// "I forgot it once and brought that loaf in anyway" is a story
		if t.hasAny(s.First, s.Last, onOneOccasion) >= 0 {
			return -1
		}
		// "if you forgot"
		if t.has(max(s.First, i-3), i, "if", "he", "she", "they") >= 0 {
			return -1
		}
	}
	if t.norm(i) == "supposed" && t.norm(i+2) != "add" && t.norm(i+2) != "do" {
		return -1
	}
	return i
}

// recapCues announce that it is all said once more.
var recapCues = listed("going over it again", "one more time", "to recap", "recap", "once more from the top", "go over it again", "run through it again", "again from the top", "quick recap", "in short", "to sum up", "all together now", "so again", "just to go over")

// recapCue reports whether the talk is about to say it all once more.
func (t *talk) recapCue(s *sentence) bool {
	return t.hasAny(s.First, s.Last, recapCues) >= 0 &&
		t.has(s.First, s.Last, "flip it one more time", "one more time and") < 0
}

// otherDishes speak of another dish or recording.
var otherDishes = listed("video", "recording", "recordings", "episode", "videos", "next week", "last week", "another day", "next time i", "other recipe", "my mother made", "my sister makes", "used to make", "at a wedding", "his birthday")

// otherTalks send the viewer to another recording: all of the sentence is of that.
var otherTalks = listed("go find that", "go and find that", "find that one", "go watch that", "go and watch that", "look that one up", "go look that up", "scroll back for that")

// otherDish reports whether the sentence is about another dish or recording.
func (t *talk) otherDish(s *sentence) bool {
	return t.hasAny(s.First, s.Last, otherDishes) >= 0 || t.hasAny(s.First, s.Last, otherTalks) >= 0 || t.namedAsOther(s)
}

// namedAsOther reports whether the sentence goes on about a dish that one before it named
// as another: "a comment on the chili video, says I talk too much. That chili cooks four
// hours."
func (t *talk) namedAsOther(s *sentence) bool {
	if t.norm(s.First) != "that" || s.Len() < 3 || !t.dishNamed(s.First+1, s.First+2) {
		return false
	}
	k := int(t.sentOf[s.First])
	for j := k - 1; j >= max(0, k-3) && t.sents[j].para == s.para; j-- {
		if o := &t.sents[j]; o.other && t.has(o.First, o.Last, t.norm(s.First+1)) >= 0 {
			return true
		}
	}
	return false
}

// dropActions unmarks actions that are nobody's instruction.
func (t *talk) dropActions() {
	retold := t.retold()
	kept := t.actions[:0]
	for k := range t.actions {
		a := t.actions[k]
		s := t.sentence(a.tok)
		drop := retold[k] || s.kind == storing || s.kind == figures || s.kind == aside || s.kind == plain
		drop = drop || s.recap || s.other && t.hasAny(s.First, s.Last, otherTalks) >= 0
		if !drop && t.closing(s) && !t.hasQuantity(a.clause.First, a.clause.Last) && len(t.mentionsIn(a.clause.First, a.clause.Last)) == 0 && !(t.loose && t.punctuated && t.toolIn(a.clause.First, a.clause.Last)) {
			drop = true
		}
		if !drop && t.closing(s) && t.toldBefore(k) {
			drop = true
		}
		if !drop && (t.quoted(s, &a) || t.rejected(s, &a) || t.chat(s, &a) || t.warning(s, &a) || t.foreword(s, &a) || t.postscript(s, &a)) {
			drop = true
		}
		if drop {
			t.actionAt[a.tok] = -1
			continue
		}
		t.actionAt[a.tok] = int32(len(kept))
		kept = append(kept, a)
	}
	t.actions = kept
	t.bound()
}

// toldBefore reports whether the order of action k, without a figure, was given before of
// the same foods: "return your books, dry your beans", at the end of a talk.
func (t *talk) toldBefore(k int) bool {
	a := &t.actions[k]
	foods := t.mentionsIn(a.clause.First, a.clause.Last)
	if len(foods) == 0 || t.hasQuantity(a.clause.First, a.clause.Last) {
		return false
	}
	for b := k - 1; b >= max(0, k-inMind); b-- {
		if o := &t.actions[b]; o.base == a.base && o.tok < t.sentence(a.tok).First && t.sharesFoods(foods, t.sentence(o.tok)) {
			return true
		}
	}
	return false
}

// sharesFoods reports whether a sentence, or one of the few before it in its paragraph,
// names all of the foods.
func (t *talk) sharesFoods(foods []int, s *sentence) bool {
	from := s.First
	for n := 0; n < 4 && from > 0 && t.sentence(from-1).para == s.para; n++ {
		from = t.sentence(from - 1).First
	}
	for _, m := range foods {
		named := false
		for _, o := range t.mentionsIn(from, s.Last) {
			named = named || related(t.mentions[o].food, t.mentions[m].food) > 0
		}
		if !named {
			return false
		}
	}
	return true
}

// quoting are words of what another said.
var quoting = listed("they said", "he said", "she said", "said to my", "said the", "says to me", "said to me", "told me", "they say", "people say", "i said", "as the joke", "old joke", "as the saying", "the motto")

// quoted reports whether the order was somebody's word to the cook, with nothing of the
// kitchen in it: "rest it, they said, ice it, lift it", "shake a leg, says the driver". What
// a grandmother said of a paste or a pan is told as the recipe.
func (t *talk) quoted(s *sentence, a *action) bool {
	if a.mood != imperative || t.hasFood(s.First, s.Last) {
		return false
	}
	return t.hasAny(s.First, s.Last, quoting) >= 0
}

// rejected reports whether the action is what others may do, and the cook does not:
// "you could mince the garlic but I grate it".
func (t *talk) rejected(s *sentence, a *action) bool {
	if a.mood != permitted || t.norm(a.tok-1) != "can" && t.norm(a.tok-1) != "could" || t.norm(a.tok-2) != "you" {
		return false
	}
	i := t.has(a.tok, min(s.Last, a.tok+9), "but i")
	if i < 0 {
		return false
	}
	for j := i + 2; j < s.Last && j < i+4; j++ {
		if k := t.actionAt[j]; k >= 0 {
			return t.norm(j+1) == "it" || t.norm(j+1) == "them" || t.norm(j+1) == "mine"
		}
	}
	return false
}

// warning reports whether the words only tell what goes wrong: "cut it early and
// you have a bowl of sand", "but you'll knock the air out".
func (t *talk) warning(s *sentence, a *action) bool {
	if a.mood == planned {
		for i := a.tok - 1; i >= s.First && i >= a.tok-3; i-- {
			if w := t.norm(i); w == "you'll" || w == "you're" {
				switch t.norm(i - 1) {
				case "but", "or", "otherwise", "else":
					return !t.hasQuantity(a.clause.First, a.clause.Last)
				}
			}
		}
	}
	i := a.tok + 1
	if w := t.norm(i); w != "it" && w != "them" && w != "that" && w != "this" {
		return false
	}
	switch t.norm(i + 1) {
	case "early", "hot", "late", "wet", "cold", "warm", "dry", "raw", "too":
	default:
		return false
	}
	j := t.has(i+1, min(s.Last, i+6), "and it'll", "and you'll", "and it", "and they'll", "and you", "and they", "and the")
	return j >= 0 && (j+2 >= s.Last || t.actionAt[j+2] < 0) // "pat it dry and you dust it" goes on
}

// foreword reports whether the action stands before anything of the recipe was
// named and works on nothing but "it" or "this": "I bake this instead".
func (t *talk) foreword(s *sentence, a *action) bool {
	if s.First > len(t.toks)/6 || t.hasFood(a.clause.First, a.clause.Last) || t.hasQuantity(a.clause.First, a.clause.Last) {
		return false
	}
	switch t.norm(a.tok + 1) {
	case "it", "this", "them", "these", "that":
	default:
		return false
	}
	for _, m := range t.mentionsIn(s.First, a.tok) {
		if !t.mentions[m].food.Dish && t.actionAt[s.First] >= 0 {
			return false // "boil the potatoes, drain them"
		}
	}
	for k := int(t.sentOf[s.First]) - 1; k >= 0; k-- {
		o := &t.sents[k]
		if o.kind == instruction || o.kind == listing {
			return false
		}
		if t.has(o.First, o.Last, "oven", "pan", "bowl", "pot") >= 0 {
			return false
		}
		for _, m := range t.mentionsIn(o.First, o.Last) {
			if len(t.mentions[m].amounts) > 0 && !t.mentions[m].food.Dish {
				return false
			}
		}
		if k >= int(t.sentOf[s.First])-2 {
			for _, m := range t.mentionsIn(o.First, o.Last) {
				if !t.mentions[m].food.Dish {
					return false
				}
			}
		}
	}
	return true
}

// postscript reports whether the action stands after what was said of keeping,
// near the end, and has neither amount, time, temperature nor vessel: a word to
// the viewers.
func (t *talk) postscript(s *sentence, a *action) bool {
	return t.keptBefore(s) && s.First >= len(t.toks)-len(t.toks)/endShare/2 && !s.forgotten &&
		!t.toolIn(s.First, s.Last) && !t.hasQuantity(s.First, s.Last) && len(t.mentionsIn(a.clause.First, a.clause.Last)) == 0
}

// endShare is the part of a talk, one in so many, that is its end: there what
// comes after the words on keeping is no recipe any more.
const endShare = 4

// keptBefore reports whether the sentence stands in the end of the talk after
// words on keeping, with nothing forgotten remembered since.
func (t *talk) keptBefore(s *sentence) bool {
	if t.kept == nil {
		t.kept = make([]bool, len(t.sents))
		after := false
		for k := range t.sents {
			o := &t.sents[k]
			if o.First < len(t.toks)-len(t.toks)/endShare {
				continue
			}
			t.kept[k] = after
			after = !o.forgotten && (after || o.kind == storing)
		}
	}
	return t.kept[t.sentOf[s.First]]
}

// chat reports whether the action is small talk in the imperative: a verb of
// no cooking with nothing of the kitchen beside it.
func (t *talk) chat(s *sentence, a *action) bool {
	if s.other && a.mood != imperative {
		return true
	}
	end := s.Last
	if a.lead > 0 && t.norm(a.lead) != "keep" {
		return !t.hasQuantity(a.tok, min(s.Last, a.clause.Last)) && !t.cookingNear(s)
	}
	near := t.hasFood(a.clause.First, min(end, a.clause.Last)) || t.hasQuantity(a.clause.First, a.clause.Last)
	if near || a.mood == planned && a.verb.Noun && a.tok > s.First && t.youWork(s, a.tok-1, a.tok) {
		return false
	}
	switch a.verb.Kind {
	case "heat", "mix", "cut", "rest", "shape", "cool", "season", "add", "clean", "wrap", "finish":
		if a.verb.Noun || a.verb.Weak || a.verb.State {
			if a.tok+1 >= end {
				return !strongAlone[a.verb.Verb] && !(a.base == "wait" && t.timeSoon(s, a.tok))
			}
			next := t.norm(a.tok + 1)
			if next == "it" || next == "them" || next == "that" || next == "those" || next == "everything" || next == "this" || afterVerb[next] {
				return false
			}
			return !t.cookingNear(s)
		}
		return false
	}
	if !a.verb.Weak && !a.verb.State && (t.norm(a.tok+1) == "it" || t.norm(a.tok+1) == "them" || a.tok+1 >= end) && t.cookedShortly(s) {
		return false // "drain them on paper"
	}
	return !t.cookingNear(s)
}

// cookedShortly reports whether work on a food was told a few sentences before, in the
// same paragraph.
func (t *talk) cookedShortly(s *sentence) bool {
	k := int(t.sentOf[s.First])
	for j := max(0, k-3); j < k; j++ {
		o := &t.sents[j]
		if o.para != s.para || o.kind == aside {
			continue
		}
		for i := o.First; i < o.Last; i++ {
			if a := t.actionAt[i]; a >= 0 && !t.actions[a].verb.Weak && t.hasFood(i, min(i+6, o.Last)) {
				return true
			}
		}
	}
	return false
}

func (t *talk) hasQuantity(a, b int) bool {
	for i := a; i < b && i < len(t.toks); i++ {
		if q := t.quantityAt[i]; q >= 0 {
			switch t.quantities[q].kind {
			case duration, heat, measure, length:
				return true
			}
		}
	}
	return false
}

// cookingNear reports whether the sentences around speak of food or vessels.
func (t *talk) cookingNear(s *sentence) bool {
	k := t.sentOf[s.First]
	for j := max(0, int(k)-1); j <= min(len(t.sents)-1, int(k)+1); j++ {
		o := &t.sents[j]
		if o.para != s.para && !t.lineByLine {
			continue
		}
		if o.kind == aside {
			continue
		}
		n := 0
		for i := o.First; i < o.Last; i++ {
			if a := t.actionAt[i]; a >= 0 && i != s.First && (j != int(k) || n > 0) {
				n++
			}
			switch t.norm(i) {
			case "simmer", "boil", "bubbling", "boiling", "oven", "heat", "golden":
				n++
			}
			if t.mentionAt[i] >= 0 && !t.mentions[t.mentionAt[i]].food.Dish || t.madeAt[i] > 0 || t.toolAt[i] >= 0 {
				n++
			}
			for _, f := range t.verbs(i) {
				if !f.Action.Weak && !f.Action.Noun && f.Form == lexicon.Base {
					n++
				}
			}
		}
		if n > 0 {
			return true
		}
	}
	return false
}
