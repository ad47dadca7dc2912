package lexicon

import (
	"os"
	"strings"
	"testing"
	"unicode"
)

// foodKinds are the kinds a food may have.
var foodKinds = setOf("dairy egg meat poultry fish shellfish vegetable fruit herb spice grain flour pasta bread legume nut " +
	"seed fat oil sweetener leavening condiment sauce stock alcohol drink chocolate baking thickener water salt other")

// foodFlags are the reasons why a food's name alone may not be enough.
var foodFlags = setOf("verb weak dish made taste")

// fewestFoods and fewestHeard guard against a table that was cut short.
const (
	fewestFoods = 1400
	fewestHeard = 80
)

func setOf(words string) map[string]bool {
	set := make(map[string]bool)
	for _, word := range strings.Fields(words) {
		set[word] = true
	}
	return set
}

// tableLine is one row of a table with the line it stands on, from 1.
type tableLine struct {
	line  int
	cells []string
}

// tableLines reads a table as it stands on disk, apart from the package's own
// reader, so that a reader that forgives a bad row can't hide it.
func tableLines(t *testing.T, name, header string) []tableLine {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasSuffix(string(data), "\n") {
		t.Errorf("%s: the last line has no end", name)
	}
	var rows []tableLine
	var headed bool
	for i, line := range strings.Split(strings.TrimSuffix(string(data), "\n"), "\n") {
		switch {
		case strings.HasPrefix(line, "#"):
			if headed {
				t.Errorf("%s:%d: comments stand above the header only", name, i+1)
			}
		case !headed:
			headed = true
			if line != header {
				t.Fatalf("%s:%d: header is %q, want %q", name, i+1, line, header)
			}
		default:
			cells := strings.Split(line, "\t")
			if want := strings.Count(header, "\t") + 1; len(cells) != want {
				t.Errorf("%s:%d: %d columns, want %d: %q", name, i+1, len(cells), want, line)
				continue
			}
			rows = append(rows, tableLine{i + 1, cells})
		}
	}
	return rows
}

// wellSpelt reports what is wrong with a name or phrase, "" if nothing is.
func wellSpelt(phrase string) string {
	switch {
	case phrase == "":
		return "is empty"
	case phrase != strings.ToLower(phrase):
		return "has capital letters"
	case phrase != strings.Join(strings.Fields(phrase), " "):
		return "has stray spaces"
	}
	for _, r := range phrase {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune(" -'%", r) {
			return "has the character " + string(r)
		}
	}
	return ""
}

// listed splits a cell that holds a list; an empty cell is an empty list.
func listed(cell, separator string) []string {
	if cell == "" {
		return nil
	}
	return strings.Split(cell, separator)
}

// foodNames gives every name written in foods.tsv and the row it belongs to.
func foodNames(t *testing.T) map[string]string {
	t.Helper()
	names := make(map[string]string)
	for _, row := range tableLines(t, "foods.tsv", "name\talso\tkind\tflags") {
		for _, name := range append([]string{row.cells[0]}, listed(row.cells[1], "|")...) {
			names[name] = row.cells[0]
		}
	}
	return names
}

func TestFoodRows(t *testing.T) {
	rows := tableLines(t, "foods.tsv", "name\talso\tkind\tflags")
	where := make(map[string]int)
	kinds := make(map[string]int)
	var before string
	for _, row := range rows {
		name, also, kind, flags := row.cells[0], row.cells[1], row.cells[2], row.cells[3]
		for _, spelling := range append([]string{name}, listed(also, "|")...) {
			if fault := wellSpelt(spelling); fault != "" {
				t.Errorf("foods.tsv:%d: %q %s", row.line, spelling, fault)
			}
			if first, taken := where[spelling]; taken {
				t.Errorf("foods.tsv:%d: %q is already on line %d", row.line, spelling, first)
			}
			where[spelling] = row.line
		}
		if !foodKinds[kind] {
			t.Errorf("foods.tsv:%d: %q has unknown kind %q", row.line, name, kind)
		}
		kinds[kind]++
		seen := make(map[string]bool)
		for _, flag := range listed(flags, ",") {
			if !foodFlags[flag] || seen[flag] {
				t.Errorf("foods.tsv:%d: %q has unknown or repeated flag %q", row.line, name, flag)
			}
			seen[flag] = true
		}
		if order := kind + "\t" + name; order <= before {
			t.Errorf("foods.tsv:%d: %q is out of order: rows go by kind, then name", row.line, name)
		} else {
			before = order
		}
	}
	if len(rows) < fewestFoods {
		t.Errorf("foods.tsv has %d rows, want at least %d", len(rows), fewestFoods)
	}
	for kind := range foodKinds {
		if kinds[kind] == 0 {
			t.Errorf("foods.tsv has no food of kind %q", kind)
		}
	}
	t.Logf("foods.tsv: %d rows, %d names", len(rows), len(where))
}

// TestFoodNames pins names that other tables and other countries rely on.
func TestFoodNames(t *testing.T) {
	names := foodNames(t)
	for spelling, want := range map[string]string{
		"maida":                "plain flour",
		"all-purpose flour":    "plain flour",
		"all purpose flour":    "plain flour",
		"self-rising flour":    "self-raising flour",
		"superfine sugar":      "caster sugar",
		"powdered sugar":       "icing sugar",
		"baking soda":          "bicarbonate of soda",
		"cornstarch":           "cornflour",
		"eggplant":             "aubergine",
		"brinjal":              "aubergine",
		"zucchini":             "courgette",
		"rutabaga":             "swede",
		"cilantro":             "coriander",
		"hara dhania":          "coriander",
		"dhania powder":        "ground coriander",
		"jeera":                "cumin seed",
		"haldi":                "turmeric",
		"hing":                 "asafoetida",
		"amchur":               "amchur",
		"kasuri methi":         "dried fenugreek leaf",
		"kadi patta":           "curry leaf",
		"gur":                  "jaggery",
		"besan":                "chickpea flour",
		"snow pea":             "mangetout",
		"green onion":          "spring onion",
		"beef mince":           "ground beef",
		"shrimp":               "prawn",
		"konjac powder":        "glucomannan",
		"creme fraiche":        "crème fraîche",
		"jalapeno":             "jalapeño",
		"dried chile de arbol": "chile de árbol",
		"peppers":              "bell pepper",
		"pepper":               "pepper",
		"tomatoes":             "tomato",
		"bay leaves":           "bay leaf",
	} {
		if got := names[spelling]; got != want {
			t.Errorf("%q is listed under %q, want %q", spelling, got, want)
		}
	}
}

func TestHeardRows(t *testing.T) {
	rows := tableLines(t, "heard.tsv", "heard\tmeant\tnear")
	foods := foodNames(t)
	where := make(map[string]int)
	var before string
	for _, row := range rows {
		heard, meant, near := row.cells[0], row.cells[1], listed(row.cells[2], "|")
		for _, phrase := range []string{heard, meant} {
			if fault := wellSpelt(phrase); fault != "" {
				t.Errorf("heard.tsv:%d: %q %s", row.line, phrase, fault)
			}
		}
		if heard == meant {
			t.Errorf("heard.tsv:%d: %q is read as itself", row.line, heard)
		}
		pair := heard + "\t" + meant
		if first, taken := where[pair]; taken {
			t.Errorf("heard.tsv:%d: %q for %q is already on line %d", row.line, heard, meant, first)
		}
		where[pair] = row.line
		if pair <= before {
			t.Errorf("heard.tsv:%d: %q is out of order", row.line, heard)
		}
		before = pair
		seen := make(map[string]bool)
		for _, word := range near {
			if fault := wellSpelt(word); fault != "" || strings.Contains(word, " ") || seen[word] {
				t.Errorf("heard.tsv:%d: near word %q must be one word, well spelt, listed once", row.line, word)
			}
			seen[word] = true
		}
		// A true food's name is never read as another without a reason nearby.
		if food, ok := foods[heard]; ok && len(near) == 0 {
			t.Errorf("heard.tsv:%d: %q is itself the food %q and needs near words", row.line, heard, food)
		}
	}
	if len(rows) < fewestHeard {
		t.Errorf("heard.tsv has %d rows, want at least %d", len(rows), fewestHeard)
	}
	t.Logf("heard.tsv: %d rows", len(rows))
}
