package extract

import "quern/internal/lexicon"

// What keeps a dough or a batter from sticking is another lot than what goes into it: "dust
// the worktop with flour", "brush the tray with oil". Its amount is not that of the rest.

// surfaceVerb are what is done to a tin or a table with what keeps things from sticking.
var surfaceVerb = words("grease brush smear spray dust rub line sprinkle scatter wipe coat flour oil butter shake swipe")

// surfaceKind are kinds of equipment on which something could stick.
var surfaceKind = words("tin oven-dish surface pan wrap appliance bowl machine-part")

// greasing are kinds of food that keep things from sticking.
var greasing = words("oil flour fat")

// onSurface reports whether the food only keeps something from sticking to what it is put on.
func (t *talk) onSurface(m *mention) bool {
	if !greasing[m.food.Kind] && m.food.Name != "butter" && m.food.Name != "semolina" && m.food.Name != "cornmeal" || m.definite {
		return false
	}
	s := t.sentence(m.First)
	for i := m.First - 1; i >= s.First && i >= m.First-8; i-- {
		if !surfaceVerb[t.norm(i)] {
			continue
		}
		if t.norm(i) == "grease" || t.norm(i+1) == "them" && t.has(i+2, m.First, "inside") >= 0 {
			return true
		}
		if t.surfaceIn(i+1, m.First) {
			return true
		}
		at := t.has(m.Last, min(s.Last, m.Last+2), "on", "onto", "over", "across")
		return at >= 0 && t.surfaceIn(at+1, min(s.Last, at+5))
	}
	return false
}

// surfaceIn reports whether one of the tokens [a, b) names a thing on which something could stick.
func (t *talk) surfaceIn(a, b int) bool {
	for i := a; i < b; i++ {
		if k := t.toolAt[i]; k >= 0 && surfaceKind[t.tools[k].eq.Kind] {
			return true
		}
	}
	return false
}

// surfaceLot gives the ingredient that was put on surfaces before, nil for none.
func (t *talk) surfaceLot(f *lexicon.Food, dish int) *ingredient {
	for _, g := range t.recent() {
		if g.surface && g.dish == dish && related(g.food, f) > 0 {
			return g
		}
	}
	return nil
}
