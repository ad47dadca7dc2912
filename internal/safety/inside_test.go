package safety

import (
	"slices"
	"strings"
	"testing"

	"quern/schema"
)

func TestLowTemperatures(t *testing.T) {
	for _, c := range []struct {
		name, title, ingredients, steps string
		want                            string // "food told least", several joined by "; "
	}{
		{"by the thermometer", "Steak", "rump steak", "pull: Pull the rump steak when the thick part reads it. @130 F", "rump steak 130 F 145 F (63 C)"},
		{"in the step that grills it", "Flank steak", "flank steak", "grill: Lay it on the hot side and grill it. @130 F", "flank steak 130 F 145 F (63 C)"},
		{"in Celsius", "Chicken", "chicken thighs", "roast: Roast the chicken thighs. @200 C; check: Check the chicken thighs inside. @70 C", "chicken thighs 70 C 165 F (74 C)"},
		{"burgers", "Burgers", "burger patties", "grill: Grill the burger patties to a reading inside. @145 F", "burger patties 145 F 160 F (71 C)"},
		{"salmon", "Salmon", "salmon", "roast: Roast the salmon.; check: Check the middle of the salmon. @120 F", "salmon 120 F 145 F (63 C)"},
		{"two said", "Steak", "rump steak", "grill: Grill the rump steak. @130 F; pull: Pull the rump steak. @125 F", "rump steak 130 F 145 F (63 C); rump steak 125 F 145 F (63 C)"},

		{"right", "Chicken", "chicken thighs", "check: Check the chicken thighs inside. @75 C", ""},
		{"right by rounding", "Chicken", "chicken thighs", "check: Check the chicken thighs inside. @74 C", ""},
		{"climbs while it rests", "Pork", "pork loin", "pull: Pull the pork loin, inside. @140 F; rest: Rest the pork loin, it climbs. @145 F", ""},
		{"an oven", "Chicken", "chicken thighs", "roast: Roast the chicken thighs in the oven. @160 C", ""},
		{"kept warm", "Steak", "rump steak", "hold: Keep warm, the rump steak, in a low oven. @140 F", ""},
		{"a water bath", "Steak", "rump steak", "cook: Cook the rump steak in the water bath. @131 F", ""},
		{"water for the yeast", "Chicken flatbread", "chicken thighs; yeast", "stir: Stir the yeast into warm water. @110 F; fry: Fry the chicken thighs.", ""},
		{"the room", "Steak", "rump steak", "rest: Rest the rump steak out of the fridge. @70 F; grill: Grill the rump steak.", ""},
		{"of another meat", "Mixed grill", "rump steak; chicken thighs", "grill: Grill it. @130 F", ""},
		{"only in a story", "Leek soup", "lamb; leeks", "simmer: Simmer the leeks. @140 F", ""},
	} {
		var got []string
		for _, l := range LowTemperatures(sketch(t, c.title, c.ingredients, c.steps, "")) {
			got = append(got, l.Food+" "+l.Told+" "+l.Least)
			if l.Source == "" || len(l.Said) == 0 {
				t.Errorf("%s: no source or no moment", c.name)
			}
			if ask := l.Ask(); !strings.Contains(ask, l.Told) || !strings.Contains(ask, l.Least) || !strings.HasSuffix(ask, "?") || !AsksLow(ask, l.Food) || AsksLow(ask, "other "+l.Food) {
				t.Errorf("%s: %q is no question with both figures, or isn't known again", c.name, ask)
			}
		}
		if strings.Join(got, "; ") != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestCautionWaitsForTheFlag: while a question about a steak's inside is open the
// question has both figures; once it is settled the caution has them.
func TestCautionWaitsForTheFlag(t *testing.T) {
	doc := sketch(t, "Steak", "rump steak", "grill: Grill the rump steak. @130 F", "")
	ask := LowTemperatures(doc)[0].Ask()
	at := func() int {
		return slices.IndexFunc(Cautions(doc), func(c schema.Caution) bool { return c.Kind == "whole meat temperature" })
	}
	if at() < 0 {
		t.Error("no caution, and no flag either")
	}
	for _, open := range []schema.Flag{
		{Kind: schema.ConflictTemperature, Subject: "rump steak", Ask: ask},
		{Kind: schema.ConflictTemperature, Subject: "step", Ask: "Is it 130 F or 125 F?"},
	} {
		doc.Flags = []schema.Flag{open}
		if at() >= 0 {
			t.Errorf("%q is open, and the caution says it again", open.Ask)
		}
		doc.Flags[0].Settled = "as said"
		if i := at(); i < 0 || !strings.Contains(Cautions(doc)[i].Text, "130 F; the published minimum is 145 F (63 C)") {
			t.Errorf("%q is settled, and no caution gives both figures", open.Ask)
		}
	}
	doc.Flags = []schema.Flag{{Kind: schema.ConflictTemperature, Subject: "oven", Ask: "Is the oven at 180 C or 200 C?"}}
	if at() < 0 {
		t.Error("a question about the oven says nothing of the steak's inside")
	}
	poultry := sketch(t, "Chicken", "chicken thighs", "check: Check the chicken thighs inside. @150 F", "")
	poultry.Flags = []schema.Flag{{Kind: schema.ConflictTemperature, Subject: "chicken thighs", Ask: LowTemperatures(poultry)[0].Ask()}}
	if c := Cautions(poultry); len(c) != 1 {
		t.Errorf("%+v: poultry keeps its caution beside the flag", c)
	}
}
