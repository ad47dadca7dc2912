package extract_test

import (
	"slices"
	"strings"
	"testing"

	"quern/extract"
	"quern/internal/transcript"
	"quern/schema"
)

// choiceCase is a talk with what may stand in for what, and what may be left
// out: "food: substitute | substitute" and names.
type choiceCase struct {
	name     string
	talk     string
	subs     []string
	optional []string
}

var choiceCases = []choiceCase{
	{"if you can't find", "Add two tablespoons of tamarind paste. If you can't find tamarind, use lime juice.", []string{"tamarind paste: lime juice"}, nil},
	{"haven't got", "Melt fifty grams of butter in the pan. If you haven't got butter, margarine will do.", []string{"butter: margarine"}, nil},
	{"out of", "Pour in a cup of white wine. Chicken stock works if you're out of wine.", []string{"white wine: chicken stock"}, nil},
	{"no with a question", "Chop four shallots and fry them. No shallots? An onion will do.", []string{"shallots: onion"}, nil},
	{"instead of", "Stir in a cup of sour cream. You can use plain yogurt instead of the sour cream.", []string{"sour cream: plain yogurt"}, nil},
	{"instead at the end", "Crumble in a hundred grams of feta. Goat cheese is lovely instead.", []string{"feta: goat cheese"}, nil},
	{"in place of that", "Add a cup of walnuts. Pecans you can put in place of that.", []string{"walnuts: pecans"}, nil},
	{"swap for", "Stir in a can of chickpeas. You can swap the chickpeas for white beans.", []string{"chickpeas: white beans"}, nil},
	{"substitute for", "Whisk in two tablespoons of honey. You could substitute maple syrup for the honey.", []string{"honey: maple syrup"}, nil},
	{"replace with", "Stir in a cup of milk. To make it dairy-free, replace the milk with oat milk.", []string{"milk: oat milk"}, nil},
	{"or", "Heat a tablespoon of sunflower oil, or vegetable oil. Fry two onions in it.", []string{"sunflower oil: vegetable oil"}, nil},
	{"shared noun", "Pour in a litre of chicken or vegetable stock and bring it to the boil.", []string{"chicken stock: vegetable stock"}, nil},
	{"works just as well", "Add a teaspoon of smoked paprika. Sweet paprika works just as well.", []string{"smoked paprika: sweet paprika"}, nil},
	{"is fine too", "Tear in a handful of basil. Parsley's fine too, parsley is fine too.", []string{"basil: parsley"}, nil},
	{"feel free", "Toss in two hundred grams of prawns. Feel free to use chicken instead.", []string{"prawns: chicken"}, nil},
	{"for a vegan version", "Melt a hundred grams of butter. For a vegan version, use coconut oil instead of the butter.", []string{"butter: coconut oil"}, nil},
	{"if someone can't have", "Stir in half a cup of almonds, chopped. If somebody can't have nuts, use sunflower seeds.", []string{"almonds: sunflower seeds"}, nil},
	{"otherwise", "Add a cup of crème fraîche if you can get it, otherwise sour cream.", []string{"crème fraîche: sour cream"}, nil},
	{"at a pinch", "Stir in a tablespoon of sherry vinegar. Cider vinegar at a pinch.", []string{"sherry vinegar: cider vinegar"}, nil},
	{"works with", "Brown a pound of ground beef. It works with turkey too.", []string{"ground beef: turkey"}, nil},
	{"doesn't have to be", "Grate in a hundred grams of gruyère. It doesn't have to be gruyère, cheddar will do.", []string{"gruyère: cheddar"}, nil},
	{"or if you prefer", "Add a tablespoon of butter or, if you prefer, olive oil.", []string{"butter: olive oil"}, nil},
	{"third person", "Add a can of tuna. My sister makes it with chickpeas instead of the tuna, and it's very good.", []string{"tuna: chickpeas"}, nil},
	{"shop doesn't have it", "Slice one fennel bulb. If your shop doesn't have it, use celery instead.", []string{"fennel bulb: celery"}, nil},
	{"two that stand in", "Add a tin of butter beans. You could have chickpeas instead, or cannellini beans.", []string{"butter beans: chickpeas | cannellini beans"}, nil},
	{"another kind of it", "Open one can of plum tomatoes and tip it in. In summer you can use fresh ones instead.", []string{"plum tomatoes: fresh tomatoes"}, nil},
	{"what is used is no substitute", "I'm using olive oil instead of butter today. Heat three tablespoons of olive oil in the pan.", nil, nil},
	{"told of once", "Add two cups of flour. My brother used cornflour instead once and it was like glue.", nil, nil},
	{"warned against", "Add a cup of cream. Don't use milk instead, it splits.", nil, nil},
	{"a tool instead", "Mash two bananas with a fork. If you don't have a fork, use a whisk.", nil, nil},

	{"optional after", "Add a pinch of nutmeg, that's optional.", nil, []string{"nutmeg"}},
	{"optional before", "Stir in two cups of oats and an optional teaspoon of cinnamon.", nil, []string{"cinnamon"}},
	{"are optional", "Fold a cup of raisins into the batter. The raisins are optional.", nil, []string{"raisins"}},
	{"if you like after", "Scatter over some chopped coriander if you like.", nil, []string{"coriander"}},
	{"if you like before", "If you like, add a teaspoon of chilli flakes. Stir in a can of beans.", nil, []string{"chilli flakes"}},
	{"and ends it", "Add a pinch of saffron if you've got it, and a cup of stock.", nil, []string{"saffron"}},
	{"if you got them", "Throw some olives on top if you got them. Then bake it for ten minutes.", nil, []string{"olives"}},
	{"can't abide", "Add a hundred grams of mushrooms, sliced. If you can't abide a mushroom, leave them out.", nil, []string{"mushrooms"}},
	{"leave out by name", "Add four anchovies, two cloves of garlic and a tablespoon of capers. You can leave the anchovies out.", nil, []string{"anchovies"}},
	{"leave out, the other order", "Add four anchovies and two cloves of garlic. You can leave out the anchovies.", nil, []string{"anchovies"}},
	{"skip", "Stir in a tablespoon of brandy. You can skip it.", nil, []string{"brandy"}},
	{"don't have to", "Put a spoon of yogurt on top. You don't have to.", nil, []string{"yogurt"}},
	{"not essential", "Stir in a handful of spinach. It's not essential.", nil, []string{"spinach"}},
	{"up to you", "Two tablespoons of rum go in. That's up to you.", nil, []string{"rum"}},
	{"fragment", "Bake it for ten minutes. A handful of flaked almonds, optional.", nil, []string{"flaked almonds"}},
	{"turned out too thick", "Simmer two cups of lentils. If it's too thick, add a splash of water.", nil, []string{"water"}},
	{"the rest is optional", "We're making bean tacos. Fill the tortillas with two cups of beans. The rest is only if you want. Some radishes, sliced. A few olives.", nil, []string{"radishes", "olives"}},
	{"if using", "Stir in a cup of rice, then the raisins, if using.", nil, []string{"raisins"}},
	{"never mind", "Add a teaspoon of sumac. If you haven't any, never mind.", nil, []string{"sumac"}},
	{"wouldn't go amiss", "Simmer two cups of lentils. Stir in a spoon of yogurt, it wouldn't go amiss.", nil, []string{"yogurt"}},
	{"fine without", "Crumble in a bit of bacon. It's fine without.", nil, []string{"bacon"}},
	{"third person habit", "Today it's bean pasta. Stir two cups of pasta into the pot. My wife sprinkles breadcrumbs on hers, that's up to you.", nil, []string{"breadcrumbs"}},
	{"don't leave it out", "Squeeze in half a lemon, and don't leave it out.", nil, nil},
	{"a warning", "Add the juice of one lemon. Leave the lemon out and it goes brown.", nil, nil},
	{"a step that is optional", "Add two carrots. Then chill it for an hour, you can skip that.", nil, nil},
	{"peeling is optional", "Chop two carrots. You don't have to peel them.", nil, nil},
	{"freezing if you want", "Stir in a cup of peas. If you want to freeze them, do it now.", nil, nil},
	{"how much is up to you", "Add chilli oil, how much is up to you.", nil, nil},
	{"as much as you like", "Top it with as much cheese as you like.", nil, nil},
	{"a tool to have", "Beat two eggs if you've got a mixer.", nil, nil},
	{"the other food", "Add two cups of rice, and a bay leaf if you have one.", nil, []string{"bay leaf"}},
	{"too dear", "Melt fifty grams of butter in the pan. If butter is too dear, buy margarine.", []string{"butter: margarine"}, nil},
	{"hard to find", "Add a cup of crème fraîche. If crème fraîche is hard to find where you are, sour cream is your friend.", []string{"crème fraîche: sour cream"}, nil},
	{"only have", "Fry two shallots. If you've only got onions, that will do.", []string{"shallots: onions"}, nil},
	{"all you have", "Whisk in two tablespoons of honey. If all you have is maple syrup, that's fine.", []string{"honey: maple syrup"}, nil},
	{"passive", "Stir in a cup of walnuts. The walnuts can be swapped for pecans.", []string{"walnuts: pecans"}, nil},
	{"takes its place", "Crumble in a hundred grams of feta. Goat cheese can take its place.", []string{"feta: goat cheese"}, nil},
	{"closest thing", "Add two tablespoons of sherry vinegar. The closest thing is cider vinegar.", []string{"sherry vinegar: cider vinegar"}, nil},
	{"stand-in", "Whisk in two tablespoons of honey. Maple syrup would be a decent stand-in.", []string{"honey: maple syrup"}, nil},
	{"make do", "Pour in a cup of double cream. You can make do with coconut milk.", []string{"double cream: coconut milk"}, nil},
	{"or, in the next sentence", "You want a hundred grams of butter. Or ghee, I'm not fussy.", []string{"butter: ghee"}, nil},
	{"or if that's not available", "Add a hundred grams of halloumi, or if that's not available, feta.", []string{"halloumi: feta"}, nil},
	{"tried and bad", "Add a cup of cream. I tried coconut milk instead once and it was awful.", nil, nil},
	{"will not do", "Add a cup of cream. Milk will not do here.", nil, nil},

	{"optional, but", "Now this is optional, but I add a handful of raisins.", nil, []string{"raisins"}},
	{"optionally", "Optionally, add a handful of walnuts.", nil, []string{"walnuts"}},
	{"don't need the", "Add a handful of walnuts. You don't need the walnuts.", nil, []string{"walnuts"}},
	{"no must", "Throw in some coriander. It's just for decoration.", nil, []string{"coriander"}},
	{"chopped if you like", "Add a handful of walnuts, chopped if you like.", nil, nil},
	{"won't work without", "Add a handful of bacon. It won't work without it.", nil, nil},
	{"a step's turning out", "Add a handful of bacon, and if it sticks, turn it down.", nil, nil},
}

// choiceUnmarked is how many of the cases are read right without marks at
// least: it may rise, never fall.
const choiceUnmarked = 54

func TestChoices(t *testing.T) {
	right := 0
	for _, c := range choiceCases {
		if got, want := choices(t, c.talk), c.want(); got != want {
			t.Errorf("%s\n    talk: %s\n    got:  %s\n    want: %s", c.name, c.talk, got, want)
		}
		bare := strings.ToLower(strings.NewReplacer(",", "", ".", "", "?", "", "-", " ").Replace(c.talk))
		if got, want := choices(t, bare), c.want(); got == want {
			right++
		} else {
			t.Logf("without marks: %s\n    talk: %s\n    got:  %s\n    want: %s", c.name, bare, got, want)
		}
	}
	t.Logf("without marks: %d of %d", right, len(choiceCases))
	if right < choiceUnmarked {
		t.Errorf("without marks %d of %d are right; %d were before", right, len(choiceCases), choiceUnmarked)
	}
}

func (c *choiceCase) want() string {
	subs, opt := slices.Clone(c.subs), slices.Clone(c.optional)
	slices.Sort(subs)
	slices.Sort(opt)
	return strings.Join(subs, "; ") + " / " + strings.Join(opt, "; ")
}

// choices reads a talk and writes its substitutes and optional foods as a case
// does.
func choices(t *testing.T, talk string) string {
	t.Helper()
	n, err := transcript.Parse("talk.txt", []byte(talk))
	if err != nil {
		t.Fatal(err)
	}
	var subs, opt []string
	for _, doc := range extract.Extract(n) {
		for _, g := range doc.Ingredients {
			if g.Optional {
				opt = append(opt, g.Name)
			}
			if len(g.Substitutes) > 0 {
				subs = append(subs, g.Name+": "+strings.Join(substituteNames(g.Substitutes), " | "))
			}
		}
	}
	slices.Sort(subs)
	slices.Sort(opt)
	return strings.Join(subs, "; ") + " / " + strings.Join(opt, "; ")
}

func substituteNames(list []schema.Substitute) []string {
	var out []string
	for _, s := range list {
		out = append(out, s.Name)
	}
	return out
}
