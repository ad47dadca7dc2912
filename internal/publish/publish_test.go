package publish

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"quern/schema"
)

func written(t testing.TB, form string, doc *schema.Document, opt Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, form, doc, opt); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestOptionsThatDontFit(t *testing.T) {
	plum, pickle := document(t, "plum-slice"), document(t, "market-pickle")
	for _, c := range []struct {
		name string
		doc  *schema.Document
		opt  Options
		is   error  // nil where there is no error of its own
		says string // what a person is told
	}{
		{"unknown way", plum, Options{Way: "grill"}, ErrUnknownWay, "choose tray, muffin tin"},
		{"no ways", pickle, Options{Way: "grill"}, ErrUnknownWay, "only one way"},
		{"no yield", pickle, Options{Servings: 4}, ErrNoYield, "settle the yield"},
		{"both", plum, Options{Servings: 4, Factor: 2}, nil, "choose one"},
		{"factor of nothing", plum, Options{Factor: -1}, nil, "multiplied"},
		{"too large", plum, Options{Servings: 1e9}, nil, "multiplied"},
		{"measures", plum, Options{Measures: "cubits"}, nil, "us, metric or both"},
		{"recording", plum, Options{Recording: "javascript:alert(1)"}, nil, "http"},
		{"recording in disguise", plum, Options{Recording: " java\tscript:alert(1)"}, nil, "recording address"},
	} {
		for _, name := range Forms() {
			err := Write(&bytes.Buffer{}, name, c.doc, c.opt)
			if err == nil || !strings.Contains(err.Error(), c.says) || c.is != nil && !errors.Is(err, c.is) {
				t.Errorf("%s as %s: error %v, want one that says %q", c.name, name, err, c.says)
			}
		}
	}
	if err := Write(&bytes.Buffer{}, "pamphlet", plum, Options{}); err == nil || !strings.Contains(err.Error(), "markdown, html, jsonld, chapters, text, questions, csv") {
		t.Errorf("unknown form: %v", err)
	}
	if err := Questions(&bytes.Buffer{}, plum, Options{Format: "pdf"}); err == nil {
		t.Error("questions as pdf were accepted")
	}
	if err := Chapters(&bytes.Buffer{}, plum, Options{Format: "pdf"}); err == nil {
		t.Error("chapters as pdf were accepted")
	}
}

// TestMissingAmountsShow looks for the mark where an amount would stand, with
// and without flags in the document.
func TestMissingAmountsShow(t *testing.T) {
	doc := *document(t, "plum-slice")
	for _, flags := range [][]schema.Flag{doc.Flags, nil} {
		doc.Flags = flags
		text := written(t, "text", &doc, Options{})
		for _, want := range []string{"- (amount not said, 4:40) flaked almonds", "- a splash (measure not said, 2:50) milk"} {
			if !strings.Contains(text, want) {
				t.Errorf("with %d flags: no %q in\n%s", len(flags), want, text)
			}
		}
	}
	for _, form := range []string{"markdown", "html", "csv"} {
		if text := written(t, form, &doc, Options{}); !strings.Contains(text, "amount not said, 4:40") {
			t.Errorf("%s doesn't show that the almonds' amount is missing", form)
		}
	}
	// What a person settled without an amount stands as she wrote it.
	if text := written(t, "text", document(t, "market-pickle"), Options{}); !strings.Contains(text, "- a good tablespoon salt") {
		t.Errorf("the settled amount isn't shown in\n%s", text)
	}
}

// TestFlagsStandByTheirSteps checks that a question about a step stands at it:
// by its moment, or after the step said last before it.
func TestFlagsStandByTheirSteps(t *testing.T) {
	doc := &schema.Document{
		Title: "x",
		Steps: []schema.Step{
			{Text: "Boil", Said: []schema.Said{{At: "00:00:10.000", Quote: "boil"}}},
			{Text: "Bake", Said: []schema.Said{{At: "00:01:00.000", Quote: "bake"}}},
			{Text: "Rest", Said: []schema.Said{{At: "00:02:00.000", Quote: "rest"}}},
		},
		Flags: []schema.Flag{
			{Kind: schema.TemperatureUnstated, Ask: "How hot?", Said: []schema.Said{{At: "00:01:00.000"}}},
			{Kind: schema.ConflictTime, Ask: "How long?", Said: []schema.Said{{At: "00:02:30.000"}, {At: "00:03:00.000"}}},
		},
	}
	text := written(t, "text", doc, Options{})
	for _, want := range []string{" 1. Boil.\n", " 2. Bake. (temperature not said, 1:00)\n", " 3. Rest. (said two ways, 2:30 and 3:00)\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

func TestStepTexts(t *testing.T) {
	q := func(list ...string) []schema.Quantity {
		var out []schema.Quantity
		for _, s := range list {
			out = append(out, *quantity(t, s))
		}
		return out
	}
	for _, c := range []struct {
		step schema.Step
		opt  Options
		want string
	}{
		{schema.Step{Text: "bake at 350 F", Temperature: q("350 F")}, Options{}, "Bake at 350 °F (175 °C)."},
		{schema.Step{Text: "Bake at 350 degrees Fahrenheit", Temperature: q("350 F")}, Options{Measures: "metric"}, "Bake at 175 °C (350 °F)."},
		{schema.Step{Text: "Bake at 180°C", Temperature: q("180 C")}, Options{}, "Bake at 180 °C (355 °F)."},
		{schema.Step{Text: "Bake at 350 F (180 C)", Temperature: q("350 F", "180 C")}, Options{}, "Bake at 350 °F (180 °C)."},
		{schema.Step{Text: "Bake at 350 F", Temperature: q("350 F", "180 C")}, Options{}, "Bake at 350 °F (180 °C)."},
		{schema.Step{Text: "Bake", Temperature: q("350 F", "180 C")}, Options{}, "Bake (350 °F, 180 °C)."},
		{schema.Step{Text: "Bake", Temperature: q("gas 4"), Time: q("20 minutes"), Until: "golden"}, Options{}, "Bake (gas 4, 175 °C; 20 minutes; until golden)."},
		{schema.Step{Text: "Bake for 20-25 minutes until golden.", Time: q("20-25 minutes"), Until: "golden"}, Options{}, "Bake for 20–25 minutes until golden."},
		{schema.Step{Text: "Simmer for half an hour", Time: q("30 minutes")}, Options{}, "Simmer for half an hour."},
		{schema.Step{Text: "Chill overnight", Time: q("overnight")}, Options{}, "Chill overnight."},
		{schema.Step{Text: "Fry over medium heat", Heat: []string{"medium"}}, Options{}, "Fry over medium heat."},
		{schema.Step{Text: "Fry", Heat: []string{"medium-high"}}, Options{}, "Fry (medium-high heat)."},
		{schema.Step{Text: "Line a 9 x 13 inch tin", Sizes: q("9 x 13 inch")}, Options{}, "Line a 9 × 13 inch tin."},
		{schema.Step{Text: "Line a 9 x 13 inch tin", Sizes: q("9 x 13 inch")}, Options{Measures: "both"}, "Line a 9 × 13 inch [23 × 33 cm] tin."},
		{schema.Step{Text: "Cut it 1/2 inch thick", Sizes: q("1/2 inch")}, Options{Measures: "metric"}, "Cut it ½ inch [1.3 cm] thick."},
		{schema.Step{Text: "bake it twenty-two to twenty five minutes", Time: q("22-25 minutes")}, Options{}, "Bake it 22–25 minutes."},
		{schema.Step{Text: "Set the oven to four seventy-five Fahrenheit", Temperature: q("475 F")}, Options{}, "Set the oven to 475 °F (245 °C)."},
		{schema.Step{Text: "Heat it to a hundred and seventy", Temperature: q("170 C")}, Options{}, "Heat it to 170 °C (340 °F)."},
		{schema.Step{Text: "Bake at three fifty degrees for an hour and a half", Temperature: q("350 F"), Time: q("1 1/2 hours")}, Options{},
			"Bake at 350 °F (175 °C) for an hour and a half."},
		{schema.Step{Text: "Rise an hour to an hour and a half", Time: q("1-1 1/2 hours")}, Options{}, "Rise an hour to an hour and a half."},
		{schema.Step{Text: "Rest for twenty minutes", Time: q("20 minutes")}, Options{}, "Rest for 20 minutes."},
		{schema.Step{Text: "Rest for two and a half hours", Time: q("2 1/2 hours")}, Options{}, "Rest for 2½ hours."},
		{schema.Step{Text: "Cook one minute", Time: q("1 minute")}, Options{}, "Cook 1 minute."},
		{schema.Step{Text: "Heat your oven to 180.", Temperature: q("180 C")}, Options{}, "Heat your oven to 180 °C (355 °F)."},
		{schema.Step{Text: "Probe the thigh, 75 degrees", Temperature: q("75 C")}, Options{}, "Probe the thigh, 75 °C (167 °F)."},
		{schema.Step{Text: "Hold it at 55-60 degrees", Temperature: q("55-60 C")}, Options{}, "Hold it at 55–60 °C (131–140 °F)."},
		{schema.Step{Text: "Add 180 g flour, then heat it to 180", Temperature: q("180 C")}, Options{}, "Add 180 g flour, then heat it to 180 °C (355 °F)."},
		{schema.Step{Text: "Cook 4-5 minutes, until it reads 112 Celsius", Time: q("4-5 minutes"), Temperature: q("112 C"), Until: "it reads 112 celsius"}, Options{}, "Cook 4–5 minutes, until it reads 112 °C (234 °F)."},
		{schema.Step{Text: "Add 3 onions and 3 cloves"}, Options{Factor: 2}, "Add 6 onions and 3 cloves."},
		{schema.Step{Text: "Toast", Optional: true}, Options{}, "Optional: Toast."},
		{schema.Step{Text: "Stir in 2 cups of the stock"}, Options{Factor: 2}, "Stir in 4 cups of the stock."},
		{schema.Step{Text: "Use 1 tbsp batter each"}, Options{Factor: 2}, "Use 1 tbsp batter each."},
	} {
		doc := &schema.Document{Title: "x", Ingredients: []schema.Ingredient{{ID: "s", Name: "stock", Amount: quantity(t, "2 cups")}, {ID: "o", Name: "onions", Amount: quantity(t, "3")}}, Steps: []schema.Step{c.step}}
		s, err := build(doc, c.opt, rich)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Sections[0].Steps[0].Text; got != c.want {
			t.Errorf("%q with %+v is written\n%q, want\n%q", c.step.Text, c.opt, got, c.want)
		}
	}
}

func TestTimes(t *testing.T) {
	const minute, hour = 60.0, 3600.0
	for _, c := range []struct {
		text    string
		actions []string
		time    []string
		want    timing
	}{
		{"Bake for 20-25 minutes", []string{"bake"}, []string{"20-25 minutes"}, timing{Cooking: span{20 * minute, 25 * minute}}},
		{"Knead for 10 minutes, then rest for 30 minutes", []string{"knead", "rest"}, []string{"10 minutes", "30 minutes"},
			timing{HandsOn: span{10 * minute, 10 * minute}, Resting: span{30 * minute, 30 * minute}}},
		{"Chill for 1 hour or overnight", []string{"chill"}, []string{"1 hour", "overnight"}, timing{Resting: span{hour, 12 * hour}}},
		{"Chill for an hour", []string{"chill"}, []string{"1 hour", "overnight"}, timing{Resting: span{hour, 12 * hour}}},
		{"Simmer for 1 hour, stirring every 10 minutes", []string{"simmer", "stir"}, []string{"1 hour", "10 minutes"}, timing{Cooking: span{hour, hour}}},
		{"Fry for 3 minutes on each side", []string{"fry"}, []string{"3 minutes"}, timing{Cooking: span{6 * minute, 6 * minute}}},
		{"Heat the stone in there for 30 minutes, then bake it 6 minutes", []string{"heat", "bake"}, []string{"30 minutes", "6 minutes"}, timing{Cooking: span{6 * minute, 6 * minute}}},
		{"Heat the milk for 5 minutes", []string{"heat"}, []string{"5 minutes"}, timing{Cooking: span{5 * minute, 5 * minute}}},
		{"Whisk", []string{"whisk"}, []string{"2 minutes"}, timing{HandsOn: span{2 * minute, 2 * minute}}},
		{"Serve", []string{"serve"}, nil, timing{}},
	} {
		step := schema.Step{Text: c.text, Actions: c.actions}
		for _, s := range c.time {
			step.Time = append(step.Time, *quantity(t, s))
		}
		c.want.All = c.want.HandsOn.plus(c.want.Cooking).plus(c.want.Resting)
		got := timingOf(&schema.Document{Steps: []schema.Step{step}}, "")
		if diff := cmp.Diff(c.want, got, cmp.AllowUnexported(timing{}, span{})); diff != "" {
			t.Errorf("%q (-want +got):\n%s", c.text, diff)
		}
		step.Optional = true
		if got := timingOf(&schema.Document{Steps: []schema.Step{step}}, ""); got.All.known() {
			t.Errorf("%q is optional but counts", c.text)
		}
	}
	for _, c := range []struct {
		span       span
		rich, text string
	}{
		{span{90 * minute, 90 * minute}, "1 h 30 min", "PT1H30M"},
		{span{20 * minute, 25 * minute}, "20–25 min", "PT25M"},
		{span{50 * minute, hour}, "50 min to 1 h", "PT1H"},
		{span{48 * hour, 48 * hour}, "2 days", "P2D"},
		{span{45, 45}, "45 s", "PT45S"},
		{span{26 * hour, 26 * hour}, "26 h", "P1DT2H"},
	} {
		if got := c.span.write(rich); got != c.rich {
			t.Errorf("%v is written %q, want %q", c.span, got, c.rich)
		}
		if got := c.span.iso(); got != c.text {
			t.Errorf("%v is %q in ISO 8601, want %q", c.span, got, c.text)
		}
		if back, ok := isoSeconds(c.text); !ok || back != c.span.max {
			t.Errorf("%q is read as %g, %v", c.text, back, ok)
		}
	}
}

// TestWays writes what is shared once, and one way by itself without the
// other's things.
func TestWays(t *testing.T) {
	doc := document(t, "plum-slice")
	all := written(t, "text", doc, Options{})
	for _, once := range []string{"Sift the flour", "Cool on a wire rack", "Grease a 9 x 13", "Dust with icing"} {
		if n := strings.Count(all, once); n != 1 {
			t.Errorf("%q stands %d times in\n%s", once, n, all)
		}
	}
	tray := written(t, "text", doc, Options{Way: "Tray"})
	for _, want := range []string{"(the tray way)", "Sift the flour", "Grease a 9 x 13", "(said two ways,"} {
		if !strings.Contains(tray, want) {
			t.Errorf("no %q in\n%s", want, tray)
		}
	}
	for _, not := range []string{"pinch icing sugar", "Dust with", "muffin tin", "way only"} {
		if strings.Contains(tray, not) {
			t.Errorf("%q of the other way in\n%s", not, tray)
		}
	}
	if before := written(t, "text", doc, Options{}); before != all {
		t.Error("writing one way changed the document")
	}
}

func TestChaptersKeepTheirLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := &schema.Document{Title: "x", Source: &schema.Source{Length: rapid.SampledFrom([]string{"", "PT5M", "PT1H", "rubbish"}).Draw(t, "length")}}
		for i := range rapid.IntRange(1, 12).Draw(t, "chapters") {
			at := rapid.Float64Range(0, 400).Draw(t, "at")
			doc.Chapters = append(doc.Chapters, schema.Chapter{At: stamp(at), Title: fmt.Sprintf("Part %d", i%5)})
		}
		list, err := turns(doc)
		if err != nil {
			t.Fatal(err)
		}
		if list[0].from != 0 {
			t.Fatalf("the first begins at %g", list[0].from)
		}
		for i, c := range list {
			if c.to-c.from < shortest {
				t.Fatalf("%q lasts %g s", c.title, c.to-c.from)
			}
			if i > 0 && c.from != list[i-1].to {
				t.Fatalf("%q doesn't begin where the one before ends", c.title)
			}
		}
	})
}

func TestChaptersWithoutTimes(t *testing.T) {
	if err := Chapters(&bytes.Buffer{}, document(t, "market-pickle"), Options{}); !errors.Is(err, ErrNoTimes) {
		t.Errorf("error %v, want ErrNoTimes", err)
	}
}

// TestChaptersWithoutAny takes the turns from the parts, ways and storage.
func TestChaptersWithoutAny(t *testing.T) {
	doc := *document(t, "plum-slice")
	doc.Chapters = nil
	want := "0:00 Introduction\n1:28 Base\n4:52 Topping\n5:33 Tray\n6:45 Muffin tin\n8:10 Keeping\n8:50 Figures\n"
	if diff := cmp.Diff(want, written(t, "chapters", &doc, Options{Format: "lines"})); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestStructuredDataLeavesOut checks that what is missing, open or only a lower
// bound is absent from the structured data.
func TestStructuredDataLeavesOut(t *testing.T) {
	read := func(doc *schema.Document, opt Options) map[string]any {
		var out map[string]any
		if err := json.Unmarshal([]byte(written(t, "jsonld", doc, opt)), &out); err != nil {
			t.Fatal(err)
		}
		return out
	}
	absent := func(name string, data map[string]any, keys ...string) {
		t.Helper()
		for _, k := range keys {
			if v, ok := data[k]; ok {
				t.Errorf("%s has %s: %v", name, k, v)
			}
		}
	}
	pickle := read(document(t, "market-pickle"), Options{})
	absent("pickle", pickle, "recipeYield", "prepTime", "cookTime", "totalTime", "nutrition", "suitableForDiet", "tool", "video", "image", "author", "datePublished")
	if strings.Contains(fmt.Sprint(pickle["recipeIngredient"]), "not said") {
		t.Errorf("a missing amount is written as a fact: %v", pickle["recipeIngredient"])
	}
	loaf := read(document(t, "seeded-loaf"), Options{})
	absent("loaf", loaf, "nutrition", "suitableForDiet", "cookTime") // figures in question, claims broken
	if loaf["prepTime"] != "PT13M" {
		t.Errorf("prepTime is %v", loaf["prepTime"])
	}
	broth := read(document(t, "ginger-broth"), Options{Recording: "https://example.org/b.mp4"})
	if diff := cmp.Diff([]any{"https://schema.org/GlutenFreeDiet"}, broth["suitableForDiet"]); diff != "" {
		t.Errorf("diets (-want +got): %s", diff)
	}
	if n, ok := broth["nutrition"].(map[string]any); !ok || n["calories"] != "412 kcal" || n["servingSize"] != "a serving" {
		t.Errorf("nutrition is %v", broth["nutrition"])
	}
	clips := broth["video"].(map[string]any)["hasPart"].([]any)
	first := clips[0].(map[string]any)
	if len(clips) != 5 || first["startOffset"] != 100.0 || first["endOffset"] != 125.0 || first["url"] != "https://example.org/b.mp4#t=100" {
		t.Errorf("%d clips, the first is %v", len(clips), first)
	}
	plum := read(document(t, "plum-slice"), Options{})
	absent("plum", plum, "cookTime") // each way has its own
	if tray := read(document(t, "plum-slice"), Options{Way: "tray"}); tray["cookTime"] != "PT35M" {
		t.Errorf("cookTime of one way is %v", tray["cookTime"])
	}
	// A claim that a named ingredient may break is not a diet.
	doc := *document(t, "ginger-broth")
	doc.Ingredients = append(append([]schema.Ingredient(nil), doc.Ingredients...), schema.Ingredient{ID: "f", Name: "plain flour", Amount: quantity(t, "1 cup")})
	absent("broth with flour", read(&doc, Options{}), "suitableForDiet")
}

// TestNothingIsCalledSafe reads every form for words that would promise
// something on our own authority.
func TestNothingIsCalledSafe(t *testing.T) {
	promise := regexp.MustCompile(`(?i)\b(is|are) (safe|suitable|free (of|from))|allergen[- ]free|safe to eat|contains no\b`)
	for name, doc := range documents(t) {
		for _, form := range []string{"markdown", "text", "html"} {
			if found := promise.FindString(written(t, form, doc, Options{})); found != "" {
				t.Errorf("%s of %s says %q", form, name, found)
			}
		}
	}
}

// TestTablesGuardFormulas checks that no cell of the hostile document is one a
// spreadsheet would work out.
func TestTablesGuardFormulas(t *testing.T) {
	for form, format := range map[string]string{"csv": "", "questions": "csv"} {
		rows, err := csv.NewReader(strings.NewReader(written(t, form, document(t, "hostile"), Options{Format: format}))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if len(rows) < 2 {
			t.Fatalf("%s has %d rows", form, len(rows))
		}
		for _, row := range rows {
			for _, cell := range row {
				if cell != "" && strings.ContainsAny(cell[:1], "=+-@") {
					t.Errorf("%s: cell %q is a formula", form, cell)
				}
			}
		}
	}
}

// TestControlCharacters checks that nothing that moves a terminal's cursor or
// turns text around reaches any form.
func TestControlCharacters(t *testing.T) {
	for _, form := range Forms() {
		for _, r := range written(t, form, document(t, "hostile"), Options{}) {
			if r < ' ' && r != '\n' || r == 0x7f || r >= 0x80 && r < 0xa0 || r >= 0x202a && r <= 0x202e {
				t.Errorf("%s holds %U", form, r)
			}
		}
	}
}

func TestLinks(t *testing.T) {
	for _, c := range []struct{ recording, want string }{
		{"film.mp4", "film.mp4#t=187"},
		{"https://example.org/film.mp4#t=3", "https://example.org/film.mp4#t=187"},
		{"https://example.org/watch?v=1&t={t}s", "https://example.org/watch?v=1&t=187s"},
	} {
		if got := link(c.recording, 187.9); got != c.want {
			t.Errorf("link(%q) is %q, want %q", c.recording, got, c.want)
		}
	}
}

// TestYieldWords scales yields and keeps their nouns right.
func TestYieldWords(t *testing.T) {
	for _, c := range []struct {
		yield string
		opt   Options
		want  string
	}{
		{"24 cookies", Options{}, "Makes 24 cookies"},
		{"24 cookies", Options{Servings: 1}, "Makes 1 cookie"},
		{"1 loaf", Options{Factor: 2}, "Makes 2 loaves"},
		{"4 servings", Options{Servings: 6}, "Serves 6"},
		{"4-6 servings", Options{}, "Serves 4–6"},
		{"4-6 servings", Options{Servings: 10}, "Serves 10"},
		{"6 people", Options{Factor: 0.5}, "Serves 3"},
		{"12 generous slices", Options{Factor: 0.5}, "Makes 6 generous slices"},
		{"10 small glasses", Options{Servings: 1}, "Makes 1 small glass"},
		{"4 jars", Options{}, "Makes 4 jars"},
		{"1 jar", Options{}, "Makes 1 jar"},
	} {
		y, err := schema.ParseYield(c.yield)
		if err != nil {
			t.Fatal(err)
		}
		s, err := build(&schema.Document{Title: "x", Yield: &y}, c.opt, rich)
		if err != nil {
			t.Fatal(err)
		}
		if s.Yield != c.want {
			t.Errorf("%s with %+v: %q, want %q", c.yield, c.opt, s.Yield, c.want)
		}
	}
}

// anyDocument draws a document with whatever in it.
func anyDocument(t *rapid.T) *schema.Document {
	text := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "butter", "Bake at 350 F for 20 minutes", "1 1/2 cups", "-->", "<b>", "=1", "½ x 3 cm", "\x00\u202e"}))
	number := rapid.OneOf(rapid.Float64(), rapid.Float64Range(0, 50), rapid.Just(0.0))
	unit := rapid.OneOf(rapid.SampledFrom(append(schema.Units(), "")), text)
	said := func() []schema.Said {
		var out []schema.Said
		for range rapid.IntRange(0, 2).Draw(t, "said") {
			at := rapid.OneOf(rapid.SampledFrom([]string{"", "00:00:00.000", "00:01:00.000", "00:03:07.000", "99:99"}), rapid.String()).Draw(t, "at")
			out = append(out, schema.Said{At: at, Quote: text.Draw(t, "quote")})
		}
		return out
	}
	amount := func() *schema.Quantity {
		if rapid.Bool().Draw(t, "none") {
			return nil
		}
		q := &schema.Quantity{Min: number.Draw(t, "min"), Unit: unit.Draw(t, "unit"), About: rapid.Bool().Draw(t, "about"), Overnight: rapid.Bool().Draw(t, "overnight")}
		q.Max = rapid.OneOf(rapid.Just(q.Min), number).Draw(t, "max")
		if rapid.Bool().Draw(t, "by") {
			q.By = []float64{number.Draw(t, "side")}
		}
		return q
	}
	list := func() []schema.Quantity {
		if q := amount(); q != nil {
			return []schema.Quantity{*q}
		}
		return nil
	}
	part := rapid.SampledFrom([]string{"", "dough", "glaze"})
	ways := rapid.SampledFrom([][]string{nil, {"oven"}, {"pan"}, {"oven", "pan"}})
	doc := &schema.Document{Title: text.Draw(t, "title"), Yield: amount(), Measures: rapid.SampledFrom([]string{"", "us", "metric", "imperial"}).Draw(t, "measures")}
	if rapid.Bool().Draw(t, "forked") {
		doc.Ways = []schema.Way{{Name: "oven"}, {Name: "pan"}}
	}
	for range rapid.IntRange(0, 3).Draw(t, "ingredients") {
		ing := schema.Ingredient{ID: text.Draw(t, "id"), Name: text.Draw(t, "name"), Amount: amount(), SecondAmount: amount(), Size: amount(), Vague: text.Draw(t, "vague"),
			Preparation: text.Draw(t, "prep"), Part: part.Draw(t, "part"), Ways: ways.Draw(t, "ways"), Said: said()}
		if rapid.Bool().Draw(t, "weighed") {
			ing.Grams = &schema.Grams{Min: number.Draw(t, "grams"), Max: number.Draw(t, "grams to")}
		}
		ing.Substitutes = []schema.Substitute{{Name: text.Draw(t, "instead"), Amount: amount()}}
		doc.Ingredients = append(doc.Ingredients, ing)
	}
	for range rapid.IntRange(0, 3).Draw(t, "steps") {
		doc.Steps = append(doc.Steps, schema.Step{Text: text.Draw(t, "text"), Actions: []string{text.Draw(t, "action")}, Temperature: list(), Time: list(), Sizes: list(),
			Until: text.Draw(t, "until"), Part: part.Draw(t, "part"), Ways: ways.Draw(t, "ways"), Said: said()})
	}
	doc.Storage = []schema.Storage{{Place: text.Draw(t, "place"), Keeps: amount(), What: text.Draw(t, "what")}}
	doc.Flags = []schema.Flag{{Kind: rapid.OneOf(text, rapid.SampledFrom([]string{schema.AmountUnstated, schema.ConflictTime, schema.HeardUnsure})).Draw(t, "kind"),
		Subject: text.Draw(t, "subject"), Ask: text.Draw(t, "ask"), Said: said()}}
	kcal := number.Draw(t, "kcal")
	doc.Macros = &schema.Macros{Spoken: &schema.SpokenMacros{Per: text.Draw(t, "per"), Figures: schema.Figures{Kcal: &kcal}, Said: said()},
		Computed: &schema.ComputedMacros{Servings: number.Draw(t, "servings"), Figures: schema.Figures{FatG: &kcal}}}
	return doc
}

// TestAnyDocument writes random documents in every form: it never panics,
// writes the same twice, leaves the document as it was, and structured data is
// always JSON.
func TestAnyDocument(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := anyDocument(t)
		opt := Options{
			Way:       rapid.SampledFrom([]string{"", "oven"}).Draw(t, "way"),
			Factor:    rapid.SampledFrom([]float64{0, 0.5, 3}).Draw(t, "factor"),
			Measures:  rapid.SampledFrom([]string{"", "us", "metric", "both"}).Draw(t, "in"),
			Recording: rapid.SampledFrom([]string{"", "film.mp4"}).Draw(t, "recording"),
		}
		before := fmt.Sprintf("%+v", *doc)
		for _, form := range Forms() {
			var once, twice bytes.Buffer
			err := Write(&once, form, doc, opt)
			again := Write(&twice, form, doc, opt)
			if fmt.Sprint(err) != fmt.Sprint(again) || once.String() != twice.String() {
				t.Fatalf("%s differs the second time", form)
			}
			if err == nil && form == "jsonld" && !json.Valid(once.Bytes()) {
				t.Fatalf("no JSON: %s", once.String())
			}
		}
		if after := fmt.Sprintf("%+v", *doc); after != before {
			t.Fatalf("the document changed from\n%s\nto\n%s", before, after)
		}
	})
}

// long is a document with n ingredients and n steps.
func long(n int) *schema.Document {
	doc := &schema.Document{Title: "Long", Parts: []schema.Part{{Name: "dough"}, {Name: "glaze"}}}
	q, _ := schema.ParseQuantity("2 cups")
	for i := range n {
		said := []schema.Said{{At: stamp(float64(i)), Quote: "two cups of oats"}}
		doc.Ingredients = append(doc.Ingredients, schema.Ingredient{ID: fmt.Sprintf("oats-%d", i), Name: fmt.Sprintf("oats %d", i), Amount: &q, Part: "dough", Said: said})
		doc.Steps = append(doc.Steps, schema.Step{Text: "Add 2 cups of the oats and bake at 350 F for 20 minutes", Actions: []string{"add", "bake"}, Said: said})
		doc.Flags = append(doc.Flags, schema.Flag{Kind: schema.ConflictTime, Subject: "baking", Ask: "How long?", Said: said})
	}
	return doc
}

func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{20, 200, 2000} {
		doc := long(n)
		for _, form := range Forms() {
			b.Run(fmt.Sprintf("%s/%d", form, n), func(b *testing.B) {
				for b.Loop() {
					var out bytes.Buffer
					if err := Write(&out, form, doc, Options{Factor: 2}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
