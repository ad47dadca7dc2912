package extract

import (
	"slices"
	"testing"

	"quern/internal/transcript"
)

// TestWarned reads short talks that warn of a danger, and look-alikes that
// speak of the same thing without one.
func TestWarned(t *testing.T) {
	covered := map[string][2]bool{}
	for _, c := range []struct {
		kind, talk string
		want       bool
	}{
		{"raw egg", "Whisk the egg whites with the sugar. That's raw egg in there, mind, so not for the little one.", true},
		{"raw egg", "Fold the yolks in. The eggs in this never get cooked, so if you're pregnant, leave it.", true},
		{"raw egg", "Crack in four eggs and cook them until the yolk is still runny.", true},
		{"raw egg", "Beat two eggs into the batter. It's egg-free if you leave them out. Raw potato is no good to anyone.", false},
		{"raw egg", "Boil the eggs nine minutes, so there's nothing runny about them.", false},
		{"raw egg", "Beat in the eggs and bake it for forty minutes.", false},
		{"raw egg", "Four eggs, lower them into boiling water and boil them six and a half minutes. Then ice water.", true},
		{"raw egg", "Fry the eggs in butter. The yolk wants to stay soft so it spills. A soft yolk, mind.", true},
		{"raw egg", "Boil the eggs for six minutes, turn it off and leave them to sit ten more.", false},
		{"raw egg", "Whisk the yolks in. Boil the cream for three minutes.", false},
		{"raw egg", "Mash the yolks with soft butter and a spoon of mustard.", false},
		{"raw egg", "Boil the egg noodles for five minutes.", false},
		{"honey for infants", "Some have it with honey instead. If you do, don't give it to a baby, not till he's one.", true},
		{"honey for infants", "Stir in the honey. And it's not for little ones under one, that.", true},
		{"honey for infants", "Stir in a spoon of honey and leave it to cool.", false},
		{"raw fish", "It's raw fish, so you eat it today, within the hour.", true},
		{"raw fish", "Wash your hands after you touch raw fish. Fry the cod four minutes a side.", false},
		{"alcohol near flame", "Pour in the cognac and let it catch, and stand back.", true},
		{"raw flour", "Mix the flour, the butter and the egg into a dough. I'll just have a wee nibble of the dough. Now bake it for twenty minutes.", true},
		{"raw flour", "Stir the flour into the batter. And don't go licking the spoon. Bake it for half an hour.", true},
		{"raw flour", "Fold in the flour. Raw flour isn't for eating, so wait. Bake it.", true},
		{"raw flour", "Mix the flour and water, and bake it for half an hour. Taste it when it's cold, it tastes of bread.", false},
		{"raw flour", "Fry a bit of the pork filling and taste that. You don't taste it raw. Roll the flour dough and steam it.", false},
		{"raw flour", "Knead the flour and the egg and roll it out. My sister eats the edges raw, which I don't recommend. Bake it for ten minutes.", true},
		{"raw flour", "Whisk the flour and the egg. And you, stop tasting that, it's raw. Bake it for half an hour.", true},
		{"raw flour", "Knead the flour and the water. The turnip you can eat raw. Bake it for an hour.", false},
		{"rice cooling", "Cook a cup of rice. If you're keeping any rice, spread it on a tray so it cools quick.", true},
		{"rice cooling", "Cook the rice for twelve minutes. What's left of the rice you reheat till it steams, and only the once.", true},
		{"rice cooling", "Cook a cup of rice for twelve minutes, lid on, and fluff it with a fork.", false},
		{"dried kidney beans", "Soak the kidney beans. You boil them hard, those beans, or they'll poison you.", true},
		{"dried kidney beans", "Add a can of kidney beans and simmer it for ten minutes.", false},
		{"garlic in oil", "Cover the garlic with olive oil. That's how you get botulism, so never on the counter.", true},
		{"garlic in oil", "Warm the garlic in the olive oil for two minutes.", false},
		{"hot oil", "Heat the oil and fry them. Don't walk away from that oil, not for the doorbell.", true},
		{"hot oil", "Heat a cup of oil. Water and hot oil are not friends.", true},
		{"hot oil", "Heat a spoon of oil and fry the onion.", false},
		{"hot sugar", "Melt the sugar until it's amber. Keep the kids out of it, caramel burns worse than anything.", true},
		{"hot sugar", "Boil the sugar and cream. Don't touch it, that syrup takes your skin off.", true},
		{"hot sugar", "Stir in the sugar until it's gone. The children had two glasses.", false},
		{"alcohol near flame", "Take it off the stove and add the rum. Don't ever pour rum by a lit burner.", true},
		{"alcohol near flame", "Pour the rum over the ice.", false},
		{"raw fish", "Slice the salmon thin. Get salmon that's been frozen first, because of the worms.", true},
		{"raw fish", "Fry the salmon four minutes a side.", false},
		{"cold storage", "Mix in the mayonnaise. Don't leave it out more than two hours, that's how people get sick.", true},
		{"cold storage", "Get that chicken cooled and into the fridge within two hours.", true},
		{"cold storage", "Leave the dough out on the counter two hours, until it's doubled.", false},
		{"cold storage", "Then stand it on the counter half an hour before cutting, because fridge-cold cake tastes of nothing.", false},
		{"thawing", "Defrost the chicken overnight in the fridge, never on the counter.", true},
		{"thawing", "Thaw the puff pastry in the fridge overnight.", false},
		{"pressure cooker", "Let the pressure drop on its own. Don't you try opening it.", true},
		{"pressure cooker", "There's no pressure, take your time with the icing.", false},
		{"fish temperature", "Roast the salmon. Stick a thermometer in the fish if you're not sure.", true},
		{"fish temperature", "Roast the salmon for twelve minutes.", false},
		{"home canning", "Fill the jars while it's boiling. Leave half an inch of headspace and put them in a water bath.", true},
		{"home canning", "They'll sit in their jars in the cupboard until Christmas.", true},
		{"home canning", "Shake it in a jar and pour it over the leaves.", false},
		{"dry glucomannan", "Whisk in the glucomannan. Never take glucomannan dry, people choke.", true},
		{"dry glucomannan", "Whisk in a teaspoon of glucomannan.", false},
	} {
		both := covered[c.kind]
		if c.want {
			both[0] = true
		} else {
			both[1] = true
		}
		covered[c.kind] = both
		n, err := transcript.Parse("talk.txt", []byte(c.talk))
		if err != nil {
			t.Fatal(err)
		}
		talk := run(n, nil)
		var kinds []string
		for _, x := range talk.warned(0) {
			kinds = append(kinds, x.Kind)
			if len(x.Said) == 0 || x.Said[0].Quote == "" {
				t.Errorf("%s: no words beside the warning: %q", x.Kind, c.talk)
			}
		}
		if got := slices.Contains(kinds, c.kind); got != c.want {
			t.Errorf("%s: warned %t, want %t: %q", c.kind, got, c.want, c.talk)
		}
	}
	for _, d := range spokenDangers {
		if covered[d.kind] != [2]bool{true, true} {
			t.Errorf("%s has no talk that warns, or none that doesn't", d.kind)
		}
	}
}
