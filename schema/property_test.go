package schema

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gopkg.in/yaml.v3"
	"pgregory.net/rapid"
)

// numberGen draws numbers as they come up: whole, fractions, decimals.
func numberGen() *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.Map(rapid.IntRange(1, 2000), func(n int) float64 { return float64(n) }),
		rapid.Map(rapid.IntRange(1, 400), func(n int) float64 { return float64(n) / 8 }),
		rapid.Map(rapid.IntRange(1, 90), func(n int) float64 { return float64(n) / 3 }),
		rapid.Map(rapid.IntRange(1, 100000), func(n int) float64 { return float64(n) / 1000 }),
		rapid.Float64Range(0.001, 1e6),
	)
}

// quantityGen draws quantities as a program may make them, by their fields.
func quantityGen(units []string) *rapid.Generator[Quantity] {
	return rapid.Custom(func(t *rapid.T) Quantity {
		unit := rapid.SampledFrom(units).Draw(t, "unit")
		a, b := numberGen().Draw(t, "a"), numberGen().Draw(t, "b")
		if b < a {
			a, b = b, a
		}
		dim := DimensionOf(unit)
		q := Single(a, unit)
		switch rapid.IntRange(0, 6).Draw(t, "shape") {
		case 0, 1:
			q = Between(a, b, unit)
		case 2:
			if unit == "" || dim == LengthDimension {
				q.By = []float64{b}
			}
		case 3:
			if dim == Count {
				size := Single(b, rapid.SampledFrom([]string{"oz", "g", "ml", "inch"}).Draw(t, "size unit"))
				q.Size = &size
			}
		case 4:
			if dim == TimeDimension {
				return OvernightTime()
			}
			if unit == "F" || unit == "C" {
				q = Between(-b, -a, unit)
			}
		case 5:
			q.Min = 0
			if unit == "gas" || dim == TemperatureDimension {
				q.Min = a
			}
		}
		q.About = rapid.Bool().Draw(t, "about")
		return q
	})
}

func TestQuantityRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := quantityGen(append(Units(), "")).Draw(t, "quantity")
		text := q.String()
		fromText, err := ParseQuantity(text)
		if err != nil {
			t.Fatalf("%+v is written %q, which does not read: %v", q, text, err)
		}
		if fromText.String() != text {
			t.Fatalf("%q reads and is written %q", text, fromText)
		}
		if !fromText.Equal(q) {
			t.Fatalf("%q reads as %+v, not %+v", text, fromText, q)
		}
		object, err := json.Marshal(q)
		if err != nil {
			t.Fatal(err)
		}
		var fromObject Quantity
		if err := json.Unmarshal(object, &fromObject); err != nil {
			t.Fatalf("%s: %v", object, err)
		}
		if diff := cmp.Diff(fromText, fromObject); diff != "" {
			t.Fatalf("text %q and object %s differ (-text +object)\n%s", text, object, diff)
		}
		inYAML, err := yaml.Marshal(fromObject)
		if err != nil {
			t.Fatal(err)
		}
		var fromYAML Quantity
		if err := yaml.Unmarshal(inYAML, &fromYAML); err != nil {
			t.Fatalf("%s: %v", inYAML, err)
		}
		if diff := cmp.Diff(fromText, fromYAML); diff != "" {
			t.Fatalf("text %q and yaml %q differ (-text +yaml)\n%s", text, inYAML, diff)
		}
		again, err := json.Marshal(fromYAML)
		if err != nil {
			t.Fatal(err)
		}
		if string(again) != string(object) {
			t.Fatalf("object %s became %s", object, again)
		}
	})
}

// typedGen draws texts as people type them, in every spelling of a unit.
func typedGen() *rapid.Generator[string] {
	var spellings []string
	for _, row := range unitTable {
		spellings = append(append(spellings, row.name, row.plural), row.also...)
	}
	return rapid.Custom(func(t *rapid.T) string {
		number := rapid.SampledFrom([]string{"1", "2", "1/2", "½", "1½", "2 1/2", "0.75", "1,250", "2-3", "2 to 3", "2–3", "1-1/2", "half a", "a", "twelve"}).Draw(t, "number")
		before := rapid.SampledFrom([]string{"", "about ", "~", "roughly "}).Draw(t, "before")
		gap := rapid.SampledFrom([]string{" ", "  ", "-"}).Draw(t, "gap")
		after := rapid.SampledFrom([]string{"", " or so"}).Draw(t, "after")
		return before + number + gap + rapid.SampledFrom(spellings).Draw(t, "unit") + after
	})
}

func TestTypedQuantityRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := typedGen().Draw(t, "text")
		q, err := ParseQuantity(text)
		if err != nil {
			return // not every draw is a quantity: "2 gas" is none
		}
		keepsSaying(t, q, asAmount)
	})
}

// keepsSaying checks that q, read from text, survives every spelling.
func keepsSaying(t interface {
	Fatalf(format string, args ...any)
}, q Quantity, as role) {
	object, err := q.MarshalJSON()
	if err != nil {
		t.Fatalf("%+v cannot be written as an object: %v", q, err)
	}
	node, err := jsonNode(object)
	if err != nil {
		t.Fatalf("%s is no JSON: %v", object, err)
	}
	back, err := quantityFromNode(node, as)
	if err != nil {
		t.Fatalf("%s does not read: %v", object, err)
	}
	if diff := cmp.Diff(q, back); diff != "" {
		t.Fatalf("through %s (-before +after)\n%s", object, diff)
	}
	inYAML, err := yaml.Marshal(q)
	if err != nil {
		t.Fatalf("%+v cannot be written as YAML: %v", q, err)
	}
	var scalarNode yaml.Node
	if err := yaml.Unmarshal(inYAML, &scalarNode); err != nil {
		t.Fatalf("%q is no YAML: %v", inYAML, err)
	}
	back, err = quantityFromNode(&scalarNode, as)
	if err != nil {
		t.Fatalf("%q does not read: %v", inYAML, err)
	}
	if diff := cmp.Diff(q, back); diff != "" {
		t.Fatalf("through %q (-before +after)\n%s", inYAML, diff)
	}
}

// spokenGen draws short texts of the characters that have a meaning somewhere in
// YAML, among those that have none.
func spokenGen() *rapid.Generator[string] {
	return rapid.StringMatching(`[a-cA-ZtruefalsnoyNULO0-9 ,.:;#'"?!&*|>%@~{}\[\]\\/_+\-\t½é🧈\x{2028}\x{85}\x{a0}\x{feff}]{0,9}`)
}

// nodeGen draws trees as this package makes and parses them.
func nodeGen(depth int) *rapid.Generator[*Node] {
	return rapid.Custom(func(t *rapid.T) *Node {
		kind := 0
		if depth > 0 {
			kind = rapid.IntRange(0, 2).Draw(t, "kind")
		}
		style := rapid.SampledFrom([]yaml.Style{0, 0, FlowStyle}).Draw(t, "style")
		switch kind {
		case 1:
			return &Node{Kind: SequenceNode, Tag: "!!seq", Style: style, Content: rapid.SliceOfN(nodeGen(depth-1), 0, 3).Draw(t, "list")}
		case 2:
			n := &Node{Kind: MappingNode, Tag: rapid.SampledFrom([]string{"", "!!map"}).Draw(t, "tag"), Style: style}
			for range rapid.IntRange(0, 3).Draw(t, "keys") {
				key := rapid.OneOf(rapid.SampledFrom([]string{"at", "quote", "also_called", "n", "null", "true"}), spokenGen())
				n.Content = append(n.Content, textNode(key.Draw(t, "key")), nodeGen(depth-1).Draw(t, "value"))
			}
			return n
		}
		text := rapid.OneOf(rapid.String(), spokenGen(), spokenGen(), rapid.StringMatching(`[0-9a-fxob_]{1,9}`), rapid.SampledFrom([]string{
			"2024-01-01 10:00:00", "2024-1-1", "1 e3", "1e3", "0x1f", "0b1", "0o7", "+1", "-1", "-.5", ".5", ".inf", "1:04", "2 cups", "2 1/2 cups", "350 F", "TRUE", "No", "a #b", "a# b", "a:b", "a: b", "a -b", "- a",
		}))
		switch rapid.IntRange(0, 5).Draw(t, "scalar") {
		case 0:
			return numberNode(numberGen().Draw(t, "number"))
		case 1:
			return nullNode()
		case 2:
			return quotedNode(text.Draw(t, "quoted"))
		case 3:
			n := textNode(text.Draw(t, "text"))
			n.Style = rapid.SampledFrom([]yaml.Style{0, DoubleQuotedStyle, SingleQuotedStyle, LiteralStyle, FoldedStyle}).Draw(t, "style")
			n.Tag = rapid.SampledFrom([]string{"!!str", "!!int", "!!float", "!!bool", "!!null", ""}).Draw(t, "tag")
			return n
		}
		return textNode(text.Draw(t, "text"))
	})
}

// What this package writes itself is what the library writes.
func TestEmitterWritesAsTheLibraryDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nodes := rapid.SliceOfN(nodeGen(4), 1, 2).Draw(t, "nodes")
		if rapid.Bool().Draw(t, "a document") {
			doc := documentGen().Draw(t, "document")
			n, err := documentNode(doc)
			if err != nil {
				t.Fatal(err)
			}
			nodes = []*Node{n}
		}
		got, ok := emitYAML(nodes)
		if !ok {
			return
		}
		want, err := libraryYAML(nodes...)
		if err != nil {
			t.Fatalf("the library does not write it: %v\n%s", err, got)
		}
		if diff := cmp.Diff(string(want), string(got)); diff != "" {
			t.Fatalf("(-library +ours)\n%s", diff)
		}
	})
}

// Documents as they are made need the library for single texts at most.
func TestEmitterWritesDocuments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, err := documentNode(documentGen().Draw(t, "document"))
		if err != nil {
			t.Fatal(err)
		}
		if _, ok := emitYAML([]*Node{n}); !ok {
			t.Fatal("left to the library")
		}
	})
}

// documentGen draws documents whose every text is any text at all.
func documentGen() *rapid.Generator[*Document] {
	text := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{
		"", "null", "yes", "1:04", "- a", "a: b", "# no", "'", `"`, " leading", "trailing ", "two\nlines\n", "\ttab", "{a}", "!x", "&a", "*a", "0x10", "1_000", "2024-01-01",
		"\u2028", "\ufeff", "\u0085", "~", "\x00", "|", ">", "%", "@", "`", "🧈", "...", "---", "<<", "\r", "\n x", "1:04:00", "how much?", "a, b", "[", "]", "a]", "a: ", "y", "On",
	}))
	name := rapid.Map(text, func(s string) string { return "n" + s })
	amounts := quantityGen([]string{"", "g", "cup", "can", "clove", "inch"})
	moments := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Said {
		s := Said{Quote: text.Draw(t, "quote")}
		if rapid.Bool().Draw(t, "timed") {
			s.At = "00:01:04.000"
		}
		return s
	}), 0, 3)
	return rapid.Custom(func(t *rapid.T) *Document {
		some := func(q Quantity) *Quantity {
			if rapid.Bool().Draw(t, "none") {
				return nil
			}
			return &q
		}
		d := &Document{Recipe: Version, Title: text.Draw(t, "title")}
		if rapid.Bool().Draw(t, "source") {
			d.Source = &Source{File: text.Draw(t, "file"), Format: "srt", Length: "PT10M", SHA256: rapid.StringMatching(`[0-9a-f]{64}`).Draw(t, "sha256")}
		}
		d.Yield = some(quantityGen([]string{"", "cookies", "generous slices", "ml"}).Draw(t, "yield"))
		if d.Yield != nil {
			d.Yield.By, d.Yield.Size = nil, nil
		}
		d.Parts = rapid.SliceOfN(rapid.Map(name, func(n string) Part { return Part{Name: n} }), 0, 2).Draw(t, "parts")
		for range rapid.IntRange(0, 4).Draw(t, "ingredients") {
			d.Ingredients = append(d.Ingredients, Ingredient{
				ID: "id", Name: name.Draw(t, "name"), Amount: some(amounts.Draw(t, "amount")), SecondAmount: some(amounts.Draw(t, "second")),
				Vague: text.Draw(t, "vague"), Preparation: text.Draw(t, "preparation"), ToTaste: rapid.Bool().Draw(t, "to taste"),
				Ways: rapid.SliceOfN(name, 0, 2).Draw(t, "ways"), AlsoCalled: rapid.SliceOfN(name, 0, 3).Draw(t, "also"), Said: moments.Draw(t, "said"),
			})
		}
		for range rapid.IntRange(0, 3).Draw(t, "steps") {
			d.Steps = append(d.Steps, Step{
				Text: name.Draw(t, "text"), Actions: rapid.SliceOfN(name, 0, 3).Draw(t, "actions"), Until: text.Draw(t, "until"),
				Temperature: rapid.SliceOfN(quantityGen([]string{"F", "C", "gas"}), 0, 2).Draw(t, "temperature"),
				Time:        rapid.SliceOfN(quantityGen([]string{"minute", "hour"}), 0, 2).Draw(t, "time"), Said: moments.Draw(t, "said"),
			})
		}
		if rapid.Bool().Draw(t, "storage") {
			keeps := VagueQuantity("n" + text.Draw(t, "keeps"))
			d.Storage = []Storage{{Place: Freezer, Keeps: &keeps, What: text.Draw(t, "what"), Said: moments.Draw(t, "said")}}
		}
		if rapid.Bool().Draw(t, "macros") {
			kcal := numberGen().Draw(t, "kcal")
			d.Macros = &Macros{Spoken: &SpokenMacros{Per: text.Draw(t, "per"), Figures: Figures{Kcal: &kcal}}}
		}
		d.Flags = []Flag{{Kind: AmountVague, Subject: text.Draw(t, "subject"), Ask: name.Draw(t, "ask"), Settled: text.Draw(t, "settled")}}
		return d
	})
}

func TestDocumentRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := documentGen().Draw(t, "document")
		var inYAML, inJSON bytes.Buffer
		if err := WriteYAML(&inYAML, d); err != nil {
			t.Fatal(err)
		}
		if err := WriteJSON(&inJSON, d); err != nil {
			t.Fatal(err)
		}
		fromYAML, err := Read("d.yaml", inYAML.Bytes())
		if err != nil {
			t.Fatalf("%v\n%s", err, inYAML.Bytes())
		}
		fromJSON, err := Read("d.json", inJSON.Bytes())
		if err != nil {
			t.Fatalf("%v\n%s", err, inJSON.Bytes())
		}
		var yamlFromJSON, jsonFromYAML bytes.Buffer
		if err := WriteYAML(&yamlFromJSON, fromJSON); err != nil {
			t.Fatal(err)
		}
		if err := WriteJSON(&jsonFromYAML, fromYAML); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(inYAML.String(), yamlFromJSON.String()); diff != "" {
			t.Fatalf("yaml to json and back (-before +after)\n%s", diff)
		}
		if diff := cmp.Diff(inJSON.String(), jsonFromYAML.String()); diff != "" {
			t.Fatalf("json to yaml and back (-before +after)\n%s", diff)
		}
		if fromYAML.Title != fromJSON.Title || fromYAML.Title != d.Title {
			t.Fatalf("title %q became %q and %q", d.Title, fromYAML.Title, fromJSON.Title)
		}
	})
}
