package written

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"quern/extract"
	"quern/internal/derive"
	"quern/internal/transcript"
	"quern/schema"
)

// short writes an ingredient in one line.
func short(i Ingredient) string {
	var b strings.Builder
	for _, q := range []*schema.Quantity{i.Amount, i.Second, i.Size} {
		if q == nil {
			b.WriteString("- | ")
		} else {
			b.WriteString(q.String() + " | ")
		}
	}
	b.WriteString(i.Name + " | " + i.Preparation)
	if i.Optional {
		b.WriteString(" | optional")
	}
	if i.ToTaste {
		b.WriteString(" | to taste")
	}
	return b.String()
}

func TestReadIngredient(t *testing.T) {
	for _, tt := range []struct{ line, want string }{
		{"1 1/2 cups (180 g) plain flour, sifted", "1 1/2 cups | 180 g | - | plain flour | sifted"},
		{"1½ cups plain flour", "1 1/2 cups | - | - | plain flour | "},
		{"2 large eggs, beaten", "2 | - | - | large eggs | beaten"},
		{"225g butter", "225 g | - | - | butter | "},
		{"2 (14 oz) cans chopped tomatoes", "2 cans | - | 14 oz | chopped tomatoes | "},
		{"2 cans (14 oz) chopped tomatoes", "2 cans | - | 14 oz | chopped tomatoes | "},
		{"1 cup plus 2 tbsp sugar", "1 1/8 cups | - | - | sugar | "},
		{"a pinch of salt", "1 pinch | - | - | salt | "},
		{"half a cup of milk", "1/2 cup | - | - | milk | "},
		{"salt, to taste", "- | - | - | salt |  | to taste"},
		{"Salt and pepper to taste", "- | - | - | Salt and pepper |  | to taste"},
		{"1/2 cup walnuts, chopped (optional)", "1/2 cup | - | - | walnuts | chopped | optional"},
		{"plain flour: 200 g", "200 g | - | - | plain flour | "},
		{"plain flour – 200 g", "200 g | - | - | plain flour | "},
		{"2–3 cloves garlic, crushed", "2-3 cloves | - | - | garlic | crushed"},
		{"120 ml / 1/2 cup oil", "120 ml | 1/2 cup | - | oil | "},
		{"4 oz (115 g/1 stick) butter - softened", "4 oz | 115 g | - | butter | softened"},
		{"type 00 flour", "- | - | - | type 00 flour | "},
		{"honey", "- | - | - | honey | "},
		{"", "- | - | - |  | "},
		{"(((", "- | - | - |  | "},
	} {
		if diff := cmp.Diff(tt.want, short(ReadIngredient(tt.line))); diff != "" {
			t.Errorf("%q (-want +got):\n%s", tt.line, diff)
		}
	}
}

const markdown = `# Ginger oat bars

Somebody's grandmother made these.

Makes 16 bars

## Ingredients

**For the base**

- [ ] 2 1/4 cups rolled oats
- 1/2 cup honey

### Glaze

* 1 cup icing sugar, sifted

## Method

1. Heat the oven to 350 F.
2. Stir the oats into the honey
   and press it into a tin.

**Glaze**

3. Whisk the icing sugar with water.

## Notes

2 cups of tea go well with it.
`

// lines writes a recipe for comparison, each fact with its line.
func lines(r *Recipe) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d %s\n", r.TitleLine, r.Title)
	if r.Yield != nil {
		fmt.Fprintf(&b, "%d makes %s\n", r.YieldLine, r.Yield)
	}
	for _, i := range r.Ingredients {
		fmt.Fprintf(&b, "%d [%s] %s\n", i.Line, i.Part, short(i))
	}
	for _, s := range r.Steps {
		fmt.Fprintf(&b, "%d [%s] %s\n", s.Line, s.Part, s.Text)
	}
	return b.String()
}

func TestReadTexts(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"markdown", markdown, `1 Ginger oat bars
5 makes 16 bars
11 [For the base] 2 1/4 cups | - | - | rolled oats | 
12 [For the base] 1/2 cup | - | - | honey | 
16 [Glaze] 1 cup | - | - | icing sugar | sifted
20 [] Heat the oven to 350 F.
21 [] Stir the oats into the honey and press it into a tin.
26 [Glaze] Whisk the icing sugar with water.
`},
		{"plain text with headings", "PLUM CAKE\r\nServes 6-8\r\n\r\nINGREDIENTS\r\n2 cups flour\r\n1 cup plums, halved\r\n\r\nDIRECTIONS\r\nMix.\r\nBake for 40 minutes.\r\n", `1 PLUM CAKE
2 makes 6-8 servings
5 [] 2 cups | - | - | flour | 
6 [] 1 cup | - | - | plums | halved
9 [] Mix. Bake for 40 minutes.
`},
		{"plain text without headings", "Plum cake\n\n2 cups flour\n1 cup plums\n\n1. Mix it all.\n2. Bake it.\n", `1 Plum cake
3 [] 2 cups | - | - | flour | 
4 [] 1 cup | - | - | plums | 
6 [] Mix it all.
7 [] Bake it.
`},
		{"linked data", `<!DOCTYPE html><html><head>
<script type="application/ld+json">
{"@context": "https://schema.org", "@graph": [{"@type": "WebPage"},
 {"@type": ["Recipe"], "name": "Plum &amp; ginger cake", "recipeYield": ["8", "8 slices"],
  "recipeIngredient": ["2 cups flour",
    "1 cup plums, <b>halved</b>"],
  "recipeInstructions": [{"@type": "HowToSection", "name": "Cake", "itemListElement": [
    {"@type": "HowToStep", "text": "Mix."},
    {"@type": "HowToStep", "text": "Bake at 350 F."}]}]}]}
</script></head><body><p>2 cups of tea</p></body></html>`, `4 Plum & ginger cake
4 makes 8 slices
5 [] 2 cups | - | - | flour | 
6 [] 1 cup | - | - | plums | halved
8 [Cake] Mix.
9 [Cake] Bake at 350 F.
`},
		{"marks on elements", `<html><body><div itemscope itemtype="https://schema.org/Recipe">
<h1 itemprop="name">Plum cake</h1><meta itemprop="recipeYield" content="8 servings">
<ul><li itemprop="recipeIngredient"><b>2 cups</b> flour</li>
<li itemprop=recipeIngredient>1 cup plums</ul>
<div itemprop="recipeInstructions"><p>Mix.</p><p>Bake it.</p></div>
</div><p itemprop="recipeIngredient">3 cups of what is no part of it</p></body></html>`, `2 Plum cake
2 makes 8 servings
3 [] 2 cups | - | - | flour | 
4 [] 1 cup | - | - | plums | 
5 [] Mix.
5 [] Bake it.
`},
	} {
		r, err := Read(tt.name, []byte(tt.text))
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if diff := cmp.Diff(tt.want, lines(r)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, diff)
		}
	}
}

// TestManyMarks reads a page with more marks than any has, nested.
func TestManyMarks(t *testing.T) {
	page := `<html><div itemscope itemtype="https://schema.org/Recipe">` + strings.Repeat(`<p itemprop="recipeIngredient">1 cup oats<br>`, 5000)
	r, err := Read("page.html", []byte(page))
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Ingredients) != mostIngredients || r.Ingredients[7].Name != "oats" {
		t.Errorf("%d ingredients, the eighth %+v; want %d of oats", len(r.Ingredients), r.Ingredients[7], mostIngredients)
	}
}

func TestReadErrors(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       error
	}{
		{"nothing", "", ErrNoRecipe},
		{"a letter", "Dear aunt,\n\nall is well.\n", ErrNoRecipe},
		{"a page without data", "<!doctype html><p>2 cups flour</p>", ErrNoRecipe},
		{"a page cut short", "<html><script type=\"application/ld+json\">{\"@type\": \"Recipe\"", ErrNoRecipe},
		{"bytes", "\xff\xfe\x00", ErrNotText},
		{"too much", strings.Repeat("2 cups flour\n", MaxBytes/12), ErrTooLarge},
	} {
		_, err := Read("page.html", []byte(tt.text))
		if !errors.Is(err, tt.want) || !strings.HasPrefix(fmt.Sprint(err), "page.html: ") {
			t.Errorf("%s: %v, want %v with the file's name", tt.name, err, tt.want)
		}
	}
}

func TestLooks(t *testing.T) {
	if !Looks([]byte(markdown)) {
		t.Error("a written recipe doesn't look like one")
	}
	if Looks([]byte("So I put two cups of oats in a bowl. Then I told my sister about the tin, and she laughed.")) {
		t.Error("talk looks like a written recipe")
	}
}

// spoken reads a talk as the program does.
func spoken(t *testing.T, talk string) *schema.Document {
	t.Helper()
	n, err := transcript.Parse("talk.vtt", []byte(talk))
	if err != nil {
		t.Fatal(err)
	}
	doc := extract.Extract(n)[0]
	derive.Apply(doc, derive.Options{})
	return doc
}

const talk = `[0:00] Today I'm making ginger oat bars.

[0:06] Put two cups of rolled oats and half a cup of plain flour in a bowl.

[0:14] Add the honey and a teaspoon of salt and stir it well.

[0:22] Bake it at 350 degrees for 25 minutes. It makes sixteen bars.

[0:40] Fry the walnuts in a dry pan for three minutes.
`

// toldShort writes differences in short.
func toldShort(list []Difference) []string {
	var out []string
	for _, d := range list {
		at := d.At
		if at != "" {
			at = at[4:8]
		}
		out = append(out, fmt.Sprintf("%s: %s / %s @%s line %d", d.Kind, d.Spoken, d.Written, at, d.Line))
	}
	return out
}

func TestCompare(t *testing.T) {
	doc := spoken(t, talk)
	same := "Makes 16 bars\n\n## Ingredients\n\n- 2 cups oats\n- 65 g plain flour\n- honey\n- 1 tsp salt\n- walnuts\n\n## Method\n\n" +
		"1. Put the oats and flour in a bowl.\n2. Stir in the honey and salt.\n3. Bake at 180 C for 20-25 minutes.\n4. Fry the walnuts for 3 minutes.\n"
	r, err := Read("same.md", []byte(same))
	if err != nil {
		t.Fatal(err)
	}
	if got := toldShort(Compare(doc, r)); len(got) != 0 {
		t.Errorf("a faithful written recipe differs:\n%s", strings.Join(got, "\n"))
	}
	other := "Makes 20 bars\n\n## Ingredients\n\n- 3 cups rolled oats\n- 1/2 cup plain flour\n- 1/3 cup honey\n- salt, to taste\n- 1 cup raisins\n\n## Method\n\n" +
		"1. Put the oats and flour in a bowl.\n2. Stir in the honey and salt.\n3. Bake at 400 F for 40 minutes.\n4. Dust with icing sugar.\n"
	if r, err = Read("other.md", []byte(other)); err != nil {
		t.Fatal(err)
	}
	want := []string{
		"yield: 16 bars / 20 bars @0:22 line 1",
		"amount: 2 cups / 3 cups @0:06 line 5",
		"amount-only-spoken: 1 tsp / to taste @0:14 line 8",
		"amount-only-written:  / 1/3 cup @0:14 line 7",
		"food-only-spoken: walnuts / @0:40 line 0",
		"food-only-written:  / 1 cup raisins @ line 9",
		"temperature: 350 F / 400 F @0:22 line 15",
		"time: 25 minutes / 40 minutes @0:22 line 15",
		"step-only-spoken: Fry the walnuts in a dry pan for 3 minutes. / @0:40 line 0",
		"step-only-written:  / Dust with icing sugar. @ line 16",
	}
	var got []string
	for _, line := range toldShort(Compare(doc, r)) {
		got = append(got, strings.NewReplacer("/  @", "/ @", "three", "3").Replace(line))
	}
	moments := func(list []string) []string { // the moment of a word is a matter of the transcript
		out := []string{}
		for _, l := range list {
			head, tail, _ := strings.Cut(l, "@")
			_, line, _ := strings.Cut(tail, " line")
			out = append(out, head+"line"+line)
		}
		return out
	}
	if diff := cmp.Diff(moments(want), moments(got)); diff != "" {
		t.Errorf("differences (-want +got):\n%s", diff)
	}
	counts := Count(Compare(doc, r))
	if len(counts) != 10 || counts[0] != (Counting{YieldDiffers, 1}) {
		t.Errorf("counted %v, want ten kinds in their order", counts)
	}
}

func TestNearest(t *testing.T) {
	bars := &schema.Document{Title: "bars", Ingredients: []schema.Ingredient{{Name: "rolled oats"}, {Name: "honey"}}}
	cake := &schema.Document{Title: "cake", Ingredients: []schema.Ingredient{{Name: "plums"}, {Name: "plain flour"}}}
	r := &Recipe{Ingredients: []Ingredient{{Name: "all-purpose flour"}, {Name: "plum"}}}
	if got := Nearest([]*schema.Document{bars, cake}, r); got != cake {
		t.Errorf("nearest is %q, want the cake", got.Title)
	}
}

func FuzzRead(f *testing.F) {
	for _, seed := range []string{markdown, "2 (14 oz) cans tomatoes", "<html itemscope itemtype=\"schema.org/Recipe\"><p itemprop=name>", "<a b=\"", "## Method\n- x",
		"<script type=application/ld+json>[{\"@type\":\"Recipe\",\"recipeInstructions\":[[\"x\"]]}]</script>"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Read("fuzz", data)
		if err != nil {
			if !errors.Is(err, ErrNoRecipe) && !errors.Is(err, ErrNotText) && !errors.Is(err, ErrTooLarge) {
				t.Fatalf("an error of no kind: %v", err)
			}
			return
		}
		count := strings.Count(strings.ReplaceAll(strings.ReplaceAll(string(data), "\r\n", "\n"), "\r", "\n"), "\n") + 1
		for _, i := range r.Ingredients {
			if i.Line < 1 || i.Line > count || i.Name == "" {
				t.Fatalf("ingredient %+v of a file of %d lines", i, count)
			}
		}
		for _, s := range r.Steps {
			if s.Line < 1 || s.Line > count || s.Text == "" {
				t.Fatalf("step %+v of a file of %d lines", s, count)
			}
		}
	})
}
