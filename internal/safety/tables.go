package safety

import (
	_ "embed" // the tables
	"fmt"
	"strings"
	"sync"
)

//go:embed carriers.tsv
var carriersTSV string

//go:embed classes.tsv
var classesTSV string

//go:embed claims.tsv
var claimsTSV string

//go:embed cautions.tsv
var cautionsTSV string

//go:embed names.tsv
var namesTSV string

//go:embed chart.tsv
var chartTSV string

// Names are the allergens of the recipe document, in the order they are listed.
// The first nine are the US list (FALCPA 2004, FASTER Act 2021), all fifteen the
// EU list (Regulation (EU) 1169/2011, Annex II) with gluten cereals in two.
var Names = []string{
	"milk", "egg", "fish", "crustaceans", "molluscs", "tree nuts", "peanuts", "wheat",
	"gluten cereals other than wheat", "soy", "sesame", "celery", "mustard", "lupin", "sulphites",
}

// certainty of a table row.
type certainty string

const (
	sure  certainty = "yes"   // the named food is enough to tell
	label certainty = "label" // it depends on the maker
	none  certainty = "none"  // the name only borrows a word, or nothing is judged
)

type carrierRow struct {
	foods          []string
	brings         []string
	certainty      certainty
	reason, source string
}

type classRow struct {
	foods   []string
	classes []string
}

type claimRow struct {
	claim          string
	also           []string
	by             string // allergen, class, net carbohydrate or nothing
	what           []string
	certainty      certainty
	reason, source string
}

type cautionRow struct {
	kind, applies, say, source string
}

type nameRow struct {
	words      wordSet  // words in a product's name
	leavesOut  []string // allergens and classes the name says are left out
	reasonText string
}

type chartRow struct {
	what   []string // words of what is kept, or class names after "class:"
	days   float64  // longest time in the refrigerator, days
	figure string   // as the chart gives it
	source string
}

type tables struct {
	carriers  []carrierRow
	carrierOf *phrases
	classes   []classRow
	classOf   *phrases
	claims    []claimRow
	claimOf   map[string]string // any wording, folded -> claim
	cautions  []cautionRow
	names     []nameRow
	chart     []chartRow
}

// rows splits a table into its rows, without the comment head and the line of
// column names. The tables are part of the program and a test reads every row,
// so a short row is a bug here and never an input's fault.
func rows(name, data string, columns int) [][]string {
	var out [][]string
	header := true
	for i, line := range strings.Split(data, "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if header {
			header = false
			continue
		}
		cells := strings.Split(line, "\t")
		if len(cells) != columns {
			panic(fmt.Sprintf("%s line %d: %d columns, want %d", name, i+1, len(cells), columns))
		}
		out = append(out, cells)
	}
	return out
}

func split(cell, sep string) []string {
	if cell == "" || cell == "-" {
		return nil
	}
	return strings.Split(cell, sep)
}

// table holds the tables, read once.
var table = sync.OnceValue(func() *tables {
	t := &tables{carrierOf: newPhrases(), classOf: newPhrases(), claimOf: map[string]string{}}
	for _, c := range rows("carriers.tsv", carriersTSV, 5) {
		r := carrierRow{foods: split(c[0], "|"), brings: split(c[1], ","), certainty: certainty(c[2]), reason: c[3], source: c[4]}
		for _, f := range r.foods {
			t.carrierOf.add(f, len(t.carriers))
		}
		t.carriers = append(t.carriers, r)
	}
	for _, c := range rows("classes.tsv", classesTSV, 2) {
		r := classRow{foods: split(c[0], "|"), classes: split(c[1], ",")}
		for _, f := range r.foods {
			t.classOf.add(f, len(t.classes))
		}
		t.classes = append(t.classes, r)
	}
	for _, c := range rows("claims.tsv", claimsTSV, 7) {
		r := claimRow{claim: c[0], also: split(c[1], "|"), by: c[2], what: split(c[3], ","), certainty: certainty(c[4]), reason: c[5], source: c[6]}
		for _, wording := range append([]string{r.claim}, r.also...) {
			t.claimOf[strings.Join(fold(wording), " ")] = r.claim
		}
		t.claims = append(t.claims, r)
	}
	for _, c := range rows("cautions.tsv", cautionsTSV, 4) {
		t.cautions = append(t.cautions, cautionRow{kind: c[0], applies: c[1], say: c[2], source: c[3]})
	}
	for _, c := range rows("names.tsv", namesTSV, 3) {
		t.names = append(t.names, nameRow{words: words(c[0]), leavesOut: split(c[1], ","), reasonText: c[2]})
	}
	for _, c := range rows("chart.tsv", chartTSV, 4) {
		var days float64
		if _, err := fmt.Sscan(c[1], &days); err != nil {
			panic(fmt.Sprintf("chart.tsv: %q is no number of days: %v", c[1], err))
		}
		t.chart = append(t.chart, chartRow{what: split(c[0], "|"), days: days, figure: c[2], source: c[3]})
	}
	return t
})

// classesIn returns the classes of the foods named in folded words.
func (t *tables) classesIn(words []string) map[string]bool {
	found := map[string]bool{}
	for _, row := range t.classOf.find(words) {
		for _, c := range t.classes[row].classes {
			found[c] = true
		}
	}
	return found
}
