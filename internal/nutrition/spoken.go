package nutrition

import (
	"fmt"
	"math"
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

// computedOff is how far the recipe's own figures may be from spoken ones beyond
// rounding before they are asked about: tables of foods differ by this much for
// the same food. Common practice; 21 CFR 101.9(g)(5) allows a label 20%.
const computedOff = 0.10

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

// ComputedConflicts compares the spoken figures with what the amounts give, for
// complete tallies of the same serving, one for each way: a figure that one way
// bears out is no conflict.
func ComputedConflicts(s *schema.SpokenMacros, ways []*Tally) []Conflict {
	if s == nil || len(ways) == 0 {
		return nil
	}
	var out []Conflict
	for _, said := range spokenFigures(s) {
		var nearest *float64
		agrees := false
		for _, t := range ways {
			few, most, ok := t.servingsOf(s.Per)
			if !t.Complete || !ok {
				agrees = true
				break
			}
			lo, okLo := said.of(divided(t.Least, most))
			hi, okHi := said.of(divided(t.Most, few))
			if !okLo || !okHi || unknownIn(t, said) {
				agrees = true
				break
			}
			if hi < lo {
				lo, hi = hi, lo
			}
			slack := said.half + computedOff*math.Max(said.v, hi)
			if said.v >= lo-slack-tiny && said.v <= hi+slack+tiny {
				agrees = true
				break
			}
			v := (lo + hi) / 2
			if nearest == nil || math.Abs(v-said.v) < math.Abs(*nearest-said.v) {
				nearest = &v
			}
		}
		if agrees || nearest == nil {
			continue
		}
		unit := " " + said.unit
		if said.name == "kcal" {
			unit = ""
		}
		out = append(out, Conflict{said.name, fmt.Sprintf("Is the %s %s%s as said, or %s%s as the amounts give?",
			said.name, number(said.v), unit, figureText(*nearest), unit)})
	}
	return out
}

// unknownIn tells that some ingredient has no figure for what was said.
func unknownIn(t *Tally, said spokenFigure) bool {
	names := map[string][]Nutrient{"saturated fat": {Saturated}, "fibre": {Fibre}, "net carbohydrate": {Fibre}, "sugar": {Sugars}, "sodium": {Sodium}}
	for _, n := range names[said.name] {
		if len(t.Unknown[n]) > 0 {
			return true
		}
	}
	return false
}

// figureText writes a computed figure as a cook would say it.
func figureText(v float64) string {
	if v >= 10 {
		return number(math.Round(v))
	}
	return number(round(v, 1))
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
