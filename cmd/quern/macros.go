package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"quern/internal/derive"
	"quern/internal/nutrition"
	"quern/schema"
)

// macrosCommand shows what the amounts of a recipe give.
func macrosCommand() *cobra.Command {
	var label, bounds bool
	var format, foods, way string
	cmd := &cobra.Command{
		Use:   "macros FILE… [--label] [--bounds] [--way NAME] [--foods FILE] [--format text|json]",
		Short: "show the figures that a recipe's amounts give",
		Long: `quern macros weighs the ingredients of a recipe document and sums their figures:
one serving, the whole recipe, and the share of each ingredient, with the rule
that gave its grams. Where an amount or a food's figures are missing the sums
are lower bounds and say so. --label rounds one serving as a food label does.
--bounds tells what the figures the cook spoke allow for each amount she never
said. Optional ingredients, and what she left out of her own figures, are not in
the sums. Each figure she spoke is set beside what the amounts give for it: they
agree where they meet within the rounding of what was said and the spread of the
amounts (ranges, "about", things that come in sizes, and optional things, which she
may have counted). Where they don't, a flag asks with both.

Figures of foods she buys are read from --foods, or from a file foods.yaml in the
folder of the recipe; they win over the built-in table. The rest are from USDA
SR28.`,
		Example: `  quern macros bars.yaml
  quern macros bars.yaml --label
  quern macros bars.yaml --bounds
  quern macros bars.yaml --format json`,
		Args: wantFiles("the FILE of a recipe document", "quern macros bars.yaml"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := oneOf("format", format, "text", "json"); err != nil {
				return err
			}
			t := newTerminal(cmd.ErrOrStderr())
			first := true
			return eachFile(cmd.Context(), t, args, func(file string) error {
				own, err := ownFoods(foods, file)
				if err != nil {
					return err
				}
				docs, err := checkedDocuments(cmd, t, file)
				if err != nil {
					return err
				}
				var b bytes.Buffer
				for _, doc := range docs {
					derive.Apply(doc, derive.Options{Own: own})
					ways, err := chosenWays(doc, way, file)
					if err != nil {
						return err
					}
					if format == "json" {
						if err := macrosJSON(&b, doc, own, ways); err != nil {
							return fmt.Errorf("%s: %w", shownName(file), err)
						}
						continue
					}
					if !first {
						b.WriteString("\n")
					}
					first = false
					fmt.Fprintf(&b, "%s\n", printable(titleOf(doc)))
					for _, w := range ways {
						tally := nutrition.Count(doc, own, w)
						if tally.Way != "" {
							fmt.Fprintf(&b, "the %s way\n", printable(tally.Way))
						}
						if label {
							writeLabel(&b, tally)
						} else {
							writeTally(&b, doc, tally)
						}
					}
					if bounds {
						writeBounds(&b, doc, own)
					}
				}
				return emit(cmd, b.Bytes())
			})
		},
	}
	cmd.Flags().BoolVar(&label, "label", false, "round one serving as a food label does")
	cmd.Flags().BoolVar(&bounds, "bounds", false, "tell what the spoken figures allow for missing amounts")
	cmd.Flags().StringVar(&way, "way", "", "`NAME` of one way of the recipe; all of them if left out")
	cmd.Flags().StringVar(&foods, "foods", "", "`FILE` of your own foods; foods.yaml beside the recipe if left out")
	cmd.Flags().StringVar(&format, "format", "text", "`FORM` of the output: text or json")
	return cmd
}

// ownFoods reads a person's own foods: the named file, or the one that lies in
// the folder of the recipe. Without either there are none.
func ownFoods(named, recipe string) (*nutrition.Own, error) {
	name := named
	if name == "" {
		if recipe == "-" {
			return nil, nil
		}
		name = filepath.Join(filepath.Dir(recipe), nutrition.OwnFile)
	}
	data, err := nutrition.OwnText(name)
	if errors.Is(err, fs.ErrNotExist) && named == "" {
		return nil, nil
	}
	if err != nil {
		return nil, fileError(name, err)
	}
	return nutrition.ReadOwn(name, data)
}

// chosenWays gives the ways to count: the one named, or all.
func chosenWays(doc *schema.Document, way, file string) ([]string, error) {
	var all []string
	for _, w := range doc.Ways {
		if way == w.Name {
			return []string{way}, nil
		}
		all = append(all, w.Name)
	}
	if way != "" {
		known := "it has one way, without a name"
		if len(all) > 0 {
			known = "its ways are " + strings.Join(all, ", ")
		}
		return nil, fmt.Errorf("%s: %s has no way %q; %s", shownName(file), titleOf(doc), way, known)
	}
	if len(all) == 0 {
		all = []string{""}
	}
	return all, nil
}

func titleOf(doc *schema.Document) string {
	if doc.Title == "" {
		return "a recipe without a title"
	}
	return doc.Title
}

// tableColumns are the nutrients of the table, with the decimals they are shown to.
var tableColumns = []struct {
	n        nutrition.Nutrient
	head     string
	decimals int
}{
	{nutrition.Kcal, "kcal", 0}, {nutrition.Protein, "protein", 1}, {nutrition.Fat, "fat", 1}, {nutrition.Saturated, "saturated", 1},
	{nutrition.Carbs, "carbs", 1}, {nutrition.Fibre, "fibre", 1}, {nutrition.Sugars, "sugars", 1}, {nutrition.Sodium, "sodium", 0},
}

// writeTally writes the sums and the ingredients of one way.
func writeTally(b *bytes.Buffer, doc *schema.Document, t *nutrition.Tally) {
	if !t.Complete {
		fmt.Fprintf(b, "lower bounds: not counted: %s\n", printable(strings.Join(t.Missing, ", ")))
	}
	head := []string{"", "g"}
	for _, c := range tableColumns {
		head = append(head, c.head)
	}
	head = append(head, "net carbs")
	rows := [][]string{head}
	sums := func(name, grams string, f nutrition.Figures) {
		row := []string{name, grams}
		for _, c := range tableColumns {
			v, ok := f.Get(c.n)
			row = append(row, figureCell(v, ok, c.decimals))
		}
		net, ok := f.NetCarbs()
		rows = append(rows, append(row, figureCell(net, ok, 1)))
	}
	if t.Servings > 0 {
		sums(fmt.Sprintf("one %s of %s", t.Per, strconv.FormatFloat(t.Servings, 'f', -1, 64)), "", t.PerServing(t.Total))
	}
	sums("the whole recipe", figureCell(t.Grams, true, 0), t.Total)
	for i := range t.Rows {
		r := &t.Rows[i]
		if r.Apart == "another way" {
			continue
		}
		name := "  " + r.Name
		if part := doc.Ingredients[r.Index].Part; part != "" && len(doc.Parts) > 1 {
			name += " (" + part + ")"
		}
		switch {
		case r.Counted:
			share := ""
			if t.Total[nutrition.Kcal] > 0 {
				share = fmt.Sprintf(" %.0f%%", 100*r.Figures[nutrition.Kcal]/t.Total[nutrition.Kcal])
			}
			sums(name+share, figureCell(nutrition.Middle(*r.Grams), true, 1), r.Figures)
		default:
			rows = append(rows, []string{name + ": " + r.Why})
		}
	}
	writeColumns(b, rows)
	f := t.PerServing(t.Total)
	net, _ := f.NetCarbs()
	by, _ := f.ByFactors()
	atLeast := ""
	if !t.Complete {
		atLeast = "at least "
	}
	fmt.Fprintf(b, "energy by 4-4-9-7: %s%.0f kcal", atLeast, by)
	if den := f[nutrition.Protein] + net; t.Complete && den > 0 {
		fmt.Fprintf(b, "; fat to protein and net carbs: %s to 1", strconv.FormatFloat(math.Round(100*f[nutrition.Fat]/den)/100, 'f', -1, 64))
	}
	if f[nutrition.Alcohol] >= 0.05 {
		fmt.Fprintf(b, "; alcohol: %.1f g", f[nutrition.Alcohol])
	}
	b.WriteString("\n")
	if doc.Macros != nil {
		for _, c := range nutrition.Compare(doc.Macros.Spoken, t) {
			verdict := "agrees"
			if !c.Agrees {
				verdict = "differs"
			}
			fmt.Fprintf(b, "said: %s; the amounts give %s: %s\n", c.SaidText(), c.Given(), verdict)
		}
	}
	for _, n := range t.Notes {
		fmt.Fprintf(b, "note: %s\n", printable(n))
	}
	for i := range t.Rows {
		if r := &t.Rows[i]; r.Grams != nil && r.Apart != "another way" {
			spread := ""
			if r.Grams.Max > r.Grams.Min {
				spread = fmt.Sprintf(", the middle of %s to %s g", figureCell(r.Grams.Min, true, 1), figureCell(r.Grams.Max, true, 1))
			}
			fmt.Fprintf(b, "weighed: %s: %s g%s: %s; figures of %s\n", printable(r.Name), figureCell(nutrition.Middle(*r.Grams), true, 1), spread,
				printable(r.Grams.Rule), printable(r.Food.Source))
		}
	}
}

// figureCell writes a figure, "?" where it is unknown.
func figureCell(v float64, ok bool, decimals int) string {
	if !ok || math.IsNaN(v) {
		return "?"
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// writeColumns aligns rows: the first column to the left, the others to the
// right. A row of one cell is a remark and widens nothing.
func writeColumns(b *bytes.Buffer, rows [][]string) {
	var width []int
	for _, r := range rows {
		if len(r) == 1 {
			continue
		}
		for i, c := range r {
			if i == len(width) {
				width = append(width, 0)
			}
			width[i] = max(width[i], len([]rune(printable(c))))
		}
	}
	for _, r := range rows {
		var line strings.Builder
		for i, c := range r {
			c = printable(c)
			pad := ""
			if len(r) > 1 {
				pad = strings.Repeat(" ", width[i]-len([]rune(c)))
			}
			switch {
			case i == 0 && len(r) > 1:
				line.WriteString(c + pad)
			case i == 0:
				line.WriteString(c)
			default:
				line.WriteString("  " + pad + c)
			}
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
}

// writeLabel writes the label view of one serving.
func writeLabel(b *bytes.Buffer, t *nutrition.Tally) {
	if t.Servings > 0 {
		fmt.Fprintf(b, "one %s of %s\n", t.Per, strconv.FormatFloat(t.Servings, 'f', -1, 64))
	} else {
		b.WriteString("the whole recipe: the yield was never said\n")
	}
	rows := [][]string{{"", "amount", "of a day"}}
	for _, l := range t.Label() {
		rows = append(rows, []string{strings.Repeat("  ", l.Inset) + l.Name, l.Amount, l.DailyValue})
	}
	writeColumns(b, rows)
	if !t.Complete {
		fmt.Fprintf(b, "not counted: %s\n", printable(strings.Join(t.Missing, ", ")))
	}
	b.WriteString(nutrition.LabelNotice + "\n")
}

// writeBounds writes what the spoken figures allow for each missing amount.
func writeBounds(b *bytes.Buffer, doc *schema.Document, own *nutrition.Own) {
	ranges, err := nutrition.Bounds(doc, own)
	switch {
	case err != nil:
		fmt.Fprintf(b, "missing amounts: %s\n", printable(err.Error()))
		return
	case len(ranges) == 0:
		b.WriteString("missing amounts: none\n")
		return
	}
	b.WriteString("missing amounts:\n")
	for _, r := range ranges {
		food, _ := nutrition.FoodOf(&doc.Ingredients[r.Index], own)
		fmt.Fprintf(b, "  %s: %s\n", printable(r.Name), r.Evidence(food))
	}
}

// The JSON of quern macros: the document's macros, and each way's ingredients.
type (
	macrosOut struct {
		Title  string          `json:"title"`
		Macros *schema.Macros  `json:"macros"`
		Ways   []macrosWay     `json:"ways"`
		Bounds []macrosMissing `json:"bounds"`
		Notice string          `json:"notice"`
	}
	macrosWay struct {
		Way         string             `json:"way"`
		Complete    bool               `json:"complete"`
		Servings    float64            `json:"servings"`
		Per         string             `json:"per"`
		Whole       map[string]float64 `json:"whole_recipe"`
		PerServing  map[string]float64 `json:"per_serving"`
		Missing     []string           `json:"missing"`
		LeavesOut   []string           `json:"leaves_out"`
		Notes       []string           `json:"notes"`
		Said        []macrosSaid       `json:"said"`
		Ingredients []macrosIngredient `json:"ingredients"`
	}
	macrosSaid struct {
		Figure string   `json:"figure"`
		Unit   string   `json:"unit"`
		Said   float64  `json:"said"`
		Least  float64  `json:"least"`
		Most   *float64 `json:"most"` // null where the amounts only give a lower bound
		Agrees bool     `json:"agrees"`
	}
	macrosIngredient struct {
		ID      string              `json:"id"`
		Name    string              `json:"name"`
		Food    string              `json:"food"`
		Source  string              `json:"source"`
		Grams   *schema.Grams       `json:"grams"`
		Counted bool                `json:"counted"`
		Why     string              `json:"why"`
		Figures map[string]*float64 `json:"figures"`
	}
	macrosMissing struct {
		Name   string   `json:"name"`
		LeastG float64  `json:"least_g"`
		MostG  *float64 `json:"most_g"` // null where nothing keeps it down
		Text   string   `json:"text"`
	}
)

// jsonNutrients are the keys of the figures, as in the document's macros.
var jsonNutrients = []struct {
	n   nutrition.Nutrient
	key string
}{
	{nutrition.Kcal, "kcal"}, {nutrition.Protein, "protein_g"}, {nutrition.Fat, "fat_g"}, {nutrition.Saturated, "saturated_fat_g"},
	{nutrition.Carbs, "carbs_g"}, {nutrition.Fibre, "fibre_g"}, {nutrition.Sugars, "sugar_g"}, {nutrition.Sodium, "sodium_mg"},
	{nutrition.Alcohol, "alcohol_g"}, {nutrition.NotAbsorbed, "sugar_alcohols_g"},
}

// macrosJSON writes one recipe as a line of JSON.
func macrosJSON(b *bytes.Buffer, doc *schema.Document, own *nutrition.Own, ways []string) error {
	out := macrosOut{Title: doc.Title, Macros: doc.Macros, Ways: []macrosWay{}, Bounds: []macrosMissing{}, Notice: nutrition.LabelNotice}
	for _, w := range ways {
		t := nutrition.Count(doc, own, w)
		way := macrosWay{Way: t.Way, Complete: t.Complete, Servings: t.Servings, Per: t.Per, Whole: known(t.Total), PerServing: known(t.PerServing(t.Total)),
			Missing: listed(t.Missing), LeavesOut: listed(t.LeavesOut), Notes: listed(t.Notes), Said: compared(doc, t), Ingredients: []macrosIngredient{}}
		for i := range t.Rows {
			r := &t.Rows[i]
			ing := macrosIngredient{ID: doc.Ingredients[r.Index].ID, Name: r.Name, Food: r.Food.Key, Source: r.Food.Source, Grams: r.Grams, Counted: r.Counted, Why: r.Why}
			if r.Grams != nil && r.Food.Known() {
				ing.Figures = map[string]*float64{}
				for _, j := range jsonNutrients {
					if v, ok := r.Figures.Get(j.n); ok {
						v = math.Round(v*100) / 100
						ing.Figures[j.key] = &v
					} else {
						ing.Figures[j.key] = nil
					}
				}
			}
			way.Ingredients = append(way.Ingredients, ing)
		}
		out.Ways = append(out.Ways, way)
	}
	if ranges, err := nutrition.Bounds(doc, own); err == nil {
		for _, r := range ranges {
			food, _ := nutrition.FoodOf(&doc.Ingredients[r.Index], own)
			m := macrosMissing{Name: r.Name, LeastG: math.Floor(10*r.Least) / 10, Text: r.Evidence(food)}
			if !math.IsInf(r.Most, 1) {
				most := math.Ceil(10*r.Most) / 10
				m.MostG = &most
			}
			out.Bounds = append(out.Bounds, m)
		}
	}
	enc := json.NewEncoder(b)
	enc.SetEscapeHTML(false)
	return enc.Encode(out)
}

// compared sets the spoken figures beside what a way gives, the ends to two
// decimals outwards.
func compared(doc *schema.Document, t *nutrition.Tally) []macrosSaid {
	out := []macrosSaid{}
	if doc.Macros == nil {
		return out
	}
	for _, c := range nutrition.Compare(doc.Macros.Spoken, t) {
		s := macrosSaid{Figure: c.Name, Unit: c.Unit, Said: c.Said, Least: math.Floor(100*c.Least) / 100, Agrees: c.Agrees}
		if !math.IsInf(c.Most, 1) {
			most := math.Ceil(100*c.Most) / 100
			s.Most = &most
		}
		out = append(out, s)
	}
	return out
}

// known gives figures by their key, to two decimals.
func known(f nutrition.Figures) map[string]float64 {
	out := map[string]float64{}
	for _, j := range jsonNutrients {
		if v, ok := f.Get(j.n); ok {
			out[j.key] = math.Round(v*100) / 100
		}
	}
	if v, ok := f.NetCarbs(); ok {
		out["net_carbs_g"] = math.Round(v*100) / 100
	}
	return out
}

// listed gives an empty list for none, so that JSON has [] and never null.
func listed(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}
