package nutrition

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// outside reads a file of ../shared, relative to the repository's root. Where
// it is missing the test is skipped, and fails when CI is true.
func outside(t testing.TB, path ...string) []byte {
	t.Helper()
	name := filepath.Join(append([]string{"..", "..", "..", "shared"}, path...)...)
	data, err := os.ReadFile(name)
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("CI is true and ../shared/%s is missing: %v", strings.Join(path, "/"), err)
		}
		t.Skipf("wanted ../shared/%s: %v", strings.Join(path, "/"), err)
	}
	return data
}

func outsideRows(t testing.TB, path ...string) []map[string]string {
	t.Helper()
	all, err := csv.NewReader(strings.NewReader(string(outside(t, path...)))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range all[1:] {
		m := map[string]string{}
		for i, v := range r {
			m[all[0][i]] = v
		}
		out = append(out, m)
	}
	return out
}

// sr28Columns are the columns of foods.csv of USDA SR28 that the table carries.
var sr28Columns = []string{"energy_kcal", "protein_g", "fat_g", "saturated_fat_g", "carbohydrate_g", "fibre_g", "sugars_g", "sodium_mg",
	"alcohol_g", "water_g"}

func sr28(t testing.TB) map[string]map[string]string {
	t.Helper()
	out := map[string]map[string]string{}
	for _, r := range outsideRows(t, "usda-sr28", "foods.csv") {
		out[r["ndb"]] = r
	}
	return out
}

// published reads one figure of foods.csv, NaN where it is empty.
func published(t testing.TB, s string) float64 {
	t.Helper()
	if s == "" {
		return math.NaN()
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Every figure of the table is the one USDA SR28 gives for the row it names; a
// mixture's is the sum of its rows by their shares.
func TestFiguresAreThoseOfSR28(t *testing.T) {
	file := sr28(t)
	checked := 0
	for _, f := range Foods() {
		if f.Row == "" {
			continue
		}
		for i, column := range sr28Columns {
			want, mixed := 0.0, strings.ContainsAny(f.Row, "*+")
			for _, term := range strings.Split(f.Row, "+") {
				ndb, share, _ := strings.Cut(term, "*")
				row, ok := file[ndb]
				if !ok {
					t.Fatalf("%s: SR28 has no row %s", f.Key, ndb)
				}
				part := 1.0
				if mixed {
					part = published(t, share)
				}
				want += part * published(t, row[column])
			}
			got := f.Per100[i]
			slack := 0.0
			if mixed {
				slack = 0.0006
			}
			if math.IsNaN(want) != math.IsNaN(got) || math.Abs(want-got) > slack {
				t.Errorf("%s, %s: table has %v, SR28 row %s has %v", f.Key, column, got, f.Row, want)
			}
			checked++
		}
		if share := file[f.Row]["refuse_pct"]; !strings.Contains(f.Note, "left out, common practice") && f.Eaten != 1 &&
			math.Abs(1-f.Eaten-published(t, share)/100) > 1e-9 {
			t.Errorf("%s: %.2f of it is eaten, SR28 row %s has %s%% refuse", f.Key, f.Eaten, f.Row, share)
		}
	}
	t.Logf("%d figures of %d foods checked", checked, len(Foods()))
}

// Every household weight that names an NDB number alone is one SR28 gives.
func TestWeightsAreThoseOfSR28(t *testing.T) {
	weights := map[string][]float64{}
	for _, r := range outsideRows(t, "usda-sr28", "weights.csv") {
		weights[r["ndb"]] = append(weights[r["ndb"]], published(t, r["grams"])/published(t, r["amount"]))
	}
	checked := 0
	for _, f := range Foods() {
		for _, m := range f.Measures {
			ndb, ok := strings.CutPrefix(m.Source, "NDB ")
			if !ok || len(ndb) != 5 {
				continue
			}
			found := false
			for _, w := range weights[ndb] {
				// measures.tsv keeps four figures.
				found = found || math.Abs(w-m.Grams) <= 0.0006*w
			}
			if !found {
				t.Errorf("%s, %q %q: %v g is no weight of SR28 row %s (%v)", f.Key, m.Unit, m.Form, m.Grams, ndb, weights[ndb])
			}
			checked++
		}
	}
	t.Logf("%d weights checked", checked)
}

// The energy of the rows is that of their protein, fat, carbohydrate and
// alcohol: by the food's own factors where SR28 prints them, within 10%; and by
// 4-4-9-7 for at least 200 foods. It also shows that a row which mentions no
// alcohol has none: nothing is left over for it.
func TestEnergyByFactors(t *testing.T) {
	file := sr28(t)
	own, general := 0, 0
	for _, f := range Foods() {
		if len(f.Row) != 5 || f.Per100[Kcal] < 10 {
			continue
		}
		row := file[f.Row]
		alcohol, _ := f.Per100.Get(Alcohol)
		if row["protein_factor"] != "" && row["fat_factor"] != "" && row["carbohydrate_factor"] != "" {
			by := published(t, row["protein_factor"])*f.Per100[Protein] + published(t, row["fat_factor"])*f.Per100[Fat] +
				published(t, row["carbohydrate_factor"])*f.Per100[Carbs] + 6.93*alcohol // 6.93 kcal a gram: USDA Handbook 74, from memory
			if math.Abs(by-f.Per100[Kcal]) > 0.10*f.Per100[Kcal] {
				t.Errorf("%s (NDB %s): %v kcal, by its own factors %.1f", f.Key, f.Row, f.Per100[Kcal], by)
			}
			own++
		}
		if by, ok := f.Per100.ByFactors(); ok && math.Abs(by-f.Per100[Kcal]) <= 0.10*f.Per100[Kcal] {
			general++
		}
		if math.IsNaN(f.Per100[Alcohol]) {
			rest := f.Per100[Kcal] - 4*f.Per100[Protein] - 4*f.Per100[Carbs] - 9*f.Per100[Fat]
			if rest > 0.10*f.Per100[Kcal]+15 && !otherEnergy[f.Row] {
				t.Errorf("%s (NDB %s) names no alcohol, but %.0f of its %v kcal are not accounted for", f.Key, f.Row, rest, f.Per100[Kcal])
			}
		}
	}
	t.Logf("within 10%% by the food's own factors: %d foods; by 4-4-9-7: %d foods", own, general)
	if own < 200 || general < 200 {
		t.Errorf("want at least 200 of each")
	}
}

// otherEnergy are rows whose energy has another source than alcohol: acetic acid
// in red wine vinegar, and a taco seasoning whose maker's kcal are carried.
var otherEnergy = map[string]bool{"02068": true, "02075": true}
