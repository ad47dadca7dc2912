package derive

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"quern/schema"
)

// steak is a dish whose inside temperature is below the published minimum.
func steak() *schema.Document {
	return &schema.Document{
		Recipe:      schema.Version,
		Title:       "Flank steak",
		Yield:       &schema.Quantity{Min: 6, Max: 6, Unit: "servings"},
		Ingredients: []schema.Ingredient{{ID: "flank-steak", Name: "flank steak", Amount: grams(900), Said: said("00:00:44.000", "two pounds of flank")}},
		Steps: []schema.Step{
			{Text: "Lay it on the hot side and grill it.", Actions: []string{"lay", "grill"}, Uses: []string{"flank-steak"}, Until: "it reads right",
				Temperature: []schema.Quantity{{Min: 130, Max: 130, Unit: "F"}}, Said: said("00:04:40.000", "lay it on the hot side")},
		},
	}
}

func temperatureFlag(doc *schema.Document) []schema.Flag {
	return slices.DeleteFunc(slices.Clone(doc.Flags), func(f schema.Flag) bool { return f.Kind != schema.ConflictTemperature })
}

func cautioned(doc *schema.Document, kind string) bool {
	return slices.ContainsFunc(doc.Cautions, func(c schema.Caution) bool { return c.Kind == kind })
}

func TestInsideBelowTheMinimum(t *testing.T) {
	doc := steak()
	Apply(doc, Options{})
	flags := temperatureFlag(doc)
	if len(flags) != 1 || flags[0].Subject != "flank steak" || !strings.Contains(flags[0].Ask, "130 F") || !strings.Contains(flags[0].Ask, "145 F (63 C)") ||
		len(flags[0].Evidence) != 1 || !strings.Contains(flags[0].Evidence[0], "USDA FSIS") {
		t.Fatalf("%+v, want one question with both figures and the source", flags)
	}
	if d := cmp.Diff(said("00:04:40.000", "lay it on the hot side"), flags[0].Said); d != "" {
		t.Errorf("its moment (-want +got):\n%s", d)
	}
	if cautioned(doc, "whole meat temperature") {
		t.Error("the caution should wait for the answer")
	}
	before := slices.Clone(doc.Flags)
	Apply(doc, Options{})
	if d := cmp.Diff(before, doc.Flags); d != "" {
		t.Errorf("applying twice (-once +twice):\n%s", d)
	}

	settled := steak()
	Apply(settled, Options{})
	settled.Flags[slices.IndexFunc(settled.Flags, func(f schema.Flag) bool { return f.Kind == schema.ConflictTemperature })].Settled = "as said"
	Apply(settled, Options{})
	if f := temperatureFlag(settled); len(f) != 1 || f[0].Settled != "as said" || !cautioned(settled, "whole meat temperature") {
		t.Errorf("%+v: the answer should stay, and the caution come", f)
	}

	doc.Steps[0].Temperature[0] = schema.Quantity{Min: 145, Max: 145, Unit: "F"}
	Apply(doc, Options{})
	if f := temperatureFlag(doc); len(f) != 0 {
		t.Errorf("%+v, want none at the minimum", f)
	}
}

// TestMinimumBesideAContradiction: where the talk gives two temperatures, that
// question shows the minimum and no second one is asked.
func TestMinimumBesideAContradiction(t *testing.T) {
	doc := steak()
	doc.Flags = []schema.Flag{
		{Kind: schema.ConflictTemperature, Subject: "step", Ask: "Is it 130 F or 125 F?", Evidence: []string{"yours: 130 F"}, Said: said("00:06:32.000", "pull it at one twenty-five")},
		{Kind: schema.ConflictTemperature, Subject: "oven", Ask: "Is the oven at 400 F or 450 F?", Said: said("00:04:16.000", "four hundred to four fifty")},
	}
	for range 2 {
		Apply(doc, Options{})
		flags := temperatureFlag(doc)
		want := []string{"yours: 130 F", "the published minimum inside the flank steak is 145 F (63 C) (USDA FSIS, Safe Minimum Internal Temperature Chart)"}
		if len(flags) != 2 {
			t.Fatalf("%+v, want the talk's two questions alone", flags)
		}
		if d := cmp.Diff(want, flags[1].Evidence); d != "" {
			t.Errorf("what helps to answer (-want +got):\n%s", d)
		}
		if flags[0].Evidence != nil {
			t.Errorf("%q: the oven has no minimum", flags[0].Evidence)
		}
	}
	doc.Flags[slices.IndexFunc(doc.Flags, func(f schema.Flag) bool { return strings.HasPrefix(f.Ask, "Is it 130") })].Settled = "130 F"
	Apply(doc, Options{})
	if f := temperatureFlag(doc); len(f) != 3 {
		t.Errorf("%+v: once it is 130 F, the question is whether it should be", f)
	}
}
