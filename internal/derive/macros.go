package derive

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"quern/internal/nutrition"
	"quern/schema"
)

// macros works out each ingredient's food and grams and the computed macros,
// refreshes the conflicts between macros, and puts beside each open question
// for an amount what the spoken figures allow for it. An ingredient whose food
// is not in the table, and for which nobody named one that is, keeps an empty
// Food, from which the food-unknown flag follows.
func macros(doc *schema.Document, own *nutrition.Own) {
	answered := answeredFoods(doc)
	scale := nutrition.ReadScale(doc, own)
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		ing.Grams = nil
		f, ok := scale.Food(i)
		g, err := scale.Grams(i)
		if name := answered[ing.Name]; !ok && name != "" {
			if f, ok = nutrition.Find(name, own); ok {
				g, err = nutrition.Grams(f, ing, doc.Measures)
				ing.Food = f.Key
				scale.Weigh(i)
			}
		}
		if !ok {
			ing.Food = ""
			continue
		}
		ing.Food = f.Key
		if err == nil {
			ing.Grams = &g
		}
	}
	tallies := scale.Ways()
	setComputed(doc, tallies)
	macrosFlags(doc, own, tallies)
	amountEvidence(doc, tallies[0])
}

// answeredFoods gives, for each ingredient that the table does not know, the food
// a person named when asked which comes nearest to it.
func answeredFoods(doc *schema.Document) map[string]string {
	var m map[string]string
	for i := range doc.Flags {
		f := &doc.Flags[i]
		if f.Kind != schema.FoodUnknown || f.Settled == "" || m[f.Subject] != "" {
			continue
		}
		if m == nil {
			m = make(map[string]string)
		}
		m[f.Subject] = f.Settled
	}
	return m
}

// setComputed puts the first way's figures in the document, with the energy of
// the others in the notes; a recipe of which nothing can be counted has none.
func setComputed(doc *schema.Document, tallies []*nutrition.Tally) {
	c := tallies[0].Computed()
	if c != nil {
		for _, t := range tallies[1:] {
			if o := t.Computed(); o != nil {
				c.Statements = append(c.Statements, fmt.Sprintf("the %s way: %.0f kcal%s", t.Way, *o.Kcal, atLeast(t)))
			}
		}
	}
	switch {
	case c != nil && doc.Macros == nil:
		doc.Macros = &schema.Macros{Computed: c}
	case doc.Macros != nil:
		doc.Macros.Computed = c
		if c == nil && doc.Macros.Spoken == nil {
			doc.Macros = nil
		}
	}
}

func atLeast(t *nutrition.Tally) string {
	if t.Complete {
		return ""
	}
	return " at least"
}

// macrosSubjects are what the conflicts found here are about; a conflict about
// anything else was found in the talk and is kept.
var macrosSubjects = []string{"kcal", "fat", "saturated fat", "protein", "carbohydrate", "fibre", "net carbohydrate", "sugar", "sodium", "ratio"}

// differSubject is what the one question about figures the amounts don't bear
// out is about.
const differSubject = "figures"

// macrosFlags replaces the open conflicts between macros by those there are now,
// and asks in one question about all the figures said that the amounts do not
// give within rounding. What a person has settled is kept and not asked again.
func macrosFlags(doc *schema.Document, own *nutrition.Own, tallies []*nutrition.Tally) {
	asked := map[string]bool{}
	doc.Flags = slices.DeleteFunc(slices.Clone(doc.Flags), func(f schema.Flag) bool {
		if f.Kind == schema.ConflictMacros && !slices.Contains(macrosSubjects, f.Subject) {
			asked[f.Subject] = true
		}
		if f.Kind != schema.MacrosDiffer && (f.Kind != schema.ConflictMacros || !slices.Contains(macrosSubjects, f.Subject)) {
			return false
		}
		if f.Settled != "" {
			asked[f.Subject] = true
			return false
		}
		return true
	})
	if doc.Macros == nil || doc.Macros.Spoken == nil {
		return
	}
	s := doc.Macros.Spoken
	polyols, alcohol := brings(doc, own, nutrition.NotAbsorbed), brings(doc, own, nutrition.Alcohol)
	for _, c := range nutrition.InternalConflicts(s, polyols, alcohol) {
		if asked[c.Subject] {
			continue
		}
		asked[c.Subject] = true // one question a figure
		doc.Flags = append(doc.Flags, schema.Flag{Kind: schema.ConflictMacros, Subject: c.Subject, Ask: c.Ask, Said: slices.Clone(s.Said)})
	}
	if asked[differSubject] {
		return
	}
	differ := slices.DeleteFunc(nutrition.Differences(s, tallies), func(c nutrition.Comparison) bool {
		return asked[c.Name] || c.Name == "net carbohydrate" && asked["net carbs"]
	})
	if len(differ) == 0 {
		return
	}
	f := schema.Flag{Kind: schema.MacrosDiffer, Subject: differSubject, Ask: nutrition.DifferenceAsk(s.Per, differ), Said: slices.Clone(s.Said)}
	if missing := missingFrom(tallies); len(missing) > 0 {
		f.Evidence = []string{"what the amounts give is a lower bound: " + list(missing) + " not counted"}
	}
	doc.Flags = append(doc.Flags, f)
}

// missingFrom lists what some way counts without, each once.
func missingFrom(tallies []*nutrition.Tally) []string {
	var out []string
	for _, t := range tallies {
		for _, name := range t.Missing {
			if !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

// brings tells whether any ingredient's food has some of a nutrient, or has no
// figures that would tell.
func brings(doc *schema.Document, own *nutrition.Own, n nutrition.Nutrient) bool {
	for i := range doc.Ingredients {
		f, ok := nutrition.FoodOf(&doc.Ingredients[i], own)
		if !ok || !f.Known() {
			// only a sweetener can bring sugar alcohols unknown to the table
			if n == nutrition.NotAbsorbed && sweetens(doc.Ingredients[i].Name) {
				return true
			}
			continue
		}
		// Vanilla extract is no reason to expect alcohol in the figures.
		if v, ok := f.Per100.Get(n); ok && v > 0 && (n != nutrition.Alcohol || ok && f.Row[:min(2, len(f.Row))] != "02") {
			return true
		}
	}
	return false
}

// sweetens reports whether a food without figures is a sweetener by its name.
func sweetens(name string) bool {
	for _, w := range []string{"sweetener", "sugar", "syrup", "allulose", "erythritol", "xylitol", "stevia", "monk fruit", "maltitol"} {
		if strings.Contains(strings.ToLower(name), w) {
			return true
		}
	}
	return false
}

// amountEvidence puts beside each open question for an amount what the spoken
// figures allow for it, by the first way as it was counted. It is shown, and never filled in.
func amountEvidence(doc *schema.Document, t *nutrition.Tally) {
	open := func(f *schema.Flag) bool {
		return f.Settled == "" && (f.Kind == schema.AmountUnstated || f.Kind == schema.AmountVague)
	}
	any := false
	for i := range doc.Flags {
		if open(&doc.Flags[i]) {
			doc.Flags[i].Evidence = nil
			any = true
		}
	}
	if !any {
		return
	}
	ranges, err := t.Bounds(doc)
	if errors.Is(err, nutrition.ErrNoFit) {
		for i := range doc.Flags {
			if open(&doc.Flags[i]) {
				doc.Flags[i].Evidence = []string{nutrition.ErrNoFit.Error()}
			}
		}
		return
	}
	if err != nil {
		return
	}
	taken := make([]bool, len(ranges))
	for i := range doc.Flags {
		f := &doc.Flags[i]
		if !open(f) {
			continue
		}
		best := -1
		for j, r := range ranges {
			if taken[j] || r.Name != f.Subject {
				continue
			}
			if best < 0 || sameMoment(doc.Ingredients[r.Index].Said, f.Said) && !sameMoment(doc.Ingredients[ranges[best].Index].Said, f.Said) {
				best = j
			}
		}
		if best < 0 {
			continue
		}
		taken[best] = true
		f.Evidence = []string{ranges[best].Evidence(t.Rows[ranges[best].Index].Food)}
	}
}

// sameMoment tells whether two lists of moments begin with the same words.
func sameMoment(a, b []schema.Said) bool {
	return len(a) > 0 && len(b) > 0 && a[0] == b[0]
}
