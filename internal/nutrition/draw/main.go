// Command draw writes the nutrient table from our list of names and the files
// of USDA SR28: foods.tsv holds the figures per 100 g of the row each name is
// counted with, weights.tsv the household weights of those rows in our units.
// Run it after an edit of names.tsv:
//
//	go run ./internal/nutrition/draw -from ../shared/usda-sr28 -to internal/nutrition
//
// It reads foods.csv and weights.csv as published (energy_kcal and so on, per
// 100 g edible portion) and changes no figure; a mixture is the weighted sum of
// its rows, and its figure is unknown where one of theirs is.
package main

import (
	"encoding/csv"
	"flag"
	"fmt"
	"log"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// columns pairs the columns of foods.csv that are carried with ours, in order.
var columns = []struct{ theirs, ours string }{
	{"energy_kcal", "kcal"},
	{"protein_g", "protein_g"},
	{"fat_g", "fat_g"},
	{"saturated_fat_g", "saturated_fat_g"},
	{"carbohydrate_g", "carbohydrate_g"},
	{"fibre_g", "fibre_g"},
	{"sugars_g", "sugars_g"},
	{"sodium_mg", "sodium_mg"},
	{"alcohol_g", "alcohol_g"},
	{"water_g", "water_g"},
}

func main() {
	log.SetFlags(0)
	log.SetPrefix("draw: ")
	from := flag.String("from", "../shared/usda-sr28", "folder with foods.csv and weights.csv of SR28")
	to := flag.String("to", "internal/nutrition", "folder with names.tsv, where foods.tsv and weights.tsv are written")
	flag.Parse()
	if err := draw(*from, *to); err != nil {
		log.Fatal(err)
	}
}

// draw reads the three files and writes the two tables.
func draw(from, to string) error {
	foods, err := readCSV(filepath.Join(from, "foods.csv"))
	if err != nil {
		return err
	}
	weights, err := readCSV(filepath.Join(from, "weights.csv"))
	if err != nil {
		return err
	}
	byNDB := make(map[string]map[string]string, len(foods))
	for _, f := range foods {
		byNDB[f["ndb"]] = f
	}
	data, err := os.ReadFile(filepath.Join(to, "names.tsv"))
	if err != nil {
		return err
	}
	var out strings.Builder
	out.WriteString("# Drawn by internal/nutrition/draw from USDA SR28 (US Government work, no copyright) and names.tsv:\n")
	out.WriteString("# edit names.tsv, not this file. Figures per 100 g; refuse_pct is the share of the weight as bought that\n")
	out.WriteString("# is thrown away; an empty field is unknown, never nought.\n")
	out.WriteString("name\trow\trefuse_pct")
	for _, c := range columns {
		out.WriteString("\t" + c.ours)
	}
	out.WriteString("\n")
	wanted := map[string]bool{}
	var order []string
	for i, line := range strings.Split(string(data), "\n") {
		if line == "" || strings.HasPrefix(line, "#") || strings.HasPrefix(line, "name\t") {
			continue
		}
		fields := strings.Split(line, "\t")
		if len(fields) != 6 {
			return fmt.Errorf("names.tsv:%d: %d fields, want 6", i+1, len(fields))
		}
		row := fields[2]
		if row == "label" {
			continue
		}
		shares, err := Shares(row)
		if err != nil {
			return fmt.Errorf("names.tsv:%d: %w", i+1, err)
		}
		fmt.Fprintf(&out, "%s\t%s", fields[0], row)
		refuse := ""
		if len(shares) == 1 {
			f := byNDB[shares[0].NDB]
			if f == nil {
				return fmt.Errorf("names.tsv:%d: foods.csv has no row %s", i+1, shares[0].NDB)
			}
			if refuse = f["refuse_pct"]; refuse == "0" {
				refuse = ""
			}
			if !wanted[shares[0].NDB] {
				wanted[shares[0].NDB] = true
				order = append(order, shares[0].NDB)
			}
		}
		out.WriteString("\t" + refuse)
		for _, c := range columns {
			figure, err := blend(byNDB, shares, c.theirs)
			if err != nil {
				return fmt.Errorf("names.tsv:%d: %w", i+1, err)
			}
			out.WriteString("\t" + figure)
		}
		out.WriteString("\n")
	}
	if err := os.WriteFile(filepath.Join(to, "foods.tsv"), []byte(out.String()), 0o644); err != nil {
		return err
	}

	byRow := map[string][]map[string]string{}
	for _, w := range weights {
		byRow[w["ndb"]] = append(byRow[w["ndb"]], w)
	}
	out.Reset()
	out.WriteString("# Drawn by internal/nutrition/draw from weights.csv of USDA SR28 (US Government work, no copyright): edit\n")
	out.WriteString("# names.tsv, not this file. grams is the weight of amount measures, edible portion; unit is ours, empty for a\n")
	out.WriteString("# plain count; form is what the measure says besides.\n")
	out.WriteString("row\tseq\tamount\tunit\tform\tgrams\n")
	for _, ndb := range order {
		for _, w := range byRow[ndb] {
			unit, form, ok := Measure(w["measure"])
			if !ok {
				continue
			}
			fmt.Fprintf(&out, "%s\t%s\t%s\t%s\t%s\t%s\n", ndb, w["seq"], w["amount"], unit, form, w["grams"])
		}
	}
	return os.WriteFile(filepath.Join(to, "weights.tsv"), []byte(out.String()), 0o644)
}

// Share is one row of a mixture and its share by weight.
type Share struct {
	NDB  string
	Part float64
}

// Shares reads "20083" or "20083*0.5+14429*0.5".
func Shares(row string) ([]Share, error) {
	var out []Share
	for _, term := range strings.Split(row, "+") {
		ndb, part, mixed := strings.Cut(term, "*")
		share := Share{NDB: ndb, Part: 1}
		if mixed {
			p, err := strconv.ParseFloat(part, 64)
			if err != nil || p <= 0 || p > 1 {
				return nil, fmt.Errorf("share %q of %q is no number between 0 and 1", part, row)
			}
			share.Part = p
		}
		out = append(out, share)
	}
	return out, nil
}

// blend gives one column of a mixture as text, empty where it is unknown. A
// single row is carried as it is written.
func blend(foods map[string]map[string]string, shares []Share, column string) (string, error) {
	sum := 0.0
	for _, s := range shares {
		f := foods[s.NDB]
		if f == nil {
			return "", fmt.Errorf("foods.csv has no row %s", s.NDB)
		}
		if len(shares) == 1 {
			return f[column], nil
		}
		if f[column] == "" {
			return "", nil
		}
		v, err := strconv.ParseFloat(f[column], 64)
		if err != nil {
			return "", fmt.Errorf("row %s, %s: %w", s.NDB, column, err)
		}
		sum += v * s.Part
	}
	return strconv.FormatFloat(math.Round(sum*1000)/1000, 'f', -1, 64), nil
}

// units maps the first word of a published measure to our unit. Words that
// name one of the thing itself count as a plain count and stay in the form.
var units = map[string]string{
	"cup": "cup", "cups": "cup", "tbsp": "tbsp", "tablespoon": "tbsp", "tablespoons": "tbsp",
	"tsp": "tsp", "teaspoon": "tsp", "fl": "fl oz", "pint": "pint", "quart": "quart", "liter": "l",
	"can": "can", "jar": "jar", "package": "packet", "packet": "packet", "envelope": "packet", "pack": "packet",
	"stick": "stick", "slice": "slice", "slices": "slice", "clove": "clove", "cloves": "clove",
	"head": "head", "stalk": "stalk", "leaf": "leaf", "leaves": "leaf", "sprig": "sprig", "sprigs": "sprig",
	"bunch": "bunch", "sheet": "sheet", "sheets": "sheet", "dash": "dash",
}

// skipped are first words of measures no cook counts in, or that are masses.
var skipped = map[string]bool{
	"oz": true, "lb": true, "g": true, "nlea": true, "serving": true, "drink": true, "jigger": true, "individual": true,
	"recipe": true, "pat": true, "cubic": true, "portion": true, "spray": true, "gummy": true, "container": true,
	"bottle": true, "carton": true, "bag": true, "box": true, "ml": true, "breakfast": true, "scoop": true, "glass": true,
	"wedge": true, "anisette": true, "twists": true, "cream": true, "enchilada": true,
}

// Measure reads a published measure ("cup, chopped", "medium (2-1/2\" dia)")
// into one of our units and a form in lower case; ok is false for a measure
// that is left out.
func Measure(measure string) (unit, form string, ok bool) {
	text := strings.ToLower(strings.TrimSpace(measure))
	cut := strings.IndexAny(text, " ,(")
	first, rest := text, ""
	if cut >= 0 {
		first, rest = text[:cut], text[cut:]
	}
	if skipped[first] || strings.Contains(text, "in shell") || strings.Contains(text, "with shell") {
		return "", "", false
	}
	unit, isUnit := units[first]
	switch {
	case isUnit && unit == "fl oz":
		rest = strings.TrimPrefix(strings.TrimSpace(rest), "oz")
	case isUnit:
	default:
		rest = text
	}
	form = strings.Map(func(r rune) rune {
		if r == ',' || r == '(' || r == ')' || r == ';' {
			return ' '
		}
		return r
	}, rest)
	words := strings.Fields(form)
	// A count told in many words is of one maker's piece, not of the food.
	if unit == "" && (len(words) >= 5 && !strings.ContainsAny(form, "0123456789") || strings.Contains(form, "brand") || strings.Contains(form, "include")) {
		return "", "", false
	}
	return unit, strings.Join(words, " "), true
}

// readCSV reads a file with a head line into one map a row.
func readCSV(path string) ([]map[string]string, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	if len(rows) == 0 {
		return nil, fmt.Errorf("%s: is empty", path)
	}
	out := make([]map[string]string, 0, len(rows)-1)
	for _, r := range rows[1:] {
		m := make(map[string]string, len(r))
		for i, v := range r {
			m[rows[0][i]] = v
		}
		out = append(out, m)
	}
	return out, nil
}
