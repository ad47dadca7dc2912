package extract

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"quern/internal/transcript"
	"quern/schema"
)

// readParagraphs reads a talk of paragraphs half a minute apart, with enough talk
// before and after the cooking.
func readParagraphs(t *testing.T, text ...string) *schema.Document {
	t.Helper()
	var sb strings.Builder
	text[0] += " My cousin is holding the camera today, so if the picture shakes, that's him laughing at me, and you can write to him about it."
	text = append(text, "That's all from me, thank you for watching, and tell me what you had for your dinner this week, I read every word of it on the bus.")
	for k, p := range text {
		fmt.Fprintf(&sb, "[%d:%02d] %s\n\n", k/2, k%2*30, p)
	}
	n, err := transcript.Parse("talk.md", []byte(sb.String()))
	if err != nil {
		t.Fatal(err)
	}
	return Extract(n)[0]
}

// Things that no words announce get the names that they are given afterwards.
func TestComponents(t *testing.T) {
	for _, c := range []struct {
		parts []string
		in    map[string]string // a food's last word and its part
		talk  []string
	}{
		{[]string{"dough", "filling"}, map[string]string{"flour": "dough", "pork": "filling"}, []string{
			"Hi all, potstickers today, my grandpa's.",
			"Two cups of flour in a bowl and three quarters of a cup of hot water. Stir with chopsticks, then knead it five minutes. Cover it and let it rest half an hour.",
			"While that rests, take a pound of minced pork, two cups of chopped cabbage, a tablespoon of soy sauce and a teaspoon of sesame oil. Mix it all one way until it's sticky.",
			"Now roll the dough into a rope and cut thirty pieces. Roll each one thin, put a spoonful of filling in the middle, fold and pleat.",
			"Fry them in two tablespoons of oil until the bottoms are brown, pour in half a cup of water, lid on, six minutes.",
		}},
		{[]string{"salad", "dressing"}, map[string]string{"tahini": "dressing", "chickpeas": "salad"}, []string{
			"Hey, this is my chickpea salad for lunches.",
			"Drain two tins of chickpeas and tip them in a big bowl. Chop a cucumber, four tomatoes and a red onion, in they go. A bunch of parsley, chopped.",
			"In a small jar, shake three tablespoons of tahini with the juice of a lemon, two tablespoons of water and a clove of garlic.",
			"Pour the dressing over the salad and toss it. It serves four.",
		}},
		{[]string{"base", "custard"}, map[string]string{"biscuits": "base"}, []string{
			"Custard slice, no bake.",
			"Crush two hundred and fifty grams of digestive biscuits and stir in a hundred grams of melted butter. Press it into a tin and chill it.",
			"Heat half a litre of milk in a pan. Whisk four egg yolks with a hundred grams of sugar and forty grams of cornflour, pour the milk on, back in the pan, and stir till it's thick.",
			"Pour the custard over the base and chill it four hours.",
		}},
		{[]string{"rice", "curry"}, map[string]string{"milk": "curry"}, []string{
			"Prawn curry today, dead easy.",
			"Fry a chopped onion in two tablespoons of oil, add three cloves of garlic and a tablespoon of curry powder. Pour in a tin of coconut milk and a hundred grams of spinach, let it simmer ten minutes. Add four hundred grams of prawns at the end.",
			"While that's bubbling, rinse two cups of rice and put it in a small pan with three cups of water and a bit of salt. Lid on, twelve minutes, off the heat.",
			"Spoon the curry over the rice.",
		}},
		{[]string{"duck", "lentils"}, map[string]string{"lentils": "lentils", "plums": "duck"}, []string{
			"I'm doing duck breasts with lentils, a thing I had in Lyon once and never got over, and the waiter was rude, and it was still worth the train fare.",
			"Score the skin on four duck breasts, salt them, and lay them in a cold pan, skin down. Ten minutes on medium, pour off the fat. Then four plums, quartered, go in with a spoonful of honey and a splash of vinegar. Turn the duck and give it four minutes. Rest it on a board.",
			"Lentils you start first, really. Two hundred grams of Puy lentils in a saucepan with a bay leaf, a carrot cut small and plenty of water. They take twenty-five minutes. Drain them and dress them with two tablespoons of olive oil.",
			"So, lentils on the plate, duck sliced on the lentils, plums around. The lentils keep three days in the fridge. The duck, two at the most.",
		}},
		{[]string{"base", "filling", "topping"}, map[string]string{"hazelnuts": "topping", "milk": "filling"}, []string{
			"Three-layer slice, and I warn you it disappears, my sister's boys had half of it before the wedding photographs were taken last June.",
			"A hundred and fifty grams of flour, eighty grams of coconut and a hundred grams of brown sugar go in a bowl. Pour in a hundred and twenty grams of melted butter. Press it into a tin and bake it fifteen minutes. Leave it to cool.",
			"Warm a tin of condensed milk in a pan with two tablespoons of golden syrup and thirty grams of butter, stirring, eight minutes. Pour the filling over the base and bake it ten minutes more. Let it cool again.",
			"Melt two hundred grams of dark chocolate with a teaspoon of oil and stir in fifty grams of chopped hazelnuts. Spread the topping to the corners and chill it two hours.",
		}},
		{[]string{"dough", "topping"}, map[string]string{"za'atar": "topping", "yeast": "dough"}, []string{
			"Flatbreads from my friend Huda's bakery, she wouldn't write it down for me, so I sat on a flour sack one morning and counted her handfuls.",
			"Five hundred grams of flour, a teaspoon of yeast, a teaspoon of salt and three hundred mils of warm water. Mix and knead, ten minutes. Cover it and leave it an hour.",
			"Meanwhile stir four tablespoons of za'atar into six tablespoons of olive oil.",
			"Divide the dough into six, roll them flat, and smear the topping on. Eight minutes in a very hot oven.",
		}},
		{[]string{"rice", "stew"}, map[string]string{"okra": "stew"}, []string{
			"Okra stew, the way we had it at school, except at school there were two hundred of us and the pot needed a ladder to look into it.",
			"Fry two onions in half a cup of palm oil. A tin of tomatoes, two chillies, a pound of okra sliced thin and a tablespoon of ground crayfish. Let it bubble fifteen minutes with the lid off.",
			"Meantime, wash two cups of rice and boil it in four cups of water with some salt, fifteen minutes, then leave it covered.",
			"Serve the stew on the rice. The stew keeps four days, the rice only the one.",
		}},
		{[]string{"pastry", "filling", "custard"}, map[string]string{"vanilla": "custard", "rhubarb": "filling"}, []string{
			"Rhubarb pie with custard, and a confession, that I bought the first one in a shop and put it on my own plate for the church lunch.",
			"Two hundred and fifty grams of flour and a hundred and twenty-five grams of butter, rubbed together with a pinch of salt. Four tablespoons of cold water to bring it together. Wrap the pastry up and chill it.",
			"Cut up six hundred grams of rhubarb and toss it with a hundred and twenty grams of sugar and a spoon of cornflour. Leave it to sit twenty minutes.",
			"Roll the pastry out in two rounds. Line the dish, tip the filling in, put the lid on and bake it forty minutes at one ninety.",
			"While it's baking, warm half a litre of milk with a teaspoon of vanilla. Whisk three egg yolks with two tablespoons of sugar, pour the milk on, back in the pan, and stir until it coats the spoon.",
			"Pour the custard over the pie when it's warm.",
		}},
	} {
		doc := readParagraphs(t, c.talk...)
		var got []string
		for _, p := range doc.Parts {
			got = append(got, p.Name)
		}
		slices.Sort(got)
		slices.Sort(c.parts)
		if !slices.Equal(got, c.parts) {
			t.Errorf("%q gives the parts %q, want %q", c.talk[0], got, c.parts)
		}
		for _, g := range doc.Ingredients {
			if want, ok := c.in[g.Name[strings.LastIndexByte(g.Name, ' ')+1:]]; ok && g.Part != want {
				t.Errorf("%q: %s is in the part %q, want %q", c.talk[0], g.Name, g.Part, want)
			}
		}
	}
}

// Dishes of one pot have no parts, though things in them stand, cook or are set
// aside.
func TestNoComponents(t *testing.T) {
	for _, talk := range [][]string{
		{
			"Lentil soup today.",
			"Soften an onion, two carrots and two sticks of celery in two tablespoons of oil for ten minutes.",
			"While that's going, rinse two hundred and fifty grams of red lentils. Tip the lentils in with a teaspoon of cumin and a litre and a half of stock. Simmer it twenty minutes.",
			"Blend it. Ladle the soup into bowls and swirl some yogurt over.",
		},
		{
			"Beef stew, one pot.",
			"Toss a kilo of stewing beef in two tablespoons of flour. Brown it in batches and set it aside.",
			"In the same pot fry two onions, three carrots and four cloves of garlic. Put the beef back with half a litre of red wine and a tin of tomatoes. Lid on, two hours in the oven.",
			"Meanwhile peel six potatoes, cut them up and add the potatoes for the last forty minutes. The sauce should be thick. Serve it with bread.",
		},
		{
			"Strawberry jam.",
			"Hull a kilo of strawberries and put them in a big pan with the juice of a lemon. Let them sit overnight with the sugar, eight hundred grams.",
			"Next day bring it up to the boil. Skim the foam. Boil it fifteen minutes and test the jam on a cold saucer.",
			"Ladle the jam into jars. It keeps a year in a cupboard.",
		},
		{
			"Carbonara for two.",
			"Boil two hundred grams of spaghetti in salted water.",
			"While that's cooking, fry a hundred grams of pancetta until it's crisp. In a small bowl beat two eggs with fifty grams of pecorino and lots of pepper.",
			"Drain the spaghetti and tip it in the pan with the pancetta. Off the heat, pour the eggs in and toss it.",
		},
		{
			"Minestrone. My grandmother made it in a pot you could have bathed a child in, and I believe that at one time or another she had done just that.",
			"Soak a cup of borlotti beans overnight. Drain them and simmer them an hour with a bay leaf.",
			"Meanwhile, fry an onion, two carrots, two sticks of celery and two cloves of garlic in four tablespoons of oil. Add a tin of tomatoes and the beans with their water. Simmer half an hour.",
			"A hundred grams of small pasta goes in for the last ten minutes. Ladle the soup in bowls, grate parmesan over. It keeps three days in the fridge, the soup, but the pasta goes soft.",
		},
		{
			"Fish pie filling no, only fish chowder. I worked on the boats two summers, and the cook had one recipe and this was it, every Friday, like it or not.",
			"Cut up four potatoes and boil them ten minutes in a litre of milk with a bay leaf. Put it to one side.",
			"In another pan, fry a leek and four rashers of bacon in a knob of butter. Stir in a spoon of flour.",
			"Pour the milk and the potatoes in. Add five hundred grams of smoked haddock, in chunks, five minutes. Serve it with bread and butter.",
		},
		{
			"Macaroni cheese. No crumbs, no bacon, no nonsense, the doctor's receptionist gave it me over the telephone while I was waiting for a result.",
			"Boil three hundred grams of macaroni and drain it.",
			"While that's cooking, melt fifty grams of butter in another pan, stir in fifty grams of flour, then six hundred mils of milk, bit by bit. Off the heat, two hundred grams of cheddar and a teaspoon of mustard.",
			"Tip the macaroni into the sauce, then the lot in a dish. Bake it twenty-five minutes until it's brown. Leave it five minutes.",
		},
		{
			"Ratatouille, and I do it all in the one pan whatever the film says, because life is short and I have got an allotment to water before dark.",
			"Fry two aubergines in five tablespoons of olive oil, ten minutes, and lift them out onto a plate. Then two courgettes, the same, and out. Then two peppers and an onion with three cloves of garlic.",
			"Put the aubergines and courgettes back with a tin of tomatoes and some thyme. Lid on, half an hour, and leave it to stand.",
			"It's better the next day. Basil over the top. Four days in the fridge.",
		},
		{
			"Meatloaf. There's no way of making it look nice on a video, so look at me instead, I had my hair done on Thursday for my niece's thing.",
			"Soak two slices of bread in half a cup of milk for five minutes.",
			"Fry an onion and a stick of celery in a knob of butter, let it cool. Then in a large bowl a kilo of minced beef, two eggs, the onion, the bread, a teaspoon of salt and two tablespoons of ketchup. Mix it.",
			"Press the meat into a tin, spread four tablespoons of ketchup over and bake it an hour. Let the loaf rest ten minutes.",
		},
	} {
		if doc := readParagraphs(t, talk...); len(doc.Parts) > 0 {
			t.Errorf("%q gives the parts %+v", talk[0], doc.Parts)
		}
	}
}
