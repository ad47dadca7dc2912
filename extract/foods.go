package extract

import (
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// mention is one naming of a food, over tokens [First, Last) with the
// modifiers that belong to it.
type mention struct {
	language.Span
	head     language.Span // the lexicon's entry
	food     *lexicon.Food
	name     string   // the words that decide what to buy
	prep     []string // preparation words, in order
	form     string   // "juice", "zest": only this of it is used
	negated  bool     // "no onions", "without sugar"
	compared bool     // "like an egg", "the size of a walnut"
	definite bool     // "the butter"
	mixed    bool     // "milk mixture", "carrot cake": names a thing made of it
	share    bool     // "half of the flour"
	unknown  bool     // not in the lexicon
	sort     bool     // named by its sort alone: "plain old all-purpose", of flour
	verb     bool     // said as a verb: "salt it"
	alias    int      // an earlier mention it only renames, -1
	heard    *lexicon.Heard
	amounts  []int // quantities joined to it
	subst    int   // mention it can stand in for, -1
	ingr     *ingredient
	why      string // why it was taken for an ingredient, or not
}

// seasoning are foods whose verb tells that they go in.
var seasoning = words("salt pepper flour butter oil sugar")

// tool is one naming of a piece of equipment.
type tool struct {
	language.Span
	eq   *lexicon.Equipment
	name string
}

var determiners = words("the a an your this that these those it them both all each every some my our any her his their half one two three everything him another plenty")
var afterVerb = words("in into up down out off over through together aside back with on onto until till for well again around around everything gently under about to between by at away across along from as lightly thoroughly briefly slowly quickly")

// comparing words before a food make it a picture, not an ingredient.
var comparing = words("like than resemble resembles")

// markFoods finds foods, equipment and words for mixtures.
func (t *talk) markFoods() {
	t.mentionAt = none(len(t.toks))
	t.toolAt = none(len(t.toks))
	t.madeAt = make([]uint8, len(t.toks)+pastEnd)
	t.thingWord = newMarks(len(t.toks) + pastEnd)
	t.mentions = make([]mention, 0, len(t.toks)/20+8)
	for i := range t.toks {
		if len(t.verbs(i)) == 0 {
			continue
		}
		_, fn := t.lex.FoodAt(t.ids, i, nil)
		_, tn := t.lex.ToolAt(t.ids, i, nil)
		if fn > 0 || tn > 0 {
			t.thingWord.set(i)
		}
	}
	for i := 0; i < len(t.toks); {
		if q := t.quantityAt[i]; q >= 0 {
			// a unit may hide a food ("cloves" of garlic): quantities come first
			i = t.quantities[q].Last
			continue
		}
		if n := t.cueAt(sayings, i, len(t.toks)); n > 0 {
			i += n
			continue
		}
		tool1, tn := t.lex.ToolAt(t.ids, i, t.stops)
		food1, fn := t.lex.FoodAt(t.ids, i, t.stops)
		made1, mn := t.lex.MadeAt(t.ids, i)
		if h, hn := t.lex.HeardAt(t.ids, i); hn > 0 && hn >= fn && hn >= tn && t.heardHere(i, hn, h) {
			if f := t.heardFood(h); f != nil {
				t.addMention(i, hn, f, h)
				i += hn
				continue
			}
			if t.heardVerb(h) {
				i += hn // "beet them" is what is done, no vegetable
				continue
			}
		}
		switch {
		case tn > 0 && tn >= fn && tn >= mn && !(tn == fn && !tool1.Food && t.amountBefore(i)):
			if !(tn == 1 && t.verbUse(i)) {
				t.addTool(i, tn, tool1)
			}
			i += tn
		case mn > 0 && mn >= fn && !(food1 != nil && fn == mn && !food1.Made) && !(fn == 0 && mn == 1 && t.beforeArticle(i) && t.verbUse(i)):
			_ = made1
			t.madeAt[i] = uint8(mn)
			if food1 != nil && fn == mn && t.amountBefore(i) {
				// "a jar of salsa", "200 g of pastry": bought, not made
				t.addMention(i, fn, food1, nil)
			}
			i += mn
		case fn > 0:
			if fn > 1 && t.putBack(i+fn-1) {
				if f, n := t.lex.FoodAt(t.ids[:i+fn-1], i, t.stops); n > 0 {
					food1, fn = f, n
				}
			}
			if fn == 1 && (t.pronounVerb(i) || t.orderAlone(i) && !seasoning[food1.Name]) {
				i++
				continue
			}
			if fn == 1 && t.verbUse(i) {
				if seasoning[food1.Name] {
					// "salt it": the verb names what goes in
					t.addMention(i, fn, food1, nil)
					t.mentions[len(t.mentions)-1].verb = true
				}
				i++
				continue
			}
			// "double cream yoghurt": the last name is the thing, the first its sort
			for t.punctuated && i+fn < len(t.toks) && t.toks[i+fn-1].After == 0 && t.quantityAt[i+fn] < 0 {
				g, gn := t.lex.FoodAt(t.ids, i+fn, t.stops)
				if _, un := t.lex.UnitAt(t.ids, i+fn); gn == 0 || un > 0 || g.Dish || g.Made || g.Kind != food1.Kind && !(g.Kind == "stock" && stockOf[food1.Kind]) || t.verbUse(i+fn) {
					break
				}
				food1, fn = g, fn+gn
			}
			i = t.addMention(i, fn, food1, nil)
		default:
			i++
		}
	}
	t.joinForms()
}

// stockOf are kinds of food that a stock is made of: "anchovy stock".
var stockOf = words("fish shellfish meat poultry vegetable")

// sayings are phrases in which the name of a food is none: figures of speech, and verbs
// and adjectives that sound like foods.
var sayings = cues("piece of cake", "easy as pie", "spill the beans", "full of beans", "salt of the earth", "cool as a cucumber", "couch potato", "hot potato", "bring home the bacon", "brings home the bacon", "like chalk and cheese",
	"bread and butter of", "cherry on top", "cherry on the cake", "icing on the cake", "apple of my eye", "sour grapes", "big cheese", "say cheese", "go bananas", "went bananas", "going bananas", "cup of tea",
	"with a pinch of salt", "with a grain of salt", "worth their salt", "worth its salt", "worth his salt", "worth her salt", "red as a beetroot", "like sardines", "cheap as chips", "warm as toast", "like two peas", "carrot and stick", "egg on my face", "walking on eggshells", "butter wouldn't melt",
	"fat part", "fat end", "fat bit", "wafer thin", "paper thin", "pea sized", "walnut sized", "egg shaped", "fish out the", "fish out that", "fish out any", "fish out your", "fish out all", "fished out the", "fished out that", "fish it out", "fish them out", "date it", "date them", "dates it", "the date on", "the date so", "check the date", "write the date", "put the date", "put a date", "add the date", "and the date on", "the date and", "name and date", "the date you", "use by date", "sell by date", "best before date",
	"stock up", "jam it in", "jam them in", "jammed in", "pickle of", "in a pickle", "in a jam", "out of date", "up to date", "beef it up", "beef up", "chicken out", "ham it up", "sauce it up", "roll it", "roll them", "roll out", "roll up", "roll that", "roll this", "roll each", "roll your", "roll the", "sandwich them", "sandwich it", "sandwich together", "pepper it with", "sage advice")

// putBack reports whether a word is "back" of putting back, and no cut of meat: "chicken
// back in the pot".
func (t *talk) putBack(i int) bool {
	if t.norm(i) != "back" || !t.joined(i) {
		return false
	}
	switch t.norm(i + 1) {
	case "in", "into", "on", "onto", "to", "over":
		return true
	}
	return false
}

// amountBefore reports whether a measured quantity stands right before i.
func (t *talk) amountBefore(i int) bool {
	k := i - 1
	for k >= 0 && k > i-4 {
		if q := t.quantityAt[k]; q >= 0 {
			qq := &t.quantities[q]
			return qq.kind == measure && qq.of || qq.kind == measure && qq.ukind != "length" && k == i-1
		}
		if t.modifier(k) == lexicon.NoClass || t.toks[k].After != 0 {
			return false
		}
		k--
	}
	return false
}

// beforeArticle reports whether the word at i stands before an article, which the name of
// a thing does not: "slice a cucumber", "slice up the okra".
func (t *talk) beforeArticle(i int) bool {
	w := t.norm(i + 1)
	return w == "a" || w == "an" || w == "up" && articleLike[t.norm(i+2)]
}

// heardHere reports whether words that make the mis-hearing likely stand near.
func (t *talk) heardHere(i, n int, h *lexicon.Heard) bool {
	if len(h.Near) == 0 {
		return true
	}
	lo, hi := max(0, i-5), min(len(t.toks), i+n+5)
	for _, w := range h.Near {
		if t.has(lo, i, w) >= 0 || t.has(i+n, hi, w) >= 0 {
			return true
		}
	}
	return false
}

// verbUse reports whether the word at i, which can be a noun, is the verb of
// its clause: "butter the tin", "now salt it", "and season them".
func (t *talk) verbUse(i int) bool {
	ok := false
	for _, f := range t.verbs(i) {
		if f.Form == lexicon.Base {
			ok = true
		}
	}
	if ok && i > 0 && t.norm(i-1) == "you" && t.joined(i-1) && t.toks[i].After&language.Comma != 0 && t.norm(i+1) == "you" {
		return true // "you score, you salt, you hang"
	}
	if !ok || t.toks[i].After != 0 {
		return false
	}
	switch t.norm(i - 1) {
	case "should", "could", "would", "must", "might", "may", "will", "can", "don't", "didn't", "doesn't":
		return i > 0 && t.toks[i-1].After == 0
	}
	if t.measureBegins(i+1) && t.quantities[t.quantityAt[i+1]].ukind != "container" {
		return false // "salt, a teaspoon and a half"
	}
	next := t.norm(i + 1)
	if i > 0 && t.sentOf[i] == t.sentOf[i-1] {
		prev := t.norm(i - 1)
		if t.toks[i-1].After != 0 {
			prev = "and"
		}
		if (prev == "is") && t.has(max(0, i-7), i, "do", "does", "thing", "step", "trick") >= 0 {
			prev = "to" // "what I do is butter the tin"
		}
		switch prev {
		case "i'd", "you'd", "we'd", "should", "could", "will", "would", "might", "may", "they", "it", "to", "you", "we", "i", "then", "now", "and", "just", "lightly", "i'll", "we'll", "you'll", "please", "generously", "also", "gently", "or", "so", "don't", "always", "gonna", "not", "can", "must", "let's", "wanna", "gotta":
		case "the", "a", "an", "your", "some", "of", "with", "in", "my", "this", "that", "more", "any", "no", "soft", "cold", "good", "melted":
			return false
		default:
			if t.toks[i-1].After == 0 && t.punctuated {
				return false
			}
			if t.lex.Modifiers[prev] != lexicon.NoClass || t.quantityAt[i-1] >= 0 && (t.punctuated || !objectLead[next]) {
				return false
			}
		}
		if t.norm(i-1) == "and" && t.toks[i-1].After == 0 && i > 1 && t.mentionAt[i-2] >= 0 && !(determiners[next]) && !(afterVerb[next] && determiners[t.norm(i+2)]) {
			return false // "flour and salt"
		}
	}
	if f, n := t.lex.FoodAt(t.ids, i, nil); next == "in" && n == 1 && f.Kind == "bread" && t.foodBegins(i+2) {
		return true // "brush with oil, roll in sugar"
	}
	if next == "with" {
		return t.norm(i) == "garnish" || t.norm(i) == "top" // "garnish with parsley"
	}
	if next == "some" || next == "plenty" || next == "all" && t.norm(i+2) != "over" && t.norm(i+2) != "the" {
		return false
	}
	if determiners[next] {
		return true
	}
	if _, n := language.ReadNumber(t.toks, i+1); n > 0 && (i == 0 || t.sentOf[i] != t.sentOf[i-1] || t.toks[i-1].After != 0 || t.norm(i-1) == "and" || t.norm(i-1) == "then" || t.norm(i-1) == "you") {
		_, un := t.lex.UnitAt(t.ids, i+1+n)
		return un == 0 // "peel six spuds", not "butter, two cups"
	}
	if (next == "out" || next == "off" || next == "up" || next == "in" || next == "down" || next == "over") && (determiners[t.norm(i+2)] || t.norm(i+2) == "what") {
		return true
	}
	if _, n := t.lex.ToolAt(t.ids, i+1, nil); n > 0 {
		return true
	}
	if t.lex.Modifiers[next] == lexicon.SizeWord || next == "well" || next == "generously" || next == "and" && t.norm(i+2) != "" && (t.norm(i+2) == "pepper" || t.norm(i+2) == "flour" || t.norm(i+2) == "line") && (determiners[t.norm(i+3)]) {
		return true
	}
	return false
}

// objectLead are words that begin what a verb works on, and never follow a food's name:
// "cut it in four, roll each piece".
var objectLead = words("it them each these those your")

// pronounVerb reports whether the word at i, a food by the table, is what
// "it" or "they" does: "it just stews".
func (t *talk) pronounVerb(i int) bool {
	if len(t.verbs(i)) == 0 {
		return false
	}
	k := i - 1
	for k >= 0 && t.sentOf[k] == t.sentOf[i] && t.toks[k].After == 0 && leadAdverbs[t.norm(k)] && t.norm(k) != "and" && t.norm(k) != "or" {
		k--
	}
	if k < 0 || t.sentOf[k] != t.sentOf[i] || t.toks[k].After != 0 {
		return false
	}
	switch t.norm(k) {
	case "i", "you", "we":
		if k > 0 && t.norm(k) == "you" && givesYou[t.norm(k-1)] {
			return false // "I'll show you stew peas"
		}
		// "every piece you roll under the hand", but "you salt it" tells what goes in
		f, _ := t.lex.FoodAt(t.ids, i, nil)
		return f != nil && !seasoning[f.Name] && t.baseForm(i)
	case "it", "they", "he", "she", "who":
		// "mix it, butter": only straight after the pronoun as a subject
		return k == 0 || !t.punctuated && k < i-1 && !t.baseForm(i) || t.sentOf[k-1] != t.sentOf[k] || t.toks[k-1].After != 0 || subordinators[t.norm(k-1)] || t.norm(k-1) == "and" || t.norm(k-1) == "then"
	}
	return false
}

// givesYou are words after which "you" is who gets it.
var givesYou = words("show give tell bring make for of with to teach promise")

// baseForm reports whether the word at token i can be the plain form of a verb.
func (t *talk) baseForm(i int) bool {
	for _, f := range t.verbs(i) {
		if f.Form == lexicon.Base {
			return true
		}
	}
	return false
}

// orderAlone reports whether the word at token i opens its sentence as an order that stands
// alone before another: "roll, cut".
func (t *talk) orderAlone(i int) bool {
	return t.toks[i].After&language.Comma != 0 && (i == 0 || t.sentOf[i-1] != t.sentOf[i]) && i+1 < len(t.toks) && t.sentOf[i+1] == t.sentOf[i] && t.baseForm(i) && t.actionVerb(i+1) && t.lex.Modifiers[t.norm(i+1)] == lexicon.NoClass
}

func (t *talk) addTool(i, n int, e *lexicon.Equipment) {
	if k := i + n; k < len(t.toks) && t.toks[k].Joined && t.modifier(k) == lexicon.NameWord {
		return // "brick-red paprika"
	}
	from := i
	// "a big bowl", "small heavy saucepan"
	for from > 0 && t.joined(from-1) && t.quantityAt[from-1] < 0 && t.toolAt[from-1] < 0 && toolAdjective[t.norm(from-1)] {
		from--
	}
	name := t.phraseHyphen(from, i+n)
	t.tools = append(t.tools, tool{Span: language.Span{First: from, Last: i + n}, eq: e, name: name})
	for k := i; k < i+n; k++ {
		t.toolAt[k] = int32(len(t.tools) - 1)
	}
}

var toolAdjective = words("big large small heavy wide deep shallow nonstick non-stick round square long serrated sharp wooden metal rubber plastic glass clean dry heatproof " +
	"medium cast iron fine heavy-bottomed offset slotted electric separate another high damp rimmed lined")

// phraseHyphen gives tokens as text with the hyphens the speaker's writer used.
func (t *talk) phraseHyphen(a, b int) string {
	var sb strings.Builder
	for i := a; i < b; i++ {
		if i > a {
			if t.toks[i].Joined && t.toks[i].Word == t.toks[i-1].Word {
				sb.WriteByte('-')
			} else {
				sb.WriteByte(' ')
			}
		}
		w := t.toks[i].Norm
		if i == b-1 {
			w = strings.TrimSuffix(w, "'s") // but "shepherd's pie"
		}
		sb.WriteString(w)
	}
	return sb.String()
}

// articleLike are determiners: they end the modifiers before a food.
var articleLike = words("the a an your my our his her their some this that these those any every each more another other all just only about same one extra remaining own said very really")

// mixWord are words after a food that make it the name of something made.
var mixWord = words("mixture mix recipe video recordings recording episode colour color coloured smell aisle shop store farm festival season factory skin skins shell shells pot " +
	"side house man lady seller market tree trees garden bush field stand truck addict lover allergy drawer cupboard thing business soaked based sort kind type style variety flavour flavor sized")

// addMention marks a food with its modifiers and gives the token after it.
func (t *talk) addMention(i, n int, f *lexicon.Food, h *lexicon.Heard) int {
	m := mention{head: language.Span{First: i, Last: i + n}, food: f, alias: -1, subst: -1, heard: h}
	from := i
	var nameWords []string
	for from > 0 && t.joined(from-1) && t.quantityAt[from-1] < 0 && t.mentionAt[from-1] < 0 && t.toolAt[from-1] < 0 {
		w := t.norm(from - 1)
		cl := t.lex.Modifiers[w]
		// two-word modifiers: "extra virgin", "bone in", "full fat", "skin on"
		if from > 1 && t.joined(from-2) && t.quantityAt[from-2] < 0 {
			if c2 := t.lex.Modifiers[t.norm(from-2)+" "+w]; c2 != lexicon.NoClass {
				if c2 == lexicon.NameWord {
					nameWords = append([]string{t.phraseHyphen(from-2, from)}, nameWords...)
				} else if c2 == lexicon.PrepWord {
					m.prep = append([]string{t.phrase(from-2, from)}, m.prep...)
				}
				from -= 2
				continue
			}
		}
		if w == "and" && from < i && from > 1 && t.modifier(from-2) == lexicon.PrepWord && t.modifier(from) == lexicon.PrepWord {
			from--
			continue
		}
		stop := false
		switch cl {
		case lexicon.NameWord:
			// a verb form that opens its clause isn't an adjective
			if t.plainVerb(from - 1) {
				stop = true
				break
			}
			nameWords = append([]string{w}, nameWords...)
		case lexicon.PrepWord:
			if t.plainVerb(from - 1) {
				stop = true
				break
			}
			m.prep = append([]string{w}, m.prep...)
		case lexicon.SizeWord, lexicon.DropWord:
			stop = articleLike[w]
		default:
			stop = true
		}
		if stop {
			break
		}
		from--
	}
	end := i + n
	m.name = strings.Join(append(nameWords, t.foodWords(i, i+n, f, h)), " ")
	end = t.afterFood(&m, end, nameWords)
	m.Span = language.Span{First: from, Last: end}
	prev := t.norm(from - 1)
	same := from > 0 && t.sentOf[from-1] == t.sentOf[from]
	if t.toks[i+n-1].After&language.Dash != 0 && t.quantityAt[max(0, i-1)] >= 0 && t.cutOffUnit(t.norm(i)) {
		m.mixed = true // "one tea—": a unit broken off
	}
	if same {
		switch prev {
		case "the", "your", "that", "those", "these", "this", "my", "its":
			m.definite = true
			prev2 := t.norm(from - 2)
			if comparing[prev2] && t.norm(from-1) != "the" {
				m.compared = true
			}
		}
		m.negated = t.negatedBefore(from)
		m.compared = m.compared || t.comparedBefore(from)
	}
	if prev == "with" && same && from > 1 {
		if o := t.mentionAt[from-2]; o >= 0 && t.mentions[o].food.Dish && t.norm(t.mentions[o].First-1) == "a" {
			m.compared = true // "a soup with lamb" is another dish
		}
	}
	next := t.norm(i + n)
	if end == i+n && t.joined(i+n-1) {
		_, un := t.lex.UnitAt(t.ids, i+n)
		if un > 0 {
			// "orange slices", "garlic cloves"
		} else if mixWord[next] && !t.is(i+n, "stand", "in") && !(next == "skin" && (t.norm(i+n+1) == "on" || t.norm(i+n+1) == "off" || t.norm(i+n+1) == "side")) || next == "one" && t.norm(from-1) == "the" && t.quantityAt[i+n] < 0 {
			m.mixed = true
		} else if _, k := t.lex.MadeAt(t.ids, i+n); k > 0 && f.Kind != "flour" && next != "base" && !t.orderBegins(i+n) {
			m.mixed = true
		} else if g, k := t.lex.FoodAt(t.ids, i+n, t.stops); k > 0 && g.Dish {
			m.mixed = true
		} else if e, k := t.lex.ToolAt(t.ids, i+n, nil); k > 0 && t.punctuated && e.Kind != "heat" && !t.toks[i+n].Joined {
			m.mixed = true
		} else if next == "free" && (t.toks[i+n].Joined || true) {
			m.mixed, m.negated = true, true
		} else if t.toks[i+n].Joined && t.toks[i+n].Word == t.toks[i+n-1].Word {
			m.mixed = true
		}
	}
	if strings.HasSuffix(t.toks[i+n-1].Norm, "'s") && t.norm(i+n) != "" {
		// "the butter's melted" is the butter; "the cook's knife" isn't here
		m.mixed = m.mixed || f.Dish
	}
	t.mentions = append(room(t.mentions, i, len(t.toks)), m)
	for k := m.head.First; k < m.head.Last; k++ {
		t.mentionAt[k] = int32(len(t.mentions) - 1)
	}
	if end > i+n {
		return end
	}
	return i + n
}

// cutOffUnit reports whether w begins the name of a unit.
func (t *talk) cutOffUnit(w string) bool {
	return len(w) >= 2 && (strings.HasPrefix("teaspoon", w) || strings.HasPrefix("tablespoon", w))
}

// foodWords gives the food's words as spoken, or as meant where mis-heard.
func (t *talk) foodWords(a, b int, f *lexicon.Food, h *lexicon.Heard) string {
	if h != nil {
		return h.Meant
	}
	return t.phraseHyphen(a, b)
}

// plainVerb reports whether the word at i, a modifier by the table, opens an
// instruction here ("cook the onions", "dry the fish").
func (t *talk) plainVerb(i int) bool {
	vs := t.verbs(i)
	for _, v := range vs {
		if v.Form == lexicon.Base && !v.Action.Noun {
			return true
		}
		if v.Form == lexicon.Base && (i == 0 || t.sentOf[i-1] != t.sentOf[i] || t.norm(i-1) == "then" || t.norm(i-1) == "to" || t.norm(i-1) == "you") && !adjectival[t.norm(i)] {
			return true
		}
	}
	return false
}

var adjectival = words("dry warm cool clean cold wet")

// afterFood reads modifiers behind the food: "butter, unsalted", "garlic,
// sliced thin", "cardamom, the ground".
func (t *talk) afterFood(m *mention, end int, nameWords []string) int {
	var after2 []string // words that belong before the name, in spoken order
	defer func() {
		if len(after2) > 0 {
			m.name = strings.Join(after2, " ") + " " + m.name
		}
	}()
	k := end
	for k < len(t.toks) && t.sentOf[k] == t.sentOf[end-1] && k < end+8 {
		after := t.toks[k-1].After
		if after.Ends() {
			break
		}
		w := t.norm(k)
		cl := t.lex.Modifiers[w]
		if k+1 < len(t.toks) && t.toks[k].After == 0 {
			if c2 := t.lex.Modifiers[w+" "+t.norm(k+1)]; c2 != lexicon.NoClass && (after&language.Comma != 0 || k > end || c2 == lexicon.PrepWord || !t.punctuated && !t.foodBegins(k+2)) {
				if c2 == lexicon.NameWord {
					after2 = append(after2, t.phraseHyphen(k, k+2))
				} else if c2 == lexicon.PrepWord {
					m.prep = append(m.prep, t.phrase(k, k+2))
				}
				k += 2
				end = k
				continue
			}
		}
		if after&(language.Comma|language.Dash) != 0 && (w == "the" || w == "all") && (t.modifier(k+1) == lexicon.NameWord || t.modifier(k+1) == lexicon.PrepWord) {
			// "cardamom, the ground", "oregano, the Mexican one"
			j := k + 1
			if nx := t.norm(j + 1); nx == "one" || nx == "ones" || nx == "kind" || nx == "sort" || nx == "type" || t.toks[j].After != 0 {
				if _, fn := t.lex.FoodAt(t.ids, j, t.stops); fn == 0 || t.toks[j].After != 0 {
					after2 = append(after2, t.norm(j))
					if t.toks[j].After == 0 {
						j++
					}
					k = j + 1
					end = k
					continue
				}
			}
			break
		}
		if cl == lexicon.NoClass || cl == lexicon.DropWord || cl == lexicon.SizeWord && w != "small" && w != "fine" {
			break
		}
		if t.plainVerb(k) && !adjectival[w] {
			break
		}
		// the modifier must not lead to another food ("butter, brown sugar")
		j := k + 1
		for j < len(t.toks) && j < k+4 && t.toks[j-1].After == 0 && t.modifier(j) != lexicon.NoClass {
			j++
		}
		if t.toks[j-1].After == 0 && j < len(t.toks) && t.sentOf[j] == t.sentOf[k] {
			if _, fn := t.lex.FoodAt(t.ids, j, t.stops); fn > 0 {
				break
			}
			if _, tn := t.lex.ToolAt(t.ids, j, t.stops); tn > 0 {
				break
			}
			if _, mn := t.lex.MadeAt(t.ids, j); mn > 0 {
				break
			}
		}
		if _, fn := t.lex.FoodAt(t.ids, k, t.stops); fn > 1 || fn == 1 && cl == lexicon.NameWord {
			break
		}
		if after == 0 && k == end && cl == lexicon.NameWord && (t.punctuated || !t.measureBegins(k+1)) {
			break // "butter unsalted" without a mark is rare, "sugar brown" too
		}
		if t.toks[j-1].After == 0 && j < len(t.toks) && t.sentOf[j] == t.sentOf[k] && determiners[t.norm(j)] {
			break // "stock, round the edges": no quality of the stock
		}
		switch cl {
		case lexicon.NameWord:
			after2 = append(after2, w)
		case lexicon.PrepWord, lexicon.SizeWord:
			m.prep = append(m.prep, w)
		}
		k++
		end = k
		if t.norm(k) == "and" && t.toks[k-1].After == 0 && t.modifier(k+1) == lexicon.PrepWord && !t.plainVerb(k+1) {
			k++
			continue
		}
	}
	return end
}

// foodBegins reports whether the name of a food, with words before it, begins at i.
func (t *talk) foodBegins(i int) bool {
	for k := i; k < i+3 && k < len(t.toks); k++ {
		if _, n := t.lex.FoodAt(t.ids, k, t.stops); n > 0 {
			return true
		}
		if t.modifier(k) == lexicon.NoClass {
			return false
		}
	}
	return false
}

// measureBegins reports whether an amount in a measure begins at token i that measures
// nothing behind it: "cream cheese full fat four hundred grams".
func (t *talk) measureBegins(i int) bool {
	if !t.quantityBegins(i) {
		return false
	}
	q := &t.quantities[t.quantityAt[i]]
	return q.kind == measure && !q.of && t.sentOf[i] == t.sentOf[i-1]
}

// negatedBefore looks left for a word that denies the food.
func (t *talk) negatedBefore(i int) bool {
	for k := i - 1; k >= 0 && k >= i-4 && t.sentOf[k] == t.sentOf[i]; k-- {
		w := t.norm(k)
		if t.toks[k].After != 0 && t.toks[k].After&^language.Dash != 0 {
			return false
		}
		switch w {
		case "no", "not", "without", "never", "ain't", "isn't", "zero", "nor", "neither", "wasn't", "aren't", "haven't":
			return !(w == "not" && (t.norm(k+1) == "only" || t.is(k-2, "it", "or"))) && !(w == "no" && t.norm(k+1) == "more")
		case "none":
			return t.norm(k+1) == "of"
		case "rather", "instead":
			return t.norm(k+1) == "than" || t.norm(k+1) == "of"
		case "with":
			switch t.norm(k - 1) {
			case "trouble", "problem", "problems", "issue", "issues":
				return true
			}
			return false
		case "to":
			switch t.norm(k - 1) {
			case "allergic", "intolerant", "sensitive", "allergy":
				return true
			}
			return false
		case "your", "the", "a", "an", "any", "one", "actual", "more", "real", "of", "single", "added", "extra", "much", "much-":
			continue
		}
		if t.lex.Modifiers[w] != lexicon.NoClass {
			continue
		}
		return false
	}
	return false
}

// asLead are words for how a thing is that stand before "as" and what it is like: "it's
// thick as yoghurt".
var asLead = words("big small smooth thick thin soft fine hard light white dark sweet long stiff creamy runny loose tender sticky cold hot flat wide round yellow red golden brown heavy same dry wet")

// orderBegins reports whether, in talk without marks, an order with its object begins at
// token i, and no name of a dish: "… use cranberries bake it for an hour".
func (t *talk) orderBegins(i int) bool {
	if t.punctuated || t.baseVerb(i) == nil {
		return false
	}
	switch t.norm(i + 1) {
	case "it", "them", "that", "the", "this", "everything":
		return true
	}
	return false
}

// disliking are words before "like" that make it a verb of taste.
var disliking = words("don't doesn't didn't dinnae doesnae")

// comparedBefore looks left for a comparison: "like a", "as big as a", "the
// size of a".
func (t *talk) comparedBefore(i int) bool {
	for k := i - 1; k >= 0 && k >= i-5 && t.sentOf[k] == t.sentOf[i]; k-- {
		w := t.norm(k)
		if k < i-1 && t.toks[k].After != 0 {
			return false
		}
		switch w {
		case "like", "than":
			return t.toks[k].After == 0 && !(w == "like" && (disliking[t.norm(k-1)] || t.norm(k-1) == "you" && t.norm(k-2) == "as"))
		case "or":
			return k == i-1 && t.comparedOr(k)
		case "as":
			// "as big as a walnut"
			for j := k - 1; j >= k-4 && j >= 0; j-- {
				if t.norm(j) == "as" || t.norm(j) == "same" {
					return true
				}
			}
			return asLead[t.norm(k-1)]
		case "behind", "beside", "near", "underneath":
			return true
		case "to":
			return t.norm(k-1) == "next" && t.joined(k-1) // "I fry it next to my egg"
		case "my":
			continue
		case "size", "shape", "colour", "color", "consistency", "texture", "thickness":
			return true
		case "a", "an", "the", "of", "some", "little", "big", "small", "your", "wet", "bit":
			continue
		}
		if t.lex.Modifiers[w] != lexicon.NoClass {
			continue
		}
		return k == i-1 && t.toks[k].After == 0 && t.likens(k-1) && (!t.canBeVerb(w) || asLead[t.norm(k-2)])
	}
	return false
}

// likens reports whether the word at token i says what something is like, after a word for how
// it looks: "thick like hand cream", "it looks like candle wax".
func (t *talk) likens(i int) bool {
	if !t.punctuated || t.norm(i) != "like" || i < 1 || !t.joined(i) || !t.joined(i-1) {
		return false
	}
	switch w := t.norm(i - 1); w {
	case "looks", "look", "feels", "feel", "smells", "tastes", "it's", "is", "just", "more":
		return true
	default:
		return asLead[w]
	}
}

// comparedOr reports whether the "or" at token k goes on with a picture: "till it's like sand, or
// big breadcrumbs".
func (t *talk) comparedOr(k int) bool {
	for i := k - 1; i >= 0 && i >= k-3 && t.sentOf[i] == t.sentOf[k]; i-- {
		switch {
		case t.norm(i) == "like":
			return i > 0 && !youWe[t.norm(i-1)]
		case t.actionVerb(i):
			return false
		}
	}
	return false
}

// actionVerb reports whether the word at token i can be an order.
func (t *talk) actionVerb(i int) bool { return t.mentionAt[i] < 0 && t.baseForm(i) }

// joinForms joins "the juice of two limes", "zest of an orange" to the fruit.
func (t *talk) joinForms() {
	for k := range t.mentions {
		m := &t.mentions[k]
		// look left over "of", numbers and articles for juice or zest
		i := m.First - 1
		for i >= 0 && t.sentOf[i] == t.sentOf[m.First] && t.toks[i].After == 0 &&
			(t.quantityAt[i] >= 0 || t.norm(i) == "a" || t.norm(i) == "an" || t.norm(i) == "the" || t.norm(i) == "one" || t.norm(i) == "your") {
			i--
		}
		if i < 1 || t.norm(i) != "of" {
			// the quantity may have swallowed "of"
			if i >= 0 && isForm(t.norm(i)) && m.First > i+1 && t.quantityAt[i+1] >= 0 && false {
				m.form = t.norm(i)
			}
			continue
		}
		if f := t.norm(i - 1); isForm(f) {
			m.form = strings.TrimSuffix(f, "s")
			if a := t.mentionAt[i-1]; a >= 0 && int(a) != k {
				t.mentions[a].alias = k
			}
		}
	}
}

func isForm(w string) bool {
	switch w {
	case "juice", "zest", "peel", "rind", "yolk", "yolks", "white", "whites", "leaves", "seeds":
		return true
	}
	return false
}
