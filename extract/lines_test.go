package extract

import (
	"slices"
	"strings"
	"testing"

	"quern/schema"
)

// lineCase is a talk, a sentence a line, and what its steps must say.
type lineCase struct {
	name  string
	talk  string
	text  string   // words that one step must hold
	verbs []string // all actions of that step, in any order
	at    []string // moments that its words must be quoted from
	not   string   // words that no step may hold
}

// head makes the talk begun, so that lines after it go on with the work.
const head = "[0:01] hello and welcome back to my kitchen.\n\n[0:02] today it 's my lentil and tomato pot, a thing for cold evenings.\n\n[0:04] we 're going to soften an onion in a wide pan with some oil.\n\n[0:06] stir it with a wooden spoon so it does n't stick.\n\n[0:08] it wants to be soft and sweet, and there 's no hurry about it.\n\n"

// tail ends the talk.
const tail = "\n\n[0:40] now taste the pot and add some more salt.\n\n[0:44] serve it in warm bowls with some bread.\n\n[0:48] that 's all there is to it, and i hope you will make it at home.\n\n[0:52] thank you for watching, and see you next time."

var lineCases = []lineCase{
	{"a list goes on with what is put in", head + "[0:10] now add a tin of tomatoes.\n\n[0:14] two teaspoons of paprika and one teaspoon of cumin.\n\n[0:18] and a cup of lentils.",
		"tomatoes, and the paprika, cumin and lentils", []string{"add"}, []string{"00:00:10.000", "00:00:14.000", "00:00:18.000"}, ""},
	{"what is listed behind another verb is added", head + "[0:10] pour in a litre of stock.\n\n[0:14] two bay leaves and a sprig of thyme.",
		"then add the bay leaves and thyme", []string{"pour", "add"}, []string{"00:00:10.000", "00:00:14.000"}, ""},
	{"a list before the work that takes it up", head + "[0:10] take the pan off the heat.\n\n[0:14] a cup of walnuts and three cloves of garlic.\n\n[0:18] blend that until it 's smooth.",
		"Add the walnuts and garlic, then blend that", []string{"add", "blend"}, []string{"00:00:18.000", "00:00:14.000"}, ""},
	{"what was put aside takes nothing in", head + "[0:10] put the onion aside in a bowl.\n\n[0:14] four eggs.\n\n[0:18] whisk them well.",
		"Add the eggs, then whisk them", []string{"add", "whisk"}, []string{"00:00:14.000"}, "bowl, then add"},
	{"after its time a step takes nothing in", head + "[0:10] add the rice and cook it for twelve minutes.\n\n[0:16] a handful of peas.\n\n[0:20] stir everything together.",
		"Add the peas, then stir everything", []string{"add", "stir"}, []string{"00:00:16.000"}, ""},
	{"what else could go in is no part of it", head + "[0:10] now add two cups of stock.\n\n[0:14] you could use a cup of cider instead.", "Add 2 cups of stock.", []string{"add"}, nil, "and the cider"},
	{"fetching is no action beside the work", head + "[0:10] so we 're going to take three eggs and beat them with a fork.", "beat them", []string{"beat"}, nil, ""},
	{"taking off stays an action", head + "[0:10] take the pan off the heat and let it cool.", "Take the pan off", []string{"take", "cool"}, nil, ""},
	{"leaving leads to the work", head + "[0:10] pour in the stock and leave it to simmer for ten minutes.", "simmer", []string{"pour", "simmer"}, nil, ""},
	{"a gerund that opens its sentence", head + "[0:10] now adding two cups of stock to the pan.", "2 cups of stock", []string{"add"}, nil, ""},
	{"a gerund that is a subject", head + "[0:10] stirring the onion is what keeps it pale.", "", nil, nil, "keeps it pale"},
	{"what you're doing is", head + "[0:10] so what you 're doing is brushing the dough with butter.", "with butter", []string{"brush"}, nil, ""},
	{"a wish to the viewer", head + "[0:10] i want you to slice the leeks thinly.", "Slice the leeks", []string{"slice"}, nil, ""},
	{"what the dish will do is no step", head + "[0:10] this is really going to brown the onion.", "", nil, nil, "Brown the onion"},
	{"were for we're", head + "[0:10] so once the onion is golden were going to add a cup of rice.", "a cup of rice", []string{"add"}, nil, ""},
	{"the story ends where the work goes on", head + "[0:10] i found these peppers at the market and we 're going to chop the peppers finely.", "Chop the peppers", []string{"chop"}, nil, ""},
	{"no mark between two clauses", head + "[0:10] the rice is in the pan fold the herbs in gently.", "Fold the herbs in", []string{"fold"}, nil, ""},
	{"a comma where none was meant", head + "[0:10] in a small bowl mix, the yoghurt and honey together.", "yoghurt and honey", []string{"mix"}, nil, ""},
	{"so just", head + "[0:10] the dough is soft so just knead it on the board.", "Knead it", []string{"knead"}, nil, ""},
	{"this is where", head + "[0:10] this is where we add the cream.", "Add the cream", []string{"add"}, nil, ""},
	{"now to", head + "[0:10] now to fry the mushrooms in the pan.", "Fry the mushrooms", []string{"fry"}, nil, ""},
	{"into that", head + "[0:10] and into that we 're going to stir the cream.", "Stir the cream", []string{"stir"}, nil, ""},
	{"told in the past amid the work", head + "[0:10] we poured the stock into the pan.", "the stock into the pan", []string{"pour"}, nil, ""},
	{"saved for later in the dish", head + "[0:10] save some of the stock for the end.", "some of the stock", []string{"save"}, nil, ""},
	{"an order with a question mark", head + "[0:10] dip the bread in the egg on both sides?", "Dip the bread", []string{"dip"}, nil, ""},
	{"a question stays a question", head + "[0:10] do you whisk the egg with a fork?", "", nil, nil, "Whisk the egg"},
	{"a word to the viewers", head + "[0:10] check it out on the card above.", "", nil, nil, "Check it out"},
}

// Talk that a recogniser wrote a sentence a line, in small letters and with marks
// of its own making: its steps take in the lines that speak of them.
func TestLines(t *testing.T) {
	for _, c := range lineCases {
		t.Run(c.name, func(t *testing.T) {
			tk := readTalk(t, c.talk+tail)
			if len(tk.docs) == 0 {
				t.Fatal("no document")
			}
			var texts []string
			found := c.text == ""
			for _, s := range tk.docs[0].Steps {
				texts = append(texts, s.Text)
				if c.not != "" && strings.Contains(s.Text, c.not) {
					t.Errorf("step %q holds %q", s.Text, c.not)
				}
				if c.text == "" || !strings.Contains(s.Text, c.text) {
					continue
				}
				found = true
				got, want := slices.Sorted(slices.Values(s.Actions)), slices.Sorted(slices.Values(c.verbs))
				if !slices.Equal(got, want) {
					t.Errorf("step %q has actions %q, want %q", s.Text, got, want)
				}
				for _, at := range c.at {
					if !slices.ContainsFunc(s.Said, func(x schema.Said) bool { return x.At == at }) {
						t.Errorf("step %q quotes nothing from %s", s.Text, at)
					}
				}
			}
			if !found {
				t.Errorf("no step holds %q; the steps are %q", c.text, texts)
			}
		})
	}
}
