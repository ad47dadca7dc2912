package archive

import (
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"quern/internal/transcript"
	"quern/schema"
)

func narration(t testing.TB, text string) *transcript.Narration {
	t.Helper()
	n, err := transcript.Parse("talk", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// talkOf makes a talk of random words.
func talkOf(seed uint64, length int) []string {
	r := rand.New(rand.NewPCG(seed, 1))
	var out []string
	for range length {
		out = append(out, fmt.Sprintf("w%d", r.IntN(800)))
	}
	return out
}

func TestSketchesOfTalk(t *testing.T) {
	one := talkOf(1, 1500)
	half := append(slices.Clone(one[:1000]), talkOf(2, 500)...)
	of := func(words []string) sketch { return sketchOf(narration(t, strings.Join(words, " "))) }
	if got := of(one).alike(of(one)); got != 1 {
		t.Errorf("a talk is like itself by %g, want 1", got)
	}
	if got := of(one).alike(of(talkOf(3, 1500))); got > 0.1 {
		t.Errorf("two talks are alike by %g, want about 0", got)
	}
	// Of 2,000 different runs of words the two share 1,000.
	if got := of(one).alike(of(half)); got < 0.3 || got > 0.7 {
		t.Errorf("talks that share half are alike by %g, want about 0.5", got)
	}
	if got := of([]string{"two", "words"}); got != nil || got.alike(got) != 0 {
		t.Errorf("two words have the sketch %v, want none, like nothing", got)
	}
	text, err := of(one).MarshalText()
	if err != nil {
		t.Fatal(err)
	}
	var back sketch
	if err := back.UnmarshalText(text); err != nil || !slices.Equal(back, of(one)) {
		t.Errorf("a sketch doesn't come back from its text: %v", err)
	}
	if err := back.UnmarshalText([]byte("AAAA")); err == nil {
		t.Error("a text too short is taken for a sketch")
	}
}

// rowWith makes a row with ingredients given as "name=amount", "name?" for an
// open one, and after a stroke the food.
func rowWith(title string, ovens []float64, items ...string) *Row {
	row := &Row{Path: title + ".vtt", Document: title + ".yaml", Title: title, Recipe: 1, Recipes: 1, Ovens: ovens}
	for _, text := range items {
		text, food, _ := strings.Cut(text, "|")
		name, amount, _ := strings.Cut(text, "=")
		x := Item{Name: strings.TrimSuffix(name, "?"), Food: food, Amount: amount, Open: strings.HasSuffix(name, "?"), At: "00:01:00.000"}
		if x.Open {
			x.Ask = "How much " + x.Name + "?"
		}
		row.Items = append(row.Items, x)
	}
	return row
}

func gathered3(rows ...*Row) *Across {
	g := newGathering()
	for _, r := range rows {
		g.add(r)
	}
	return g.across()
}

func TestOneFoodUnderSeveralNames(t *testing.T) {
	a := gathered3(
		rowWith("one", nil, "plain flour=1 cup|flour", "egg=1|egg"),
		rowWith("two", nil, "all-purpose flour=2 cups|flour", "eggs=2|egg"),
		rowWith("three", nil, "plain flour=3 cups|flour", "moon dust=1 cup"),
	)
	if len(a.Synonyms) != 1 || a.Synonyms[0].Food != "flour" {
		t.Fatalf("synonyms %+v, want flour alone: egg and eggs are one name", a.Synonyms)
	}
	var got []string
	for _, n := range a.Synonyms[0].Names {
		got = append(got, fmt.Sprintf("%s %d %d", n.Name, n.Count, n.First.Row))
	}
	if diff := cmp.Diff([]string{"plain flour 2 1", "all-purpose flour 1 2"}, got); diff != "" {
		t.Errorf("names (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(Entry{"flour", []int32{1, 2, 3}}, a.Index[1]); diff != "" {
		t.Errorf("index (-want +got):\n%s", diff)
	}
}

func TestUsualAmounts(t *testing.T) {
	rows := []*Row{
		rowWith("a", nil, "salt=1/2 tsp|salt"), rowWith("b", nil, "salt=1 tsp|salt"), rowWith("c", nil, "salt=1 tbsp|salt"),
		rowWith("d", nil, "salt=5 g|salt"), rowWith("e", nil, "salt?|salt"), rowWith("f", nil, "honey?|honey"),
		rowWith("g", nil, "honey=1 cup|honey"), rowWith("h", nil, "honey=2 cups|honey"),
	}
	a := gathered3(rows...)
	if len(a.Usual) != 1 {
		t.Fatalf("usual amounts %+v, want those of salt: two of honey are too few", a.Usual)
	}
	u := a.Usual[0]
	if u.Amount != "1 tsp" || u.Least != "1/2 tsp" || u.Most != "1 tbsp" || u.Of != 3 || u.Others != 1 {
		t.Errorf("usual %+v, want 1 tsp from 1/2 tsp to 1 tbsp of 3, and 1 by weight", u)
	}
	if len(u.Asked) != 1 || u.Asked[0].Row != 5 || u.Asked[0].Ask != "How much salt?" || len(u.Known) != 3 || u.Known[0].Title != "a" {
		t.Errorf("recordings %+v and %+v, want row 5 asked and a, b, c known", u.Asked, u.Known)
	}
}

func TestTwinsAndHeats(t *testing.T) {
	foods := []string{"flour=1 cup|flour", "butter=1 cup|butter", "sugar=1 cup|sugar", "egg=1|egg", "salt=1 tsp|salt", "milk=1 cup|milk"}
	first, again := rowWith("My easy plum cakes", []float64{350}, foods...), rowWith("Late plum cake", []float64{400}, "oats=1 cup|oats")
	words := talkOf(5, 600)
	first.Sketch = sketchOf(narration(t, strings.Join(words, " ")))
	words[300] = "another"
	again.Sketch = sketchOf(narration(t, strings.Join(words, " ")))
	a := gathered3(
		first, again,
		rowWith("Plain buns", []float64{355}, foods[:5]...),
		rowWith("The Best Plum Cake Ever", []float64{355, 425}, "plum=1|plum"),
		rowWith("Soup", []float64{400}, "stock=1 l|stock"),
	)
	var got []string
	for _, x := range a.Twins {
		line := x.By
		for _, r := range x.Rows {
			line += fmt.Sprintf(" %d", r.Row)
		}
		got = append(got, line)
	}
	if diff := cmp.Diff([]string{"talk 1 2", "ingredients 1 3"}, got); diff != "" {
		t.Errorf("twins (-want +got):\n%s", diff)
	}
	if len(a.Heats) != 1 || len(a.Heats[0].Rows) != 3 {
		t.Fatalf("temperatures %+v, want the three plum cakes", a.Heats)
	}
	a = gathered3(rowWith("Plum cake", []float64{350}), rowWith("Plum cakes", []float64{356}))
	if len(a.Heats) != 0 {
		t.Errorf("temperatures %+v, want none: 350 and 356 agree", a.Heats)
	}
}

func TestComponents(t *testing.T) {
	q := func(text string) *schema.Quantity {
		x, err := schema.ParseQuantity(text)
		if err != nil {
			t.Fatal(err)
		}
		return &x
	}
	bars := schema.Single(16, "bars")
	whole := &schema.Document{
		Title: "Bars", Yield: &bars, Equipment: []schema.Equipment{{Name: "tin"}},
		Ingredients: []schema.Ingredient{{Name: "oats", Amount: q("2 cups")}, {Name: "salt", ToTaste: true}},
		Steps:       []schema.Step{{Text: "Bake.", Actions: []string{"bake"}, Temperature: []schema.Quantity{*q("350 F")}, Time: []schema.Quantity{*q("25 minutes")}}},
	}
	if row := rowOf(whole); row.Complete != 100 {
		t.Errorf("a whole recipe is complete by %d %%: %+v", row.Complete, row.Holds)
	}
	half := *whole
	half.Ingredients = append(slices.Clone(whole.Ingredients), schema.Ingredient{Name: "honey"}, schema.Ingredient{Name: "ginger", Vague: "some"})
	half.Flags = []schema.Flag{{Kind: schema.TimeUnstated}}
	row := rowOf(&half)
	if row.Holds[2].Share != 0.5 || row.Holds[2].Note != "2 known of 4" || row.Holds[4].Share != 0.5 || row.Complete != 87 {
		t.Errorf("complete by %d %%: %+v; want half the amounts, half of heat and time, 87 %%", row.Complete, row.Holds)
	}
	cold := &schema.Document{Title: "Salad", Steps: []schema.Step{{Text: "Toss.", Actions: []string{"toss"}}}}
	if row := rowOf(cold); row.Holds[4].Needs || row.Complete != 28 {
		t.Errorf("a salad is complete by %d %%: %+v; want no heat needed and 2 of 7", row.Complete, row.Holds)
	}
	if row := rowOf(&schema.Document{}); row.Complete != 0 {
		t.Errorf("an empty document is complete by %d %%", row.Complete)
	}
}

func TestRowReadsLengthAndTemperatures(t *testing.T) {
	doc := &schema.Document{Source: &schema.Source{Length: "PT1H2M3S"}, Steps: []schema.Step{
		{Temperature: []schema.Quantity{schema.Single(180, "C"), schema.Single(165, "F"), schema.Single(4, "gas")}},
		{Temperature: []schema.Quantity{schema.Single(350, "F")}},
	}}
	row := rowOf(doc)
	if row.Length != 3723 {
		t.Errorf("length %g s, want 3723", row.Length)
	}
	if diff := cmp.Diff([]float64{350, 356}, row.Ovens); diff != "" {
		t.Errorf("temperatures (-want +got):\n%s", diff)
	}
	for _, odd := range []string{"", "PT", "P1D", "PT-3S", "nonsense"} {
		if got := seconds(odd); got != 0 {
			t.Errorf("seconds(%q) = %g, want 0", odd, got)
		}
	}
}

func TestStream(t *testing.T) {
	line := func(name, text string) string {
		data, err := json.Marshal(map[string]string{"name": name, "text": text})
		if err != nil {
			t.Fatal(err)
		}
		return string(data) + "\n"
	}
	in := line("bars.vtt", talks["bars.vtt"]) + "\n" + "not JSON\n" + line("plum.txt", talks["cakes/plum.txt"]) + `{"name": "x"}` + "\n" +
		line("empty", "") + strings.TrimSuffix(line("", talks["soups/broth.md"]), "\n")
	var out strings.Builder
	var told []string
	failures, err := Stream(context.Background(), strings.NewReader(in), &out, 3, nil, func(err error) { told = append(told, err.Error()) })
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, l := range strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n") {
		var v struct {
			Recipe int
			Source struct{ File string }
			Error  string
			Line   int
		}
		if err := json.Unmarshal([]byte(l), &v); err != nil {
			t.Fatalf("%v: %s", err, l)
		}
		if v.Error != "" {
			got = append(got, fmt.Sprintf("error in line %d", v.Line))
		} else {
			got = append(got, v.Source.File)
		}
	}
	want := []string{"bars.vtt", "error in line 3", "plum.txt", "error in line 5", "error in line 6", "line 7"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("stream (-want +got):\n%s", diff)
	}
	if failures != 3 || len(told) != 3 || !strings.HasPrefix(told[0], "line 3: not a JSON object") {
		t.Errorf("%d failures, told %q; want three", failures, told)
	}
}

func TestAddress(t *testing.T) {
	for _, tt := range []struct{ to, file, want string }{
		{".", "bars.yaml", "./bars.yaml"},
		{"../talks", "cakes/plum 1.vtt", "../talks/cakes/plum%201.vtt"},
		{".", "javascript:alert(1).yaml", "./javascript:alert%281%29.yaml"},
		{"a", "100%#1.vtt", "./a/100%25%231.vtt"},
	} {
		if got := address(tt.to, tt.file); got != tt.want {
			t.Errorf("address(%q, %q) = %q, want %q", tt.to, tt.file, got, tt.want)
		}
	}
}
