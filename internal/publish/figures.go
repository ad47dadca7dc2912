package publish

import (
	"math"
	"strings"

	"quern/schema"
)

// macroTable is the figures of a serving, as said and as worked out.
type macroTable struct {
	Per         string // "a biscuit"
	Said        bool   // the said column has figures
	Worked      bool   // the worked-out column has figures
	AtLeast     bool   // the worked-out figures are lower bounds
	WorkedPer   string // of the worked-out column, where it differs
	Rows        []macroRow
	Notes       []string
	Marks       []mark
	SaidMoments []moment
}

type macroRow struct {
	Name         string
	Said, Worked string // with their units; "" where not known
}

// macros sets the spoken figures beside the worked-out ones; nil where there
// are neither.
func (b *builder) macros() *macroTable {
	m := b.doc.Macros
	if m == nil || (m.Spoken == nil && m.Computed == nil) {
		return nil
	}
	t := &macroTable{}
	var said, worked schema.Figures
	if m.Spoken != nil {
		said = m.Spoken.Figures
		t.Per = perWords(m.Spoken.Per)
		t.SaidMoments = momentsOf(m.Spoken.Said, b.opt.Recording)
		if out := cleaned(m.Spoken.LeavesOut); len(out) > 0 {
			t.Notes = append(t.Notes, "The figures said leave out "+join(out, "and")+".")
		}
	}
	if c := m.Computed; c != nil {
		worked = c.Figures
		t.AtLeast = !c.Complete
		per := perWords(c.Per)
		if c.Servings == 0 {
			per = "for the whole recipe"
			if b.factor != 1 {
				worked = multiplied(worked, b.factor)
			}
		}
		if t.Per == "" {
			t.Per = per
		} else if per != "" && per != t.Per {
			t.WorkedPer = per
		}
		if missing := cleaned(c.Missing); len(missing) > 0 {
			t.Notes = append(t.Notes, "Worked out without "+join(missing, "and")+": the figures are lower bounds, and the true ones are higher.")
		} else if !c.Complete {
			t.Notes = append(t.Notes, "The figures worked out are lower bounds, and the true ones are higher.")
		}
		if out := cleaned(c.LeavesOut); len(out) > 0 {
			t.Notes = append(t.Notes, "The figures worked out leave out "+join(out, "and")+".")
		}
		for _, s := range cleaned(c.Statements) {
			way, isWay := strings.CutSuffix(s, " way")
			switch {
			case isWay && b.opt.Way != "", strings.HasPrefix(s, "lower bounds:"):
				// The head of the page and the lines above say so already.
			case isWay:
				t.Notes = append(t.Notes, sentence("The figures worked out are for "+way+" way"))
			default:
				t.Notes = append(t.Notes, sentence(s))
			}
		}
		t.Notes = append(t.Notes, "Worked out from the ingredients and a table of foods: an estimate, not an analysis.")
	}
	for _, row := range []struct {
		name         string
		said, worked *float64
		unit         string
	}{
		{"Energy", said.Kcal, worked.Kcal, "kcal"}, {"Fat", said.FatG, worked.FatG, "g"}, {"Saturated fat", said.SaturatedG, worked.SaturatedG, "g"},
		{"Carbohydrate", said.CarbsG, worked.CarbsG, "g"}, {"Sugars", said.SugarG, worked.SugarG, "g"}, {"Fibre", said.FibreG, worked.FibreG, "g"},
		{"Net carbohydrate", said.NetCarbsG, worked.NetCarbsG, "g"}, {"Protein", said.ProteinG, worked.ProteinG, "g"}, {"Sodium", said.SodiumMg, worked.SodiumMg, "mg"},
		{"Fat ratio", said.Ratio, worked.Ratio, ": 1"},
	} {
		if row.unit == ": 1" && t.AtLeast {
			row.worked = nil // a ratio of lower bounds bounds nothing
		}
		if row.said == nil && row.worked == nil {
			continue
		}
		r := macroRow{Name: row.name}
		if row.said != nil {
			r.Said, t.Said = decimal(*row.said)+" "+row.unit, true
		}
		if row.worked != nil {
			t.Worked = true
			switch figure := label(*row.worked, row.unit, t.AtLeast); {
			case !t.AtLeast:
				r.Worked = figure + " " + row.unit
			case figure != "0": // at least nothing says nothing
				r.Worked = "at least " + figure + " " + row.unit
			}
		}
		t.Rows = append(t.Rows, r)
	}
	if len(t.Rows) == 0 && len(t.Notes) == 0 {
		return nil
	}
	t.Marks = b.marks([]string{schema.ConflictMacros, schema.MacrosDiffer}, func(schema.Flag) bool { return true })
	return t
}

// label rounds a worked-out figure to what an estimate from kitchen measures
// can claim: whole kcal and mg, grams to 0.1 below 10 and whole above. A lower
// bound is rounded down, so that it stays one.
func label(v float64, unit string, lower bool) string {
	round := math.Round
	if lower {
		round = math.Floor
	}
	if unit == ": 1" {
		return decimal(v)
	}
	if unit == "g" && v < 9.95 {
		return decimal(round(v*10) / 10)
	}
	return decimal(round(v))
}

func multiplied(f schema.Figures, by float64) schema.Figures {
	for _, p := range []**float64{&f.Kcal, &f.FatG, &f.SaturatedG, &f.ProteinG, &f.CarbsG, &f.FibreG, &f.NetCarbsG, &f.SugarG, &f.SodiumMg} {
		if *p != nil {
			v := **p * by
			*p = &v
		}
	}
	return f
}

// perWords writes what figures are for: "a biscuit", "an ounce".
func perWords(per string) string {
	per = clean(per)
	for _, lead := range []string{"per ", "each ", "a ", "an ", "one ", "1 "} {
		per = strings.TrimPrefix(per, lead)
	}
	switch {
	case per == "":
		return ""
	case strings.HasPrefix(per, "whole") || strings.HasPrefix(per, "the ") || strings.ContainsAny(per[:1], "0123456789"):
		return "in " + per
	case strings.ContainsAny(strings.ToLower(per[:1]), "aeio"):
		return "in an " + per
	}
	return "in a " + per
}
