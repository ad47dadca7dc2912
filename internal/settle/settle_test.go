package settle

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"quern/internal/merge"
	"quern/internal/transcript"
	"quern/schema"
)

const bars = `recipe: 1
title: Oat bars
yield: null
parts: [{name: dough}, {name: glaze}]
ingredients:
  - {id: rolled-oats, name: rolled oats, amount: 2 cups, second_amount: 180 g, part: dough, said: [{at: "00:01:04.000", quote: "two cups of oats"}]}
  - {id: butter, name: butter, amount: null, part: dough, said: [{at: "00:01:31.000", quote: "then the butter"}]}
  - {id: butter-2, name: butter, amount: null, part: glaze, said: [{at: "00:02:10.000", quote: "more butter"}]}
  - {id: flour, name: flour, amount: 1 cup, also_called: [plain flour], said: [{at: "00:00:50.000", quote: "a cup of flower"}]}
steps:
  - {text: Melt the butter., actions: [melt], uses: [butter], said: [{at: "00:01:31.000", quote: "then the butter, melted"}]}
  - {text: Bake until golden., actions: [bake], temperature: [350 F], time: [20 minutes], said: [{at: "00:03:00.000", quote: "bake it at three fifty, no three seventy five"}]}
  - {text: Chill the bars., actions: [chill], said: [{at: "00:04:00.000", quote: "then chill them"}]}
flags:
  - {kind: yield-unstated, subject: yield, ask: "How many?"}
  - {kind: amount-unstated, subject: butter, ask: "How much butter for the glaze?", said: [{at: "00:02:10.000", quote: "more butter"}]}
  - {kind: amount-unstated, subject: butter, ask: "How much butter for the dough?", said: [{at: "00:01:31.000", quote: "then the butter"}]}
  - {kind: conflict-temperature, subject: oven, ask: "350 F or 375 F?", said: [{at: "00:03:00.000", quote: "three fifty"}, {at: "00:03:02.000", quote: "three seventy five"}]}
  - {kind: time-unstated, subject: Chill the bars., ask: "How long?", said: [{at: "00:04:00.000", quote: "chill them"}]}
  - {kind: conflict-amount, subject: rolled oats, ask: "Two cups or three?", said: [{at: "00:01:04.000", quote: "two cups of oats"}]}
  - {kind: heard-unsure, subject: flour, ask: "flower: flour?", said: [{at: "00:00:50.000", quote: "flower"}]}
  - {kind: conflict-claim, subject: vegan, ask: "Is it vegan?", said: [{at: "00:00:10.000", quote: "it's vegan"}]}
  - {kind: food-unknown, subject: flour, ask: "What is it?", said: [{at: "00:00:50.000", quote: "flower"}]}
  - {kind: conflict-time, subject: oven time, ask: "20 or 25?", said: [{at: "00:09:00.000", quote: "bake it at three fifty"}], settled: 25 minutes}
`

func document(t *testing.T) *schema.Document {
	t.Helper()
	docs, err := schema.ReadAll("bars", []byte(bars))
	if err != nil {
		t.Fatal(err)
	}
	return docs[0]
}

func TestOpenGoesByTheRecording(t *testing.T) {
	doc := document(t)
	var got []string
	for _, q := range Open([]*schema.Document{doc}) {
		got = append(got, q.Ask)
		if i, ok := Find(doc, q.Key); !ok || i != q.Flag {
			t.Errorf("the key %q finds flag %d (%v), not %d", q.Key, i, ok, q.Flag)
		}
		if q.Takes == "" {
			t.Errorf("%q does not say what it takes", q.Ask)
		}
	}
	want := []string{"Is it vegan?", "flower: flour?", "What is it?", "Two cups or three?", "How much butter for the dough?",
		"How much butter for the glaze?", "350 F or 375 F?", "How long?", "How many?"}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestEveryFlagKindSaysWhatItTakes(t *testing.T) {
	for _, k := range schema.FlagKinds() {
		if got := takes(schema.Flag{Kind: k}); !strings.HasSuffix(got, "as said") {
			t.Errorf("%s: %q", k, got)
		}
		if got := takes(merge.Clash{Kind: k, Mine: "a", Theirs: "b"}.Flag()); !strings.HasSuffix(got, "or: mine; or: the recording") {
			t.Errorf("%s, two readings: %q", k, got)
		}
	}
}

func TestAnswer(t *testing.T) {
	tests := []struct {
		ask, answer string
		wrong       string // part of the error, "" for none
		check       func(d *schema.Document) (got, want string)
	}{
		{"How many?", "24  bars", "", func(d *schema.Document) (string, string) { return d.Yield.String(), "24 bars" }},
		{"How many?", "lots", "a number is needed", nil},
		{"How many?", "0 bars", "0 bars", nil},
		{"How much butter for the glaze?", "50 g", "", func(d *schema.Document) (string, string) { return d.Ingredients[2].Amount.String(), "50 g" }},
		{"How much butter for the dough?", "1 1/2 sticks", "", func(d *schema.Document) (string, string) { return d.Ingredients[1].Amount.String(), "1 1/2 sticks" }},
		{"How much butter for the dough?", "To Taste", "", func(d *schema.Document) (string, string) {
			if d.Ingredients[1].ToTaste && d.Ingredients[1].Amount == nil {
				return "", ""
			}
			return "not to taste", ""
		}},
		{"How much butter for the dough?", "350 F", "is not an amount", nil},
		{"How much butter for the dough?", "10 minutes", "is not an amount", nil},
		{"How much butter for the dough?", "a lump", "can't be read", nil},
		{"How much butter for the dough?", " ", "nothing was typed", nil},
		{"How much butter for the dough?", "50 g\u202e", "U+202E", nil},
		{"How much butter for the dough?", "as said", "", func(d *schema.Document) (string, string) {
			if d.Ingredients[1].Amount != nil {
				return "an amount", ""
			}
			return d.Flags[2].Settled, AsSaid
		}},
		{"350 F or 375 F?", "375 F", "", func(d *schema.Document) (string, string) {
			return d.Steps[1].Temperature[0].String() + " " + d.Flags[3].Settled, "375 F 375 F"
		}},
		{"350 F or 375 F?", "20 minutes", "is not a temperature", nil},
		{"How long?", "2 hours", "", func(d *schema.Document) (string, string) { return d.Steps[2].Time[0].String(), "2 hours" }},
		{"How long?", "overnight", "", func(d *schema.Document) (string, string) { return d.Steps[2].Time[0].String(), "overnight" }},
		{"How long?", "3 cups", "is not a time", nil},
		{"Two cups or three?", "3 cups", "", func(d *schema.Document) (string, string) {
			if d.Ingredients[0].SecondAmount != nil {
				return "the other measure of the old amount stands", ""
			}
			return d.Ingredients[0].Amount.String() + " " + d.Flags[5].Settled, "3 cups 3 cups"
		}},
		{"Two cups or three?", "2 cups", "", func(d *schema.Document) (string, string) {
			if d.Ingredients[0].SecondAmount == nil {
				return "the other measure of the same amount is gone", ""
			}
			return d.Ingredients[0].Amount.String(), "2 cups"
		}},
		{"flower: flour?", "Yes", "", func(d *schema.Document) (string, string) {
			return d.Ingredients[3].Name + " " + d.Flags[6].Settled, "flour yes"
		}},
		{"flower: flour?", "no", "type the word", nil},
		{"flower: flour?", "cornflour", "", func(d *schema.Document) (string, string) { return d.Ingredients[3].Name, "cornflour" }},
		{"Is it vegan?", "no, there's butter", "", func(d *schema.Document) (string, string) { return d.Flags[7].Settled, "no, there's butter" }},
		{"What is it?", "a moon rock", "nothing called", nil},
		{"What is it?", "butter", "", func(d *schema.Document) (string, string) {
			if d.Ingredients[3].Food == "" {
				return "no food", ""
			}
			return d.Flags[8].Settled, "butter"
		}},
	}
	for _, tt := range tests {
		doc := document(t)
		i := slices.IndexFunc(doc.Flags, func(f schema.Flag) bool { return f.Ask == tt.ask })
		before := doc.Flags[i]
		err := Answer(doc, i, tt.answer, nil)
		if tt.wrong != "" {
			if err == nil || !strings.Contains(err.Error(), tt.wrong) {
				t.Errorf("%s %q: error %v", tt.ask, tt.answer, err)
			}
			if d := cmp.Diff(document(t), doc); d != "" {
				t.Errorf("%s %q: a refused answer changed the document:\n%s", tt.ask, tt.answer, d)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s %q: %v", tt.ask, tt.answer, err)
			continue
		}
		if got, want := tt.check(doc); got != want {
			t.Errorf("%s %q: got %q, want %q", tt.ask, tt.answer, got, want)
		}
		if doc.Flags[i].Ask != before.Ask {
			t.Errorf("%s: the question changed", tt.ask)
		}
	}
	if err := Answer(document(t), 99, "x", nil); err == nil {
		t.Error("a flag that is not there is no error")
	}
}

// TestAnswerToAMerge settles flags that merging raised: hers and the
// recording's reading stand against one another, or the recording gives a
// thing no longer.
func TestAnswerToAMerge(t *testing.T) {
	kept := func(d *schema.Document) string { return d.Flags[len(d.Flags)-1].Settled }
	tests := []struct {
		name   string
		clash  merge.Clash
		answer string
		wrong  bool
		got    func(d *schema.Document) string
		want   string
	}{
		{"hers", merge.Clash{Kind: schema.ConflictAmount, About: "flour", Mine: "1 cup", Theirs: "2 cups"}, "mine", false,
			func(d *schema.Document) string { return d.Ingredients[3].Amount.String() + kept(d) }, "1 cupmine"},
		{"the recording's", merge.Clash{Kind: schema.ConflictAmount, About: "flour", Mine: "1 cup", Theirs: "2 cups"}, "The recording", false,
			func(d *schema.Document) string { return d.Ingredients[3].Amount.String() + kept(d) }, "2 cups2 cups"},
		{"another amount", merge.Clash{Kind: schema.ConflictAmount, About: "flour", Mine: "1 cup", Theirs: "2 cups"}, "3 cups", false,
			func(d *schema.Document) string { return d.Ingredients[3].Amount.String() + kept(d) }, "3 cups3 cups"},
		{"no amount", merge.Clash{Kind: schema.ConflictAmount, About: "flour", Mine: "1 cup", Theirs: "2 cups"}, "perhaps", true, nil, ""},
		{"the recording's words for a step", merge.Clash{Kind: schema.HeardUnsure, About: "Chill the bars.", Mine: "Chill the bars.", Theirs: "Chill the bars well."}, "the recording", false,
			func(d *schema.Document) string { return d.Steps[2].Text }, "Chill the bars well."},
		{"the recording's title", merge.Clash{Kind: schema.HeardUnsure, About: "title", Mine: "Oat bars", Theirs: "Oaty bars"}, "the recording", false,
			func(d *schema.Document) string { return d.Title }, "Oaty bars"},
		{"a side of an ingredient", merge.Clash{Kind: schema.HeardUnsure, About: "flour, preparation", Mine: "sifted", Theirs: "sieved"}, "the recording", false,
			func(d *schema.Document) string { return d.Ingredients[3].Name + " " + kept(d) }, "flour sieved"},
		{"an ingredient gone, kept", merge.Clash{Kind: schema.HeardUnsure, About: "flour", Mine: "flour"}, "yes", false,
			func(d *schema.Document) string { return d.Ingredients[3].Name + " " + kept(d) }, "flour yes"},
		{"an ingredient gone, taken out", merge.Clash{Kind: schema.HeardUnsure, About: "butter (dough)", Mine: "butter"}, "no", false,
			func(d *schema.Document) string { return d.Ingredients[1].ID + strings.Join(d.Steps[0].Uses, ",") }, "butter-2"},
		{"a step gone, taken out", merge.Clash{Kind: schema.HeardUnsure, About: "Chill the bars.", Mine: "Chill the bars."}, "no", false,
			func(d *schema.Document) string { return d.Steps[len(d.Steps)-1].Text }, "Bake until golden."},
		{"neither yes nor no", merge.Clash{Kind: schema.HeardUnsure, About: "flour", Mine: "flour"}, "rye", true, nil, ""},
	}
	for _, tt := range tests {
		doc := document(t)
		doc.Flags = append(doc.Flags, tt.clash.Flag())
		err := Answer(doc, len(doc.Flags)-1, tt.answer, nil)
		if (err != nil) != tt.wrong {
			t.Errorf("%s: error %v", tt.name, err)
		}
		if tt.wrong {
			if kept(doc) != "" {
				t.Errorf("%s: settled as %q", tt.name, kept(doc))
			}
			continue
		}
		if got := tt.got(doc); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestSet(t *testing.T) {
	tests := []struct {
		name, value, wrong string
		check              func(d *schema.Document) string
	}{
		{"yield", "12 bars", "", func(d *schema.Document) string { return d.Yield.String() + d.Flags[0].Settled }},
		{"Oats", "3 cups", "", func(d *schema.Document) string { return d.Ingredients[0].Amount.String() + d.Flags[5].Settled }},
		{"butter (glaze)", "50 g", "", func(d *schema.Document) string { return d.Ingredients[2].Amount.String() }},
		{"butter-2", "50 g", "", func(d *schema.Document) string { return d.Ingredients[2].Amount.String() }},
		{"plain flour", "2 cups", "", func(d *schema.Document) string { return d.Ingredients[3].Amount.String() }},
		{"flour", "yes", "", func(d *schema.Document) string { return d.Flags[6].Settled }},
		{"oven", "375 F", "", func(d *schema.Document) string { return d.Steps[1].Temperature[0].String() }},
		{"vegan", "it isn't", "", func(d *schema.Document) string { return d.Flags[7].Settled }},
		{"butter", "50 g", "could be any of: butter (dough), butter (glaze)", nil},
		{"chalk", "1 g", "nothing here is called", nil},
		{"", "1 g", "nothing here is called", nil},
		{"yield", "", "nothing was typed", nil},
		{"yield", "24\x1b[31m", "U+001B", nil},
	}
	want := map[string]string{"yield": "12 bars12 bars", "Oats": "3 cups3 cups", "butter (glaze)": "50 g", "butter-2": "50 g", "plain flour": "2 cups",
		"flour": "yes", "oven": "375 F", "vegan": "it isn't"}
	for _, tt := range tests {
		doc := document(t)
		err := Set([]*schema.Document{doc}, tt.name, tt.value, nil)
		if tt.wrong != "" {
			if err == nil || !strings.Contains(err.Error(), tt.wrong) {
				t.Errorf("%s=%q: error %v", tt.name, tt.value, err)
			}
			if d := cmp.Diff(document(t), doc); d != "" {
				t.Errorf("%s=%q changed the document:\n%s", tt.name, tt.value, d)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s=%q: %v", tt.name, tt.value, err)
			continue
		}
		if got := tt.check(doc); got != want[tt.name] {
			t.Errorf("%s=%q gives %q, want %q", tt.name, tt.value, got, want[tt.name])
		}
	}
	two := []*schema.Document{document(t), document(t)}
	two[1].Title = "Other bars"
	var many *ManyError
	if _, err := Resolve(two, "oven"); !errors.As(err, &many) || !slices.Equal(many.Choices, []string{"oven, Oat bars", "oven, Other bars"}) {
		t.Errorf("oven in two recipes: %v", err)
	}
	if err := Set(two, "yield, Other bars", "9 bars", nil); err != nil || two[0].Yield != nil || two[1].Yield.String() != "9 bars" {
		t.Errorf("the yield of the second: %v", err)
	}
	two[1].Title = "Oat bars"
	if full, err := Resolve(two, "yield, Oat bars, no. 2"); err != nil || full != "yield, Oat bars, no. 2" {
		t.Errorf("two recipes of one title: %q, %v", full, err)
	}
}

func talkOf(t *testing.T, text string) *Talk {
	t.Helper()
	n, err := transcript.Parse("talk", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return NewTalk(n)
}

func TestLocate(t *testing.T) {
	talk := talkOf(t, "[0:00] So, the butter. Two cups of oats, then the butter -- yes -- goes in.\n\n[1:00] And then the Butter, goes in again.\n")
	for _, tt := range []struct {
		at, quote, want string
	}{
		{"00:00:01.000", "the butter", "the butter."},
		{"00:01:02.000", "The butter goes in", "the Butter, goes in"},
		{"00:00:05.000", "then the butter", "then the butter--"},
		{"", "two cups of oats", "Two cups of oats,"},
		{"00:00:05.000", "butter yes goes", "butter-- yes-- goes"},
		{"00:00:05.000", "three cups", ""},
		{"00:00:05.000", "...", ""},
		{"00:00:05.000", "", ""},
		{"00:01:05.000", "in again and more", ""},
	} {
		from, to, ok := talk.Locate(schema.Said{At: tt.at, Quote: tt.quote})
		got := ""
		if ok {
			got = talk.text(from, to)
		}
		if got != tt.want {
			t.Errorf("%q at %s: %q, want %q", tt.quote, tt.at, got, tt.want)
		}
	}
}

func TestAround(t *testing.T) {
	talk := talkOf(t, "[0:00] One two three.\n\n[0:30] Four five six.\n\n[1:00] Seven eight nine.\n")
	got, ok := talk.Around(schema.Said{At: "00:00:30.000", Quote: "five"}, 5*time.Second)
	if !ok || !strings.Contains(got, "Four five") || strings.Contains(got, "One") || strings.Contains(got, "nine") {
		t.Errorf("around five: %q, %v", got, ok)
	}
	if got, ok := talk.Around(schema.Said{At: "00:00:31.000", Quote: "not said"}, time.Minute); !ok || !strings.Contains(got, "five") {
		t.Errorf("by the moment alone: %q, %v", got, ok)
	}
	if _, ok := talk.Around(schema.Said{Quote: "not said"}, time.Minute); ok {
		t.Error("words that are not there, without a moment, were found")
	}
	plain := talkOf(t, strings.Repeat("word ", 500)+"here "+strings.Repeat("word ", 500)+"\n")
	if got, ok := plain.Around(schema.Said{Quote: "here"}, 10*time.Second); !ok || len(strings.Fields(got)) != 53 {
		t.Errorf("without times: %d words, %v", len(strings.Fields(got)), ok)
	}
}

func TestFindTalk(t *testing.T) {
	dir := t.TempDir()
	doc := filepath.Join(dir, "bars.yaml")
	if err := os.MkdirAll(filepath.Join(dir, "talks"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"talk.md": "[0:00] Beside it.\n", "talks/deep.md": "[0:00] Below it.\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for file, want := range map[string]string{"talk.md": "Beside it.", "elsewhere/talk.md": "Beside it.", "/far/away/talk.md": "Beside it.",
		"../talk.md": "Beside it.", "talks/deep.md": "Below it.", "gone.md": "", "": "", "-": "", "talks": ""} {
		talk, err := FindTalk(doc, &schema.Source{File: file, SHA256: strings.Repeat("0", 64)})
		switch {
		case want == "" && err == nil:
			t.Errorf("%q gave a talk", file)
		case want != "" && err != nil:
			t.Errorf("%q: %v", file, err)
		case want != "" && (talk.text(0, len(talk.Words)) != want || !talk.Changed):
			t.Errorf("%q gave %q, changed: %v", file, talk.text(0, len(talk.Words)), talk.Changed)
		}
	}
	if _, err := FindTalk(doc, nil); err == nil {
		t.Error("a document without a source gave a talk")
	}
}

func TestMomentAndClock(t *testing.T) {
	for at, want := range map[string]string{"00:01:04.000": "1:04", "01:02:03.500": "1:02:03", "02:05.000": "2:05", "00:00:00.000": "0:00",
		"": "-", "1": "-", "a:b": "-", "00:00:61.000": "-", "1:2:3:4": "-", "00:-1:00.000": "-", "00:00:NaN": "-"} {
		got := "-"
		if d, ok := Moment(at); ok {
			got = Clock(d)
		}
		if got != want {
			t.Errorf("%q reads %s, want %s", at, got, want)
		}
	}
}

func TestFigures(t *testing.T) {
	f := func(v float64) *float64 { return &v }
	doc := &schema.Document{}
	if got := Figures(doc); !strings.HasPrefix(got, "no figures yet") {
		t.Error(got)
	}
	doc.Macros = &schema.Macros{Computed: &schema.ComputedMacros{Per: "bar", Servings: 16, Complete: true,
		Figures: schema.Figures{Kcal: f(210.4), FatG: f(9.6), ProteinG: f(3), CarbsG: f(30)}}}
	if got := Figures(doc); got != "per bar (of 16): 210 kcal, fat 10 g, protein 3 g, carbohydrate 30 g" {
		t.Error(got)
	}
	doc.Macros.Computed.Complete, doc.Macros.Computed.Missing, doc.Macros.Computed.Servings = false, []string{"honey"}, 0
	if got := Figures(doc); got != "whole recipe: at least 210 kcal, fat 10 g, protein 3 g, carbohydrate 30 g; still without: honey" {
		t.Error(got)
	}
}
