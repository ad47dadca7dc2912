package nutrition

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"quern/schema"
)

// goldQuantity is an amount as the narrations' answers write it.
type goldQuantity struct {
	Min, Max, Value *float64
	Unit            string
}

func (g *goldQuantity) quantity() *schema.Quantity {
	if g == nil {
		return nil
	}
	lo, hi := g.Min, g.Max
	if lo == nil {
		lo = g.Value
	}
	if lo == nil {
		lo = hi
	}
	if lo == nil {
		return nil
	}
	if hi == nil {
		hi = lo
	}
	unit := g.Unit
	if u, ok := schema.CanonicalUnit(unit); ok {
		unit = u
	}
	return &schema.Quantity{Min: *lo, Max: *hi, Unit: unit}
}

// Of the distinct ingredients of the 24 narrations at least 97% find a food,
// and of those with an amount at least 97% find grams. Only totals are told.
func TestCoverageOfNarrations(t *testing.T) {
	foods, found := map[string]bool{}, 0
	amounts, weighed := map[string]bool{}, 0
	for d := 1; d <= 24; d++ {
		data := outside(t, "narrations", fmt.Sprintf("d%02d", d), "gold.json")
		var gold struct {
			Ingredients []struct {
				Name, Preparation string
				Amount, Size      *goldQuantity
				Second            *goldQuantity `json:"second_amount"`
			}
		}
		if err := json.Unmarshal(data, &gold); err != nil {
			t.Fatalf("narration %d: %v", d, err)
		}
		for _, i := range gold.Ingredients {
			ing := &schema.Ingredient{Name: i.Name, Preparation: i.Preparation, Amount: i.Amount.quantity(), SecondAmount: i.Second.quantity(), Size: i.Size.quantity()}
			f, ok := FoodOf(ing, nil)
			if key := strings.Join(normal(i.Name), " "); !foods[key] {
				foods[key] = true
				if ok {
					found++
				}
			}
			if ing.Amount == nil {
				continue
			}
			key := fmt.Sprint(strings.Join(normal(i.Name), " "), *ing.Amount)
			if amounts[key] {
				continue
			}
			amounts[key] = true
			if ok {
				if _, err := Grams(f, ing, ""); err == nil {
					weighed++
				}
			}
		}
	}
	t.Logf("%d of %d ingredients find a food, %d of %d amounts find grams", found, len(foods), weighed, len(amounts))
	if float64(found) < 0.97*float64(len(foods)) {
		t.Errorf("under 97%% of the ingredients find a food")
	}
	if float64(weighed) < 0.97*float64(len(amounts)) {
		t.Errorf("under 97%% of the amounts find grams")
	}
}
