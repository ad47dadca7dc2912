package extract_test

import (
	"slices"
	"strings"
	"testing"

	"quern/extract"
	"quern/internal/transcript"
)

// storageCases are talks with the places and times they keep something.
var storageCases = []struct {
	name string
	talk string
	want []string // "place: time", in any order
}{
	{"time then place", "Bake the loaf for an hour. It'll keep a week in the fridge and three months in the freezer.", []string{"refrigerator: 1 week", "freezer: 3 months"}},
	{"place then time", "Bake the loaf for an hour. In the fridge, four days. In the freezer, two months.", []string{"refrigerator: 4 days", "freezer: 2 months"}},
	{"places and times in turn", "Roll the flatbreads out. They keep on the counter two days, in the freezer three months.", []string{"room temperature: 2 days", "freezer: 3 months"}},
	{"covered", "Simmer the soup. It keeps for up to five days, covered, in the fridge.", []string{"refrigerator: 5 days"}},
	{"outside on the shelf", "Fry the shallots. They keep two weeks outside, on the shelf.", []string{"room temperature: 2 weeks"}},
	{"freeze, then the time", "Fold the dumplings. You want to freeze them, do it raw. Three months.", []string{"freezer: 3 months"}},
	{"freeze for", "Shape the burgers. You can freeze them for two months.", []string{"freezer: 2 months"}},
	{"place carried over", "Seal the jars. It keeps two months in the fridge. Once you've opened one, three weeks.", []string{"refrigerator: 2 months", "refrigerator: 3 weeks"}},
	{"in there", "Slice the steak. Leftovers go three days in the fridge. The sauce keeps a week in there.", []string{"refrigerator: 3 days", "refrigerator: 1 week"}},
	{"a longer time beside the first", "Whisk the sauce. It goes in the fridge. I keep it for maybe a week, ten days.", []string{"refrigerator: about 7-10 days"}},
	{"the cellar", "Boil the jam. In the cellar, in dark, it keeps twelve months.", []string{"room temperature: 12 months"}},
	{"cured without a verb", "Rub the salt into the salmon, into the fridge, two days. Slice it thin.", nil},
	{"frozen for worms", "Freeze the salmon first. Minus twenty Celsius, seven days. Then thaw it in the fridge.", nil},
	{"not the fridge", "Bake the biscuits. They keep five days in a tin. Not the fridge, it makes them soft.", []string{"room temperature: 5 days"}},
	{"don't freeze", "Simmer the sauce. It lasts four days in the fridge. Don't freeze it.", []string{"refrigerator: 4 days"}},
	{"no more than", "Cook the rice. Don't keep it more than one day in the fridge.", []string{"refrigerator: 1 day"}},
	{"cool dark place", "Bottle the cordial. It keeps six months in a cool place.", []string{"room temperature: 6 months"}},
	{"a year", "Boil the jam. In a dark cupboard it'll keep a year, easily.", []string{"room temperature: 12 months"}},
	{"two years", "Pot the chutney. They'll keep two years on the shelf.", []string{"room temperature: 24 months"}},
	{"a fortnight", "Whisk the dressing. A fortnight in the fridge, no more than that.", []string{"refrigerator: 2 weeks"}},
	{"somewhere cool", "Bottle the cordial. Unopened it's good for six months somewhere cool and dark.", []string{"room temperature: 6 months"}},
	{"years of a story", "Boil the jam. It keeps me young. I've made it for two years in this kitchen, on that counter.", nil},
	{"chilled as a step", "Pack the beets into the jar. Chill them in the fridge for five days before you try one.", nil},
	{"marinated as a step", "Rub the pork with salt. Leave it in the fridge for two days, then roast it.", nil},
	{"rested in the fridge", "Wrap the dough. Rest it in the fridge for thirty minutes.", nil},
	{"long ago", "Fry the onions. I bought this pan two months ago and it lives in the cupboard.", nil},
	{"an hour at room temperature", "Take the butter out. Leave it on the counter for an hour.", nil},
	{"a fridge of three weeks", "Stir the batter. My fridge broke for three weeks last summer.", nil},
}

// storageUnmarked is how many cases are read right without marks at least: it
// may rise, never fall.
const storageUnmarked = 15

func TestStorage(t *testing.T) {
	right := 0
	for _, c := range storageCases {
		want := slices.Sorted(slices.Values(c.want))
		if got := storage(t, c.talk); !slices.Equal(got, want) {
			t.Errorf("%s\n    talk: %s\n    got:  %q\n    want: %q", c.name, c.talk, got, want)
		}
		bare := strings.ToLower(strings.NewReplacer(",", "", ".", "").Replace(c.talk))
		if got := storage(t, bare); slices.Equal(got, want) {
			right++
		} else {
			t.Logf("without marks: %s\n    talk: %s\n    got:  %q\n    want: %q", c.name, bare, got, want)
		}
	}
	if right < storageUnmarked {
		t.Errorf("without marks %d of %d are right; %d were before", right, len(storageCases), storageUnmarked)
	}
}

// storage reads a talk and gives its places and times, sorted.
func storage(t *testing.T, talk string) []string {
	t.Helper()
	n, err := transcript.Parse("talk.txt", []byte(talk))
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, doc := range extract.Extract(n) {
		for _, s := range doc.Storage {
			keeps := "unsaid"
			if s.Keeps != nil {
				keeps = s.Keeps.String()
			}
			out = append(out, s.Place+": "+keeps)
		}
	}
	slices.Sort(out)
	return out
}
