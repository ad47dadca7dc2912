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

// findMacros reads the figures the cook gave. A number before a word of
// figures belongs to it ("six grams of fat"), or after it ("net carbs is six").
func (t *talk) findMacros() {
	sp := &schema.SpokenMacros{}
	got := map[string]float64{}
	var from, to = -1, -1
	for k := range t.sents {
		s := &t.sents[k]
		near := s.kind == figures || k > 0 && t.sents[k-1].kind == figures && t.sents[k-1].para == s.para
		if !near {
			continue
		}
		used := map[int]bool{}
		for i := s.First; i < s.Last; i++ {
			key, n := t.figureAt(i, s)
			if n == 0 {
				continue
			}
			v, at, ok := t.figureValue(s, i, i+n, used)
			if !ok {
				i += n - 1
				continue
			}
			if _, had := got[key]; !had {
				got[key] = v
				used[at] = true
				if from < 0 {
					from = s.First
				}
				to = s.Last
			}
			i += n - 1
		}
		if i := t.has(s.First, s.Last, "ratio"); i >= 0 {
			for j := s.First; j < s.Last; j++ {
				num, n := language.ReadNumber(t.toks, j)
				if n > 0 && t.norm(j+n) == "to" && t.norm(j+n+1) == "one" {
					got["ratio"] = num.Min
					if from < 0 {
						from = s.First
					}
					to = s.Last
				}
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

// figureAt names the figure spoken of at i: "net carbs", "total fat", "carbs".
func (t *talk) figureAt(i int, s *sentence) (string, int) {
	w := t.norm(i)
	if w == "net" {
		if k := figureWords[t.norm(i+1)]; k == "carbs" {
			return "net", 2
		}
		return "net", 1
	}
	if w == "total" && figureWords[t.norm(i+1)] != "" {
		return figureWords[t.norm(i+1)], 2
	}
	if w == "saturated" && t.norm(i+1) == "fat" {
		return "saturated", 2
	}
	if k := figureWords[w]; k != "" {
		if t.norm(i+1) == "free" || t.norm(i-1) == "low" || t.norm(i-1) == "full" {
			return "", 0
		}
		return k, 1
	}
	return "", 0
}

// figureValue finds the number for the figure word at [i, j): before it with
// "grams of" between, or after it.
func (t *talk) figureValue(s *sentence, i, j int, used map[int]bool) (float64, int, bool) {
	// before: "six grams of fat", "a hundred and ten calories", "twelve of carbohydrate", "five of that is sugar"
	for k := i - 1; k >= s.First && k >= i-9; k-- {
		q := t.quantityAt[k]
		if q < 0 {
			if figureWords[t.norm(k)] != "" || t.norm(k) == "and" && k < i-2 {
				break
			}
			if t.toks[k].After != 0 && k < i-1 && t.toks[k].After&^language.Comma != 0 {
				break
			}
			continue
		}
		qq := &t.quantities[q]
		if used[qq.First] || qq.kind == duration || qq.kind == vague {
			break
		}
		if t.takenAfter(s, qq) {
			break
		}
		return qq.min, qq.First, true
	}
	for k := j; k < s.Last && k < j+5; k++ {
		q := t.quantityAt[k]
		if q >= 0 && t.quantities[q].First == k {
			qq := &t.quantities[q]
			if used[qq.First] || qq.kind == duration || qq.kind == vague {
				return 0, 0, false
			}
			// "carbs twelve grams, fibre four": but "carbs, six grams of fat" is the next one's
			if qq.of || figureWords[t.norm(qq.Last)] != "" {
				return 0, 0, false
			}
			return qq.min, qq.First, true
		}
		if figureWords[t.norm(k)] != "" {
			return 0, 0, false
		}
	}
	return 0, 0, false
}

// takenAfter reports whether the number belongs to the figure word before it.
func (t *talk) takenAfter(s *sentence, q *quantity) bool {
	k := q.First - 1
	if k < s.First || figureWords[t.norm(k)] == "" && t.norm(k) != "is" && t.norm(k) != "are" {
		return false
	}
	return !q.of && t.toks[q.Last-1].After != 0
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
