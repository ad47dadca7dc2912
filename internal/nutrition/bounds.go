package nutrition

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"quern/schema"
)

// Range is what the spoken figures allow for one amount that was never said.
type Range struct {
	Index int     // place in the document's Ingredients
	Name  string  // of the ingredient
	Least float64 // grams; 0 where nothing keeps it above nought
	Most  float64 // grams; +Inf where nothing keeps it down
	Told  bool    // the figures say something of it
}

// Why Bounds gives no ranges.
var (
	ErrNothingSpoken = errors.New("no figures were spoken")
	ErrOtherServing  = errors.New("the spoken figures are for something other than the yield")
	ErrNoFit         = errors.New("no amounts fit all the spoken figures")
	ErrTooMany       = errors.New("too many amounts are missing for the spoken figures to tell")
)

// Bounds gives, for each ingredient whose amount is missing, the least and most
// grams it can have so that the recipe comes to the spoken figures, each within
// its rounding. Every missing amount, every amount given as a range, the yield
// where it is a range, and what may or may not have been counted (optional
// things, things of one way only) are free within what was said of them; each
// end is the answer of a linear program, so that both ends fit every figure and
// nothing outside them does. An ingredient without figures may bring any amount
// of anything, so then only upper ends can be told.
//
// It returns ErrNothingSpoken, ErrOtherServing, ErrNoFit or ErrTooMany, wrapped,
// where no ranges can be given.
func Bounds(doc *schema.Document, own *Own) ([]Range, error) {
	return Count(doc, own, "").Bounds(doc)
}

// Bounds does what the function of that name does, where the first way of the
// document, or the document, is counted already.
func (t *Tally) Bounds(doc *schema.Document) ([]Range, error) {
	p, err := newProgram(doc, t)
	if err != nil {
		return nil, err
	}
	return p.ranges()
}

// maxFree is how many amounts may be free in one recipe.
const maxFree = 60

// program is the set of amounts that fit the spoken figures: columns are free
// amounts in hundreds of grams, each at least nought.
type program struct {
	columns []column
	rows    []bound
	asked   []Range // what is asked for, with its column
	place   []int   // column of each asked, -1 when its food has no figures
}

// column is one free amount.
type column struct {
	shift float64 // least, in hundreds of grams; the column counts what is above it
	span  float64 // most above shift, +Inf for none
	food  Figures // per 100 g
	yield bool    // it is the number of servings
}

// bound is one row: coefficients times columns is at most limit.
type bound struct {
	c     []float64
	limit float64
}

func newProgram(doc *schema.Document, t *Tally) (*program, error) {
	if doc.Macros == nil || doc.Macros.Spoken == nil {
		return nil, ErrNothingSpoken
	}
	said := spokenFigures(doc.Macros.Spoken)
	if len(said) == 0 {
		return nil, ErrNothingSpoken
	}
	few, most, ok := t.servingsOf(doc.Macros.Spoken.Per)
	if !ok {
		return nil, fmt.Errorf("%w: they are per %q, the yield is in %q", ErrOtherServing, doc.Macros.Spoken.Per, t.Per)
	}
	p := &program{}
	fixed := []struct {
		food    Figures
		hundred float64
	}{}
	open := false // something without figures may bring anything
	for i := range t.Rows {
		r := &t.Rows[i]
		ing := &doc.Ingredients[r.Index]
		if r.Apart == "left out" {
			continue
		}
		perhaps := ing.Optional || len(ing.Ways) > 0 || !r.Counted
		if !r.Found || !r.Food.Known() {
			open = true
			if r.Apart == "" && ing.Amount == nil {
				p.asked = append(p.asked, Range{Index: r.Index, Name: r.Name, Most: math.Inf(1)})
				p.place = append(p.place, -1)
			}
			continue
		}
		switch {
		case r.Grams != nil && r.Grams.Min == r.Grams.Max && !perhaps:
			fixed = append(fixed, struct {
				food    Figures
				hundred float64
			}{r.Food.Per100, r.Grams.Min / 100})
		case r.Grams != nil:
			c := column{shift: r.Grams.Min / 100, span: (r.Grams.Max - r.Grams.Min) / 100, food: r.Food.Per100}
			if perhaps {
				c.shift, c.span = 0, r.Grams.Max/100
			}
			p.columns = append(p.columns, c)
		default:
			if r.Apart == "" && ing.Amount == nil {
				p.asked = append(p.asked, Range{Index: r.Index, Name: r.Name, Most: math.Inf(1)})
				p.place = append(p.place, len(p.columns))
			}
			p.columns = append(p.columns, column{span: math.Inf(1), food: r.Food.Per100})
		}
	}
	// A program grows with the square of what is free in it; no dish has so much.
	if len(p.columns) > maxFree {
		return nil, ErrTooMany
	}
	if most > few {
		p.columns = append(p.columns, column{shift: few, span: most - few, yield: true})
	}
	for _, f := range said {
		base, known := 0.0, !open
		for _, x := range fixed {
			v, ok := f.of(x.food)
			if !ok {
				known = false
				continue
			}
			base += v * x.hundred
		}
		upper, lower := bound{c: make([]float64, len(p.columns))}, bound{c: make([]float64, len(p.columns))}
		for j, c := range p.columns {
			if c.yield {
				upper.c[j], lower.c[j] = -(f.v + f.half), f.v-f.half
				upper.limit += (f.v + f.half) * c.shift
				lower.limit -= (f.v - f.half) * c.shift
				continue
			}
			v, ok := f.of(c.food)
			if !ok {
				known = false
				continue
			}
			upper.c[j], lower.c[j] = v, -v
			upper.limit -= v * c.shift
			lower.limit += v * c.shift
		}
		if most <= few {
			upper.limit += (f.v + f.half) * few
			lower.limit -= (f.v - f.half) * few
		}
		upper.limit -= base
		lower.limit += base
		p.rows = append(p.rows, upper)
		if known && f.v-f.half > 0 {
			p.rows = append(p.rows, lower)
		}
	}
	for j, c := range p.columns {
		if !math.IsInf(c.span, 1) {
			b := bound{c: make([]float64, len(p.columns)), limit: c.span}
			b.c[j] = 1
			p.rows = append(p.rows, b)
		}
	}
	return p, nil
}

// ranges solves for both ends of every amount asked for.
func (p *program) ranges() ([]Range, error) {
	if len(p.asked) == 0 {
		return nil, nil
	}
	out := append([]Range(nil), p.asked...)
	for i := range out {
		j := p.place[i]
		if j < 0 {
			continue
		}
		least, _, err := p.end(j, 1)
		switch {
		case errors.Is(err, lp.ErrInfeasible):
			return nil, ErrNoFit
		case err == nil:
			out[i].Least = 100 * math.Max(0, least)
		}
		most, _, err := p.end(j, -1)
		switch {
		case errors.Is(err, lp.ErrInfeasible):
			return nil, ErrNoFit
		case err == nil:
			out[i].Most = 100 * math.Max(0, most)
		}
		out[i].Told = out[i].Least > 0.005 || !math.IsInf(out[i].Most, 1)
	}
	return out, nil
}

// end finds the least (sign 1) or most (sign -1) of one column and the amounts
// there. lp.ErrUnbounded means there is no end; any other error but
// lp.ErrInfeasible that the solver could not tell, which is reported as no end.
func (p *program) end(j int, sign float64) (v float64, at []float64, err error) {
	defer func() {
		// The solver panics on a basis it finds singular; that end can't be told.
		if r := recover(); r != nil {
			v, at, err = 0, nil, fmt.Errorf("solver: %v", r)
		}
	}()
	// A column nothing said depends on is free, and the solver wants none of it.
	var used []int
	for k := range p.columns {
		for _, r := range p.rows {
			if r.c[k] != 0 {
				used = append(used, k)
				break
			}
		}
	}
	place := slices.Index(used, j)
	if place < 0 {
		if sign < 0 {
			return 0, nil, lp.ErrUnbounded
		}
		return 0, make([]float64, len(p.columns)), nil
	}
	m, n := len(p.rows), len(used)
	a := mat.NewDense(m, n+m, nil)
	b := make([]float64, m)
	for i, r := range p.rows {
		scale := 0.0
		for _, c := range r.c {
			scale = math.Max(scale, math.Abs(c))
		}
		if scale == 0 {
			scale = 1
		}
		// The right side is kept at nought or above.
		if r.limit < 0 {
			scale = -scale
		}
		for k, u := range used {
			a.Set(i, k, r.c[u]/scale)
		}
		a.Set(i, n+i, 1/scale)
		b[i] = r.limit / scale
	}
	cost := make([]float64, n+m)
	cost[place] = sign
	opt, x, err := lp.Simplex(cost, a, b, 1e-10, nil)
	if err != nil {
		return 0, nil, err
	}
	at = make([]float64, len(p.columns))
	for k, u := range used {
		at[u] = x[k]
	}
	return sign*opt + p.columns[j].shift, at, nil
}

// Evidence says in words what the spoken figures allow, with the amount in cups
// or spoons where the food has a weight for them.
func (r Range) Evidence(f Food) string {
	switch {
	case !r.Told:
		return "the spoken figures can't tell how much"
	case math.IsInf(r.Most, 1):
		return fmt.Sprintf("the spoken figures need at least %s g", down(r.Least))
	case r.Least < 0.05:
		return fmt.Sprintf("the spoken figures allow at most %s g%s", up(r.Most), r.household(f))
	}
	return fmt.Sprintf("the spoken figures allow %s to %s g%s", down(r.Least), up(r.Most), r.household(f))
}

// household gives the range in cups, or in tablespoons where it is small.
func (r Range) household(f Food) string {
	w := weigher{food: f, ing: &schema.Ingredient{}}
	m, spread, ok := w.bestVolume("cup")
	if !ok || spread != nil {
		return ""
	}
	ml, _ := schema.Volume(m.Unit)
	unit, unitMl := "cup", 0.0
	unitMl, _ = schema.Volume(unit)
	if r.Most/m.Grams*ml < unitMl {
		unit = "tbsp"
		unitMl, _ = schema.Volume(unit)
	}
	per := m.Grams / ml * unitMl
	if unit == "cup" && r.Most > per {
		unit = "cups"
	}
	if r.Least < 0.05 {
		return fmt.Sprintf(", %s %s", up(r.Most/per), unit)
	}
	return fmt.Sprintf(", %s to %s %s", down(r.Least/per), up(r.Most/per), unit)
}

// down and up write a number to whole units, or to a tenth below ten, never
// narrowing the range.
func down(v float64) string {
	if v >= 10 {
		return number(math.Floor(v + tiny))
	}
	return number(math.Floor(v*10+1e-7) / 10)
}

func up(v float64) string {
	if v >= 10 {
		return number(math.Ceil(v - tiny))
	}
	return number(math.Ceil(v*10-1e-7) / 10)
}
