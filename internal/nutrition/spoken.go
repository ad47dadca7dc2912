package nutrition

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"quern/schema"
)

// spokenFigure is one figure a cook said, per serving.
type spokenFigure struct {
	name string
	unit string
	v    float64
	half float64 // what rounding may hide: the true figure is within v-half and v+half
	// of gives the figure of some food or dish; ok is false when it is unknown.
	of func(Figures) (float64, bool)
}

// get reads one nutrient.
func get(n Nutrient) func(Figures) (float64, bool) {
	return func(f Figures) (float64, bool) { return f.Get(n) }
}

// spokenFigures lists what was said, in the order of the form.
func spokenFigures(s *schema.SpokenMacros) []spokenFigure {
	var out []spokenFigure
	add := func(v *float64, name, unit string, half func(float64) float64, of func(Figures) (float64, bool)) {
		if v != nil && *v >= 0 && !math.IsInf(*v, 0) && !math.IsNaN(*v) {
			out = append(out, spokenFigure{name: name, unit: unit, v: *v, half: half(*v), of: of})
		}
	}
	add(s.Kcal, "kcal", "kcal", halfOfLarge, get(Kcal))
	add(s.FatG, "fat", "g", halfOfGrams, get(Fat))
	add(s.SaturatedG, "saturated fat", "g", halfOfGrams, get(Saturated))
	add(s.ProteinG, "protein", "g", halfOfGrams, get(Protein))
	add(s.CarbsG, "carbohydrate", "g", halfOfGrams, get(Carbs))
	add(s.FibreG, "fibre", "g", halfOfGrams, get(Fibre))
	add(s.NetCarbsG, "net carbohydrate", "g", halfOfGrams, func(f Figures) (float64, bool) { return f.NetCarbs() })
	add(s.SugarG, "sugar", "g", halfOfGrams, get(Sugars))
	add(s.SodiumMg, "sodium", "mg", halfOfLarge, get(Sodium))
	return out
}

// halfOfLarge is what rounding hides in kcal and milligrams: a multiple of ten
// is said to the nearest ten, another of five to the nearest five, any other to
// the nearest one. Common practice.
func halfOfLarge(v float64) float64 {
	switch {
	case math.Mod(v, 10) == 0:
		return 5
	case math.Mod(v, 5) == 0:
		return 2.5
	}
	return 0.5
}

// halfOfGrams is what rounding hides in grams: a whole number is said to the
// nearest gram, a half to the nearest half, any other to the nearest tenth.
// Common practice.
func halfOfGrams(v float64) float64 {
	switch {
	case math.Mod(v, 1) == 0:
		return 0.5
	case math.Mod(v, 0.5) == 0:
		return 0.25
	}
	return 0.05
}

// Conflict is two figures that can't both hold.
type Conflict struct {
	Subject string // what they are about: "net carbohydrate"
	Ask     string // one question, with both sums
}

// factorsOff is how far spoken kcal may be from 4-4-9 of the spoken grams before
// they are asked about: foods' own energy factors differ from the general ones
// by up to a fifth in a mixed dish, mostly through fibre. Common practice.
const factorsOff = 0.20

// InternalConflicts checks the spoken figures against each other: net
// carbohydrate against total less fibre, energy against 4-4-9, the ratio, and
// parts against the whole. polyols tells that the recipe has sugar alcohols or
// allulose, which net carbohydrate may leave out; alcohol that it has alcohol,
// whose energy nobody says in grams. A difference that rounding explains is none.
func InternalConflicts(s *schema.SpokenMacros, polyols, alcohol bool) []Conflict {
	if s == nil {
		return nil
	}
	var out []Conflict
	if s.NetCarbsG != nil && s.CarbsG != nil && s.FibreG != nil {
		net, total, fibre := *s.NetCarbsG, *s.CarbsG, *s.FibreG
		slack := halfOfGrams(net) + halfOfGrams(total) + halfOfGrams(fibre)
		diff := net - (total - fibre)
		if diff > slack+tiny || !polyols && diff < -slack-tiny {
			out = append(out, Conflict{"net carbohydrate", fmt.Sprintf("Is the net carbohydrate %s g as said, or %s g (%s g in all less %s g of fibre)?",
				number(net), number(math.Max(0, total-fibre)), number(total), number(fibre))})
		}
	}
	if c, ok := energyConflict(s, polyols, alcohol); ok {
		out = append(out, c)
	}
	parts := []struct {
		part, whole *float64
		name, of    string
	}{{s.SaturatedG, s.FatG, "saturated fat", "fat"}, {s.FibreG, s.CarbsG, "fibre", "carbohydrate"}, {s.SugarG, s.CarbsG, "sugar", "carbohydrate"},
		{s.NetCarbsG, s.CarbsG, "net carbohydrate", "carbohydrate"}}
	for _, p := range parts {
		if p.part == nil || p.whole == nil {
			continue
		}
		if *p.part-halfOfGrams(*p.part) > *p.whole+halfOfGrams(*p.whole)+tiny {
			out = append(out, Conflict{p.name, fmt.Sprintf("%s was said as %s g but the %s it is part of as %s g: which is right?",
				capital(p.name), number(*p.part), p.of, number(*p.whole))})
		}
	}
	if c, ok := ratioConflict(s); ok {
		out = append(out, c)
	}
	return out
}

// tiny keeps sums of decimals from tripping a check.
const tiny = 1e-9

// energyConflict compares kcal with 4-4-9. The least is counted without fibre
// and sugar alcohols, the most with all carbohydrate; a figure not said counts
// as nought in the least and leaves the most open.
func energyConflict(s *schema.SpokenMacros, polyols, alcohol bool) (Conflict, bool) {
	if s.Kcal == nil || *s.Kcal <= 0 {
		return Conflict{}, false
	}
	least, most, complete := 0.0, 0.0, true
	add := func(v *float64, factor float64) {
		if v == nil {
			complete = false
			return
		}
		h := halfOfGrams(*v)
		least += factor * math.Max(0, *v-h)
		most += factor * (*v + h)
	}
	add(s.ProteinG, 4)
	add(s.FatG, 9)
	sum, said := 0.0, 0
	for _, p := range []struct {
		v *float64
		f float64
	}{{s.ProteinG, 4}, {s.FatG, 9}} {
		if p.v != nil {
			sum += p.f * *p.v
			said++
		}
	}
	switch {
	case s.CarbsG != nil:
		c := *s.CarbsG
		most += 4 * (c + halfOfGrams(c))
		low := c - halfOfGrams(c)
		if s.NetCarbsG != nil {
			low = math.Min(low, *s.NetCarbsG-halfOfGrams(*s.NetCarbsG))
		}
		if s.FibreG != nil {
			low = math.Min(low, c-halfOfGrams(c)-*s.FibreG-halfOfGrams(*s.FibreG))
		}
		if !polyols {
			least += 4 * math.Max(0, low)
		}
		sum += 4 * c
		said++
	case s.NetCarbsG != nil:
		least += 4 * math.Max(0, *s.NetCarbsG-halfOfGrams(*s.NetCarbsG))
		sum += 4 * *s.NetCarbsG
		said++
		// Fibre is on top, at 2 kcal a gram by general factors: left open.
		complete = false
	default:
		complete = false
	}
	if said == 0 {
		return Conflict{}, false
	}
	h := halfOfLarge(*s.Kcal)
	low, high := *s.Kcal-h, *s.Kcal+h
	tooMany := least > high*(1+factorsOff)+tiny
	tooFew := complete && !alcohol && most < low*(1-factorsOff)-tiny
	if !tooMany && !tooFew {
		return Conflict{}, false
	}
	return Conflict{"kcal", fmt.Sprintf("Are there %s kcal as said, or about %s (4 a gram of protein and carbohydrate, 9 of fat)?",
		number(*s.Kcal), number(math.Round(sum)))}, true
}

// ratioConflict compares a spoken ratio with fat to protein plus net
// carbohydrate.
func ratioConflict(s *schema.SpokenMacros) (Conflict, bool) {
	if s.Ratio == nil || s.FatG == nil || s.ProteinG == nil {
		return Conflict{}, false
	}
	net, half := 0.0, 0.0
	switch {
	case s.NetCarbsG != nil:
		net, half = *s.NetCarbsG, halfOfGrams(*s.NetCarbsG)
	case s.CarbsG != nil && s.FibreG != nil:
		net, half = math.Max(0, *s.CarbsG-*s.FibreG), halfOfGrams(*s.CarbsG)+halfOfGrams(*s.FibreG)
	default:
		return Conflict{}, false
	}
	hf, hp, hr := halfOfGrams(*s.FatG), halfOfGrams(*s.ProteinG), halfOfGrams(*s.Ratio)
	den := *s.ProteinG + net
	if den <= 0 {
		return Conflict{}, false
	}
	least := math.Max(0, *s.FatG-hf) / (den + hp + half)
	most := math.Inf(1)
	if d := den - hp - half; d > 0 {
		most = (*s.FatG + hf) / d
	}
	if *s.Ratio+hr >= least-tiny && *s.Ratio-hr <= most+tiny {
		return Conflict{}, false
	}
	return Conflict{"ratio", fmt.Sprintf("Is the ratio %s to 1 as said, or %s to 1 (%s g of fat to %s g of protein and net carbohydrate)?",
		number(*s.Ratio), number(*s.FatG/den), number(*s.FatG), number(den))}, true
}

// Comparison is one spoken figure beside what the amounts give for it.
type Comparison struct {
	Name   string  // "kcal", "net carbohydrate", "ratio"
	Unit   string  // "kcal", "g" or "mg"; "" for the ratio
	Said   float64 // as spoken
	Least  float64 // what the amounts give at least
	Most   float64 // and at most; +Inf where they only give a lower bound
	Agrees bool    // what was said, within its rounding, meets what the amounts give
}

// Compare sets each spoken figure beside what the amounts of one way give for
// the same serving. What was said is that within its rounding; what the amounts
// give is an interval where the words leave room: ranges, "about", things that
// come in sizes when none was said, a yield that is a range, and optional things,
// which may have been counted or not. Where something is not counted, or has no
// figure, the amounts give a lower bound, which what was said must reach and may
// exceed. It is nil where nothing was said, or said for another serving than the
// yield's; a figure that can't be compared at all is left out.
func Compare(s *schema.SpokenMacros, t *Tally) []Comparison {
	if s == nil {
		return nil
	}
	few, most, ok := t.servingsOf(s.Per)
	if !ok {
		return nil
	}
	if t.aboutServed && t.Servings > 0 && few == t.FewServed {
		few, most = few*(1-aboutShare), most*(1+aboutShare)
	}
	low, high := divided(t.lowest, most), divided(t.highest, few)
	var out []Comparison
	add := func(c Comparison, half float64) {
		c.Agrees = c.Said+half >= c.Least-tiny && c.Said-half <= c.Most+tiny
		out = append(out, c)
	}
	for _, said := range spokenFigures(s) {
		n, isNet := spokenNutrients[said.name], said.name == "net carbohydrate"
		if isNet && (len(t.Unknown[Fibre]) > 0 || len(t.Unknown[NotAbsorbed]) > 0) {
			// Without its fibre net carbohydrate has not even a lower bound.
			continue
		}
		c := Comparison{Name: said.name, Unit: said.unit, Said: said.v}
		c.Least, _ = said.of(low)
		c.Most, _ = said.of(high)
		if t.open[n] || isNet && (t.open[Fibre] || t.open[NotAbsorbed]) {
			c.Most = math.Inf(1)
		}
		add(c, said.half)
	}
	if s.Ratio == nil || *s.Ratio < 0 || t.open[Fat] || t.open[Protein] || t.open[Carbs] || t.open[Fibre] || t.open[NotAbsorbed] {
		return out
	}
	netLow, _ := low.NetCarbs()
	netHigh, _ := high.NetCarbs()
	if den := high[Protein] + netHigh; den > 0 {
		c := Comparison{Name: "ratio", Said: *s.Ratio, Least: low[Fat] / den, Most: math.Inf(1)}
		if den := low[Protein] + netLow; den > 0 {
			c.Most = high[Fat] / den
		}
		add(c, halfOfGrams(*s.Ratio))
	}
	return out
}

// spokenNutrients are the columns of the table a spoken figure is of.
var spokenNutrients = map[string]Nutrient{"kcal": Kcal, "fat": Fat, "saturated fat": Saturated, "protein": Protein, "carbohydrate": Carbs,
	"fibre": Fibre, "net carbohydrate": Carbs, "sugar": Sugars, "sodium": Sodium}

// Differences are the spoken figures that no way of the dish bears out, each
// beside what the nearest way gives.
func Differences(s *schema.SpokenMacros, ways []*Tally) []Comparison {
	var names []string
	nearest := map[string]Comparison{}
	against := map[string]int{} // ways that don't bear it out
	for _, t := range ways {
		for _, c := range Compare(s, t) {
			old, known := nearest[c.Name]
			if !known {
				names = append(names, c.Name)
			}
			if !known || c.off() < old.off() {
				nearest[c.Name] = c
			}
			if !c.Agrees {
				against[c.Name]++
			}
		}
	}
	var out []Comparison
	for _, name := range names {
		// A way that can't tell may bear the figure out.
		if against[name] == len(ways) {
			out = append(out, nearest[name])
		}
	}
	return out
}

// off is how far what was said is from what the amounts give.
func (c Comparison) off() float64 { return math.Max(c.Least-c.Said, c.Said-c.Most) }

// SaidText writes the figure as it was said: "12 g of fat".
func (c Comparison) SaidText() string { return c.text(exactly(c.Said)) }

// Given writes what the amounts give: "276 kcal", "20.3 to 22.1 g of fat", "at
// least 13.1 g of carbohydrate".
func (c Comparison) Given() string {
	least := c.shown(math.Floor, c.Least)
	switch {
	case math.IsInf(c.Most, 1):
		return "at least " + c.text(least)
	case c.shown(math.Round, c.Least) == c.shown(math.Round, c.Most):
		return c.text(c.shown(math.Round, c.Most))
	}
	return c.text(least + " to " + c.shown(math.Ceil, c.Most))
}

func (c Comparison) text(figure string) string {
	switch {
	case c.Name == "ratio":
		return "a fat ratio of " + figure + " to 1"
	case c.Unit == c.Name:
		return figure + " " + c.Unit
	}
	return figure + " " + c.Unit + " of " + c.Name
}

// shown rounds to what the document keeps: kcal and milligrams to 1, grams to
// 0.1, the ratio to 0.01. The ends of an interval are rounded outwards.
func (c Comparison) shown(to func(float64) float64, v float64) string {
	p := 10.0
	switch {
	case c.Name == "ratio":
		p = 100
	case c.Unit != "g":
		p = 1
	}
	return exactly(to(round(v*p, 6)) / p)
}

// exactly writes a number with all its digits.
func exactly(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// DifferenceAsk puts the figures that differ in one question, with both sums.
// per is what they were said for.
func DifferenceAsk(per string, all []Comparison) string {
	var said, given []string
	for _, c := range all {
		said, given = append(said, c.SaidText()), append(given, c.Given())
	}
	return fmt.Sprintf("Does %s have %s as said, or %s as the amounts give?", servingText(per), andList(said), andList(given))
}

// servingText names what spoken figures are for.
func servingText(per string) string {
	words := strings.Fields(strings.ToLower(per))
	if len(words) == 0 {
		return "one serving"
	}
	switch last := words[len(words)-1]; last {
	case "recipe", "batch", "lot":
		return "the whole " + last
	case "whole", "all", "total":
		return "the whole recipe"
	case "one", "each", "person", "head":
		return "one serving"
	}
	return "one " + strings.Join(words, " ")
}

// andList writes a list as a sentence does.
func andList(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " and " + all[len(all)-1]
}

func divided(f Figures, by float64) Figures {
	for n := range f {
		f[n] /= by
	}
	return f
}

// servingsOf gives the least and the most of what the spoken figures are per:
// the yield when they are per serving or per one of what it counts, 1 when they
// are for the whole recipe. ok is false when they can't be matched.
func (t *Tally) servingsOf(per string) (few, most float64, ok bool) {
	words := normal(per)
	last := ""
	if len(words) > 0 {
		last = words[len(words)-1]
	}
	switch last {
	case "recipe", "batch", "whole", "lot", "all", "total":
		return 1, 1, true
	}
	if t.Servings <= 0 {
		return 0, 0, false
	}
	switch last {
	case "", "serving", "portion", "piece", "one", "each", "person", "head", "helping":
		return t.FewServed, t.MostServed, true
	}
	unit := strings.Fields(t.Per)
	if len(unit) > 0 && singular(unit[len(unit)-1]) == last {
		return t.FewServed, t.MostServed, true
	}
	return 0, 0, false
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
