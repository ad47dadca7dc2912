package extract

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"quern/internal/lexicon"
	"quern/schema"
)

// textCases are sentences of a talk and the texts of the steps they tell; "" for none.
var textCases = []struct{ said, want string }{
	// orders
	{"Peel the parsnips and cut them into batons.", "Peel the parsnips, then cut them into batons."},
	{"Slice the aubergines a centimetre thick.", "Slice the aubergines a centimetre thick."},
	{"Pour the batter into a lined tin and bake it for thirty to thirty-five minutes.", "Pour the batter into a lined tin, then bake it for 30-35 minutes."},
	{"Crush three cloves of garlic and add them to the pan.", "Crush 3 cloves of garlic, then add them to the pan."},
	{"Crack three eggs into a bowl and beat them lightly.", "Crack 3 eggs into a bowl, then beat them lightly."},
	{"Lay the fish skin side down and cook it for four minutes.", "Lay the fish skin side down, then cook it for 4 minutes."},
	{"Season the lamb with a teaspoon of salt and half a teaspoon of pepper.", "Season the lamb with a teaspoon of salt and 1/2 teaspoon of pepper."},
	{"Pick the mint leaves and tear them over the salad.", "Pick the mint leaves, then tear them over the salad."},
	{"Turn the heat down to low, put the lid on, and leave it for fifteen minutes.", "Turn the heat down to low, put the lid on, then leave it for 15 minutes."},
	{"Take the lid off and cook it for another ten minutes, stirring, until it's thick.", "Take the lid off, then cook it for another 10 minutes, stirring, until it's thick."},
	{"Leave the cake in the tin for ten minutes, then turn it out onto a rack.", "Leave the cake in the tin for 10 minutes, then turn it out onto a rack."},
	{"Wrap the dough and put it in the fridge to rest for half an hour.", "Wrap the dough, then put it in the fridge to rest for half an hour."},
	{"Marinate the chicken overnight, or at least two hours, in the fridge.", "Marinate the chicken overnight, or at least 2 hours, in the fridge."},
	{"Fold in the egg whites gently, with a metal spoon, in two goes.", "Fold in the egg whites gently, with a metal spoon, in two goes."},
	{"Spoon the filling into the shells, leaving a little gap at the top.", "Spoon the filling into the shells, leaving a little gap at the top."},
	{"Warm the tortillas in a dry pan, thirty seconds a side.", "Warm the tortillas in a dry pan, 30 seconds a side."},
	{"Roll the pastry out to about three millimetres.", "Roll the pastry out to about 3 millimetres."},

	// plans, offers and lessons
	{"Okay so what we do is we fry the leeks in a bit of butter until they're soft.", "Fry the leeks in a bit of butter until they're soft."},
	{"What you want to do is score the skin with a sharp knife.", "Score the skin with a sharp knife."},
	{"What I do is I rub the salt into the skin.", "Rub the salt into the skin."},
	{"You want to whisk the eggs really well, you know, until they're frothy.", "Whisk the eggs well, until they're frothy."},
	{"Go ahead and drain the chickpeas.", "Drain the chickpeas."},
	{"We're going to go ahead and boil the eggs for seven minutes.", "Boil the eggs for 7 minutes."},
	{"I'm just going to sort of fold the cream through the berries.", "Fold the cream through the berries."},
	{"Now you're going to want to stir that in, okay, and then cover the pan.", "Stir that in, then cover the pan."},
	{"Let's toast the walnuts in a dry pan for five minutes.", "Toast the walnuts in a dry pan for 5 minutes."},
	{"Make sure you drain the beans.", "Drain the beans."},
	{"Don't forget to salt the water.", "Salt the water."},
	{"You need to soak the beans overnight in cold water.", "Soak the beans overnight in cold water."},
	{"You can add a handful of raisins if you like.", "Add a handful of raisins if you like."},

	{"Fry it for two minutes, and don't you stop moving it.", "Fry it for 2 minutes."},
	{"Nobody's going to mark you down if it isn't there.", ""},

	// work told one "you" after another, and what was brought forward
	{"The squid you rinse, you pull out the feather, you cut in rings.", "Rinse the squid, pull out the feather, then cut in rings."},
	{"The carrot you grate.", "Grate the carrot."},
	{"The dates you halve and you pit.", "Halve the dates, then pit."},
	{"The cucumbers you cut lengthways.", "Cut the cucumbers lengthways."},
	{"A spoonful of rye flour and some water, mix it to a paste.", "Mix a spoonful of rye flour and some water to a paste."},
	{"Into the mortar go the garlic and the coriander seeds.", "Put the garlic and the coriander seeds into the mortar."},
	{"You smell it in the street, the bus driver waves.", ""},
	{"By then you can smell it in the stairs.", ""},
	{"My grandfather, when he was well, put brandy in it.", ""},
	{"The oil comes up by itself.", ""},
	{"Every time you open the door you lose the heat.", ""},

	// what rests by itself, and what is put in place without a verb
	{"Cover the bowl, and it marinates in the fridge, three hours.", "Cover the bowl, then let it marinate in the fridge, 3 hours."},
	{"The dough must rest, one hour, under a towel.", "Let the dough rest one hour, under a towel."},
	{"Let the custard get completely cold.", "Let the custard cool completely."},
	{"The beans, three tomatoes. Blend.", "Add the beans and tomatoes, then blend."},
	{"Fold them, and pleat, pleat, pleat.", "Fold them, then pleat."},
	{"Chop the fennel and put it in the dish. Half of the dill at the bottom.", "Chop the fennel, put it in the dish, then put half of the dill at the bottom."},
	{"Chop the fennel and put it in the dish. On top the mint, torn.", "Chop the fennel, put it in the dish, then put the mint on top."},
	{"Score the trout. Bones out of the trout.", "Score the trout, then remove the bones from the trout."},
	{"Put the dough in a bowl. A wet towel over it.", "Put the dough in a bowl, then cover with a wet towel."},

	// things that go in, passives, what a light verb leads to
	{"The barley goes in now, two hundred grams of it.", "Add the barley now, 200 grams of it."},
	{"In goes the celery, two sticks, chopped.", "Add the celery, 2 sticks, chopped."},
	{"Then the stock is poured over, about a litre, and the lid goes on.", "Pour the stock over, about a litre, then put the lid on."},
	{"Give the pan a shake now and then so nothing catches.", "Shake the pan now and then so nothing catches."},
	{"Let the dough rise for an hour until it has doubled.", "Let the dough rise for an hour until it has doubled."},
	{"Let it cool for ten minutes before you slice it.", "Let it cool for 10 minutes before you slice it."},
	{"Give it ten minutes to set.", "Give it 10 minutes to set."},
	{"Get your oven on to one eighty.", "Heat the oven to 180 C."},
	{"Get the oven heating first, a hundred and ninety Celsius.", "Heat the oven first, 190 Celsius."},

	// what a pronoun stands for
	{"One big cauliflower, break it into florets.", "Break the cauliflower into florets."},
	{"Now the tomatoes, tip them in, juice and all.", "Tip the tomatoes in, juice and all."},
	{"Spread it out to the edges.", "Spread it out to the edges."},
	{"The mug, the butter and the sugar, and you stir it well.", "Stir it well."},

	{"One tin of kidney beans, drain it, rinse it, and stir it in.", "Drain the kidney beans, rinse them, then stir them in."},
	{"The lids you boil in a small pot.", "Boil the lids in a small pot."},
	{"Half of the noodles you put in the dish.", "Put half of the noodles in the dish."},
	{"Three parsnips, cut on the diagonal.", "Cut the parsnips on the diagonal."},

	// signs of doneness
	{"Boil the potatoes for fifteen minutes or until a knife slides in.", "Boil the potatoes for 15 minutes or until a knife slides in."},
	{"Bake it until the top is golden and the edges are crisp.", "Bake it until the top is golden and the edges are crisp."},
	{"Cook the pasta in salted water until it's just tender.", "Cook the pasta in salted water until it's just tender."},
	{"Beat the butter and sugar together till it's pale, that takes a good five minutes.", "Beat the butter and sugar together till it's pale, 5 minutes."},
	{"Rinse the rice three times, Pat, are you watching, until the water runs clear.", "Rinse the rice three times, until the water runs clear."},
	{"Stir through the spinach, which will look like far too much, it always does, until it wilts.", "Stir through the spinach, until it wilts."},
	{"Let it stand for an hour or so.", "Let it stand for an hour or so."},
	{"Knead the dough till I get bored.", "Knead the dough."},
	{"Plus a spoonful of sugar, and let it sit till it's foamy.", "Let it sit till it's foamy."},
	{"Mix it with your hands until we have a soft dough.", "Mix it with your hands until we have a soft dough."},

	// what is not to be done
	{"Melt fifty grams of butter and don't let it brown.", "Melt 50 grams of butter and don't let it brown."},
	{"Never wash the mushrooms, just wipe them with a cloth.", "Wipe them with a cloth."},
	{"Add the lime juice at the end, not before, otherwise it goes bitter.", "Add the lime juice at the end, not before."},

	// conditions
	{"If the sauce looks too thick, add a splash of milk.", "If the sauce looks too thick, add a splash of milk."},
	{"Once the milk is warm, stir in the yeast.", "Once the milk is warm, stir in the yeast."},
	{"While the onions cook, chop the herbs.", "While the onions cook, chop the herbs."},
	{"When the water boils, drop in the gnocchi.", "When the water boils, drop in the gnocchi."},
	{"Before you add the garlic, turn the heat down.", "Before you add the garlic, turn the heat down."},
	{"In a large bowl, mix the flour and the salt.", "In a large bowl, mix the flour and the salt."},
	{"Heat a tablespoon of oil in the pan, and when it shimmers, add the onions.", "Heat a tablespoon of oil in the pan, then when it shimmers, add the onions."},

	// reasons, talk, questions, words taken back
	{"Simmer it for twenty-five minutes, because barley takes its time, my gran used to say.", "Simmer it for 25 minutes."},
	{"Stir in half a cup of yoghurt, that's what makes it creamy.", "Stir in 1/2 cup of yoghurt."},
	{"Put the tray in the oven, and it'll take about twenty minutes.", "Put the tray in the oven, about 20 minutes."},
	{"Add two teaspoons, no sorry, three teaspoons of cumin.", "Add 3 teaspoons of cumin."},
	{"Grate the carrots. Isn't that a gorgeous colour?", "Grate the carrots."},
	{"Toss the potatoes with three tablespoons of oil, like you're dressing a salad.", "Toss the potatoes with 3 tablespoons of oil."},
	{"Spread it thin thin thin with the back of a spoon.", "Spread it thin with the back of a spoon."},
	{"And then, um, we just blend the soup, carefully, it's hot.", "Blend the soup, carefully."},
	{"Strain the stock through a sieve, which my sister gave me, into a clean pan.", "Strain the stock through a sieve, into a clean pan."},
	{"Chop the parsley, the dill, and, what's it called, the chervil.", "Chop the parsley, the dill, and the chervil."},
	{"Dot the butter over the top, my favourite bit, and grill it for three minutes.", "Dot the butter over the top, then grill it for 3 minutes."},
	{"Cut the fennel into quarters, lengthwise, I think it looks nicer.", "Cut the fennel into quarters, lengthwise."},
	{"Brush the buns with beaten egg, one egg is plenty.", "Brush the buns with beaten egg."},
	{"Stir the soup every few minutes so it doesn't stick to the bottom.", "Stir the soup every few minutes so it doesn't stick to the bottom."},
	{"Squash it into a round sort of a disc.", "Squash it into a round disc."},
	{"Simmer for a minute or two.", "Simmer for a minute or two."},
	{"Add a pound and a half of minced lamb.", "Add a pound and a half of minced lamb."},
	{"Dust the cloth with rice flour, not plain, plain flour glues itself to it.", "Dust the cloth with rice flour, not plain."},
	{"Grate the cheddar, the stuff in the bag's got powder on it.", "Grate the cheddar."},

	// praise, what is only shown, orders that are no work
	{"Get a nice big pot and fill it with your stock.", "Fill the big pot with the stock."},
	{"Scrape all those lovely brown bits off the bottom.", "Scrape all those brown bits off the bottom."},
	{"Roll the dough up nice and tight.", "Roll the dough up tight."},
	{"Beat the eggs until they're light and airy.", "Beat the eggs until they're light and airy."},
	{"Press the crumbs into the tin with your fingers like this.", "Press the crumbs into the tin with your fingers."},
	{"Toss the beans in the sauce, be generous, and don't answer the phone.", "Toss the beans in the sauce."},
	{"Lower the beans in, and don't let them stick.", "Lower the beans in, and don't let them stick."},
	{"Thin the sauce with some milk, depends on your flour.", "Thin the sauce with some milk."},
	{"Keep stirring the sauce, don't be shy.", "Keep stirring the sauce."},
	{"Pull the skins off the tomatoes, they should slip off, and if they don't, tough.", "Pull the skins off the tomatoes."},
	{"Go in with your flour a little at a time.", "Add the flour a little at a time."},
	{"Give that a good stir.", "Stir that."},
	{"Put your feet up.", ""},
	{"Bring me a plate of it.", ""},

	// no marks at all
	{"knead the dough for ten minutes my sister does hers with a hook", "Knead the dough for 10 minutes."},
	{"slice the leeks mine were muddy and wash them well", "Slice the leeks, then wash them well."},
	{"wash the rice until the water is clear and let it drain well", "Wash the rice until the water is clear, then let it drain well."},
	{"fry the onions until the edges are brown and add the garlic", "Fry the onions until the edges are brown, then add the garlic."},
	{"fold the flour in until you don't see any more of it", "Fold the flour in until you don't see any more of it."},
	{"give it a quick stir and taste the sauce", "Stir it, then taste the sauce."},
	{"stir the cream until the sauce is thick", "Stir the cream until the sauce is thick."},
	{"so you're going to slice the courgettes and fry them in a little oil for six minutes", "Slice the courgettes, then fry them in a little oil for 6 minutes."},
	{"take the pan off the heat and stir in the cream you don't want it to split", "Take the pan off the heat, then stir in the cream."},
	{"we add the lentils to the pot it smells so good already and simmer them for twenty minutes until they're soft", "Add the lentils to the pot, then simmer them for 20 minutes until they're soft."},
	{"next we chop the dates and stir them into the batter it's quite a stiff batter", "Chop the dates, then stir them into the batter."},
	{"and you just mash the beans with a fork you know until they're smooth", "Mash the beans with a fork until they're smooth."},
	{"so whisk the eggs with the sugar and then fold in the flour and bake it for twenty minutes", "Whisk the eggs with the sugar, fold in the flour, then bake it for 20 minutes."},
	{"bring the pot to the boil and then simmer it for an hour", "Bring the pot to the boil, then simmer it for an hour."},

	// what goes somewhere is put there
	{"The tray goes in the oven for 20 minutes", "Put the tray in the oven for 20 minutes."},
	{"It goes in the oven for 25 minutes, until it's golden", "Put it in the oven for 25 minutes, until it's golden."},
	{"The potatoes are going to go in the oven for an hour", "Put the potatoes in the oven for an hour."},
	{"Back in the pan they go, and cover them", "Put them in the pan, then cover them."},
	{"The dumplings go in one at a time and you simmer them for eight minutes", "Add the dumplings one at a time, then simmer them for 8 minutes."},

	// behind a place or a time, and without a cook
	{"For the last half hour take the lid off", "Take the lid off."},
	{"With the back of a spoon make six little wells in the sauce", "With the back of a spoon, make six little wells in the sauce."},
	{"Before cutting it we let it cool for ten minutes", "Before cutting it, let it cool for 10 minutes."},
	{"Get that all stirred together", "Stir that all together."},
	{"The tin must be oiled well", "Oil the tin well."},
	{"It has to simmer for ten minutes", "Let it simmer for 10 minutes."},

	// for a reader
	{"Pour in the stock while I whisk", "Pour in the stock while whisking."},
	{"Chop two onions here, fairly fine", "Chop 2 onions, fairly fine."},
	{"Turn her out on a floured board", "Turn it out on a floured board."},
	{"Rub the butter in with our fingers until it was like crumbs", "Rub the butter in with your fingers until it is like crumbs."},
	{"Whizz the soup till smooth, no need to be precious", "Whizz the soup till smooth."},

	// without a verb
	{"Warm a little oil in the pan. Two onions in, chopped.", "Warm a little oil in the pan, then add 2 onions, chopped."},
	{"Warm a little oil in the pan. Add the leeks. Lid on, ten minutes.", "Warm a little oil in the pan. Add the leeks, then cover."},
	{"Warm a little oil in the pan. Add the leeks. Then into the oven, forty minutes.", "Warm a little oil in the pan. Add the leeks, then put into the oven, 40 minutes."},
	{"Warm a little oil in the pan. Garlic next, three cloves.", "Warm a little oil in the pan, then add garlic, 3 cloves."},
}

// What is said becomes what a recipe would print: the verb first, the work whole, the
// talk gone, and no word that wasn't said.
func TestStepTexts(t *testing.T) {
	const opening = "Welcome back. This is my barley supper, and we're cooking it in one pot. "
	for _, c := range textCases {
		t.Run(c.said, func(t *testing.T) {
			tk := readTalk(t, opening+"\n\n"+strings.TrimRight(c.said, ".")+".\n\nThat was all, and thanks for watching.")
			if len(tk.docs) == 0 {
				t.Fatal("no document")
			}
			var texts []string
			for _, s := range tk.docs[0].Steps {
				if !strings.Contains(s.Text, "barley in one pot") {
					texts = append(texts, s.Text)
				}
			}
			if got := strings.Join(texts, " "); got != c.want {
				t.Errorf("said %q\n got %q\nwant %q", c.said, got, c.want)
			}
		})
	}
}

// Every word of a step's text was said in the talk, if in another form of its verb ("while
// I whisk" is "while whisking"), but for the verb that stands for what was said without one, the words that join, and figures for numbers.
func TestStepTextsSayOnlyWhatWasSaid(t *testing.T) {
	joins := words("add put then the and with cover let them in a of to or c f") // c and f: the scale of degrees
	paths, err := filepath.Glob("../testdata/talks/*/narration.md")
	if err != nil || len(paths) == 0 {
		t.Fatal("no talks", err)
	}
	steps := 0
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		tk := readTalk(t, string(data))
		said := map[string]bool{}
		for i := range tk.toks {
			said[tk.toks[i].Norm] = true
			for _, w := range plainWords(tk.n.Words[tk.toks[i].Word].Text) {
				said[w] = true
			}
		}
		for _, d := range tk.docs {
			for k := range d.Steps {
				s := &d.Steps[k]
				steps++
				for _, w := range plainWords(s.Text) {
					if !said[w] && !joins[w] && !strings.Contains(strings.Join(s.Actions, " "), w) && !strings.ContainsAny(w, "0123456789") && !namedSo(d, w) && !saidOtherwise(tk, said, w) {
						t.Errorf("%s: %q was never said; the step is %q", path, w, s.Text)
					}
				}
			}
		}
	}
	if steps < 300 {
		t.Errorf("only %d steps in %d talks", steps, len(paths))
	}
}

// saidOtherwise reports whether a word in "ing" is a form of a verb that was said.
func saidOtherwise(tk *talk, said map[string]bool, w string) bool {
	for _, f := range tk.lex.Verbs(w) {
		if f.Form == lexicon.Ing && said[f.Action.Verb] {
			return true
		}
	}
	return false
}

// plainWords cuts a text into its words.
func plainWords(text string) []string {
	return strings.FieldsFunc(strings.ToLower(strings.ReplaceAll(text, "’", "'")), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\''
	})
}

// namedSo reports whether a word is of an ingredient's name, which may stand for a
// word that was heard wrong.
func namedSo(d *schema.Document, w string) bool {
	for i := range d.Ingredients {
		if slices.Contains(plainWords(d.Ingredients[i].Name), w) {
			return true
		}
	}
	return false
}

// The one food a step works on takes the place of its pronoun; what goes into the
// dish, or stands for all of it, doesn't.
func TestStepTextsNameTheirOneFood(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		{"I've got pearl barley here, one cup. My gran swore by it. Rinse it in a sieve.", "Rinse the pearl barley in a sieve."},
		{"You'll want some dill. Scatter that over the top.", "Scatter the dill over the top."},
		{"Six plums, ripe ones. Halve them.", "Halve the ripe plums."},
		{"Double cream next, half a cup. Whip it to soft peaks.", "Whip the double cream to soft peaks."},
		{"Now the chicken. Six thighs, skin on. Pat them dry.", "Pat the thighs dry."},
		{"Two cups of dried hibiscus, the dark petals, rinse them quick.", "Rinse the dried hibiscus quick."},
		{"I took a cup of chana dal. You wash it three times.", "Wash the chana dal three times."},
		{"Two tablespoons of ground flaxseed, and stir that into some water.", "Stir the ground flaxseed into some water."},
		{"Noodles. Thick ones, three hundred grams. Soak them for an hour.", "Soak the noodles for an hour."},
		{"Plus a knob of butter. Mash it well.", "Mash it well."},
		{"Two onions and a carrot. Chop them.", "Chop them."},
		{"Then a pinch of salt. Cover it and leave it an hour.", "Cover it, then leave it an hour."},
		{"Then a spoon of sugar. Let it sit till it's foamy.", "Let it sit till it's foamy."},
	} {
		tk := readTalk(t, "Welcome back to my kitchen, supper today.\n\n"+c.said+"\n\nThat was all.")
		if len(tk.docs) == 0 || len(tk.docs[0].Steps) == 0 {
			t.Errorf("%q: no step", c.said)
			continue
		}
		steps := tk.docs[0].Steps
		if got := steps[len(steps)-1].Text; got != c.want {
			t.Errorf("%q\n got %q\nwant %q", c.said, got, c.want)
		}
	}
}

// A thing put in a pronoun's place is quoted with the step.
func TestStepTextsQuoteWhatAPronounStandsFor(t *testing.T) {
	tk := readTalk(t, "Welcome back. This is my cauliflower supper.\n\nOne big cauliflower, and then you break it into florets.\n\nThat was all.")
	if len(tk.docs) == 0 || len(tk.docs[0].Steps) == 0 {
		t.Fatal("no step")
	}
	s := tk.docs[0].Steps[0]
	if s.Text != "Break the cauliflower into florets." {
		t.Fatalf("text %q", s.Text)
	}
	for _, x := range s.Said {
		if strings.Contains(x.Quote, "cauliflower") {
			return
		}
	}
	t.Errorf("nothing in %q names what is broken", s.Said)
}

// Without marks a clause with a subject of its own ends the order before it.
func TestStepTextsEndWhereAnotherSubjectBegins(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		{"chill the tart for an hour a cold tart takes a cleaner slice", "Chill the tart for an hour."},
		{"dust the board with flour semolina does the same job", "Dust the board with flour."},
		{"cover the pan the handle's already hot", "Cover the pan."},
		{"line the trays with parchment mine are square", "Line the trays with parchment."},
		{"stir the cream until the sauce is thick", "Stir the cream until the sauce is thick."},
		{"put half a teaspoon of thyme in the sauce", "Put 1/2 teaspoon of thyme in the sauce."},
	} {
		tk := readTalk(t, "welcome back to my kitchen we're making a barley supper today so chop an onion and then "+c.said)
		if len(tk.docs) == 0 || len(tk.docs[0].Steps) == 0 {
			t.Errorf("%q: no step", c.said)
			continue
		}
		steps := tk.docs[0].Steps
		got := steps[len(steps)-1].Text
		if _, last, found := strings.Cut(got, ", then "); found {
			got = sentenceCase(strings.TrimSuffix(last, "."))
		}
		if got != c.want {
			t.Errorf("%q\n got %q\nwant %q", c.said, got, c.want)
		}
	}
}
