package extract

import (
	"strings"

	"quern/internal/language"
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
	from, to := -1, -1
	keep := func(s language.Span) {
		if from < 0 {
			from = s.First
		}
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
		for n, v := range t.assignFigures(items) {
			if v < 0 {
				continue
			}
			key := items[n].key
			if _, had := got[key]; had && t.slipBetween(at[key], items[n].First) < 0 {
				continue
			}
			got[key], at[key] = items[v].value, items[n].Last
			keep(t.sentence(items[n].First).Span)
		}
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
	sp.Per = t.perWhat(from, to)
	sp.LeavesOut = t.leavesOut(from, min(len(t.toks), to+24))
	sp.Said = []schema.Said{t.said(from, to)}
	t.spoken = sp
	t.because("spoken macros", from, to, "figures sentence")
}

// goesOnWithFigures reports whether sentence k goes on with the figures of the
// one before: more of them, with nothing to cook in it.
func (t *talk) goesOnWithFigures(k int) bool {
	s := &t.sents[k]
	if s.kind == figures {
		return true
	}
	return s.para == t.sents[k-1].para && s.kind == plain && len(t.actionsIn(s)) == 0 && s.Len() <= 24
}

// slipBetween gives where the speaker takes something back between two tokens,
// -1 where nothing is taken back.
func (t *talk) slipBetween(a, b int) int {
	return t.has(a, b, "sorry", "no wait", "wait no", "i mean", "make that", "scratch that", "correction", "i meant", "tell a lie", "my mistake", "not that", "no no", "let me check", "misread", "read that wrong", "said that wrong")
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
		if q < 0 || t.quantities[q].First != i {
			i++
			continue
		}
		x := &t.quantities[q]
		i = x.Last
		if v, ok := t.figureNumber(x); ok {
			// "one point five grams": two quantities are one number
			if n := len(out); n > 0 && out[n-1].key == "" && out[n-1].Last == x.First-1 && t.norm(x.First-1) == "point" && x.min < 10 {
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
	if q.void || t.norm(q.Last-1) == "percent" {
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
	if b < a || b-a > 5 || a > 0 && t.toks[a-1].After&^marks != 0 {
		return false
	}
	for i := a; i < b; i++ {
		if !figureLinks[t.norm(i)] || t.toks[i].After&^marks != 0 {
			return false
		}
	}
	return true
}

// assignFigures gives for every name the index of its number, -1 for none;
// numbers get -1.
func (t *talk) assignFigures(items []figureItem) []int {
	out := make([]int, len(items))
	used := make([]bool, len(items))
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
	return out
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
		if k+1 < len(t.sents) && t.sents[k+1].para == s.para {
			last = min(t.sents[k+1].Last, s.Last+16)
		}
		for j := s.First; j < last; j++ {
			v, n := t.decimal(j)
			if n > 0 && t.norm(j+n) == "to" && t.norm(j+n+1) == "one" && t.norm(j+n+2) != "part" {
				return v, s.Span, true
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
		if d, m := language.ReadSingle(t.toks, i+n+1); m > 0 && !d.Article && d.Min < 10 {
			return num.Min + d.Min/10, n + 1 + m
		}
	}
	return num.Min, n
}

func (t *talk) perWhat(a, b int) string {
	lo := max(0, a-12)
	for i := lo; i < b && i < len(t.toks); i++ {
		w := t.norm(i)
		if w == "per" || (w == "for" && (t.norm(i+1) == "one" || t.norm(i+1) == "each" || t.norm(i+1) == "a")) || w == "each" || w == "a" && i > 0 && macroWords[t.norm(i-1)] || w == "in" && t.norm(i+1) == "one" || w == "in" && t.norm(i+1) == "each" {
			k := i + 1
			if t.norm(k) == "one" || t.norm(k) == "each" || t.norm(k) == "a" {
				k++
			}
			if n := t.norm(k); n != "" && !figureWordsHas(n) && t.quantityAt[min(k, len(t.toks)-1)] < 0 {
				return strings.TrimSuffix(n, "'s")
			}
		}
	}
	return "serving"
}

func figureWordsHas(w string) bool { return figureWords[w] != "" }

// leavesOut reads what the figures don't count.
func (t *talk) leavesOut(a, b int) []string {
	var out []string
	i := t.has(max(0, a), b, "leaving out", "not counting", "not counted", "doesn't count", "didn't count", "without the", "not including", "doesn't include", "before the", "isn't counted", "isn't in that", "excluding", "leaves out", "minus the", "not in that")
	if i < 0 {
		return nil
	}
	s := t.sentence(i)
	for _, m := range t.mentionsIn(s.First, s.Last) {
		if n := t.mentions[m].food.Name; figureWords[n] == "" && !contains(out, n) {
			out = append(out, t.mentions[m].name)
		}
	}
	for k := s.First; k < s.Last; k++ {
		if n := int(t.madeAt[k]); n > 0 && !contains(out, t.phrase(k, k+n)) && len(out) == 0 {
			out = append(out, t.phrase(k, k+n))
		}
	}
	return out
}
