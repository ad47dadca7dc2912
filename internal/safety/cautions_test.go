package safety

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"quern/schema"
)

// sketch writes a document in few words: ingredients as "name, preparation" or
// "2 can name", steps as "verb: text", keeping as "place, what, time".
func sketch(t *testing.T, title, ingredients, steps, storage string) *schema.Document {
	t.Helper()
	doc := &schema.Document{Title: title}
	for text := range strings.SplitSeq(ingredients, ";") {
		if text = strings.TrimSpace(text); text == "" {
			continue
		}
		var ing schema.Ingredient
		if rest, ok := strings.CutPrefix(text, "="); ok {
			amount, name, _ := strings.Cut(rest, " of ")
			q, err := schema.ParseQuantity(amount)
			if err != nil {
				t.Fatal(err)
			}
			ing.Amount, text = &q, name
		}
		ing.Name, ing.Preparation, _ = strings.Cut(text, ", ")
		ing.ID = strings.ReplaceAll(ing.Name, " ", "-")
		ing.Said = []schema.Said{{At: "00:00:10.000", Quote: ing.Name}}
		doc.Ingredients = append(doc.Ingredients, ing)
	}
	for text := range strings.SplitSeq(steps, ";") {
		if text = strings.TrimSpace(text); text == "" {
			continue
		}
		verb, text, _ := strings.Cut(text, ": ")
		s := schema.Step{Text: text, Actions: []string{verb}, Said: []schema.Said{{At: "00:01:00.000", Quote: text}}}
		// Figures stand behind an @.
		figures := strings.Split(text, " @")
		s.Text = figures[0]
		for _, f := range figures[1:] {
			q, err := schema.ParseQuantity(strings.TrimSpace(f))
			if err != nil {
				t.Fatal(err)
			}
			switch q.Unit {
			case "F", "C", "gas":
				s.Temperature = append(s.Temperature, q)
			case "inch", "cm":
				s.Sizes = append(s.Sizes, q)
			default:
				s.Time = append(s.Time, q)
			}
		}
		for i := range doc.Ingredients {
			if strings.Contains(s.Text, doc.Ingredients[i].Name) {
				s.Uses = append(s.Uses, doc.Ingredients[i].ID)
			}
		}
		doc.Steps = append(doc.Steps, s)
	}
	for text := range strings.SplitSeq(storage, ";") {
		if text = strings.TrimSpace(text); text == "" {
			continue
		}
		cells := strings.SplitN(text, ", ", 3)
		s := schema.Storage{Place: cells[0], What: cells[1], Said: []schema.Said{{At: "00:02:00.000", Quote: text}}}
		if len(cells) > 2 {
			q, err := schema.ParseQuantity(cells[2])
			if err != nil {
				t.Fatal(err)
			}
			s.Keeps = &q
		}
		doc.Storage = append(doc.Storage, s)
	}
	return doc
}

var cautionCases = []struct {
	name, kind                         string
	title, ingredients, steps, storage string
	want                               string // part of its text; "" where the kind must not be there
}{
	{"thighs", "poultry temperature", "Thighs", "chicken thighs", "roast: Roast the chicken thighs. @200 C", "", "165 F (74 C)"},
	{"turkey mince", "poultry temperature", "", "turkey mince", "fry: Fry the turkey mince.", "", "165 F (74 C)"},
	{"a low thermometer", "poultry temperature", "", "turkey breast", "pull: Pull the turkey breast when the middle reads 150. @150 F", "", "Said here: 150 F; the published minimum is 165 F (74 C)."},
	{"a thermometer that is right", "poultry temperature", "", "chicken", "check: Check the chicken inside. @75 C", "", "by thermometer."},
	{"a bird in the title only", "poultry temperature", "Roast duck", "orange", "prick: Prick the skin all over.; roast: Roast it. @2 hours", "", "165 F (74 C)"},
	{"a bird in a step only", "poultry temperature", "Tray bake", "lemons", "roast: Roast the chicken on the lemons. @40 minutes", "", "165 F (74 C)"},
	{"served beside a bird", "poultry temperature", "Slaw", "cabbage", "serve: Serve it with roast chicken.", "", ""},
	{"only stock", "poultry temperature", "", "chicken stock", "simmer: Simmer the chicken stock.", "", ""},
	{"cooked already", "poultry temperature", "", "rotisserie chicken, shredded", "toss: Toss it.", "", ""},
	{"eggs of a hen", "poultry temperature", "", "duck eggs", "boil: Boil the duck eggs.", "", ""},
	{"a mushroom's name", "poultry temperature", "", "chicken of the woods", "fry: Fry it.", "", ""},

	{"mince", "ground meat temperature", "Tacos", "ground beef", "brown: Brown the ground beef.", "", "160 F (71 C)"},
	{"pork to be minced", "ground meat temperature", "", "pork shoulder, minced", "fry: Fry the pork shoulder.", "", "160 F (71 C)"},
	{"sausages", "ground meat temperature", "", "pork sausages", "grill: Grill the pork sausages.", "", "160 F (71 C)"},
	{"pink burgers", "ground meat temperature", "", "burger patties", "grill: Grill the burger patties to a reading of 140. @140 F", "", "Said here: 140 F; the published minimum is 160 F (71 C)."},
	{"fruit mincemeat", "ground meat temperature", "", "mincemeat", "bake: Bake the pies.", "", ""},
	{"minced garlic", "ground meat temperature", "", "garlic, minced", "fry: Fry the garlic.", "", ""},
	{"soya mince", "ground meat temperature", "", "soya mince", "fry: Fry the soya mince.", "", ""},

	{"the mince called beef", "whole meat temperature", "Burgers", "beef; =900 g of ground beef", "fry: Fry the beef.", "", ""},
	{"steak", "whole meat temperature", "Steak", "rump steak", "grill: Grill the rump steak.", "", "145 F (63 C)"},
	{"rare steak", "whole meat temperature", "", "flank steak", "grill: Grill the flank steak.; pull: Pull the flank steak at its inside temperature. @130 F", "", "Said here: 130 F; the published minimum is 145 F (63 C)."},
	{"it climbs to the figure", "whole meat temperature", "", "pork loin", "pull: Pull the pork loin, inside. @140 F; rest: Rest the pork loin, it climbs. @145 F", "", "rest 3 minutes."},
	{"strips", "whole meat temperature", "", "rump steak, sliced thin", "fry: Fry the rump steak.", "", ""},
	{"cut in strips first", "whole meat temperature", "", "beef fillet", "cut: Cut the beef fillet into strips.; fry: Fry the beef.", "", ""},
	{"a pot roast", "whole meat temperature", "", "chuck roast", "braise: Braise the chuck roast until it falls apart. @4 hours", "", "145 F (63 C)"},
	{"chops in gravy", "whole meat temperature", "", "pork chops", "brown: Brown the pork chops.; simmer: Simmer the pork chops in the gravy. @40 minutes", "", "145 F (63 C)"},
	{"a steak in cubes", "whole meat temperature", "", "chuck steak", "cut: Cut the chuck steak into cubes.; simmer: Simmer the chuck steak. @2 hours", "", ""},
	{"stewed", "whole meat temperature", "", "stewing beef", "simmer: Simmer the stewing beef. @2 hours", "", ""},
	{"cooked till it falls apart", "whole meat temperature", "", "pork shoulder", "braise: Braise the pork shoulder until it falls apart.", "", ""},
	{"bacon", "whole meat temperature", "", "bacon", "fry: Fry the bacon.", "", ""},
	{"a vegetable's steak", "whole meat temperature", "", "cauliflower steaks", "roast: Roast them.", "", ""},
	{"simmered through", "whole meat temperature", "", "diced lamb", "simmer: Simmer the diced lamb. @30 minutes", "", ""},
	{"simmered till tender", "whole meat temperature", "", "lamb shanks", "simmer: Simmer the lamb shanks till the meat is tender.", "", ""},
	{"only in a story", "whole meat temperature", "Leek pie", "lamb; leeks", "simmer: Simmer the leeks.; bake: Bake the pie.", "", ""},
	{"ground at the butcher's", "whole meat temperature", "", "ground beef", "brown: Brown the ground beef.", "", ""},

	{"hake", "fish temperature", "Hake", "hake fillets", "cook: Cook the hake fillets skin down.", "", "145 F (63 C)"},
	{"salmon in foil", "fish temperature", "", "salmon", "bake: Bake the salmon.", "", "opaque"},
	{"a time is told", "fish temperature", "Hake", "hake fillets", "fry: Fry the hake fillets skin down. @4 minutes", "", "145 F (63 C)"},
	{"a sign of its own", "fish temperature", "Cod", "cod", "bake: Bake the cod until the fish flakes.", "", "145 F (63 C)"},
	{"cured only", "fish temperature", "Gravlax", "salmon; salt", "cure: Cure the salmon in the salt. @2 days", "", ""},
	{"by the inside", "fish temperature", "Salmon", "salmon", "roast: Roast the salmon till the thickest part reads it. @145 F @12 minutes", "", "145 F (63 C)"},
	{"too low inside", "fish temperature", "Salmon", "salmon", "roast: Roast the salmon. @10 minutes; check: Check the salmon in the middle. @120 F", "", "Said here: 120 F; the published minimum is 145 F (63 C)."},
	{"tinned tuna", "fish temperature", "", "=2 cans of tuna, drained", "stir: Stir the tuna in.; boil: Boil the pasta.", "", ""},
	{"smoked salmon", "fish temperature", "", "smoked salmon; eggs", "scramble: Scramble the eggs.", "", ""},
	{"fish sauce", "fish temperature", "", "fish sauce", "simmer: Simmer the fish sauce.", "", ""},

	{"mayonnaise", "raw egg", "Mayonnaise", "egg yolks; olive oil", "whisk: Whisk the egg yolks.; pour: Pour in the olive oil.", "", "160 F"},
	{"mousse", "raw egg", "Chocolate mousse", "eggs; dark chocolate", "melt: Melt the dark chocolate.; whisk: Whisk the eggs in.; chill: Chill it.", "", "pasteurised"},
	{"tiramisu", "raw egg", "Tiramisu", "egg yolks; coffee", "boil: Boil the coffee.; whisk: Whisk the egg yolks.; chill: Chill it.", "", "pasteurised"},
	{"carbonara", "raw egg", "Carbonara", "eggs; spaghetti", "boil: Boil the spaghetti.; toss: Toss the spaghetti with the eggs off the heat.", "", "pasteurised"},
	{"poached", "raw egg", "", "eggs", "poach: Poach the eggs. @3 minutes", "", "pasteurised"},
	{"jammy", "raw egg", "", "eggs", "boil: Boil the eggs till the yolk is jammy. @6 minutes", "", "pasteurised"},
	{"cake", "raw egg", "Cake", "eggs; plain flour", "whisk: Whisk the eggs and plain flour.; bake: Bake the cake.", "", ""},
	{"custard", "raw egg", "Custard", "egg yolks; milk", "whisk: Whisk the egg yolks and milk.; heat: Heat it gently until it is thick.", "", ""},
	{"custard by thermometer", "raw egg", "Ice cream", "egg yolks; milk", "whisk: Whisk the egg yolks and milk.; heat: Heat the custard. @82 C", "", ""},
	{"pasteurised", "raw egg", "Mayonnaise", "pasteurised egg yolks", "whisk: Whisk the pasteurised egg yolks.", "", ""},
	{"runny honey", "raw egg", "Buns", "eggs; runny honey", "whisk: Whisk the eggs with runny honey.; bake: Bake them.", "", ""},
	{"boiled in the brine's part", "raw egg", "Potato salad", "eggs; mayonnaise", "boil: Boil the eggs. @8 minutes; peel: Peel the eggs.; chill: Chill it.", "", ""},
	{"scrambled", "raw egg", "Scrambled eggs", "eggs", "tip: Tip the eggs in and stir.", "", ""},
	{"beaten in and baked", "raw egg", "", "eggs; plain flour", "mix: Mix the eggs and plain flour.; chill: Chill it.; slide: Slide it into the oven.", "", ""},

	{"no-bake dough", "raw flour", "No-bake bites", "plain flour; sugar", "mix: Mix the plain flour and sugar.; chill: Chill the bites.", "", "Raw flour"},
	{"heated flour", "raw flour", "No-bake bites", "plain flour; sugar", "toast: Toast the plain flour.; mix: Mix it with the sugar.; chill: Chill the bites.", "", ""},
	{"bread", "raw flour", "Bread", "bread flour", "mix: Mix the bread flour.; bake: Bake it.", "", ""},
	{"flatbread by its pan", "raw flour", "", "plain flour", "roll: Roll the plain flour and water thin.; lay: Lay it in the skillet.", "", ""},
	{"nothing chilled", "raw flour", "", "plain flour", "mix: Mix the plain flour and water.", "", ""},

	{"rice in the fridge", "rice cooling", "Rice", "basmati rice", "cook: Cook the basmati rice.", "refrigerator, cooked rice, 1 day", "within 1 hour"},
	{"rice too long", "rice cooling", "Rice", "basmati rice", "cook: Cook the basmati rice.", "refrigerator, leftovers, 4 days", "Said here: 4 days."},
	{"rice from yesterday", "rice cooling", "Fried rice", "day-old rice", "fry: Fry the day-old rice.", "", "eat within 1 day"},
	{"eaten at once", "rice cooling", "Rice", "basmati rice", "cook: Cook the basmati rice.", "", ""},
	{"only the sauce is kept", "rice cooling", "Bowl", "jasmine rice; tomatoes", "cook: Cook the jasmine rice.", "refrigerator, tomatoes in sauce, 3 days", ""},
	{"rice vinegar", "rice cooling", "Pickle", "rice vinegar", "boil: Boil the rice vinegar.", "refrigerator, pickle, 1 week", ""},
	{"rice beside it", "rice cooling", "Chicken curry with rice", "basmati rice; chicken", "cook: Cook the basmati rice.", "refrigerator, curry, 2 days", ""},

	{"dried kidney beans", "dried kidney beans", "", "dried kidney beans", "soak: Soak the dried kidney beans.", "", "phytohaemagglutinin"},
	{"rajma", "dried kidney beans", "", "rajma", "soak: Soak the rajma.", "", "boil hard"},
	{"red beans", "dried kidney beans", "Red beans", "dried red beans", "soak: Soak the dried red beans.", "", "boil hard"},
	{"red bean paste", "dried kidney beans", "", "red bean paste", "fill: Fill them.", "", ""},
	{"from a can", "dried kidney beans", "", "=1 can of kidney beans", "add: Add the kidney beans.", "", ""},
	{"not said to be dried", "dried kidney beans", "Chili", "kidney beans", "simmer: Simmer the kidney beans. @20 minutes", "", ""},
	{"into a slow cooker", "dried kidney beans", "Chili", "kidney beans", "cook: Cook the kidney beans in the slow cooker. @8 hours", "", "slow cooker alone"},
	{"other beans", "dried kidney beans", "", "dried chickpeas", "soak: Soak the dried chickpeas.", "", ""},

	{"honey", "honey for infants", "", "runny honey", "stir: Stir in the runny honey.", "", "12 months"},
	{"a melon", "honey for infants", "", "honeydew melon", "cut: Cut the honeydew melon.", "", ""},
	{"maple syrup", "honey for infants", "", "maple syrup", "stir: Stir in the maple syrup.", "", ""},

	{"processed jars", "home canning", "Jam", "apricots; sugar", "boil: Boil the jam.; process: Process the jars in the canner. @10 minutes", "room temperature, sealed jars, 12 months", "tested procedure"},
	{"chutney on a shelf", "home canning", "Chutney", "apples; sugar", "simmer: Simmer the apples.; put: Put it in hot jars.", "room temperature, sealed jars, 6 months", "tested procedure"},
	{"a jar in the fridge", "home canning", "Compote", "rhubarb; sugar", "simmer: Simmer the rhubarb.; put: Put it in a jar.", "refrigerator, compote, 1 week", ""},
	{"biscuits in a jar", "home canning", "Biscuits", "plain flour", "bake: Bake the biscuits.", "room temperature, biscuits in a jar, 1 week", ""},

	{"confit", "garlic in oil", "Garlic confit", "garlic; olive oil", "confit: Confit the garlic in the olive oil.", "refrigerator, garlic in its oil, 2 weeks", "within 4 days"},
	{"pesto", "garlic in oil", "Pesto", "basil; garlic; olive oil", "blend: Blend the basil with garlic and olive oil.", "refrigerator, pesto, 5 days", "never keep at room temperature"},
	{"only the oil is kept", "garlic in oil", "Hummus", "garlic; olive oil", "drizzle: Drizzle it.", "refrigerator, olive oil, 1 day", ""},
	{"only fried in it", "garlic in oil", "Pasta", "garlic; olive oil", "sizzle: Sizzle the garlic in the olive oil.", "refrigerator, pasta, 2 days", ""},

	{"deep fried", "hot oil", "", "potatoes; oil", "deep-fry: Deep-fry the potatoes.", "", "lid smothers a fire"},
	{"a cup of oil", "hot oil", "", "=2 cups of vegetable oil; potatoes", "fry: Fry the potatoes in the vegetable oil.", "", "Never leave hot oil"},
	{"oil at a temperature", "hot oil", "", "vegetable oil", "heat: Heat the vegetable oil. @350 F; fry: Fry them.", "", "Never leave hot oil"},
	{"an inch of oil", "hot oil", "", "vegetable oil", "heat: Heat an inch of vegetable oil. @1 inch; fry: Fry them.", "", "Never leave hot oil"},
	{"its depth told", "hot oil", "", "sunflower oil", "pour: Pour the sunflower oil in one centimetre deep and heat it.; fry: Fry the tofu.", "", "Never leave hot oil"},
	{"half a cup", "hot oil", "", "=1/2 cup of vegetable oil; patties", "fry: Fry the patties in the vegetable oil.", "", "Never leave hot oil"},
	{"four spoons", "hot oil", "", "=4 tbsp of vegetable oil for frying; patties", "fry: Fry the patties in the vegetable oil for frying.", "", ""},
	{"fritters", "hot oil", "Corn fritters", "vegetable oil; sweetcorn", "fry: Fry the fritters in the vegetable oil.", "", "Never leave hot oil"},
	{"fritters in a spoon of oil", "hot oil", "Corn fritters", "=1 tbsp of vegetable oil; sweetcorn", "fry: Fry the fritters in the vegetable oil.", "", ""},
	{"a film of oil", "hot oil", "", "=1 tbsp of olive oil; onions", "fry: Fry the onions in the olive oil.", "", ""},
	{"oil in a cake", "hot oil", "", "=2 cups of vegetable oil", "mix: Mix in the vegetable oil.; bake: Bake the cake. @350 F", "", ""},

	{"caramel", "hot sugar", "Caramel", "caster sugar", "melt: Melt the caster sugar until amber.", "", "burns deeply"},
	{"a syrup by thermometer", "hot sugar", "Glaze", "honey; cream", "boil: Boil the honey and cream. @112 C", "", "burns deeply"},
	{"jam", "hot sugar", "Plum jam", "plums; sugar", "boil: Boil the jam hard.", "", "burns deeply"},
	{"compote", "hot sugar", "Compote", "rhubarb; caster sugar", "cook: Cook the rhubarb with the caster sugar.", "", ""},
	{"by its heat alone", "hot sugar", "", "apricots; sugar", "boil: Boil it hard. @220 F", "", "burns deeply"},
	{"a list and an oven", "hot sugar", "Cake", "sugar; butter; eggs; plain flour; milk; salt", "heat: Heat it first, with sugar, butter, eggs, plain flour, milk and salt at hand. @350 F; bake: Bake it.", "", ""},
	{"caramelised onions", "hot sugar", "", "onions; sugar", "caramelise: Caramelise the onions until golden.", "", ""},

	{"glucomannan", "dry glucomannan", "", "glucomannan powder", "whisk: Whisk it in.", "", "Never swallow it dry"},
	{"noodles of it", "dry glucomannan", "", "shirataki noodles", "rinse: Rinse them.", "", ""},

	{"rum in a pan", "alcohol near flame", "", "dark rum; bananas", "fry: Fry the bananas.; add: Add the dark rum to the pan.", "", "off the flame"},
	{"brandy to light", "alcohol near flame", "", "brandy", "flambe: Flambe it with the brandy.", "", "off the flame"},
	{"rum in a cold drink", "alcohol near flame", "", "dark rum; ice", "pour: Pour the dark rum over the ice.", "", ""},
	{"wine", "alcohol near flame", "", "white wine", "reduce: Reduce the white wine in the pan.", "", ""},
	{"into a batter", "alcohol near flame", "Cake", "dark rum", "melt: Melt the chocolate.; stir: Stir the dark rum into the batter and fill the pan.", "", ""},

	{"ceviche", "raw fish", "Ceviche", "sea bass; limes", "cure: Cure the sea bass in the juice.", "", "-4 F / -20 C for 7 days"},
	{"sashimi", "raw fish", "Sashimi", "sashimi-grade salmon", "slice: Slice the sashimi-grade salmon.", "", "parasite"},
	{"cured beside cooked potatoes", "raw fish", "Gravlax", "salmon; potatoes", "cure: Cure the salmon.; boil: Boil the potatoes.", "", "parasite"},
	{"cured and then baked", "raw fish", "Salmon", "salmon; potatoes", "cure: Cure the salmon.; bake: Bake the salmon.", "", ""},
	{"baked", "raw fish", "", "salmon", "bake: Bake the salmon.", "", ""},
	{"from a can, cold", "raw fish", "Salad", "tinned tuna", "mix: Mix the tinned tuna in.", "", ""},
	{"its step tells another part", "raw fish", "", "hake fillets; butter", "pat: Pat the hake fillets dry.; lay: Lay it in the skillet.", "", ""},

	{"under pressure", "pressure cooker", "", "lentils", "cook: Cook the lentils in the pressure cooker.", "", "maker's"},
	{"a plain pot", "pressure cooker", "", "lentils", "cook: Cook the lentils in a pot.", "", ""},

	{"soup for a week", "cold storage", "Soup", "chicken thighs", "simmer: Simmer the soup.", "refrigerator, soup, 1 week", "Said here: soup, 1 week in the refrigerator; the published chart gives 3-4 days"},
	{"meat on the counter", "cold storage", "Pies", "ground beef", "bake: Bake the pies.", "room temperature, pies with beef, 1 day", "the published limit is 2 hours"},
	{"raw chicken for days", "cold storage", "", "chicken thighs", "marinate: Marinate the chicken thighs.", "refrigerator, raw chicken thighs in the marinade, 4 days", "1-2 days for raw poultry"},
	{"left out", "cold storage", "", "chicken thighs", "leave: Leave the chicken thighs on the counter. @4 hours", "", "more than 2 hours"},
	{"soup for four days", "cold storage", "Soup", "chicken thighs", "simmer: Simmer the soup.", "refrigerator, soup, 4 days", ""},
	{"bread on the counter", "cold storage", "Bread", "bread flour", "bake: Bake it.", "room temperature, the loaf, 3 days", ""},
	{"compote for a week", "cold storage", "Compote", "rhubarb", "simmer: Simmer the rhubarb.", "refrigerator, compote, 1 week", ""},
	{"frozen for long", "cold storage", "Soup", "chicken thighs", "simmer: Simmer the soup.", "freezer, soup, 12 months", ""},
	{"a drink beside it", "cold storage", "Chicken and ginger tea", "chicken thighs", "simmer: Simmer the chicken thighs.", "refrigerator, ginger tea, 6 days", ""},

	{"frozen prawns", "thawing", "", "frozen prawns", "thaw: Thaw the frozen prawns.", "", "never on the counter"},
	{"chicken, thawed", "thawing", "", "chicken thighs, thawed", "fry: Fry the chicken thighs.", "", "never on the counter"},
	{"frozen peas", "thawing", "", "frozen peas", "thaw: Thaw the frozen peas.", "", ""},
	{"pastry", "thawing", "", "puff pastry", "thaw: Thaw the puff pastry.", "", ""},

	{"jars filled hot and closed", "home canning", "Chutney", "peaches; vinegar", "simmer: Simmer the peaches in the vinegar.; take: Take the jars out of the oven.; ladle: Ladle the chutney in while it's boiling hot.; screw: Screw the lids on at once.", "", "tested procedure"},
	{"jars boiled full", "home canning", "Tomatoes", "tomatoes", "pack: Pack the tomatoes in jars.; boil: Boil the jars. @40 minutes", "", "tested procedure"},
	{"caramel in a jar, cold", "home canning", "Caramel sauce", "sugar; cream", "boil: Boil the sugar until amber.; pour: Pour the hot caramel into a jar, lid on.", "refrigerator, sauce, 3 weeks", ""},
	{"garlic under oil", "garlic in oil", "", "garlic; olive oil", "cover: Cover the garlic with olive oil.; cook: Cook them very low. @1 hour", "", "within 4 days"},
	{"a bottle of rosemary", "garlic in oil", "", "rosemary; olive oil", "push: Push the rosemary in a bottle.; fill: Fill it up with olive oil over the rosemary.", "", "within 4 days"},
	{"a pan covered with its lid", "garlic in oil", "", "garlic; olive oil", "fry: Fry the garlic in the olive oil, cover the pan.", "", ""},
	{"herbs on top", "garlic in oil", "", "basil; olive oil", "top: Top it with basil, drizzle with olive oil.", "", ""},
	{"a wok a third full", "hot oil", "", "oil; batter", "fill: Fill the wok a third with oil.; fry: Fry spoonfuls of batter.", "", "Never leave hot oil"},
	{"half a litre in a wok", "hot oil", "", "=500 ml of sunflower oil; pakoras", "heat: Heat the sunflower oil in the wok.; turn: Turn the pakoras.", "", "Never leave hot oil"},
	{"half a litre in a cake", "hot oil", "", "=500 ml of sunflower oil; flour", "whisk: Whisk the sunflower oil into the flour.; bake: Bake it. @45 minutes", "", ""},
	{"a dry pan of sugar", "hot sugar", "", "sugar; cream", "melt: Put the sugar in a dry pan, then melt it.; pour: Pour in the cream.", "", "Boiling sugar"},
	{"a drop that wrinkles", "hot sugar", "", "strawberries; sugar", "boil: Boil the strawberries and sugar until a drop wrinkles on a cold plate.", "", "Boiling sugar"},
	{"onions turned golden", "hot sugar", "", "onions; sugar", "fry: Fry the onions with the sugar until golden.", "", ""},
	{"whistles", "pressure cooker", "", "lentils", "cook: Cook the lentils in the cooker for four whistles.", "", "maker's"},
	{"a kettle that whistles", "pressure cooker", "", "tea", "pour: Pour when the kettle whistles.", "", ""},
	{"dough in the refrigerator", "raw flour", "Edible cookie dough", "flour; butter", "mix: Mix the flour and butter.; put: Put it in the fridge. @1 hour", "", "Raw flour"},
	{"yolks of boiled eggs", "raw egg", "", "=6 of eggs; yolks", "hard-boil: Hard-boil the eggs. @12 minutes; mash: Mash the yolks.", "", ""},
}

func TestCautions(t *testing.T) {
	covered := map[string][2]bool{}
	for _, c := range cautionCases {
		both := covered[c.kind]
		if c.want == "" {
			both[1] = true
		} else {
			both[0] = true
		}
		covered[c.kind] = both
		t.Run(c.kind+"/"+c.name, func(t *testing.T) {
			cautions := Cautions(sketch(t, c.title, c.ingredients, c.steps, c.storage))
			i := slices.IndexFunc(cautions, func(x schema.Caution) bool { return x.Kind == c.kind })
			switch {
			case c.want == "" && i >= 0:
				t.Errorf("unexpected: %q", cautions[i].Text)
			case c.want != "" && i < 0:
				t.Errorf("missing")
			case c.want != "" && (!strings.Contains(cautions[i].Text, c.want) || cautions[i].Source == ""):
				t.Errorf("%q (%s), want %q in it and a source", cautions[i].Text, cautions[i].Source, c.want)
			}
		})
	}
	for _, r := range table().cautions {
		if covered[r.kind] != [2]bool{true, true} {
			t.Errorf("%s has no case where it applies, or none where it doesn't", r.kind)
		}
	}
}

// TestRawInOneOfTwoWays: an egg that one way bakes and the other doesn't is raw.
func TestRawInOneOfTwoWays(t *testing.T) {
	doc := &schema.Document{
		Ways:        []schema.Way{{Name: "baked"}, {Name: "chilled"}},
		Ingredients: []schema.Ingredient{{ID: "eggs", Name: "eggs"}},
		Steps: []schema.Step{
			{Text: "Whisk the eggs.", Actions: []string{"whisk"}, Uses: []string{"eggs"}},
			{Text: "Bake it.", Actions: []string{"bake"}, Ways: []string{"baked"}},
			{Text: "Chill it.", Actions: []string{"chill"}, Ways: []string{"chilled"}},
		},
	}
	if c := Cautions(doc); len(c) != 1 || c[0].Kind != "raw egg" {
		t.Errorf("%+v, want raw egg alone", c)
	}
	doc.Ways, doc.Steps = doc.Ways[:1], doc.Steps[:2]
	if c := Cautions(doc); len(c) != 0 {
		t.Errorf("%+v, want none where every way bakes it", c)
	}
}

// TestPressureCookerInTheCupboard: a tool that no step uses is only talk.
func TestPressureCookerInTheCupboard(t *testing.T) {
	doc := sketch(t, "Lentils", "lentils", "simmer: Simmer the lentils in a pot.", "")
	doc.Equipment = []schema.Equipment{{Name: "pressure cooker", Said: []schema.Said{{At: "00:00:20.000", Quote: "my pressure cooker is broken"}}}}
	if c := Cautions(doc); len(c) != 0 {
		t.Errorf("%+v, want none", c)
	}
}

// TestUnnamedKeeping: "it keeps a week" is of the dish unless something else of
// the same place is named, and what is named before "keeps" is what is kept.
func TestUnnamedKeeping(t *testing.T) {
	for _, c := range []struct {
		name, quote string
		named       bool
		want        bool
	}{
		{"the dish", "It keeps a week in the fridge.", false, true},
		{"the dish, with other words", "And that'll keep a week in there.", false, true},
		{"a drink made beside it", "Lemonade keeps a week in the fridge.", false, false},
		{"another keeping is named", "It keeps a week in the fridge.", true, false},
	} {
		doc := sketch(t, "Chicken soup", "chicken thighs", "simmer: Simmer the chicken thighs.", "")
		week := &schema.Quantity{Min: 1, Max: 1, Unit: "week"}
		doc.Storage = []schema.Storage{{Place: schema.Refrigerator, Keeps: week, Said: []schema.Said{{At: "00:03:00.000", Quote: c.quote}}}}
		if c.named {
			doc.Storage = append(doc.Storage, schema.Storage{Place: schema.Refrigerator, What: "soup", Keeps: &schema.Quantity{Min: 2, Max: 2, Unit: "day"}})
		}
		got := slices.ContainsFunc(Cautions(doc), func(x schema.Caution) bool { return x.Kind == "cold storage" })
		if got != c.want {
			t.Errorf("%s: caution %t, want %t", c.name, got, c.want)
		}
	}
}

// TestMergeKeepsWarnings: what the cook warned of stays as long as the dish
// holds it, with the moment of the warning first.
func TestHoneyAsAChoice(t *testing.T) {
	doc := sketch(t, "Granola", "maple syrup; oats", "bake: Bake the oats.", "")
	doc.Ingredients[0].Substitutes = []schema.Substitute{{Name: "honey"}}
	if c := Cautions(doc); len(c) != 1 || c[0].Kind != "honey for infants" {
		t.Errorf("%+v, want honey for infants", c)
	}
	doc.Ingredients[0].Substitutes = []schema.Substitute{{Name: "sugar"}}
	doc.Cautions = []schema.Caution{{Kind: "honey for infants", Said: []schema.Said{{Quote: "some have honey, but not for a baby"}}}}
	if c := Merge(doc); len(c) != 1 {
		t.Errorf("%+v, want the warning kept though honey is no ingredient", c)
	}
}

func TestMergeKeepsWarnings(t *testing.T) {
	warning := schema.Said{At: "00:04:10.000", Quote: "don't walk away from that oil"}
	doc := sketch(t, "Fried shallots", "=1 cup of vegetable oil; shallots", "fry: Fry the shallots in the vegetable oil.", "")
	doc.Cautions = []schema.Caution{{Kind: "hot oil", Said: []schema.Said{warning}}, {Kind: "hot sugar", Said: []schema.Said{warning}}}
	first := Merge(doc)
	if len(first) != 1 || first[0].Kind != "hot oil" || first[0].Text == "" || first[0].Source == "" || len(first[0].Said) != 2 || first[0].Said[0] != warning {
		t.Fatalf("%+v, want hot oil alone, the warning first", first)
	}
	doc.Cautions = first
	if d := cmp.Diff(first, Merge(doc)); d != "" {
		t.Errorf("merging twice (-once +twice):\n%s", d)
	}
	doc.Ingredients = doc.Ingredients[1:]
	if c := Merge(doc); len(c) != 0 {
		t.Errorf("%+v, want none once the oil is taken out", c)
	}
	plain := sketch(t, "Fried shallots", "vegetable oil; shallots", "fry: Fry the shallots in the vegetable oil.", "")
	if c := Merge(plain); len(c) != 0 {
		t.Errorf("%+v, want none without a warning or an amount", c)
	}
	plain.Cautions = []schema.Caution{{Kind: "hot oil", Said: []schema.Said{warning}}}
	if c := Merge(plain); len(c) != 1 || c[0].Said[0] != warning {
		t.Errorf("%+v, want hot oil for the warning", c)
	}
}

func TestMergeKeepsWhatTheTalkGave(t *testing.T) {
	tasting := []schema.Said{{At: "00:03:54.000", Quote: "I'll just have a wee nibble"}}
	doc := sketch(t, "Biscuits", "eggs; plain flour; honey", "mix: Mix the eggs, plain flour and honey.; bake: Bake them.", "")
	doc.Cautions = []schema.Caution{
		{Kind: "raw flour", Said: tasting},
		{Kind: "hot oil", Text: "old", Source: "old", Said: tasting},
		{Kind: "hot tin", Text: "Use oven gloves.", Source: "common practice"},
	}
	first := Merge(doc)
	var kinds []string
	for _, c := range first {
		kinds = append(kinds, c.Kind)
		if c.Text == "" || c.Source == "" {
			t.Errorf("%s has no text or no source", c.Kind)
		}
	}
	if d := cmp.Diff([]string{"raw flour", "honey for infants", "hot tin"}, kinds); d != "" {
		t.Errorf("kinds (-want +got):\n%s", d)
	}
	if d := cmp.Diff(tasting, first[0].Said); d != "" {
		t.Errorf("the moment of the tasting (-want +got):\n%s", d)
	}
	doc.Cautions = first
	if d := cmp.Diff(first, Merge(doc)); d != "" {
		t.Errorf("merging twice (-once +twice):\n%s", d)
	}
	doc.Ingredients = doc.Ingredients[:2]
	if c := Merge(doc); slices.ContainsFunc(c, func(x schema.Caution) bool { return x.Kind == "honey for infants" }) {
		t.Error("the caution about honey should go with the honey")
	}
}

func TestNoDocumentPanics(t *testing.T) {
	for _, doc := range []*schema.Document{
		{},
		{Ingredients: []schema.Ingredient{{}, {Name: "   "}, {Name: "eggs"}}},
		{Steps: []schema.Step{{}, {Actions: []string{""}}}, Storage: []schema.Storage{{}}},
		{Claims: []schema.Claim{{}}, Cautions: []schema.Caution{{}}},
	} {
		Allergens(doc)
		FromLabel(doc)
		ClaimBreaks(doc)
		Merge(doc)
	}
}

func BenchmarkCautions(b *testing.B) {
	doc := &schema.Document{Title: "Stew"}
	for range 30 {
		doc.Ingredients = append(doc.Ingredients, schema.Ingredient{ID: "x", Name: "chicken thighs"})
		doc.Steps = append(doc.Steps, schema.Step{Text: "Simmer the chicken in the pot with the stock and the honey.", Actions: []string{"simmer"}})
	}
	for b.Loop() {
		Cautions(doc)
	}
}
