package extract

import (
	"slices"
	"testing"

	"quern/schema"
)

// Things that nothing but the turns of the talk and the plate tell apart get
// parts of their own.
func TestMakings(t *testing.T) {
	for _, c := range []struct {
		parts []string
		in    map[string]string // a food and its part
		talk  []string
	}{
		{[]string{"vegetables", "sauce"}, map[string]string{"spinach": "vegetables", "gochujang": "sauce"}, []string{
			"Bibimbap uses up everything.",
			"Wash two cups of short grain rice and cook it in two and a quarter cups of water.",
			"For the vegetables, blanch a bag of spinach, squeeze it and dress it with a teaspoon of sesame oil. Fry two carrots in matchsticks with a pinch of salt.",
			"Mix the sauce, three tablespoons of gochujang, one of sugar, one of rice vinegar.",
			"Rice in the bowl, vegetables around, and the sauce over.",
		}},
		{[]string{"meat sauce", "white topping"}, map[string]string{"cinnamon": "meat sauce", "milk": "white topping"}, []string{
			"Moussaka, the way my neighbour taught me. Slice two aubergines, brush them with oil and bake them till they're soft, twenty minutes.",
			"For the meat sauce, fry a chopped onion in a tablespoon of olive oil, add five hundred grams of lamb mince, a tin of tomatoes and half a teaspoon of cinnamon. Simmer it for half an hour.",
			"Now the white topping. Melt fifty grams of butter, stir in fifty grams of flour, then half a litre of milk, and when it's thick beat in an egg.",
			"Aubergines in the dish, sauce over, topping over that. Bake it forty minutes.",
		}},
		{[]string{"glaze", "noodles"}, map[string]string{"honey": "glaze", "edamame beans": "noodles"}, []string{
			"Salmon and noodles tonight.",
			"Glaze first. Four tablespoons of soy sauce, two of mirin, two of honey, simmer that in a small pan until it's sticky.",
			"Cook three nests of udon noodles, rinse, and toss them with a tablespoon of sesame oil and a cup of edamame beans so they don't clump.",
			"Noodles in a bowl, and spoon the glaze over.",
		}},
	} {
		doc := readParagraphs(t, c.talk...)
		got := map[string]bool{}
		for _, p := range doc.Parts {
			got[p.Name] = true
		}
		for _, p := range c.parts {
			if !got[p] {
				t.Errorf("%q: no part %q among %v", c.talk[0], p, doc.Parts)
			}
		}
		for food, want := range c.in {
			i := slices.IndexFunc(doc.Ingredients, func(g schema.Ingredient) bool { return g.Name == food })
			if i < 0 {
				t.Errorf("%q: no %s", c.talk[0], food)
			} else if doc.Ingredients[i].Part != want {
				t.Errorf("%q: %s is in the part %q, want %q", c.talk[0], food, doc.Ingredients[i].Part, want)
			}
		}
	}
}

// What is told of food after food in one pot, or by the stages of one dough, are
// no parts.
func TestNoMakings(t *testing.T) {
	for _, talk := range [][]string{
		{
			"Chicken and rice in one pan.",
			"Season eight chicken thighs and brown them in a tablespoon of oil. Take them out.",
			"Onions next, two of them, sliced, then four garlic cloves. Stir in three hundred grams of basmati rice and a teaspoon of turmeric.",
			"Pour on six hundred mils of stock, put the chicken back on top and cook it covered for twenty minutes. Parsley over.",
		},
		{
			"Jollof rice, no arguments please.",
			"Blend four red peppers, three tomatoes, one scotch bonnet and an onion. Fry it down in half a cup of vegetable oil with two tablespoons of tomato paste.",
			"Then three cups of parboiled rice, washed, and two cups of chicken stock. Cover it tight, low heat, thirty minutes.",
			"Slice one tomato over the top and cover it again for five minutes.",
		},
		{
			"Red lentil soup, one pot.",
			"Soften an onion, a carrot and two sticks of celery in a spoon of oil. Add a teaspoon of cumin and two cloves of garlic.",
			"In go two hundred grams of red lentils and a litre and a half of stock. Let it bubble for twenty-five minutes.",
			"Blend half of it, squeeze in a lemon, and eat it with toast.",
		},
	} {
		if doc := readParagraphs(t, talk...); len(doc.Parts) > 0 {
			t.Errorf("%q gives the parts %+v", talk[0], doc.Parts)
		}
	}
}
