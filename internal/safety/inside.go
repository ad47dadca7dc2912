package safety

import (
	"fmt"
	"slices"
	"strings"

	"quern/schema"
)

// minimums are the least internal temperatures, degrees Fahrenheit: USDA FSIS,
// Safe Minimum Internal Temperature Chart. The chart's Celsius figures are
// printed with them.
var minimums = map[string]struct {
	f       float64
	written string
}{
	"poultry":     {165, "165 F (74 C)"},
	"ground meat": {160, "160 F (71 C)"},
	"whole meat":  {145, "145 F (63 C)"},
	"fish":        {145, "145 F (63 C)"},
}

// minimumSource is the page the minimums are from.
const minimumSource = "USDA FSIS, Safe Minimum Internal Temperature Chart"

// Low is an inside temperature said for a food that is below the published one.
type Low struct {
	Food   string        // name of the ingredient
	Told   string        // the temperature as the document writes it: 130 F
	Least  string        // the published minimum in both scales: 145 F (63 C)
	Source string        // of the minimum
	Said   []schema.Said // the step's first moment
}

// Ask returns the question to put to a person, with both figures.
func (l Low) Ask() string {
	return fmt.Sprintf("%s %s, below the published minimum of %s?", lowQuestion(l.Food), l.Told, l.Least)
}

func lowQuestion(food string) string { return "Should the inside of the " + food + " come to" }

// AsksLow tells whether a question is one that Low.Ask gives for a food.
func AsksLow(ask, food string) bool { return strings.HasPrefix(ask, lowQuestion(food)+" ") }

// LowTemperatures returns the inside temperatures said that are below the
// published minimum of the food, in the order of minimum kinds and then of the
// steps.
func LowTemperatures(doc *schema.Document) []Low { return read(doc).LowTemperatures() }

// LowTemperatures does what the function of that name does for the document
// that was read.
func (d *dish) LowTemperatures() []Low {
	if !slices.ContainsFunc(d.stages, func(s stage) bool { return len(s.Temperature) > 0 }) {
		return nil
	}
	var out []Low
	for _, kind := range []string{"poultry", "ground meat", "whole meat", "fish"} {
		foods := d.cookedOf(kind)
		if len(foods) == 0 {
			continue
		}
		told, said := d.insideBelow(kind, foods)
		for i := range told {
			out = append(out, Low{Food: foods[0].Name, Told: told[i], Least: minimums[kind].written, Source: minimumSource, Said: said[i]})
		}
	}
	return out
}

// cookedOf returns the foods the minimum of a kind is about.
func (d *dish) cookedOf(kind string) []food {
	switch kind {
	case "ground meat":
		return d.meant(d.groundMeats())
	case "whole meat":
		return d.meant(d.wholeMeats())
	case "fish":
		return d.meant(d.cookedFish())
	}
	return d.meant(d.of(kind))
}

// asked tells whether an open flag asks about the inside temperature of foods:
// one of this package's questions, or a contradiction about a temperature that
// is below the minimum, beside which the minimum is shown.
func (d *dish) asked(kind string, foods []food) bool {
	foods = d.meant(foods)
	if len(foods) == 0 {
		return false
	}
	told, _ := d.insideBelow(kind, foods)
	return len(told) > 0 && slices.ContainsFunc(d.doc.Flags, func(f schema.Flag) bool {
		return f.Kind == schema.ConflictTemperature && f.Settled == "" &&
			(AsksLow(f.Ask, foods[0].Name) || slices.ContainsFunc(told, func(t string) bool { return About(f, t) }))
	})
}

// About tells whether a flag's question names a temperature as written.
func About(f schema.Flag, temperature string) bool {
	return strings.Contains(spaced(f.Ask), strings.TrimSuffix(spaced(temperature), "| "))
}

// meant leaves out a meat or fish that was only talked about: one that no step,
// title, part or keeping time names, and that either has no amount or goes into
// no step that handles meat.
func (d *dish) meant(foods []food) []food {
	var out []food
	for _, f := range foods {
		if d.means(f) {
			out = append(out, f)
		}
	}
	return out
}

func (d *dish) means(f food) bool {
	told := f.Amount != nil || f.SecondAmount != nil || f.Size != nil || f.Vague != "" || f.Preparation != ""
	return d.named(f) || told && (f.is("poultry") || f.ground() || d.handled(f))
}

var handles = words("trim|cut|slice|dice|pat|season|salt|rub|marinate|coat|dredge|flour|dry|brush|tie|score|skin|bone|lay|place|put|take")

// handled tells whether a step that uses the food cooks it or makes it ready.
func (d *dish) handled(f food) bool {
	return slices.ContainsFunc(d.stages, func(s stage) bool { return s.uses(f.ID) && (s.cooks() || s.does(handles)) })
}

func (d *dish) named(f food) bool {
	if len(d.stages) == 0 {
		return true
	}
	for _, name := range append([]string{f.Name}, f.AlsoCalled...) {
		for _, w := range fold(name) {
			if len(w) > 2 && d.saysWord(w) {
				return true
			}
		}
	}
	return slices.ContainsFunc([]string{"poultry", "ground meat", "whole meat", "fish"}, func(c string) bool { return f.is(c) && d.toldOf[c] })
}

// cooked makes the finding of a least temperature. A said inside temperature
// below the published one is added with both figures.
func cooked(d *dish, kind string, foods []food) (finding, bool) {
	foods = d.meant(foods)
	f, ok := seen(foods...)
	if !ok {
		return f, false
	}
	told, said := d.insideBelow(kind, foods)
	if len(told) > 0 {
		f.adds = append(f.adds, fmt.Sprintf("Said here: %s; the published minimum is %s.", strings.Join(told, ", "), minimums[kind].written))
		f.said = append(f.said, slices.Concat(said...)...)
	}
	return f, true
}

var (
	insideWords = words("inside|internal|thermometer|thickest|thick part|middle|centre|center|probe|pull|reads|reading|reach|medium rare|rare|core|rest")
	ovenWords   = words("oven|preheat|grate|smoker|lid of the grill|grill is|heat the grill|oil|water|bath|dough|butter|sugar|syrup|fridge|refrigerator|milk|yeast|cream|custard")
	restWords   = words("rest|stand|climb|carry over")
	heldWarm    = words("keep warm|keep it warm|keep them warm|hold|sous vide|sous-vide|warm through|reheat")
	dryHeat     = words("grill|roast|sear|fry|pan-fry|smoke|barbecue|griddle|broil|bake|braai|pull|take|lift|rest|cook|check")
)

// boiling is the temperature of boiling water at sea level, degrees Fahrenheit.
const boiling = 212

// Below 90 F is the room or the refrigerator, not cooking; no oven is set below
// 110 F to cook meat, so a figure from there to the minimum, in a step that
// cooks, is the food's inside. Degrees Fahrenheit; common practice.
const (
	notARoom   = 90
	notAnOven  = 110
	roundingUp = 0.9 // of a spoken pair: 63 C is 145.4 F and 74 C 165.2 F
)

func round(f float64) int { return int(f + roundingUp) }

// inside returns the inside temperatures said for these foods, each with its
// step. A step about no food of the document counts where these foods are its
// only meat or fish.
func (d *dish) inside(kind string, foods []food, each func(step int, q schema.Quantity, f float64)) {
	others := false
	these := map[*schema.Ingredient]bool{}
	for _, f := range foods {
		these[f.Ingredient] = true
	}
	for k := range minimums {
		if k != kind && slices.ContainsFunc(d.of(k), func(g food) bool { return !these[g.Ingredient] && d.means(g) }) {
			others = true
		}
	}
	ids := used(foods)
	for i, s := range d.stages {
		if len(s.Temperature) == 0 {
			continue
		}
		about := s.names(kind) || s.usesAny(ids)
		told := insideWords.in(s.own) || insideWords.in(s.quotes())
		heated := s.does(dryHeat) && !ovenWords.in(s.own)
		if !about && (others || !told && !heated || s.names("poultry", "ground meat", "whole meat", "fish", "soft dairy", "flour", "sugar")) ||
			!told && (ovenWords.in(s.own) || s.does(inOven) && !heated) || heldWarm.in(s.own) {
			continue
		}
		for _, q := range s.Temperature {
			v, ok := schema.Fahrenheit(q.Max, q.Unit)
			if ok && q.Vague == "" && v >= notARoom && v < boiling && (told || v >= notAnOven) {
				each(i, q, v)
			}
		}
	}
}

// insideBelow returns, as written and each once, the inside temperatures of
// these foods that are below the least one, with the moments of their steps.
// One that climbs to the figure while resting is not below it.
func (d *dish) insideBelow(kind string, foods []food) (told []string, said [][]schema.Said) {
	least := minimums[kind].f
	reaches := func(i int) bool {
		return i < len(d.stages) && slices.ContainsFunc(d.stages[i].degrees(), func(v float64) bool { return v >= least && v < boiling })
	}
	d.inside(kind, foods, func(i int, q schema.Quantity, v float64) {
		if round(v) >= round(least) || reaches(i) || i+1 < len(d.stages) && restWords.in(d.stages[i+1].own) && reaches(i+1) {
			return
		}
		if text := q.String(); !slices.Contains(told, text) {
			told, said = append(told, text), append(said, firstSaid(d.stages[i].Said))
		}
	})
	return told, said
}
