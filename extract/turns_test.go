package extract

import (
	"fmt"
	"strings"
	"testing"

	"quern/internal/transcript"
	"quern/schema"
)

// readTalk runs every pass over a text.
func readTalk(t testing.TB, text string) *talk {
	t.Helper()
	n, err := transcript.Parse("talk.md", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return run(n, nil)
}

// turns are ways to turn to a component X of the dish.
var turns = []string{
	"Now the X.", "Right, the X.", "For the X, we need a bowl.", "Next, the X.", "Next up, X.", "Time for the X.", "Let's do the X.", "Let's get going on the X.", "Let's make the X now.",
	"On to the X.", "Moving on to the X.", "While that's resting, we'll make the X.", "In the meantime, make the X.", "Meanwhile, the X.", "So the X is dead easy.", "Now for the X.",
	"And that's the first bit done, so now the X.", "I'm starting with the X.", "First up is the X.", "Then there's the X to make.", "I need to make my X.", "And for my X I've got a few things.", "To make the X, get a bowl out.",
	"With that in the oven, let's turn to the X.", "As for the X, it's simple.", "The X next.", "Last job, the X.", "So, for the X.", "What goes in the X?", "The X is just this.", "Here's how I do the X.", "Get on with the X.", "Crack on with the X.", "Let me show you the X.",
}

// turned are components of dishes.
var turned = []string{"sauce", "dressing", "dough", "filling", "marinade", "topping", "glaze", "salsa", "slaw", "gravy", "icing", "custard", "broth", "spice paste", "garlic butter", "batter", "stuffing", "relish", "pesto", "aioli", "curry paste", "cream cheese filling", "compote", "caramel"}

// Each way to turn to a component opens that part, and the foods that follow
// belong to it.
func TestTurns(t *testing.T) {
	failed, all := 0, 0
	for _, turn := range turns {
		for _, x := range turned {
			all++
			tk := readTalk(t, "[0:00] Hello everyone. Today we are making my uncle's harvest bake, it is a lovely thing.\n\n[0:10] Mix two cups of oats with a cup of milk and stir it. Leave it to one side for ten minutes.\n\n[0:40] "+
				strings.ReplaceAll(turn, "X", x)+" Whisk three tablespoons of vinegar with a teaspoon of mustard and a pinch of salt. Pour it over and stir well.")
			found := false
			for _, p := range tk.parts {
				found = found || p.name >= 0 && strings.HasSuffix(x, tk.partNames[p.name])
			}
			if !found {
				failed++
				t.Logf("no part %q in %q", x, turn)
			}
		}
	}
	if failed*50 > all {
		t.Errorf("%d of %d turns open no part, want at most one in fifty", failed, all)
	}
}

// Words that name a component without turning to it open nothing.
func TestNoTurns(t *testing.T) {
	for _, said := range []string{
		"Pour the sauce over the oats.", "Stir the oats into the batter.", "Taste the dressing.", "The sauce is really thick now.", "Put the dough in a bowl.", "Not too much sauce.", "My brother hates the icing.",
		"Drizzle the glaze over it.", "You can see the custard moving.", "Bring the broth up to a simmer.", "Add the marinade.", "That's too much salsa.", "Scrape the filling out.", "It looks like gravy.",
	} {
		tk := readTalk(t, "[0:00] Hello everyone. Today we are making my uncle's harvest bake.\n\n[0:10] Mix two cups of oats with a cup of milk and stir it.\n\n[0:40] "+said+" Whisk three tablespoons of vinegar with a teaspoon of mustard.")
		if len(tk.parts) > 0 {
			t.Errorf("%q opens the part %q", said, tk.partNames)
		}
	}
}

// told gives what is read from a talk with the sentences in its middle.
func told(t testing.TB, said string) *schema.Document {
	t.Helper()
	n, err := transcript.Parse("talk.md", []byte("[0:00] Hello everyone. Today we are making my uncle's lamb stew, it is a lovely thing and it feeds six.\n\n[0:20] Chop two carrots and fry them in a tablespoon of oil. "+said+" Then stir it well and simmer for twenty minutes.\n\n[1:10] Add a cup of stock and serve it in bowls. Thanks for watching."))
	if err != nil {
		t.Fatal(err)
	}
	return Extract(n)[0]
}

func foodOf(doc *schema.Document, name string) *schema.Ingredient {
	for i := range doc.Ingredients {
		if doc.Ingredients[i].Name == name {
			return &doc.Ingredients[i]
		}
	}
	return nil
}

// A food that is only offered may be left out.
func TestOffers(t *testing.T) {
	for _, offer := range []string{"X is optional.", "You can add X too.", "You could put X in there as well.", "X would be nice in this too.", "Feel free to add X.", "I sometimes add X.", "X is up to you.", "And maybe some X, if you're that way inclined.", "X for those who like it.", "You might want to add X."} {
		for _, x := range []string{"walnuts", "raisins", "feta", "peas"} {
			said := strings.ReplaceAll(offer, "X", x)
			g := foodOf(told(t, strings.ToUpper(said[:1])+said[1:]), x)
			if g == nil || !g.Optional {
				t.Errorf("%q: %s is %v, want it optional", said, x, g)
			}
		}
	}
}

// Foods that are named and don't go in.
func TestBystanders(t *testing.T) {
	for _, c := range []struct{ said, food string }{
		{"Set the bowl over a pan of boiling water.", "water"},
		{"Squeeze out the water.", "water"},
		{"There's a lentil one and there's a bean one.", "lentil"},
		{"Don't blend it too long or it will be peanut butter.", "peanut butter"},
		{"My daughter has trouble with milk.", "milk"},
		{"Next door does hers with lemon curd.", "lemon curd"},
	} {
		for _, g := range told(t, c.said).Ingredients {
			if strings.Contains(g.Name, c.food) {
				t.Errorf("%q gives the ingredient %q", c.said, g.Name)
			}
		}
	}
}

// An amount put right after a while is the one that counts.
func TestAmended(t *testing.T) {
	for _, c := range []struct{ said, food, want string }{
		{"Sugar, two hundred grams. Wait now. Two hundred was for the small tin, so it's two hundred and fifty.", "sugar", "250 g"},
		{"Add seventy grams of sugar. I tell you wrong things all day. I gave you the sugar wrong, it's ninety grams.", "sugar", "90 g"},
		{"With the rice I always say two cups and it's wrong, it's three cups of rice.", "rice", "3 cup"},
		{"A small cabbage, half of it.", "cabbage", "1/2"},
		{"Add two fifteen-ounce cans of black beans.", "black beans", "2 can"},
	} {
		g := foodOf(told(t, c.said), c.food)
		if g == nil || g.Amount == nil || !strings.HasPrefix(g.Amount.String(), c.want) && fmt.Sprint(g.Amount.Min) != "0.5" {
			t.Errorf("%q: %s is %+v, want %s", c.said, c.food, g, c.want)
		}
	}
}

// The dish is named in words that nobody foresaw.
func TestTitles(t *testing.T) {
	failed, all := 0, 0
	for _, intro := range []string{"Hello everyone. Today we're making X.", "Good morning. So it's X then.", "Today it is our X.", "Welcome back. X is what we're doing.", "Hello my loves. I promised you X, so here it is.", "It's a treat, a proper one, X, and there's no fuss.", "Let me tell you about X.", "Hello hello. Everyone keeps asking about my X.", "What's for dinner? X.", "Good evening. On the menu, X.", "I've been asked to do X.", "Today I want to share X with you."} {
		for _, x := range []string{"roast duck", "chicken curry", "lemon and raspberry cheesecake", "banana bread", "leek and potato soup", "fish pie", "beef stew with dumplings", "shepherd's pie", "mango chutney", "apple crumble", "mushroom risotto", "lentil dal"} {
			all++
			tk := readTalk(t, "[0:00] "+strings.ReplaceAll(intro, "X", x)+"\n\n[0:40] Chop two carrots and fry them in a tablespoon of oil. Add 200 grams of flour and simmer for twenty minutes.")
			if got := strings.ToLower(tk.docs[0].Title); !strings.Contains(got, x) || len(got) > len(x)+12 {
				failed++
				t.Logf("%q gives the title %q", strings.ReplaceAll(intro, "X", x), got)
			}
		}
	}
	if failed*50 > all {
		t.Errorf("%d of %d introductions don't give the title, want at most one in fifty", failed, all)
	}
}
