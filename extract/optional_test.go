package extract_test

import (
	"fmt"
	"strings"
	"testing"

	"quern/extract"
	"quern/internal/transcript"
	"quern/schema"
)

// told reads a soup in which the sentences stand among its steps.
func told(t *testing.T, sentences string) *schema.Document {
	t.Helper()
	talk := fmt.Sprintf("Today it's leek soup. Fry three leeks in two tablespoons of olive oil for ten minutes. Pour in a litre of chicken stock and bring it to the boil. %s Simmer it for twenty minutes, then ladle it into bowls.", sentences)
	n, err := transcript.Parse("soup.txt", []byte(talk))
	if err != nil {
		t.Fatal(err)
	}
	return extract.Extract(n)[0]
}

func ingredientNamed(doc *schema.Document, name string) *schema.Ingredient {
	for k := range doc.Ingredients {
		if g := &doc.Ingredients[k]; g.Name == name || strings.HasSuffix(g.Name, " "+name) {
			return g
		}
	}
	return nil
}

// What may be left out, and what only sounds like it. Foods stand behind the
// sentences: "+" may be left out, "-" may not, "!" is no ingredient.
func TestOptionalFoods(t *testing.T) {
	for _, row := range []struct{ said, foods string }{
		// conditions behind the food, whatever they are about
		{"Scatter some chervil over it if there's a pot of it on the step.", "+chervil"},
		{"A few peas, provided there's a bag in the freezer.", "+peas"},
		{"Swirl in some yoghurt, assuming nobody's eaten it.", "+yoghurt"},
		{"A spoon of capers, unless there's a child at the table.", "+capers"},
		{"If my brother's coming I put in a parsnip.", "+parsnip"},
		{"If there's a glass of sherry left over, pour it in.", "+sherry"},
		{"At Easter I put in a handful of spinach.", "+spinach"},
		{"Stir in a handful of peas and a few chives if you fancy.", "+chives"},
		// and those about the work, the tool, the sort or the cut
		{"Add two sticks of celery when I tell you.", "-celery"},
		{"Add two sticks of celery, sliced if they're thick.", "-celery"},
		{"Add two sticks of celery, a white one if you can find it.", "-celery"},
		{"When you've stirred that in, add two sticks of celery.", "-celery"},
		{"Add two sticks of celery. If they're stringy, they'll take longer.", "-celery"},
		{"Add a clove of garlic, and if you've got a press, use it.", "-garlic"},
		// what others put in, and the listener may
		{"Some people pour chilli oil on top. My stomach says no. You're young, do it.", "+chilli oil"},
		{"My uncle put a spoon of rum in. Try it.", "+rum"},
		{"My sister adds a handful of raisins. Suit yourself.", "+raisins"},
		{"Our Jean puts nutmeg in. It's gorgeous.", "+nutmeg"},
		{"My wife puts prunes in. I never have and I never will.", "!prunes"},
		{"My dad does bacon on it. That's not in the recipe.", "!bacon"},
		{"Some people put in smoked mackerel. I don't.", "!mackerel"},
		{"I put a teaspoon of mustard powder in. She doesn't.", "+mustard powder"},
		{"Put in one bay leaf. My wife left that out when her sister came and nobody noticed.", "+bay leaf"},
		{"Put in one bay leaf, and if you like, a strip of orange peel.", "+orange peel"},
		{"Too thick, a spoon of cream.", "+cream"},
		// what the dish goes without
		{"Put in a bay leaf. Most days I forget it.", "+bay leaf"},
		{"Put in a bay leaf. I usually don't.", "+bay leaf"},
		{"Put in a bay leaf, and no harm done if you haven't any.", "+bay leaf"},
		{"Put in a bay leaf. If you've none, you've none.", "+bay leaf"},
		{"Put in a bay leaf. No bay leaf, no problem.", "+bay leaf"},
		{"Put in a bay leaf. It's still soup without it.", "+bay leaf"},
		{"Put in a bay leaf. It's nice but it isn't strictly needed.", "+bay leaf"},
		{"Put in a bay leaf, or skip.", "+bay leaf"},
		{"A pinch of saffron. Don't go buying it specially.", "+saffron"},
		{"A pinch of paprika, purely for show.", "+paprika"},
		{"Cream, maybe.", "+cream"},
		{"A chopped chilli, and you do as you like about that.", "+chilli"},
		// and what it doesn't
		{"Add a tablespoon of flour. If you skip it, it's dishwater.", "-flour"},
		{"Add a tablespoon of flour. It isn't soup without it.", "-flour"},
		{"Add a tablespoon of flour. Sifting it is up to you.", "-flour"},
		{"Add two turnips. Nobody will know if you don't peel them.", "-turnips"},
		{"Add two turnips. It isn't necessary to peel them.", "-turnips"},
		{"Add two turnips. A spoon or a ladle, it's up to you.", "-turnips"},
		// lists that are left to the eater whole
		{"Extras. Take whichever of these you fancy. A spoon of capers. Chopped dill. Radishes, sliced.", "+capers, +dill, +radishes"},
		{"None of these is compulsory. A spoon of capers. Chopped dill.", "+capers, +dill"},
		{"Garnish it however you like. Dill, radishes, a few capers.", "+dill, +radishes, +capers"},
		{"These are essential. A spoon of capers. Chopped dill, a handful.", "-capers, -dill"},
		{"My uncle puts beer in his, and we don't talk about it.", "!beer"},
	} {
		doc := told(t, row.said)
		for _, want := range strings.Split(row.foods, ", ") {
			name := want[1:]
			g := ingredientNamed(doc, name)
			switch {
			case want[0] == '!' && g != nil:
				t.Errorf("%q: %s is no ingredient", row.said, name)
			case want[0] != '!' && g == nil:
				t.Errorf("%q: no %s", row.said, name)
			case want[0] != '!' && g.Optional != (want[0] == '+'):
				t.Errorf("%q: %s optional %v", row.said, name, g.Optional)
			}
		}
		for _, g := range doc.Ingredients {
			if g.Optional && (g.Name == "leeks" || g.Name == "olive oil" || g.Name == "chicken stock") {
				t.Errorf("%q: makes %s optional", row.said, g.Name)
			}
		}
	}
}

// What stands in for turnips, and what doesn't: the other food stands behind the
// sentence, with "!" where it neither stands in nor goes in.
func TestStandIns(t *testing.T) {
	for _, row := range []struct{ said, other string }{
		{"Swede will see you through.", "swede"},
		{"They could be parsnips just as well.", "parsnips"},
		{"Swede, if turnips are too dear.", "swede"},
		{"Turnips are hard to find here, so I take swede.", "swede"},
		{"My neighbour puts in swede if she'd no turnips.", "swede"},
		{"Same with swede.", "swede"},
		{"Or there's swede.", "swede"},
		{"Failing turnips, use swede.", "swede"},
		{"Where there's no turnips, swede.", "swede"},
		{"Swede is near enough.", "swede"},
		{"Swede won't work.", "!swede"},
		{"You can't replace them with swede.", "!swede"},
		{"They're sweeter than swede.", "!swede"},
		{"My mother always used swede and I never liked it.", "!swede"},
	} {
		doc := told(t, "Add two turnips. "+row.said)
		name := strings.TrimPrefix(row.other, "!")
		g := ingredientNamed(doc, "turnips")
		if g == nil {
			t.Errorf("%q: no turnips", row.said)
			continue
		}
		found := false
		for _, s := range g.Substitutes {
			found = found || s.Name == name
		}
		if denied := name != row.other; found == denied {
			t.Errorf("%q: %s stands in: %v", row.said, name, found)
		}
		if !strings.Contains(row.said, "replace") && ingredientNamed(doc, name) != nil {
			t.Errorf("%q: %s is an ingredient", row.said, name)
		}
	}
}
