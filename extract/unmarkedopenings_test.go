package extract

import (
	"strings"
	"testing"
)

// unmarkedWork is what follows the openings below.
const unmarkedWork = " put the pan on the stove and pour in a splash of oil then chop one onion and cook it for five minutes add two cups of water stir it well and let it simmer for twenty minutes on a low heat then take it off the heat and let it rest"

func TestUnmarkedOpenings(t *testing.T) {
	for _, c := range []struct{ opening, title, yield string }{
		{"now then it's bonfire week and my granddaughter's asking what we're on with parkin sticky parkin like my mother cut it it'll do you sixteen squares", "parkin", "16"},
		{"selam my name is hirut i live in leeds since 2003 doro wat is for the holiday but we eat it on a tuesday also six people with injera", "doro wat", "6"},
		{"right cullen skink it's a soup it's not a lizard my son in law asked that four bowls", "cullen skink", ""},
		{"kumusta everybody so my cousin is here from cebu and she says nobody makes lumpia like our lola so lumpia it is we'll get about forty pieces", "lumpia", "40"},
		{"hola mi gente what's for breakfast arepas with cheese inside and with cheese outside eight of them", "arepas", "8"},
		{"xin chào my father had a pho shop in san jose for thirty years he got up at three beef pho the northern way six bowls from this pot", "beef pho", "6"},
		{"hallo almal the wind is howling here in worcester and the dog is scared tonight it's bobotie with yellow rice six people", "bobotie", "6"},
		{"hej i am lovisa this is kladdkaka the sticky one the oven is already warm it gives ten pieces", "kladdkaka", "10"},
		{"selam everyone three days i waited for this the batter is alive so injera it is it makes ten", "injera", "10"},
		// persons and places are no names of dishes
		{"hello from gothenburg it's annika and that's rami behind the camera we're in skansen today we're making onion soup it serves four", "onion soup", "4"},
		{"is it themba filming themba hold it straight so themba wanted pancakes it makes eight", "pancakes", "8"},
		{"it's grimsby so it's fish my mate declan's here declan say hello fish pie feeds six", "fish pie", "6"},
	} {
		tk := readTalk(t, c.opening+unmarkedWork)
		d := tk.docs[0]
		if got := strings.ToLower(d.Title); got != c.title {
			t.Errorf("title %q for %q in %q", got, c.title, c.opening)
		}
		if c.yield != "" && (d.Yield == nil || !strings.Contains(d.Yield.String(), c.yield)) {
			t.Errorf("yield %v for %s in %q", d.Yield, c.yield, c.opening)
		}
	}
}

// A name may be the first word of a talk or the last.
func TestUnmarkedOpeningsAtTheEdges(t *testing.T) {
	for _, text := range []string{"parkin", "today is parkin", "red red is", "so lumpia it", "so lumpia it is", "we make arepas with", "how many gran sixty", "what are we making buttermilk rusks", "parkin for six", "twenty empanadas beef", "parkin a dozen"} {
		readTalk(t, text)
	}
}
