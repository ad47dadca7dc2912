package extract

import (
	"fmt"
	"math"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/schema"
)

// figure names and the words they are spoken with.
var figureWords = map[string]string{
	"calories": "kcal", "calorie": "kcal", "kcal": "kcal", "cals": "kcal", "kilocalories": "kcal", "cal": "kcal",
	"fat": "fat", "fats": "fat", "protein": "protein", "proteins": "protein",
	"carbs": "carbs", "carb": "carbs", "carbohydrate": "carbs", "carbohydrates": "carbs",
	"fibre": "fibre", "fiber": "fibre", "sugar": "sugar", "sugars": "sugar", "sodium": "sodium", "saturated": "saturated", "saturates": "saturated",
}

// figureItem is a number or the name of a figure, in the order they were said.
type figureItem struct {
	language.Span
	key   string // what is named, "" for a number
	value float64
	of    bool // "six grams of": the name follows
}

// findMacros reads the figures the cook gave. A number goes to the name it
// leads to ("six grams of fat"), or to the name before it ("net carbs is six").
func (t *talk) findMacros() {
	sp := &schema.SpokenMacros{}
	got := map[string]float64{}
	at := map[string]int{}
	told := map[string]toldFigure{}
	from, to := -1, -1
	keep := func(s language.Span) {
		if from < 0 {
			from = s.First
		}
		from = min(from, s.First)
		to = max(to, s.Last)
	}
	for k := 0; k < len(t.sents); k++ {
		if t.sents[k].kind != figures {
			continue
		}
		last := k
		for last+1 < len(t.sents) && t.goesOnWithFigures(last+1) {
			last++
		}
		items := t.figureItems(t.sents[k].First, t.sents[last].Last)
		assigned, used := t.assignFigures(items)
		said := "" // the figure told last
		for n, v := range assigned {
			it := &items[n]
			switch {
			case it.key == "" && !used[n] && said != "" && it.First-at[said] <= 12 && t.slipBetween(at[said], it.First):
				// "a hundred calories, no, a hundred and ten"
				got[said], at[said] = it.value, it.Last
				told[said] = toldFigure{it.value, it.Span}
			case v < 0:
				continue
			default:
				said = it.key
				if _, had := got[said]; had && !t.slipBetween(at[said], it.First) {
					continue
				}
				got[said], at[said] = items[v].value, max(it.Last, items[v].Last)
				told[said] = toldFigure{items[v].value, language.Span{First: min(it.First, items[v].First), Last: at[said]}}
				keep(t.sentence(items[v].First).Span) // "total carbs six, fibre. Is four"
			}
			keep(t.sentence(it.First).Span)
		}
		t.addsUp(items, assigned)
		k = last
	}
	if len(got) > 0 {
		if v, s, ok := t.spokenRatio(from); ok {
			got["ratio"] = v
			if s.First >= from && s.First-to < 60 {
				keep(s)
			}
		}
	}
	if len(got) == 0 {
		return
	}
	set := func(key string, p **float64) {
		if v, ok := got[key]; ok {
			x := v
			*p = &x
		}
	}
	set("kcal", &sp.Kcal)
	set("fat", &sp.FatG)
	set("saturated", &sp.SaturatedG)
	set("protein", &sp.ProteinG)
	set("carbs", &sp.CarbsG)
	set("fibre", &sp.FibreG)
	set("net", &sp.NetCarbsG)
	set("sugar", &sp.SugarG)
	set("sodium", &sp.SodiumMg)
	set("ratio", &sp.Ratio)
	t.figuresAgain(told)
	sp.Per = t.perWhat(from, to)
	sp.LeavesOut = t.leavesOut(from, min(len(t.toks), to+24))
	sp.Said = []schema.Said{t.said(from, to)}
	t.spoken = sp
	t.because("spoken macros", from, to, "figures sentence")
}

// goesOnWithFigures reports whether sentence k goes on with the figures of the
// one before: more of them, or a word on them, with nothing to cook in it.
func (t *talk) goesOnWithFigures(k int) bool {
	s := &t.sents[k]
	if s.kind == figures {
		return true
	}
	if s.para > t.sents[k-1].para+1 || s.Len() > 24 || len(t.actionsIn(s)) > 0 {
		return false
	}
	if s.kind == listing {
		return s.Len() <= 10 && len(t.figureItems(s.First, s.Last)) >= 2
	}
	return s.kind == plain
}

// slipReach is how many words back a slip can be.
const slipReach = 400

// slipBetween reports whether the speaker takes something back between two
// tokens.
func (t *talk) slipBetween(a, b int) bool {
	a = max(a, b-slipReach)
	if t.has(a, b, "sorry", "wait", "i mean", "make that", "scratch that", "correction", "i meant", "tell a lie", "my mistake", "not that", "let me check", "misread", "read that wrong", "said that wrong") >= 0 {
		return true
	}
	for i := a; i < b; i++ {
		if t.norm(i) == "no" && (t.written(i) != 0 || !t.punctuated) {
			return true
		}
	}
	return false
}

// addsUp looks for net carbohydrate worked out aloud ("total carbs six, fibre
// four, so that's three net") that isn't what is left. All three figures were
// said for one sum, so rounding explains no gram. Larger differences are found
// from the document.
func (t *talk) addsUp(items []figureItem, assigned []int) {
	value := map[string]float64{}
	where := map[string]int{}
	for n, v := range assigned {
		if v < 0 {
			continue
		}
		if _, ok := value[items[n].key]; !ok {
			value[items[n].key] = items[v].value
			where[items[n].key] = min(items[n].First, items[v].First)
		}
	}
	carbs, ok1 := value["carbs"]
	fibre, ok2 := value["fibre"]
	net, ok3 := value["net"]
	if !ok1 || !ok2 || !ok3 || where["net"] < where["carbs"] || where["net"] < where["fibre"] {
		return
	}
	from := max(where["carbs"], where["fibre"])
	off := math.Abs(net - (carbs - fibre))
	if off < 0.75 || off > 1.5 || t.has(from, where["net"], "so", "leaves", "leaving", "minus", "less", "makes", "which is", "that's") < 0 {
		return
	}
	s := t.sentence(where["net"])
	t.flags = append(t.flags, schema.Flag{Kind: schema.ConflictMacros, Subject: "net carbs",
		Ask:  fmt.Sprintf("Are the net carbs %s g as said, or %s g (%s g of carbs less %s g of fibre)?", num(net), num(carbs-fibre), num(carbs), num(fibre)),
		Said: []schema.Said{t.said(where["net"], s.Last), t.said(min(where["carbs"], where["fibre"]), from+1)}})
}

// figureItems lists the numbers and names of figures in tokens [a, b).
func (t *talk) figureItems(a, b int) []figureItem {
	var out []figureItem
	for i := a; i < b; {
		if key, n := t.figureAt(i); n > 0 {
			out = append(out, figureItem{Span: language.Span{First: i, Last: i + n}, key: key})
			i += n
			continue
		}
		q := t.quantityAt[i]
		if q < 0 || t.quantities[q].First != i || t.quantities[q].Last <= i {
			i++
			continue
		}
		x := &t.quantities[q]
		i = x.Last
		if v, ok := t.figureNumber(x); ok {
			// "one point five grams": two quantities are one number
			if n := len(out); n > 0 && out[n-1].key == "" && out[n-1].Last == x.First-1 && t.norm(x.First-1) == "point" && x.min < 10 && x.min == math.Trunc(x.min) && out[n-1].value < 1000 && out[n-1].value == math.Trunc(out[n-1].value) {
				out[n-1].value += x.min / 10
				out[n-1].Last, out[n-1].of = x.Last, x.of
				continue
			}
			out = append(out, figureItem{Span: x.Span, value: v, of: x.of})
		}
	}
	return out
}

// figureNumber gives the value of a quantity that can be a figure: a bare
// number or grams. Milligrams stay milligrams; only sodium is said in them.
func (t *talk) figureNumber(q *quantity) (float64, bool) {
	if t.norm(q.Last-1) == "percent" {
		return 0, false
	}
	switch q.kind {
	case count:
		return q.min, true
	case money:
		_, n := language.ReadNumber(t.toks, q.First)
		return q.min, n == q.Len()
	case measure:
		return q.min, q.unit == "g"
	}
	return 0, false
}

// figureLinks are words that may stand between a number and the name of its
// figure, whichever comes first.
var figureLinks = words("of grams gram g milligrams milligram mg total net worth in the it that is are which them those from was were come comes coming to at about around roughly only just works work out be will up that's it's says say altogether there's")

// linked reports whether only words that join a number and a name stand in
// tokens [a, b); a mark between is allowed where marks is set.
func (t *talk) linked(a, b int, marks language.Punct) bool {
	if b < a || b-a > 5 || a > 0 && t.written(a-1)&^marks != 0 {
		return false
	}
	for i := a; i < b; i++ {
		if !figureLinks[t.norm(i)] || t.written(i)&^marks != 0 {
			return false
		}
	}
	return true
}

// assignFigures gives for every name the index of its number, -1 for none and
// for numbers, and which numbers were given.
func (t *talk) assignFigures(items []figureItem) (out []int, used []bool) {
	out = make([]int, len(items))
	used = make([]bool, len(items))
	for n := range items {
		out[n] = -1
	}
	// leads reports whether number n is followed by the name it belongs to:
	// surely with "of", else when they stand side by side.
	leads := func(n int) (sure, may bool) {
		if n+1 >= len(items) || items[n].key != "" || items[n+1].key == "" {
			return false, false
		}
		a, b := items[n].Last, items[n+1].First
		if !t.linked(a, b, 0) {
			return false, false
		}
		if items[n].of || t.has(a, b, "of") >= 0 || t.has(max(0, items[n].First-4), items[n].First, "of which", "of that", "of those", "of them") >= 0 {
			return true, true
		}
		return false, t.has(a, b, "is", "are", "to", "come", "comes", "at", "that's", "it's", "was") < 0
	}
	for n := range items {
		if items[n].key == "" {
			continue
		}
		if n > 0 && !used[n-1] {
			if _, may := leads(n - 1); may {
				out[n], used[n-1] = n-1, true
				continue
			}
		}
		if n+1 < len(items) && items[n+1].key == "" && t.linked(items[n].Last, items[n+1].First, language.Comma|language.Colon|language.Dash) {
			if sure, _ := leads(n + 1); !sure {
				out[n], used[n+1] = n+1, true
			}
		}
	}
	return out, used
}

// figureAt names the figure spoken of at i: "net carbs", "total fat", "carbs".
func (t *talk) figureAt(i int) (string, int) {
	w := strings.TrimSuffix(t.norm(i), "'s")
	next := figureWords[strings.TrimSuffix(t.norm(i+1), "'s")]
	switch {
	case w == "net" && next == "carbs":
		return "net", 2
	case w == "net":
		return "net", 1
	case w == "total" && next != "":
		return next, 2
	case w == "saturated" && next == "fat":
		return "saturated", 2
	case (w == "dietary" || w == "added") && next != "":
		return next, 2
	}
	k := figureWords[w]
	if k == "" || t.norm(i+1) == "free" || t.norm(i-1) == "low" || t.norm(i-1) == "full" || t.norm(i-1) == "high" {
		return "", 0
	}
	if k == "fat" && t.norm(i+1) == "bomb" {
		return "", 0
	}
	return k, 1
}

// spokenRatio reads the ratio of fat to protein and net carbohydrate, said near
// the figures: "the ratio is one and a half to one", "a three to one ratio".
func (t *talk) spokenRatio(figuresAt int) (float64, language.Span, bool) {
	for k := range t.sents {
		s := &t.sents[k]
		if i := t.has(s.First, s.Last, "ratio"); i < 0 {
			continue
		}
		of := t.has(s.First, s.Last, "fat", "carbs", "protein", "keto", "ketogenic") >= 0
		if !of && (s.First < figuresAt || s.First-figuresAt > 160) {
			continue
		}
		last := s.Last
		if k+1 < len(t.sents) && t.sents[k+1].para <= s.para+1 {
			last = min(t.sents[k+1].Last, s.Last+16)
		}
		for j := s.First; j < last; j++ {
			v, n := t.decimal(j)
			if n > 0 && t.norm(j+n) == "to" && t.norm(j+n+1) == "one" && t.norm(j+n+2) != "part" {
				return v, language.Span{First: s.First, Last: max(s.Last, j+n+2)}, true
			}
			if n > 0 {
				j += n - 1
			}
		}
	}
	return 0, language.Span{}, false
}

// decimal reads a number at i, also "one point six".
func (t *talk) decimal(i int) (float64, int) {
	num, n := language.ReadSingle(t.toks, i)
	if n == 0 || num.Article {
		return 0, 0
	}
	if t.norm(i+n) == "point" {
		if d, m := language.ReadSingle(t.toks, i+n+1); m > 0 && !d.Article && d.Min < 10 && d.Min == math.Trunc(d.Min) {
			return num.Min + d.Min/10, n + 1 + m
		}
	}
	return num.Min, n
}

// perWhat gives what the figures are of: "slice" of "per slice", "five
// crackers" of "for five crackers"; "serving" where it wasn't said.
func (t *talk) perWhat(a, b int) string {
	for i := max(0, a-12); i < b && i < len(t.toks); i++ {
		w, next := t.norm(i), t.norm(i+1)
		if t.figureName(w) && next == "a" && t.norm(i+2) != "day" {
			// "eighty calories a glass"
			if n := t.perNoun(i + 2); n != "" {
				return n
			}
		}
		lead := w == "per" || w == "each" || (w == "for" || w == "in" || w == "of") && (next == "one" || next == "each" || next == "a" || next == "every")
		if !lead && (w == "for" || w == "per" || t.clauseStart(i)) {
			// "for five crackers", "One cookie is"
			k := i
			if w == "for" || w == "per" {
				k++
			}
			num, n := language.ReadSingle(t.toks, k)
			noun := t.norm(k + n)
			if n > 0 && !num.Fraction && num.Min <= 24 && t.joined(k+n-1) && !t.timed(k) && (num.Min == 1 && t.perThing(noun) || num.Min > 1 && plural(noun)) && !t.figureName(noun) {
				if num.Min == 1 {
					return noun
				}
				return t.phrase(k, k+n+1)
			}
		}
		if !lead {
			continue
		}
		k := i + 1
		if next == "one" || next == "each" || next == "a" || next == "every" {
			k++
		}
		if n := t.perNoun(k); n != "" {
			return n
		}
	}
	if t.yield != nil && t.has(max(0, a-2), min(b+2, len(t.toks)), "each", "apiece", "a piece") >= 0 {
		// "about eighty calories each": of what the dish makes
		if n := lexicon.Singular(lastWord(t.yield.Unit)); n != "" {
			return n
		}
	}
	return "serving"
}

// timed reports whether the number at k is of a time: "for three months".
func (t *talk) timed(k int) bool {
	q := t.quantityAt[k]
	return q >= 0 && t.quantities[q].kind == duration
}

// perNoun gives the word at k when it can be what figures are of.
func (t *talk) perNoun(k int) string {
	n := strings.TrimSuffix(t.norm(k), "'s")
	if n == "" || t.sentOf[k] != t.sentOf[k-1] || t.written(k-1) != 0 || t.figureName(n) || t.quantityAt[k] >= 0 || figureLinks[n] || perVerb[n] {
		return ""
	}
	return n
}

// perVerb follow "each one" where the thing isn't named.
var perVerb = words("has have gets got gives contains holds carries makes then so and you you're you'll i they")

// perThing reports whether the dish is counted in these: "one cookie".
func (t *talk) perThing(w string) bool {
	return peopleWord[w] || peopleWord[w+"s"] || peopleWord[w+"es"] || t.yield != nil && strings.Contains(" "+t.yield.Unit+" ", w)
}

func (t *talk) figureName(w string) bool { return figureWords[w] != "" }

// leavesOutBefore follow the name of what the figures don't count.
var leavesOutBefore = []string{"not counted", "isn't counted", "aren't counted", "isn't in that", "isn't in there", "not in that", "is extra", "are extra", "isn't included", "not included", "isn't in those"}

// leavesOutAfter lead to it.
var leavesOutAfter = []string{"leaving out", "leaves out", "not counting", "doesn't count", "didn't count", "don't count", "without the", "without any", "not including", "doesn't include", "excluding", "minus the", "before the", "before any", "before you add"}

// leavesOut reads what the figures don't count: the foods and mixtures named
// in the same phrase.
func (t *talk) leavesOut(a, b int) []string {
	a = max(0, a)
	lo, hi := -1, -1
	if i := t.hasAny(a, b, leavingAfter); i >= 0 {
		lo, hi = i, min(i+12, t.sentence(i).Last)
		for k := i + 2; k < hi; k++ {
			// a second phrase says its own
			if t.written(k)&language.Comma != 0 && t.norm(k+1) != "and" && t.norm(k+1) != "or" {
				hi = k + 1
			}
		}
	}
	var out []string
	take := func(lo, hi int) {
		for k := lo; k < hi; k++ {
			name := ""
			if m := t.mentionAt[k]; m >= 0 && t.mentions[m].head.First == k {
				name = t.mentions[m].name
				k = t.mentions[m].head.Last - 1
			} else if n := int(t.madeAt[k]); n > 0 {
				name = t.phrase(k, k+n)
				k += n - 1
			}
			if name != "" && !t.figureName(name) && !contains(out, name) {
				out = append(out, name)
			}
		}
	}
	if lo >= 0 {
		take(lo, hi)
		if j := t.hasAny(hi, min(b, hi+16), leavingAfter); j >= 0 {
			take(j, min(j+8, t.sentence(j).Last))
		}
	}
	if i := t.hasAny(a, b, leavingBefore); i >= 0 {
		take(max(t.sentence(i).First, i-6), i)
	}
	return out
}
