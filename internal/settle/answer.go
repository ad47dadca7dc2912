package settle

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"quern/internal/merge"
	"quern/internal/nutrition"
	"quern/schema"
)

// ErrEmpty says that nothing was typed.
var ErrEmpty = errors.New("nothing was typed")

// Answer puts the answer to one flag into a document. An answer that does not
// fit the question is an error saying why; the document is then unchanged.
func Answer(doc *schema.Document, flag int, text string, own *nutrition.Own) error {
	if flag < 0 || flag >= len(doc.Flags) {
		return fmt.Errorf("there is no flag %d in %q", flag, doc.Title)
	}
	f := &doc.Flags[flag]
	text = strings.Join(strings.Fields(text), " ")
	if text == "" {
		return ErrEmpty
	}
	if err := printable(text); err != nil {
		return err
	}
	if strings.EqualFold(text, AsSaid) {
		f.Settled = AsSaid
		return nil
	}
	if mine, theirs, ok := merge.Readings(*f); ok {
		switch fold(text) {
		case Mine, "yours", fold(mine):
			f.Settled = Mine
			return nil
		case TheRecording, "recording":
			text = theirs
		}
		if theirs == "" {
			return answerDropped(doc, f, text)
		}
	}
	switch wantsOf(f.Kind) {
	case amount:
		return answerAmount(doc, f, text)
	case yield:
		q, err := readYield(text)
		if err != nil {
			return err
		}
		doc.Yield = &q
	case temperature:
		q, err := readTemperature(text)
		if err != nil {
			return err
		}
		for _, s := range stepsOf(doc, f) {
			if f.Kind == schema.TemperatureUnstated || len(s.Temperature) > 0 {
				s.Temperature = []schema.Quantity{q}
			}
		}
	case duration:
		q, err := readTime(text)
		if err != nil {
			return err
		}
		for _, s := range stepsOf(doc, f) {
			if f.Kind == schema.TimeUnstated || len(s.Time) > 0 {
				s.Time = []schema.Quantity{q}
			}
		}
	case food:
		return answerFood(doc, f, text, own)
	case heard:
		return answerHeard(doc, f, text)
	}
	f.Settled = text
	return nil
}

// printable refuses characters that change how a line is shown rather than
// say something: controls, and marks that turn the direction of writing.
func printable(text string) error {
	for _, r := range text {
		if hidden(r) {
			return fmt.Errorf("the answer holds an invisible character (U+%04X); type it without", r)
		}
	}
	return nil
}

// hidden reports whether a character is a control or a direction mark.
func hidden(r rune) bool {
	return r < 0x20 || r >= 0x7f && r < 0xa0 || r == 0x061c || r >= 0x200e && r <= 0x200f ||
		r >= 0x2028 && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0xfeff || r == 0xfffd
}

// Plain gives a text for a terminal: what would move the cursor, colour the
// screen or turn the direction of writing is left out.
func Plain(text string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' || r == '\t' {
			return ' '
		}
		if hidden(r) {
			return -1
		}
		return r
	}, text)
}

func readQuantity(text, wanted string, fits func(schema.Quantity) bool) (schema.Quantity, error) {
	q, err := schema.ParseQuantity(text)
	if err != nil {
		return q, short(err)
	}
	if !fits(q) {
		return q, fmt.Errorf("%q is not %s", text, wanted)
	}
	return q, nil
}

// short keeps what is wrong with a quantity and leaves out the list of all
// that quantities can be: the question says what it takes.
func short(err error) error {
	var q *schema.QuantityError
	if errors.As(err, &q) {
		return fmt.Errorf("%q can't be read: %s", q.Text, q.Reason)
	}
	return err
}

func isTime(unit string) bool { _, ok := schema.Seconds(unit); return ok }

func isTemperature(unit string) bool { return unit == "F" || unit == "C" || unit == "gas" }

func readAmount(text string) (schema.Quantity, error) {
	return readQuantity(text, "an amount: a weight, a measure or a count", func(q schema.Quantity) bool {
		return q.Vague == "" && q.Max > 0 && !isTime(q.Unit) && !isTemperature(q.Unit)
	})
}

func readTemperature(text string) (schema.Quantity, error) {
	return readQuantity(text, "a temperature; end it with F or C, or begin it with gas", func(q schema.Quantity) bool {
		return isTemperature(q.Unit)
	})
}

func readTime(text string) (schema.Quantity, error) {
	return readQuantity(text, "a time; name minutes, hours or days", func(q schema.Quantity) bool {
		return q.Max > 0 && isTime(q.Unit)
	})
}

func readYield(text string) (schema.Quantity, error) {
	q, err := schema.ParseYield(text)
	if err != nil {
		return q, short(err)
	}
	if q.Vague != "" || q.Max <= 0 {
		err = fmt.Errorf("%q has no number above nothing; give one, such as %q", text, "4 servings")
	}
	return q, err
}

func answerAmount(doc *schema.Document, f *schema.Flag, text string) error {
	ing := ingredientOf(doc, f)
	if ing == nil {
		// The flag is about something that is no entry of the list: the answer is kept in it.
		if _, err := readAmount(text); err != nil {
			return err
		}
		f.Settled = text
		return nil
	}
	if err := setAmount(ing, text); err != nil {
		return err
	}
	f.Settled = text
	return nil
}

func setAmount(ing *schema.Ingredient, text string) error {
	if strings.EqualFold(text, ToTaste) {
		ing.ToTaste, ing.Amount, ing.SecondAmount = true, nil, nil
		return nil
	}
	q, err := readAmount(text)
	if err != nil {
		return err
	}
	if ing.Amount == nil || !ing.Amount.Equal(q) {
		// The other spelling of the old amount would contradict the new one.
		ing.SecondAmount = nil
	}
	ing.Amount = &q
	ing.ToTaste = false
	return nil
}

func answerFood(doc *schema.Document, f *schema.Flag, text string, own *nutrition.Own) error {
	known, ok := nutrition.Find(text, own)
	if !ok {
		return fmt.Errorf("the food table has nothing called %q; try a plainer name, or answer %q to leave it out of the figures", text, AsSaid)
	}
	if ing := ingredientOf(doc, f); ing != nil {
		ing.Food, ing.Grams = known.Key, nil
	}
	f.Settled = text
	return nil
}

func answerHeard(doc *schema.Document, f *schema.Flag, text string) error {
	switch strings.ToLower(text) {
	case "yes", "y", "right", "correct", "ok":
		f.Settled = "yes"
		return nil
	case "no", "n", "wrong":
		return errors.New("type the word it should be")
	}
	if ing := ingredientOf(doc, f); ing != nil && !strings.EqualFold(ing.Name, text) {
		ing.Name, ing.Food, ing.Grams = text, "", nil
	}
	if _, _, merged := merge.Readings(*f); merged {
		if f.Subject == "title" {
			doc.Title = text
		}
		for i := range doc.Steps {
			if same(doc.Steps[i].Text, f.Subject) {
				doc.Steps[i].Text = text
			}
		}
	}
	f.Settled = text
	return nil
}

// answerDropped settles whether a thing the recording no longer gives stays.
func answerDropped(doc *schema.Document, f *schema.Flag, text string) error {
	switch fold(text) {
	case "yes", "y", "keep", "keep it":
		f.Settled = "yes"
		return nil
	case "no", "n", "":
		about, id := *f, ""
		if ing := ingredientOf(doc, f); ing != nil {
			id = ing.ID
			doc.Ingredients = slices.DeleteFunc(doc.Ingredients, func(i schema.Ingredient) bool { return i.ID == id })
			for i := range doc.Steps {
				doc.Steps[i].Uses = slices.DeleteFunc(doc.Steps[i].Uses, func(u string) bool { return u == id })
			}
		} else {
			doc.Steps = slices.DeleteFunc(doc.Steps, func(s schema.Step) bool { return same(s.Text, about.Subject) })
			doc.Storage = slices.DeleteFunc(doc.Storage, func(s schema.Storage) bool { return same(s.Place, about.Subject) && shares(s.Said, about.Said) })
			doc.Claims = slices.DeleteFunc(doc.Claims, func(c schema.Claim) bool { return same(c.Claim, about.Subject) })
			doc.Equipment = slices.DeleteFunc(doc.Equipment, func(e schema.Equipment) bool { return same(e.Name, about.Subject) })
		}
		f.Settled = "no"
		return nil
	}
	return errors.New("answer yes or no")
}

// ingredientOf is the ingredient a flag is about: by name, then by the words
// they share; nil when there is none.
func ingredientOf(doc *schema.Document, f *schema.Flag) *schema.Ingredient {
	var named []*schema.Ingredient
	for i := range doc.Ingredients {
		ing := &doc.Ingredients[i]
		if same(ing.Name, f.Subject) || same(label(ing), f.Subject) || ing.ID == f.Subject {
			named = append(named, ing)
		}
	}
	if len(named) == 0 {
		return nil
	}
	open := named
	if f.Kind == schema.AmountUnstated || f.Kind == schema.AmountVague {
		open = slices.DeleteFunc(slices.Clone(named), func(i *schema.Ingredient) bool { return i.Amount != nil })
		if len(open) == 0 {
			open = named
		}
	}
	for _, ing := range open {
		if shares(ing.Said, f.Said) {
			return ing
		}
	}
	return open[0]
}

func label(ing *schema.Ingredient) string {
	if ing.Part == "" {
		return ing.Name
	}
	return ing.Name + " (" + ing.Part + ")"
}

// stepsOf are the steps a flag is about: those that share its words, or the
// moment nearest before it, or whose text names its subject.
func stepsOf(doc *schema.Document, f *schema.Flag) []*schema.Step {
	var out []*schema.Step
	for i := range doc.Steps {
		if s := &doc.Steps[i]; shares(s.Said, f.Said) {
			out = append(out, s)
		}
	}
	if len(out) > 0 {
		return out
	}
	for i := range doc.Steps {
		s := &doc.Steps[i]
		if f.Subject != "" && (same(s.Text, f.Subject) || strings.Contains(fold(s.Text), fold(f.Subject))) {
			return []*schema.Step{s}
		}
	}
	return nil
}

// shares reports whether two lists of quotes have one in common: the same
// moment, or words that lie in one another.
func shares(a, b []schema.Said) bool {
	for _, x := range a {
		for _, y := range b {
			if x.At != "" && x.At == y.At {
				return true
			}
			p, q := fold(x.Quote), fold(y.Quote)
			if p != "" && q != "" && (strings.Contains(p, q) || strings.Contains(q, p)) {
				return true
			}
		}
	}
	return false
}

func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

func same(a, b string) bool { return fold(a) == fold(b) }
